"""The pages beside the topics: all systems, how the numbers were worked out, all safety messages.

The working of a number is turned into HTML by ``fill``.
"""

from collections.abc import Iterator

from generator.assemble.book import Book, own_page
from generator.assemble.checklists import checklist_links
from generator.assemble.places import place_link
from generator.assemble.planners import planner_links
from generator.assemble.safety import gravest_first, signal_words
from generator.assemble.sitemap import (
    ABOUT,
    CHANGED,
    CONTENTS,
    LIGHTS,
    NUMBERS,
    SAFETY,
    SNAGS,
    START,
    TopicPage,
    group_path,
)
from generator.assemble.values import VERDICTS, summary_hole, working_hole, workings
from generator.assemble.words import messages_of, slug
from generator.model import manual as m
from generator.model.blocks import Text
from generator.model.content import SafetyMessage


def contents_page(book: Book, has_lights: bool) -> m.Page:
    """Return every section with its pages, then checklists, places and reference pages."""
    parts = [(title, tuple(m.LinkItem(p.path, "", p.title) for p in pages)) for title, pages in _sections(book)]
    parts.append(("Checklists", checklist_links(book)))
    parts.append(("Places", tuple(place_link(place) for place in book.van.places)))
    parts.append(("Planners", planner_links(book)))
    parts.append(("About the numbers and words", _reference_links(has_lights)))
    body = tuple(node for title, items in parts if items for node in (m.Heading(2, title, slug(title)), m.Links(items)))
    return own_page(book, CONTENTS, "All systems", "list", body)


def _sections(book: Book) -> Iterator[tuple[str, list[TopicPage]]]:
    for section in book.content.outline.sections:
        if pages := [page for page in book.site.pages if page.section is section]:
            yield section.title, pages


def _reference_links(has_lights: bool) -> tuple[m.LinkItem, ...]:
    links = [m.LinkItem(LIGHTS, "", "Lights and sounds")] if has_lights else []
    links.append(m.LinkItem(NUMBERS, "", _NUMBERS_TITLE))
    links.append(m.LinkItem(SAFETY, "", "All safety messages"))
    links.append(m.LinkItem(SNAGS, "", "Notes and snags"))
    links.append(m.LinkItem(CHANGED, "", "What changed"))
    links.append(m.LinkItem(ABOUT, "", "About this manual"))
    return tuple(links)


_NUMBERS_TITLE = "Your numbers: how they were worked out"
_PLATE_WINS = "Where a plate on the van says less, the plate wins."


def number_pages(book: Book) -> tuple[m.Page, ...]:
    """Return the page of all numbers, a row each, and for each group the page that works them out."""
    groups = tuple(workings(book.van.numbers))
    body: list[m.Node] = [
        _lead(f"Each row leads to what the number was made from. {_PLATE_WINS}"),
        m.Heading(2, "Against their limits", "limits"),
        m.FragmentHole(VERDICTS),
        m.Paragraph(
            ((Text("All numbers follow by subject. One without a verdict has nothing to be compared with."),),)
        ),
    ]
    for group in groups:
        body += [m.Heading(2, group, slug(group)), m.FragmentHole(summary_hole(group))]
    overview = own_page(book, NUMBERS, _NUMBERS_TITLE, "numbers", tuple(body))
    return (overview, *(_group_page(book, group, groups) for group in groups))


def _group_page(book: Book, group: str, groups: tuple[str, ...]) -> m.Page:
    body = (_lead(f"Each number stands with what it was made from. {_PLATE_WINS}"), m.FragmentHole(working_hole(group)))
    here = groups.index(group)
    related = tuple(m.LinkItem(group_path(other), "", group_title(other)) for other in groups[here + 1 :])
    crumbs = (START, ("Your numbers", NUMBERS))
    return own_page(book, group_path(group), group_title(group), "numbers", body, related=related, crumbs=crumbs)


def group_title(group: str) -> str:
    """Return the title of the page that works out a group of numbers."""
    return f"{group}: how it was worked out"


def _lead(words: str) -> m.Paragraph:
    return m.Paragraph(((Text(words),),), "lead")


def changed_page(book: Book) -> m.Page:
    """Return the page that says what this edition changed; ``fill`` knows, since it knows the edition."""
    return own_page(book, CHANGED, "What changed", "list", (m.FragmentHole("edition/changes"),))


def snags_page(book: Book) -> m.Page:
    """Return the page of the owner's notes: the script keeps them; the places are there without it."""
    lead = "Write down what fails, and where. Then send the list to your dealer."
    places = m.Links(tuple(place_link(place) for place in book.van.places))
    group = m.Group("snags", (m.Heading(2, "Places of this van", "places"), places))
    return own_page(book, SNAGS, "Notes and snags", "notes", (m.Paragraph(((Text(lead),),), "lead"), group))


def safety_page(book: Book) -> m.Page:
    """Return every message of this manual by section, after what the signal words mean."""
    body: list[m.Node] = [m.Heading(2, "What the words mean", "signal-words"), signal_words()]
    for title, messages in messages_by_section(book).items():
        body += [m.Heading(2, title, slug(title)), *(m.SafetyBox(message) for message in messages)]
    return own_page(book, SAFETY, "All safety messages", "safety", tuple(body))


def messages_by_section(book: Book) -> dict[str, tuple[SafetyMessage, ...]]:
    """Return the messages printed in each section, gravest first; one used in two sections stands in both."""
    found: dict[str, dict[str, SafetyMessage]] = {}
    for page in book.site.pages:
        for block in page.blocks:
            for message in messages_of(book.written[block.topic.value].nodes):
                found.setdefault(page.section.title, {})[message.id] = message
    return {title: gravest_first(messages.values()) for title, messages in found.items()}
