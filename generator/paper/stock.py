"""Label sheets: the usual stock, where each label lies on it, and how its face is divided.

All measures are millimetres from the top left corner.
"""

from dataclasses import dataclass

from generator.errors import Fault, PublishError
from generator.model.specs import LabelStock

# 21 labels of 63.5 x 38.1 mm on A4, centred: a common sheet (common practice, no source).
USUAL = LabelStock(
    name="21 labels of 63.5 x 38.1 mm on A4",
    page_width=210.0,
    page_height=297.0,
    label_width=63.5,
    label_height=38.1,
    columns=3,
    rows=7,
    margin_left=7.25,
    margin_top=15.15,
    gap_x=2.5,
    gap_y=0.0,
)

SLIP_MM = 1.0  # kept free of words at the edge of a label, since a printer may feed the sheet askew
_QUIET_SLIP_MM = 0.5  # the same for the quiet zone: what slips off it is white
_TEXT_WIDTH = 22.0  # least width for the words beside a symbol
_TEXT_HEIGHT = 24.0  # least height for the words under a symbol
_GAP = 1.0  # between the quiet zone and the words
_OUTSIDE = 0.01  # a sheet may be overrun by this much, the noise of adding decimals


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """How one label is divided: the square of the symbol with its quiet zone, and the words."""

    symbol: Box
    words: Box


def check(stock: LabelStock) -> None:
    """Refuse a stock whose measures cannot be a sheet of labels.

    Raises:
        PublishError: a measure is not positive, or the labels do not lie on the sheet.
    """
    sizes = (stock.page_width, stock.page_height, stock.label_width, stock.label_height, stock.columns, stock.rows)
    spaces = (stock.margin_left, stock.margin_top, stock.gap_x, stock.gap_y)
    # "not >" instead of "<=" because a NaN must be refused as well.
    if not all(size > 0 for size in sizes) or not all(space >= 0 for space in spaces):
        raise PublishError(Fault(f'label stock "{stock.name}" has a measure that is zero or negative', hint=_HINT))
    right = stock.margin_left + stock.columns * stock.label_width + (stock.columns - 1) * stock.gap_x
    bottom = stock.margin_top + stock.rows * stock.label_height + (stock.rows - 1) * stock.gap_y
    if not (right <= stock.page_width + _OUTSIDE and bottom <= stock.page_height + _OUTSIDE):
        message = (
            f'the labels of stock "{stock.name}" reach {right:g} x {bottom:g} mm, '
            f"the sheet has {stock.page_width:g} x {stock.page_height:g} mm"
        )
        raise PublishError(Fault(message, hint=_HINT))


_HINT = "see label_stock in the dealer's file; all measures are millimetres"


def per_sheet(stock: LabelStock) -> int:
    """Return how many labels a sheet holds."""
    return stock.columns * stock.rows


def cell(stock: LabelStock, index: int) -> tuple[int, Box]:
    """Return the sheet (from 0) and the place on it of the label with this index, row by row."""
    sheet, on_sheet = divmod(index, per_sheet(stock))
    row, column = divmod(on_sheet, stock.columns)
    return sheet, Box(
        x=stock.margin_left + column * (stock.label_width + stock.gap_x),
        y=stock.margin_top + row * (stock.label_height + stock.gap_y),
        width=stock.label_width,
        height=stock.label_height,
    )


def face(stock: LabelStock) -> Face:
    """Divide a label so that the symbol is as large as it can be, words beside it or under it."""
    width, height = stock.label_width - 2 * SLIP_MM, stock.label_height - 2 * SLIP_MM
    slip = _QUIET_SLIP_MM
    beside = min(stock.label_height - 2 * slip, stock.label_width - slip - _GAP - _TEXT_WIDTH - SLIP_MM)
    under = min(stock.label_width - 2 * slip, stock.label_height - slip - _GAP - _TEXT_HEIGHT - SLIP_MM)
    if beside >= under:
        x = slip + beside + _GAP
        return Face(
            symbol=Box(x=slip, y=(stock.label_height - beside) / 2, width=beside, height=beside),
            words=Box(x=x, y=SLIP_MM, width=stock.label_width - SLIP_MM - x, height=height),
        )
    y = slip + under + _GAP
    return Face(
        symbol=Box(x=(stock.label_width - under) / 2, y=slip, width=under, height=under),
        words=Box(x=SLIP_MM, y=y, width=width, height=stock.label_height - SLIP_MM - y),
    )
