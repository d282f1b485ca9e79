"""Manuals and finished documents for the tests of paper: demo vans set once, and what a reader finds in a PDF."""

from collections.abc import Iterator
from datetime import date
from functools import cache
from pathlib import Path

import pypdfium2

from generator.fill.drawing import bare_picture
from generator.fill.on_paper import drawings_on_paper
from generator.model.holes import VanDrawing
from generator.model.manual import Manual
from generator.model.paper import Whole
from generator.model.site import Edition
from generator.paper.booklet import booklet_document
from generator.paper.setting import Data
from generator.paper.typeset import typeset
from generator.pipeline.examining import examine_van

ROOT = Path(__file__).resolve().parents[2]
ADDRESS = "https://vans.example/7K3QX9F4WM/"
EDITION = Edition(number=2, day=date(2026, 11, 20))
VANS = ("marram-0417", "marram-0431-nz", "samphire-0077", "sorrel-0032", "tansy-0108", "banksia-0215")
MM = 72 / 25.4  # points


@cache
def manual_of(van: str) -> Manual:
    """Return the manual of a demo van."""
    examined = examine_van(ROOT, ROOT / f"van_specs/vans/{van}.yaml")
    assert examined.manual is not None, [str(fault) for fault in examined.faults]
    return examined.manual


@cache
def sign_pictures() -> dict[str, str]:
    return {path.stem: path.read_text("utf-8") for path in sorted((ROOT / "site_template/signs").glob("*.svg"))}


def whole_of(manual: Manual, edition: Edition | None = EDITION) -> Whole:
    outline = manual.values.get("drawing/van")
    return Whole(
        edition=edition,
        day=EDITION.day,
        cover=bare_picture(outline) if isinstance(outline, VanDrawing) else None,
        drawings=drawings_on_paper(manual.values),
        signs=sign_pictures(),
    )


@cache
def document_of(van: str, size: str = "a5") -> Data:
    manual = manual_of(van)
    return booklet_document(manual, ADDRESS, whole_of(manual), size)


@cache
def booklet_of(van: str, size: str = "a5") -> bytes:
    return typeset("booklet.typ", document_of(van, size))


def pages(pdf: bytes) -> list[str]:
    """Return the text of each page."""
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf)]


def body(pdf: bytes, top_mm: float, bottom_mm: float) -> list[str]:
    """Return the text of each page without head and foot."""
    found = []
    for page in pypdfium2.PdfDocument(pdf):
        height = page.get_height()
        found.append(page.get_textpage().get_text_bounded(bottom=bottom_mm * MM, top=height - top_mm * MM))
    return found


def squeezed(text: str) -> str:
    """Return ``text`` without white space and break marks, ligatures as letters: a page breaks lines where it likes."""
    for ligature, letters in (("ﬀ", "ff"), ("ﬁ", "fi"), ("ﬂ", "fl"), ("ﬃ", "ffi"), ("ﬄ", "ffl")):
        text = text.replace(ligature, letters)
    return "".join(one for one in text if not one.isspace() and one not in "\u200b\ufffe\u00ad")


def bookmarks(pdf: bytes) -> list[tuple[int, str, int]]:
    """Return level, title and page, counted from 1, of each bookmark."""
    document = pypdfium2.PdfDocument(pdf)
    return [(mark.level, mark.get_title(), mark.get_dest().get_index() + 1) for mark in document.get_toc()]


def strays(pdf: bytes, margin_mm: float) -> Iterator[tuple[int, str]]:
    """Yield page and character for each glyph that lies nearer to an edge than ``margin_mm``, or off the page."""
    edge = margin_mm * MM
    for number, page in enumerate(pypdfium2.PdfDocument(pdf), 1):
        (width, height), text = page.get_size(), page.get_textpage()
        for index in range(text.count_chars()):
            left, bottom, right, top = text.get_charbox(index)
            if right > left and (left < edge or right > width - edge or bottom < edge or top > height - edge):
                yield number, text.get_text_range(index, 1)
