"""Label sheets: geometry."""

from dataclasses import replace

import pytest

from generator.errors import PublishError
from generator.paper.stock import USUAL, cell, check, face, per_sheet


def test_the_usual_sheet_is_centred_on_a4() -> None:
    """A4 is 210 x 297 mm (ISO 216)."""
    check(USUAL)
    sheet, last = cell(USUAL, 20)
    assert sheet == 0
    assert USUAL.page_width - (last.x + last.width) == pytest.approx(USUAL.margin_left)
    assert USUAL.page_height - (last.y + last.height) == pytest.approx(USUAL.margin_top)


def test_labels_go_row_by_row_and_on_to_the_next_sheet() -> None:
    assert per_sheet(USUAL) == 21
    (_, first), (_, second), (_, fourth) = cell(USUAL, 0), cell(USUAL, 1), cell(USUAL, 3)
    assert second.x == pytest.approx(first.x + 66.0) and second.y == first.y
    assert fourth.x == first.x and fourth.y == pytest.approx(first.y + 38.1)
    assert cell(USUAL, 21) == (1, first)


def test_labels_never_overlap() -> None:
    boxes = [cell(USUAL, index)[1] for index in range(21)]
    for index, one in enumerate(boxes):
        for other in boxes[index + 1 :]:
            beside = one.x + one.width <= other.x + 1e-9 or other.x + other.width <= one.x + 1e-9
            apart = one.y + one.height <= other.y + 1e-9 or other.y + other.height <= one.y + 1e-9
            assert beside or apart


@pytest.mark.parametrize(("width", "height"), [(63.5, 38.1), (99.1, 38.1), (38.1, 63.5), (70.0, 70.0), (105.0, 148.0)])
def test_symbol_and_words_stand_inside_the_label_and_apart(width: float, height: float) -> None:
    """Words keep a millimetre from the edge, the symbol with its white zone half of one."""
    parts = face(replace(USUAL, label_width=width, label_height=height))
    for box, slip in ((parts.symbol, 0.5), (parts.words, 1.0)):
        assert box.x >= slip - 1e-9 and box.y >= slip - 1e-9
        assert box.x + box.width <= width - slip + 1e-9 and box.y + box.height <= height - slip + 1e-9
    assert parts.words.x >= parts.symbol.x + parts.symbol.width or parts.words.y >= parts.symbol.y + parts.symbol.height
    assert parts.words.width >= 22.0 - 1e-9


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("columns", 0, "zero or negative"),
        ("label_width", float("nan"), "zero or negative"),
        ("gap_x", -1.0, "zero or negative"),
        ("columns", 4, "reach 268.75 x 281.85 mm, the sheet has 210 x 297 mm"),
        ("rows", 8, "reach 202.75 x 319.95 mm, the sheet has 210 x 297 mm"),
    ],
)
def test_a_stock_that_is_no_sheet_is_refused(field: str, value: float, says: str) -> None:
    with pytest.raises(PublishError) as caught:
        check(replace(USUAL, **{field: value}))
    assert says in caught.value.faults[0].message
