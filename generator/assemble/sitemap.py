"""Where each topic of a van stands: its page, anchor, title and section; and the names pages may not take.

What is on the pages is left to the modules that write them.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from generator.assemble.faults import Faults
from generator.model.blocks import Block
from generator.model.content import Content, OutlinePage, OutlineSection

HOME, CONTENTS, NUMBERS, SAFETY, LIGHTS, ABOUT = (
    "index.html",
    "contents.html",
    "numbers.html",
    "safety.html",
    "lights-and-sounds.html",
    "about.html",
)
START = ("Start", HOME)
OWN = (HOME, CONTENTS, NUMBERS, SAFETY, LIGHTS, ABOUT)
_TAKEN = frozenset({*OWN, "404.html"})  # 404.html is written by a later stage
# Names Windows keeps for devices, with any ending (Microsoft, "Naming Files, Paths, and Namespaces").
_DEVICES = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])\.html")
_PLAIN = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*\.html")


@dataclass(frozen=True, slots=True)
class Target:
    """Where a topic is read; ``anchor`` is "" on a page of its own."""

    path: str
    anchor: str
    title: str
    section: str


@dataclass(frozen=True, slots=True)
class TopicPage:
    """A page of the outline with the blocks that answer its topics in this van, in outline order."""

    page: OutlinePage
    section: OutlineSection
    path: str
    title: str
    blocks: tuple[Block, ...]

    @property
    def is_emergency(self) -> bool:
        """Whether the page starts with an action and nothing before it."""
        return any(block.form == "emergency" for block in self.blocks)


@dataclass(frozen=True, slots=True)
class Sitemap:
    """Topic pages in reading order, the target of each answered topic, the block that answers it."""

    pages: tuple[TopicPage, ...]
    targets: Mapping[str, Target]
    answers: Mapping[str, Block]


def anchor_of(topic: str) -> str:
    """Return a topic as an anchor: ``hot-water/run-on-gas`` is ``hot-water-run-on-gas``."""
    return topic.replace("/", "-")


def checklist_path(phase: str) -> str:
    """Return the page of a phase; an outline page may not have the name of a phase."""
    return f"{phase}.html"


def place_path(code: str) -> str:
    """Return the page of a place, at the address on its label."""
    return f"{code}/index.html"


def lay_out(content: Content, answers: Mapping[str, Block], faults: Faults) -> Sitemap:
    """Return the pages of this van: those of the outline with at least one answered topic.

    Faults: a page name that is taken, reserved or given twice; several topics without a page title.
    """
    pages: list[TopicPage] = []
    targets: dict[str, Target] = {}
    taken = set(_TAKEN) | {checklist_path(phase) for phase in content.outline.phases}
    for section in content.outline.sections:
        for page in section.pages:
            path = _claim(page, taken, faults)
            blocks = tuple(answers[topic.value] for topic in page.topics if topic.value in answers)
            if blocks:
                found = TopicPage(page, section, path, _title(page, blocks, faults), blocks)
                pages.append(found)
                targets |= _targets(found, targets, faults)
    return Sitemap(tuple(pages), targets, answers)


def _claim(page: OutlinePage, taken: set[str], faults: Faults) -> str:
    path = f"{page.id.value}.html"
    if not _PLAIN.fullmatch(path):
        faults.add(
            f'page id "{page.id.value}" is no file name', page.id.source, "lower case letters, digits and dashes"
        )
    elif path in taken or _DEVICES.fullmatch(path):
        faults.add(f'page id "{page.id.value}" is taken or reserved', page.id.source, "choose another page id")
    taken.add(path)
    return path


def _title(page: OutlinePage, blocks: tuple[Block, ...], faults: Faults) -> str:
    """One answered topic gives the page its title: "Heat the water on mains" says more than the page's own."""
    if len(blocks) == 1:
        return blocks[0].title.value
    if page.title is None:
        faults.add(f'page "{page.id.value}" has several topics and no title', page.id.source, "give it a title")
    return page.title or blocks[0].title.value


def _targets(page: TopicPage, known: Mapping[str, Target], faults: Faults) -> dict[str, Target]:
    found = {}
    for block in page.blocks:
        topic = block.topic.value
        if topic in known:
            faults.add(f'topic "{topic}" is on two pages of the outline', page.page.id.source, "keep one of them")
        anchor = anchor_of(topic) if len(page.blocks) > 1 else ""
        found[topic] = Target(page.path, anchor, block.title.value, page.section.title)
    return found
