"""Where each topic of a van stands: its page, anchor, title and section.

What is on the pages is left to the modules that write them.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.assemble.words import slug
from generator.model.blocks import Block
from generator.model.content import Content, OutlinePage, OutlineSection

HOME, CONTENTS, NUMBERS, SAFETY, LIGHTS, CHANGED, SNAGS, ABOUT = (
    "index.html",
    "contents.html",
    "numbers.html",
    "safety.html",
    "lights-and-sounds.html",
    "what-changed.html",
    "snags.html",
    "about.html",
)
START = ("Start", HOME)


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


def group_path(group: str) -> str:
    """Return the page that works out a group of numbers; no outline page may begin like it."""
    return f"numbers-{slug(group)}.html"


def place_path(code: str) -> str:
    """Return the page of a place, at the address on its label."""
    return f"{code}/index.html"


def lay_out(content: Content, answers: Mapping[str, Block]) -> Sitemap:
    """Return the pages of this van: those of the outline with at least one answered topic.

    That page names are free and topics stand on one page is checked when the outline is read.
    """
    pages: list[TopicPage] = []
    targets: dict[str, Target] = {}
    for section in content.outline.sections:
        for page in section.pages:
            blocks = tuple(answers[topic.value] for topic in page.topics if topic.value in answers)
            if blocks:
                found = TopicPage(page, section, f"{page.id.value}.html", _title(page, blocks), blocks)
                pages.append(found)
                targets |= _targets(found)
    return Sitemap(tuple(pages), targets, answers)


def _title(page: OutlinePage, blocks: tuple[Block, ...]) -> str:
    """One answered topic gives the page its title: "Heat the water on mains" says more than the page's own."""
    return page.title if page.title and len(blocks) > 1 else blocks[0].title.value


def _targets(page: TopicPage) -> dict[str, Target]:
    found = {}
    for block in page.blocks:
        anchor = anchor_of(block.topic.value) if len(page.blocks) > 1 else ""
        found[block.topic.value] = Target(page.path, anchor, block.title.value, page.section.title)
    return found
