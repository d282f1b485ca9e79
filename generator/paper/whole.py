"""Everything printed beside the labels, file by file.

Each document is left to a module of its own; here they are set, and what a dealer must know of them is told.
"""

from collections.abc import Iterator, Mapping

from generator.errors import Fault, PublishError
from generator.model.manual import Manual
from generator.model.paper import Whole
from generator.model.specs import LabelStock
from generator.paper.booklet import SIZES, booklet_document
from generator.paper.calendar import calendar
from generator.paper.card import card_document
from generator.paper.glyphs import check_glyphs
from generator.paper.impose import Part, imposed, parts
from generator.paper.labels import engravings
from generator.paper.readback import opening_pages, page_count
from generator.paper.typeset import TypesetError, as_data, typeset
from generator.paper.walkround import walkround_document

Made = tuple[str, bytes, str]  # file name, bytes, what the dealer must know of it


def whole_paper(manual: Manual, address: str, stock: LabelStock, whole: Whole) -> Iterator[Made]:
    """Yield every file of a van beside its sheets of labels.

    Args:
        manual: The van's manual.
        address: Where it is online, ending in a slash; "" where that is not known yet.
        stock: The dealer's label sheets.
        whole: Edition, drawings and signs.

    Raises:
        GlyphError: a text holds what paper cannot show.
        PublishError: something else cannot be set.
    """
    yield from _booklets(manual, address, whole)
    walk = walkround_document(manual, address, whole)
    yield "walkround.pdf", _set("walkround.typ", walk), str(walk["hour"])
    yield "card.pdf", _set("card.typ", card_document(manual, address, whole)), ""
    if manual.dates:
        number = whole.edition.number if whole.edition else 0
        yield "calendar.ics", calendar(manual, address, whole.day, number), ""
    if manual.labels and address:
        for code, svg in engravings(manual, address, stock, whole.signs).items():
            yield f"labels/{code}.svg", svg, ""


def _booklets(manual: Manual, address: str, whole: Whole) -> Iterator[Made]:
    document = booklet_document(manual, address, whole, "a5")
    for size, look in SIZES.items():
        pdf = _set("booklet.typ", {**document, "look": look})
        count = page_count(pdf)
        yield f"booklet-{size}.pdf", pdf, f"{count} pages"
        if size == "a5":
            divided = parts(count, opening_pages(pdf, within_mm=look["top"]))
            yield "booklet-staple.pdf", imposed(pdf, divided, _look(document, look)), _staple(divided)


def _look(document: Mapping[str, object], size: Mapping[str, float]) -> dict[str, object]:
    """Return what the imposed sheets say of themselves and how large a page is."""
    words = {name: document[name] for name in ("title", "author", "lang", "region")}
    return {**words, "width": size["width"], "height": size["height"]}


def _staple(divided: tuple[Part, ...]) -> str:
    """Say how the sheets are printed and put together."""
    ways = "print on both sides, turned at the short edge"
    if len(divided) == 1:
        return f"{divided[0].sheets} sheets of A4; {ways}, fold and staple"
    each = "; ".join(f"pages {part.first} to {part.last}: {part.sheets} sheets" for part in divided)
    return f"A4; {ways}; {len(divided)} parts, each folded and stapled by itself ({each})"


def _set(template: str, document: Mapping[str, object]) -> bytes:
    data = as_data(document)
    check_glyphs(data)
    try:
        return typeset(template, data)
    except TypesetError as error:
        first = str(error).strip().splitlines()[0]
        raise PublishError(Fault(f"{template.removesuffix('.typ')} could not be set: {first}")) from error
