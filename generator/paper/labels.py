"""The sheet of place labels of one van, and the report a dealer gets with it.

How a QR Code is drawn is left to ``symbol``, how a sheet is divided to ``stock``.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass

from generator.errors import Fault, PublishError
from generator.model.manual import LabelText, Manual
from generator.model.paper import LabelChoice, LabelReport
from generator.model.signs import MEANINGS, PICTOGRAMS
from generator.model.specs import LabelStock
from generator.paper.address import is_dense, label_address
from generator.paper.engrave import plain_svg
from generator.paper.pictures import dark, signs
from generator.paper.readback import Expected, read_back
from generator.paper.stock import Box, cell, check, face, per_sheet
from generator.paper.symbol import Symbol, symbol
from generator.paper.typeset import TypesetError, pictured, typeset

LOST = "No signal? Open your saved manual or booklet at {code}."
_LEAST_MODULE_MM = 0.4  # finer modules fill in when printed (common practice, no source)

# Reading distance. A telephone camera of 1920 pixels over 69 degrees is assumed and 3 pixels a module,
# which is what two decoders needed at most in a trial on rendered labels; no telephone was tried.
_CAMERA_PIXELS, _CAMERA_ANGLE, _PIXELS_PER_MODULE = 1920, math.radians(69), 3
_WIDTHS_AWAY = 10  # read from ten times its width: a rule of thumb of the trade, not in ISO/IEC 18004

_STRIP_MM = 8.0  # least margin that takes a line of words
_UNPRINTED_MM = 5.0  # edge that printers may leave white (common practice, no source)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Batch:
    """The labels to be set, each with its symbol; ``skip`` positions of the first sheet are used up already."""

    manual: Manual
    stock: LabelStock
    pictures: Mapping[str, str]
    labels: tuple[LabelText, ...]
    symbols: tuple[Symbol, ...]
    skip: int

    @property
    def sheets(self) -> int:
        """How many sheets they take."""
        return math.ceil((self.skip + len(self.labels)) / per_sheet(self.stock))


def labels(
    manual: Manual,
    address: str,
    stock: LabelStock,
    pictures: Mapping[str, str] | None = None,
    choice: LabelChoice | None = None,
) -> tuple[bytes, LabelReport]:
    """Return the label sheets as PDF, read back from the finished pages, with their report.

    Args:
        manual: The van's manual, with at least one label.
        address: Address of the manual, ending in a slash.
        stock: The label sheets.
        pictures: Safety signs as SVG by code; a label whose sign is not among them goes without.
        choice: Where on the first sheet to begin, and which labels; all of them from the first position on without.

    Raises:
        PublishError: bad or too small stock, a position or place that is not there, a name that does not fit, a label
            that does not read back.
    """
    batch = _batch(manual, address, stock, pictures or {}, choice or LabelChoice())
    pdf = _set(batch, _document(batch))
    read_back(pdf, _expected(batch))
    return pdf, _report(batch)


def engravings(manual: Manual, address: str, stock: LabelStock, pictures: Mapping[str, str]) -> dict[str, bytes]:
    """Return each label of a manual as an SVG of its own by place code: dark shapes alone, letters as outlines."""
    batch = _batch(manual, address, stock, pictures, LabelChoice())
    try:
        drawn = pictured("labels.typ", {**_document(batch), "single": True, "signs": dark(batch.pictures)})
    except TypesetError as error:
        raise PublishError(_plainly(str(error), manual, stock)) from error
    return {label.code: plain_svg(svg) for label, svg in zip(batch.labels, drawn, strict=True)}


def _batch(manual: Manual, address: str, stock: LabelStock, pictures: Mapping[str, str], choice: LabelChoice) -> _Batch:
    check(stock)
    chosen = _chosen(manual, choice)
    symbols = tuple(symbol(label_address(address, label.path)) for label in chosen)
    _check_module(symbols, stock)
    if not 1 <= choice.first <= per_sheet(stock):
        message = f"there is no position {choice.first} on a sheet of {per_sheet(stock)} labels"
        raise PublishError(Fault(message, hint=f"count from the top left, row by row: 1 to {per_sheet(stock)}"))
    return _Batch(manual=manual, stock=stock, pictures=pictures, labels=chosen, symbols=symbols, skip=choice.first - 1)


def _chosen(manual: Manual, choice: LabelChoice) -> tuple[LabelText, ...]:
    """Return the labels to be set, in walking order; a code without a label is a fault."""
    known = {label.code for label in manual.labels}
    wrong = [code for code in choice.only if code not in known]
    if wrong:
        hint = f"{manual.model} {manual.tail} has labels {', '.join(label.code for label in manual.labels)}"
        raise PublishError(*(Fault(f'no place with a label has the code "{code}"', hint=hint) for code in wrong))
    return tuple(label for label in manual.labels if not choice.only or label.code in choice.only)


def _set(batch: _Batch, document: Mapping[str, object]) -> bytes:
    try:
        return typeset("labels.typ", document)
    except TypesetError as error:
        raise PublishError(_plainly(str(error), batch.manual, batch.stock)) from error


def _plainly(error: str, manual: Manual, stock: LabelStock) -> Fault:
    """Return what a dealer can do about a stop in the template."""
    names = {label.code: label.name for label in manual.labels}
    if (code := error.rpartition("too-long: ")[2].strip()) in names:
        size = f"{stock.label_width:g} x {stock.label_height:g} mm"
        return Fault(
            f'the name of place {code}, "{names[code]}", does not fit on a label of {size}',
            hint="shorten the name, or take a larger label",
        )
    if "could not be displayed" in error and (character := error.partition('text `"')[2][:1]):
        where = ", ".join(code for code, name in names.items() if character in name) or "the head of the sheet"
        return Fault(f'"{character}" cannot be printed (in {where})', hint="name the place in letters and digits")
    return Fault(f"the labels could not be set: {error.strip().splitlines()[0]}")


def _module_mm(symbol: Symbol, stock: LabelStock) -> float:
    return face(stock).symbol.width / symbol.boxed


def _check_module(symbols: Sequence[Symbol], stock: LabelStock) -> None:
    finest = min(_module_mm(each, stock) for each in symbols)
    # "not >=" so that a label without room for any symbol is refused as well.
    if not finest >= _LEAST_MODULE_MM:
        message = (
            f"a label of {stock.label_width:g} x {stock.label_height:g} mm leaves {max(finest, 0):.2f} mm a module, "
            f"at least {_LEAST_MODULE_MM} mm is needed"
        )
        raise PublishError(Fault(message, hint="take a larger label: 63.5 x 38.1 mm, 21 on A4, is known to work"))


def _document(batch: _Batch) -> dict[str, object]:
    """Return what the template prints."""
    manual, stock = batch.manual, batch.stock
    language, _, region = manual.language.partition("-")
    return {
        "title": f"Labels for {manual.model}, van {manual.tail}",
        "author": manual.dealer,
        "lang": language,
        "region": region or None,
        "tail": f"Van {manual.tail}",
        "lost": LOST,
        "alt": "Code to scan: {address}",
        "signs": signs(batch.pictures),
        "meanings": {**MEANINGS, **PICTOGRAMS},
        "single": False,
        "page": {"width": stock.page_width, "height": stock.page_height},
        "sheets": _sheets(batch),
        **_margins(stock),
    }


def _sheets(batch: _Batch) -> list[dict[str, object]]:
    """Return the labels sheet by sheet, each with its boxes in millimetres."""
    manual, size = batch.manual, per_sheet(batch.stock)
    entries = [_entry(batch, index) for index in range(len(batch.labels))]
    return [
        {
            "head": f"Labels for {manual.model}, van {manual.tail}. Sheet {number + 1} of {batch.sheets}.",
            "labels": entries[max(number * size - batch.skip, 0) : (number + 1) * size - batch.skip],
        }
        for number in range(batch.sheets)
    ]


def _entry(batch: _Batch, index: int) -> dict[str, object]:
    label, drawn, parts = batch.labels[index], batch.symbols[index], face(batch.stock)
    return {
        "code": label.code,
        "name": label.name,
        "sign": label.sign if label.sign in batch.pictures else None,
        "address": drawn.text,
        "svg": drawn.svg.decode(),
        "box": asdict(cell(batch.stock, batch.skip + index)[1]),
        "symbol": asdict(_inside_quiet_zone(parts.symbol, drawn)),
        "words": asdict(parts.words),
    }


def _inside_quiet_zone(box: Box, drawn: Symbol) -> Box:
    """Return the square of the dark and light modules, four modules in from its box."""
    module = box.width / drawn.boxed
    quiet = module * (drawn.boxed - drawn.side) / 2
    width = module * drawn.side
    return Box(x=box.x + quiet, y=box.y + quiet, width=width, height=width)


def _margins(stock: LabelStock) -> dict[str, object]:
    """Return where the head and the check line stand, in the margins that are wide enough.

    A sheet without margins, such as a roll, gets its check line on a page of its own.
    """
    above = stock.margin_top
    below = stock.page_height - above - stock.rows * stock.label_height - (stock.rows - 1) * stock.gap_y
    length = next((mm for mm in (100.0, 50.0, 20.0) if mm + 2 * _UNPRINTED_MM <= stock.page_width), 10.0)
    x = max(stock.margin_left, _UNPRINTED_MM)
    width = stock.page_width - x - _UNPRINTED_MM
    head = Box(x=x, y=_UNPRINTED_MM, width=width, height=above - _UNPRINTED_MM) if above >= _STRIP_MM else None
    line = None
    if below >= _STRIP_MM:
        down = min(4.0, below - _STRIP_MM + 1.5)  # from the last row, still above what printers leave white
        line = Box(x=(stock.page_width - length) / 2, y=stock.page_height - below + down, width=length, height=5.0)
    words = f"This line measures {length:g} mm when the sheet is printed at 100 %."
    return {
        "head": asdict(head) if head else None,
        "check": {"mm": length, "words": words, "box": asdict(line) if line else None},
    }


def _expected(batch: _Batch) -> list[Expected]:
    """Return what must be read from the finished sheets, and where."""
    expected = []
    for index, (label, drawn) in enumerate(zip(batch.labels, batch.symbols, strict=True)):
        sheet, box = cell(batch.stock, batch.skip + index)
        words = _words(label, batch.manual)
        expected.append(Expected(sheet=sheet, box=box, code=label.code, address=drawn.text, words=words))
    return expected


def _words(label: LabelText, manual: Manual) -> tuple[str, ...]:
    return (label.code, label.name, LOST.replace("{code}", label.code), manual.tail)


def _report(batch: _Batch) -> LabelReport:
    """Return the report on the densest symbol, which decides how near one must go."""
    stock = batch.stock
    densest = max(batch.symbols, key=lambda each: each.version)
    module = _module_mm(densest, stock)
    width = module * densest.side
    at_one_metre = 2 * math.tan(_CAMERA_ANGLE / 2) * 1000 / _CAMERA_PIXELS  # mm a pixel covers
    return LabelReport(
        count=len(batch.labels),
        sheets=batch.sheets,
        stock=stock.name,
        version=densest.version,
        module_mm=module,
        symbol_mm=width,
        near_m=width * _WIDTHS_AWAY / 1000,
        far_m=module / (_PIXELS_PER_MODULE * at_one_metre),
        note=_note(densest.text),
    )


def _note(address: str) -> str:
    """Return what would make the symbols coarser, if anything would."""
    if not is_dense(address):
        return ""
    return f"{address} has lower-case letters in its path: in upper case the symbols would be coarser"
