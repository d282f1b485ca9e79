"""What search knows: one entry per topic, place, checklist and reference page; no values.

Ranking is left to the script in the site template.
"""

import re
from collections.abc import Iterator

from generator.assemble.book import Book
from generator.assemble.mentions import speaks_of_missing
from generator.assemble.places import blocks_at, fitted_at
from generator.assemble.prose import Written
from generator.assemble.sitemap import NUMBERS, group_path, place_path
from generator.assemble.values import workings
from generator.assemble.words import all_nodes, plain, text_of
from generator.model import pages as p
from generator.model.manual import SearchEntry
from generator.model.numbers import DataTable, Number

_SENTENCE = re.compile(r".+?[.?!…](?=\s|$)")
_OWN_WORDS = {
    "lights": ("lamp", "red", "green", "beep", "flashing", "alarm", "warning light"),
    "notes": ("note", "snag", "defect", "broken", "warranty", "dealer"),
    "planner": ("planner", "calculate", "sum", "how much"),
    "numbers": ("payload", "weight", "plate", "limit", "calculation"),
    "safety": ("danger", "warning", "caution"),
    "checklist": ("checklist", "tick", "list"),
}
# What owners ask of one page of our own; words of what is not fitted are left out.
_PAGE_WORDS = {
    "plan-loading.html": ("how much can I load", "too heavy", "where do I put it"),
    "plan-car.html": ("can my car tow it", "tow car", "towing limit"),
    "plan-days.html": ("off grid", "how long does gas last", "how many days", "how long does it last"),
    "plan-mains.html": ("what can I run", "amps", "watts", "kettle and heater"),
    "what-changed.html": ("what is different", "new edition", "last edition"),
    "numbers-dates.html": ("service due", "next service", "inspection", "expired", "out of date"),
    "numbers-size-and-wheels.html": ("how long is it", "how wide is it", "ferry", "length", "width"),
}
# Numbers that owners ask for by a name of their own; the others are found by the page of their group.
_NUMBER_WORDS = {
    "payload": ("payload", "how much can I load"),
    "room-left": ("how much in a locker",),
    "ball-load-target": ("ball load", "noseweight"),
    "tyre-pressure": ("psi", "kpa"),
    "wheel-nut-torque": ("torque", "how tight"),
    "gas-days-typical": ("how long does the gas last",),
    "battery-days": ("how long does the battery last",),
    "water-days": ("how long does the water last",),
    "heat-up-gas": ("how long for hot water",),
    "heat-up-mains": ("how long for hot water",),
    "sanitising-dose": ("how much bleach",),
}


def search_entries(book: Book, own: tuple[p.Page, ...]) -> tuple[SearchEntry, ...]:
    """Return the entries: topics in reading order, places in walking order, then the pages in ``own``."""
    topics = (_topic(written, book) for written in book.written.values())
    return (*topics, *_places(book), *(_own(page, book) for page in own), *_numbers(book))


def _topic(written: Written, book: Book) -> SearchEntry:
    block, target = written.block, book.site.targets[written.block.topic.value]
    place = None if block.form == "emergency" else book.van.first_place(block)
    return SearchEntry(
        path=target.path,
        anchor=target.anchor,
        title=target.title,
        section=target.section,
        plate=place.code if place else "",
        words=block.words,
        answer=answer_of(written.nodes),
        text=text_of(written.nodes),
    )


def answer_of(nodes: tuple[p.Node, ...]) -> str:
    """Return the first line of the answer: the first step, else the first sentence."""
    lines = [node.items[0].lines[0] for node in all_nodes(nodes) if isinstance(node, p.Steps)]
    if lines:
        return plain(lines[0])
    lines = [node.lines[0] for node in all_nodes(nodes) if isinstance(node, p.Paragraph)]
    lines += [node.items[0][0] for node in all_nodes(nodes) if isinstance(node, p.Bullets)]
    text = plain(lines[0]) if lines else ""
    match = _SENTENCE.match(text)
    return match.group() if match else text


def _places(book: Book) -> Iterator[SearchEntry]:
    for place in book.van.places:
        titles = tuple(block.title.value for block in blocks_at(place, book))
        fitted = fitted_at(place, book)
        yield SearchEntry(
            path=place_path(place.code),
            anchor="",
            title=place.name,
            section="Outside" if place.where == "outside" else "Inside",
            plate=place.code,
            words=(place.code, *fitted),
            answer=", ".join(fitted) or ", ".join(titles),
            text=" ".join((place.name, *fitted, *titles)),
        )


def _own(page: p.Page, book: Book) -> SearchEntry:
    return SearchEntry(
        path=page.path,
        anchor="",
        title=page.title,
        section=page.crumbs[-1][0] if len(page.crumbs) > 1 else "",
        plate=page.plate,
        words=_own_words(page, book),
        answer=_own_answer(page),
        text=" ".join((_own_text(page), *_number_titles(page, book))),
    )


def _numbers(book: Book) -> Iterator[SearchEntry]:
    """Yield an entry for each number that owners ask for, leading to where it stands on the page of its group."""
    for group, working in workings(book.van.numbers).items():
        every: tuple[Number | DataTable, ...] = (*working.numbers, *working.tables)
        for one in every:
            if words := _NUMBER_WORDS.get(one.id):
                yield SearchEntry(
                    path=group_path(group), anchor=one.id, title=one.title, section="Your numbers", words=words
                )


def _own_words(page: p.Page, book: Book) -> tuple[str, ...]:
    """The page of one group of numbers is found by the titles of its numbers, not by what all of them are about."""
    shared = () if page.template == "numbers" and page.path != NUMBERS else _OWN_WORDS.get(page.template, ())
    asked = _PAGE_WORDS.get(page.path, ())
    return (*(words for words in asked if not speaks_of_missing(words, book.van)), *shared)


def _own_text(page: p.Page) -> str:
    return text_of(node for node in page.body if not (isinstance(node, p.Group) and node.role in ("related", "dealer")))


def _number_titles(page: p.Page, book: Book) -> Iterator[str]:
    """Yield the titles of the numbers and tables that ``page`` works out; their values stay out."""
    for group, working in workings(book.van.numbers).items():
        if page.path == group_path(group):
            yield from (number.title for number in working.numbers)
            yield from (table.title for table in working.tables)


def _own_answer(page: p.Page) -> str:
    checks = [node for node in page.body if isinstance(node, p.Checks)]
    if checks:
        return plain(checks[0].items[0].line)
    return answer_of(tuple(node for node in page.body if not isinstance(node, p.Group)))


def synonyms_of(book: Book) -> tuple[tuple[str, ...], ...]:
    """Return the groups of words owners use alike, without those that speak of what is not fitted."""
    groups = (tuple(word for word in group if not speaks_of_missing(word, book.van)) for group in book.van.terms.asked)
    return tuple(group for group in groups if len(group) > 1)
