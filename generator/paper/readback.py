"""Reading finished label sheets back: pages as pictures, symbols decoded, words found where they belong.

A label that leads nowhere, or beside the wrong code, is found here and not on a wet pitch.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import pypdfium2
import zxingcpp

from generator.errors import Fault, PublishError
from generator.paper.stock import Box

RESOLUTIONS = (150, 300)  # dots an inch
# Only Model 2: the family "QRCode" also finds Micro QR phantoms inside other symbols.
_FORMATS = zxingcpp.BarcodeFormats([zxingcpp.BarcodeFormat.QRCodeModel2])
_MM = 25.4  # an inch
_POINTS = 72  # an inch


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """One label as it must be found: its sheet from 0, its box in millimetres, its words."""

    sheet: int
    box: Box
    code: str
    address: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One decoded symbol, its middle in millimetres from the top left corner of the sheet."""

    sheet: int
    x: float
    y: float
    text: str


def read_back(pdf: bytes, expected: Sequence[Expected]) -> None:
    """Compare the finished sheets with what they were to hold.

    Raises:
        PublishError: a symbol is missing, unreadable, too many or not in its own label, or the
            words of a label are not all inside it.
    """
    document = pypdfium2.PdfDocument(pdf)
    try:
        faults = [
            *(fault for dpi in RESOLUTIONS for fault in _symbol_faults(symbols(document, dpi), expected, dpi)),
            *_word_faults(document, expected),
        ]
    finally:
        document.close()
    if faults:
        raise PublishError(*faults)


def symbols(document: pypdfium2.PdfDocument, dpi: int) -> list[Seen]:
    """Return every QR Code found in the pages as printed at ``dpi``."""
    return [seen for number, page in enumerate(document) for seen in _page_symbols(page, number, dpi)]


def _page_symbols(page: pypdfium2.PdfPage, number: int, dpi: int) -> Iterator[Seen]:
    bitmap = page.render(scale=dpi / _POINTS, grayscale=True)
    # A row of the bitmap may be padded; the padding is decoded along, which costs nothing.
    picture = memoryview(bitmap.buffer).cast("B", (bitmap.height, bitmap.stride))
    for found in zxingcpp.read_barcodes(picture, formats=_FORMATS):
        corners = found.position
        points = (corners.top_left, corners.top_right, corners.bottom_right, corners.bottom_left)
        x, y = (sum(point.x for point in points) / 4, sum(point.y for point in points) / 4)
        yield Seen(sheet=number, x=x * _MM / dpi, y=y * _MM / dpi, text=found.text)


def _symbol_faults(seen: Sequence[Seen], expected: Sequence[Expected], dpi: int) -> list[Fault]:
    """Compare symbols with labels, label by label."""
    faults = []
    inside = Counter[int]()
    for index, label in enumerate(expected):
        found = [each.text for each in seen if each.sheet == label.sheet and _holds(label.box, each)]
        inside[index] = len(found)
        if found != [label.address]:
            got = "nothing" if not found else " and ".join(found)
            faults.append(Fault(f"label {label.code} read at {dpi} dpi gives {got}, expected {label.address}"))
    strays = len(seen) - inside.total()
    if strays:
        faults.append(Fault(f"{strays} symbol(s) read at {dpi} dpi stand outside every label"))
    return faults


def _holds(box: Box, seen: Seen) -> bool:
    return box.x <= seen.x <= box.x + box.width and box.y <= seen.y <= box.y + box.height


def _word_faults(document: pypdfium2.PdfDocument, expected: Sequence[Expected]) -> list[Fault]:
    """Look for each label's words inside its own box."""
    faults = []
    for label in expected:
        printed = _squeezed(_text_in(document[label.sheet], label.box))
        lost = [words for words in label.words if _squeezed(words) not in printed]
        if lost:
            faults.append(Fault(f"label {label.code} does not show {', '.join(map(repr, lost))} inside its edge"))
    return faults


def _text_in(page: pypdfium2.PdfPage, box: Box) -> str:
    """Return the words whose characters lie inside ``box``."""
    height = page.get_height()
    point = _POINTS / _MM
    text: str = page.get_textpage().get_text_bounded(
        left=box.x * point,
        bottom=height - (box.y + box.height) * point,
        right=(box.x + box.width) * point,
        top=height - box.y * point,
    )
    return text


def _squeezed(text: str) -> str:
    """Return ``text`` without white space and break marks, since lines are broken to fit."""
    return "".join(character for character in text if not character.isspace() and character not in "\u200b\ufffe\u00ad")


def page_count(pdf: bytes) -> int:
    """Return how many pages a document has."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        return len(document)
    finally:
        document.close()


def opening_pages(pdf: bytes, within_mm: float) -> tuple[int, ...]:
    """Return the pages, counted from 1, that open with a title: a bookmark leads to their first ``within_mm``."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        targets = (mark.get_dest() for mark in document.get_toc() if mark.level < 2)
        return tuple(sorted({target.get_index() + 1 for target in targets if target and _high(target, within_mm)}))
    finally:
        document.close()


def _high(target: pypdfium2.PdfDest, within_mm: float) -> bool:
    """Return whether a bookmark leads to the top of its page; PDF counts up from the foot."""
    _, place = target.get_view()
    height = target.pdf.get_page_size(target.get_index())[1]
    return len(place) < 2 or height - place[1] < within_mm / _MM * _POINTS
