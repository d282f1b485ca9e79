"""Stub pages for what an earlier edition had and this one has not, so that old links and labels still answer.

A stub is made from its path, the content, and what every record since has kept of the place (``stood``): were it made
from anything else of the edition that dropped it, publishing again unchanged would give other bytes.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from generator.assemble.book import Book, own_page
from generator.assemble.panels import part_of
from generator.assemble.sitemap import CONTENTS, START, place_path
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.manual import Stood
from generator.model.site import PublishedVan

_PLACE = re.compile(r"([A-Z][0-9]{1,2})/index\.html")
_PAGE = re.compile(r"([a-z0-9-]+)\.html")
_NO_PAGE = frozenset({"404.html", "not-yet.html"})


def gone_pages(
    previous: PublishedVan | None, pages: tuple[p.Page, ...], stood: Stood, book: Book
) -> tuple[p.Page, ...]:
    """Return a stub for each page of ``previous`` that is not among ``pages``, ordered by path.

    Args:
        previous: The last edition.
        pages: Those of this one.
        stood: What stands at each place of this edition, and what stood at those that are gone.
        book: The van's book.
    """
    here = {page.path.lower() for page in pages}
    dropped = sorted(path for path in (previous.pages if previous else ()) if path.lower() not in here)
    return tuple(page for path in dropped if path not in _NO_PAGE for page in _stub(path, stood, book))


def stood_at(previous: PublishedVan | None, book: Book) -> Stood:
    """Return the parts of equipment at each place, by point, and those that were at places since taken out."""
    now: dict[str, dict[str, str]] = {place.code: {} for place in book.van.places}
    for one in book.van.caravan.equipment:
        for point, code in one.at.items():
            now.setdefault(code, {})[f"{one.key}.{point}"] = part_of(one, point)
    record: Mapping[str, Any] = previous.record if previous else {}
    before = {code: dict(parts) for code, parts in record.get("stood", {}).items() if code not in now}
    return {**before, **now}


def _stub(path: str, stood: Stood, book: Book) -> Iterator[p.Page]:
    if place := _PLACE.fullmatch(path):
        code = place[1]
        says = "This place is no longer part of the van."
        yield _page(path, "Taken out of the van", says, code, tuple(_instead(code, stood, book)), book)
    elif page := _PAGE.fullmatch(path):
        title = _old_title(page[1], book)
        yield _page(path, f"Taken out: {title}", "What this page described is no longer part of the van.", "", (), book)


def _instead(code: str, stood: Stood, book: Book) -> Iterator[p.Node]:
    """Yield where the parts are now that stood at a place, and which of them left the van."""
    names = {place.code: place.name for place in book.van.places}
    now = {point: other for other, parts in stood.items() if other in names for point in parts}
    moved = {(stood[now[point]][point], now[point]) for point in stood.get(code, {}) if point in now}
    left = sorted({words for point, words in stood.get(code, {}).items() if point not in now})
    if moved or left:
        yield p.Heading(2, "What was here", "was-here")
    if moved:
        yield p.Links(
            tuple(
                p.LinkItem(place_path(other), "", words, f"Now at {other} {names[other]}", plate=other)
                for words, other in sorted(moved)
            )
        )
    if left:
        yield p.Bullets(tuple(((Text(f"{words}: no longer in this van."),),) for words in left))


def _page(path: str, title: str, says: str, plate: str, instead: tuple[p.Node, ...], book: Book) -> p.Page:
    body = (
        p.Paragraph(((Text(says),), (Text("Throw away a label or print that brought you here."),)), "lead"),
        *instead,
        p.Links(
            (
                p.LinkItem("index.html", "", "Start"),
                p.LinkItem("index.html", "find", "Find: a code, or what you see"),
                p.LinkItem("index.html", "van", "The places of this van"),
                p.LinkItem(CONTENTS, "", "All systems"),
            )
        ),
    )
    page_id = plate or path.removesuffix(".html")
    return own_page(book, path, title, "gone", body, crumbs=(START,), plate=plate, page_id=page_id)


def _old_title(stem: str, book: Book) -> str:
    """Return what the page was called: by the outline, by a block of its first topic, else by its file name."""
    for section in book.content.outline.sections:
        for page in section.pages:
            if page.id.value != stem:
                continue
            topics = {topic.value for topic in page.topics}
            titles = (block.title.value for block in book.content.blocks if block.topic.value in topics)
            return page.title or next(titles, stem.replace("-", " "))
    phase = book.content.outline.phases.get(stem)
    return phase.title if phase else stem.replace("-", " ")
