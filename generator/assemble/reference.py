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
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.content import SafetyMessage


def contents_page(book: Book, has_lights: bool) -> p.Page:
    """Return every section with its pages, then checklists, places and reference pages."""
    parts = [
        (title, tuple(p.LinkItem(page.path, "", page.title) for page in pages)) for title, pages in _sections(book)
    ]
    parts.append(("Checklists", checklist_links(book)))
    parts.append(("Places", tuple(place_link(place) for place in book.van.places)))
    parts.append(("Planners", planner_links(book)))
    parts.append(("About the numbers and words", _reference_links(has_lights)))
    body = tuple(node for title, items in parts if items for node in (p.Heading(2, title, slug(title)), p.Links(items)))
    return own_page(book, CONTENTS, "All systems", "list", body)


def _sections(book: Book) -> Iterator[tuple[str, list[TopicPage]]]:
    for section in book.content.outline.sections:
        if pages := [page for page in book.site.pages if page.section is section]:
            yield section.title, pages


def _reference_links(has_lights: bool) -> tuple[p.LinkItem, ...]:
    links = [p.LinkItem(LIGHTS, "", "Lights and sounds")] if has_lights else []
    links.append(p.LinkItem(NUMBERS, "", _NUMBERS_TITLE))
    links.append(p.LinkItem(SAFETY, "", "All safety messages"))
    links.append(p.LinkItem(SNAGS, "", "Notes and snags"))
    links.append(p.LinkItem(CHANGED, "", "What changed"))
    links.append(p.LinkItem(ABOUT, "", "About this manual"))
    return tuple(links)


_NUMBERS_TITLE = "Your numbers: how they were worked out"
_PLATE_WINS = "Where a plate on the van says less, the plate wins."
# By group: the trade word that an owner meets on plates and papers for what its numbers are about.
_TRADE = {
    "Masses": ("max-laden-name", "Plates and papers call the heaviest the van may be {}."),
    "Ball load": ("ball-load", "The ball load is also called {}."),
}


def number_pages(book: Book) -> tuple[p.Page, ...]:
    """Return the page of all numbers, a row each, and for each group the page that works them out."""
    groups = tuple(workings(book.van.numbers))
    body: list[p.Node] = [
        _lead(f"Each row leads to what the number was made from. {_PLATE_WINS}"),
        p.Heading(2, "Against their limits", "limits"),
        p.FragmentHole(VERDICTS),
        p.Paragraph(
            ((Text("All numbers follow by subject. One without a verdict has nothing to be compared with."),),)
        ),
    ]
    for group in groups:
        body += [p.Heading(2, group, slug(group)), p.FragmentHole(summary_hole(group))]
    overview = own_page(book, NUMBERS, _NUMBERS_TITLE, "numbers", tuple(body))
    return (overview, *(_group_page(book, group, groups) for group in groups))


def _group_page(book: Book, group: str, groups: tuple[str, ...]) -> p.Page:
    lead = f"Each number stands with what it was made from. {_PLATE_WINS}{_trade_word(book, group)}"
    body = (_lead(lead), p.FragmentHole(working_hole(group)))
    here = groups.index(group)
    related = tuple(p.LinkItem(group_path(other), "", group_title(other)) for other in groups[here + 1 :])
    crumbs = (START, ("Your numbers", NUMBERS))
    return own_page(book, group_path(group), group_title(group), "numbers", body, related=related, crumbs=crumbs)


def _trade_word(book: Book, group: str) -> str:
    """Return the sentence that says what the trade of this market calls a group, where it has a word of its own."""
    name, said = _TRADE.get(group, ("", ""))
    word = book.van.term(name)
    return f" {said.format(word)}" if word and word != group.lower() else ""


def group_title(group: str) -> str:
    """Return the title of the page that works out a group of numbers."""
    return f"{group}: how it was worked out"


def _lead(words: str) -> p.Paragraph:
    return p.Paragraph(((Text(words),),), "lead")


def changed_page(book: Book) -> p.Page:
    """Return the page that says what this edition changed; ``fill`` knows, since it knows the edition."""
    return own_page(book, CHANGED, "What changed", "list", (p.FragmentHole("edition/changes"),))


def snags_page(book: Book) -> p.Page:
    """Return the page of the owner's notes: the script keeps them; the places are there without it."""
    lead = "Write down what fails, and where. Then send the list to your dealer."
    places = p.Links(tuple(place_link(place) for place in book.van.places))
    group = p.Group("snags", (p.Heading(2, "Places of this van", "places"), places))
    return own_page(book, SNAGS, "Notes and snags", "notes", (p.Paragraph(((Text(lead),),), "lead"), group))


def safety_page(book: Book) -> p.Page:
    """Return every message of this manual by section, after what the signal words mean."""
    body: list[p.Node] = [p.Heading(2, "What the words mean", "signal-words"), signal_words()]
    for title, messages in messages_by_section(book).items():
        body += [p.Heading(2, title, slug(title)), *(p.SafetyBox(message) for message in messages)]
    return own_page(book, SAFETY, "All safety messages", "safety", tuple(body))


def messages_by_section(book: Book) -> dict[str, tuple[SafetyMessage, ...]]:
    """Return the messages printed in each section, gravest first; one used in two sections stands in both."""
    found: dict[str, dict[str, SafetyMessage]] = {}
    for page in book.site.pages:
        for block in page.blocks:
            for message in messages_of(book.written[block.topic.value].nodes):
                found.setdefault(page.section.title, {})[message.id] = message
    return {title: gravest_first(messages.values()) for title, messages in found.items()}
