"""Stub pages for what an earlier edition had and this one has not, so that old links and labels still answer.

A stub is made from its path and the content alone: were it made from anything of the edition that dropped it,
publishing again unchanged would give other bytes.
"""

import re
from collections.abc import Iterator

from generator.assemble.book import Book, own_page
from generator.assemble.sitemap import CONTENTS, START
from generator.model import manual as m
from generator.model.blocks import Text
from generator.model.site import PublishedVan

_PLACE = re.compile(r"([A-Z][0-9]{1,2})/index\.html")
_PAGE = re.compile(r"([a-z0-9-]+)\.html")
_NO_PAGE = frozenset({"404.html", "not-yet.html"})


def gone_pages(previous: PublishedVan | None, pages: tuple[m.Page, ...], book: Book) -> tuple[m.Page, ...]:
    """Return a stub for each page of ``previous`` that is not among ``pages``, ordered by path."""
    here = {page.path.lower() for page in pages}
    dropped = sorted(path for path in (previous.pages if previous else ()) if path.lower() not in here)
    return tuple(page for path in dropped if path not in _NO_PAGE for page in _stub(path, book))


def _stub(path: str, book: Book) -> Iterator[m.Page]:
    if place := _PLACE.fullmatch(path):
        code = place[1]
        yield _page(path, f"{code} was taken out", "This place is no longer part of the van.", code, book)
    elif page := _PAGE.fullmatch(path):
        title = _old_title(page[1], book)
        yield _page(path, f"Taken out: {title}", "What this page described is no longer part of the van.", "", book)


def _page(path: str, title: str, says: str, plate: str, book: Book) -> m.Page:
    body = (
        m.Paragraph(((Text(says),), (Text("Throw away a label or print that brought you here."),)), "lead"),
        m.Links(
            (
                m.LinkItem("index.html", "", "Start"),
                m.LinkItem("index.html", "find", "Find: a code, or what you see"),
                m.LinkItem("index.html", "van", "The places of this van"),
                m.LinkItem(CONTENTS, "", "All systems"),
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
