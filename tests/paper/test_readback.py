"""Reading back refuses sheets that would send someone to the wrong page."""

from collections.abc import Callable, Mapping
from dataclasses import replace

import pytest

from generator.errors import PublishError
from generator.model.manual import Manual
from generator.paper import paper
from generator.paper.readback import Expected, read_back
from generator.paper.stock import USUAL, cell

NAMES = {"A1": "Front gas locker", "B2": "Water inlet", "H3": "Wardrobe"}


@pytest.fixture
def sheet(manual: Callable[[Mapping[str, str]], Manual], address: str) -> bytes:
    return paper(manual(NAMES), address).files["labels.pdf"]


@pytest.fixture
def expected() -> list[Expected]:
    return [
        Expected(
            sheet=0,
            box=cell(USUAL, index)[1],
            code=code,
            address=f"HTTPS://VANS.EXAMPLE/7K3QX9F4WM/{code}/",
            words=(code, name),
        )
        for index, (code, name) in enumerate(NAMES.items())
    ]


def messages(pdf: bytes, expected: list[Expected]) -> list[str]:
    with pytest.raises(PublishError) as caught:
        read_back(pdf, expected)
    return [fault.message for fault in caught.value.faults]


def test_a_good_sheet_passes(sheet: bytes, expected: list[Expected]) -> None:
    read_back(sheet, expected)


def test_another_address_is_refused_at_both_resolutions(sheet: bytes, expected: list[Expected]) -> None:
    expected[1] = replace(expected[1], address="HTTPS://VANS.EXAMPLE/OTHERVAN22/B2/")
    told = messages(sheet, expected)
    assert told == [
        f"label B2 read at {dpi} dpi gives HTTPS://VANS.EXAMPLE/7K3QX9F4WM/B2/, "
        "expected HTTPS://VANS.EXAMPLE/OTHERVAN22/B2/"
        for dpi in (150, 300)
    ]


def test_two_labels_that_changed_places_are_refused(sheet: bytes, expected: list[Expected]) -> None:
    first, second = expected[0], expected[1]
    expected[:2] = [replace(first, box=second.box), replace(second, box=first.box)]
    assert len(messages(sheet, expected)) == 6  # each symbol at two resolutions, and each label's words


def test_a_missing_symbol_is_refused(sheet: bytes, expected: list[Expected]) -> None:
    lost = Expected(sheet=0, box=cell(USUAL, 5)[1], code="H9", address="HTTPS://VANS.EXAMPLE/7K3QX9F4WM/H9/", words=())
    assert "label H9 read at 150 dpi gives nothing" in messages(sheet, [*expected, lost])[0]


def test_a_symbol_too_many_is_refused(sheet: bytes, expected: list[Expected]) -> None:
    assert "1 symbol(s) read at 150 dpi stand outside every label" in messages(sheet, expected[:2])


def test_words_outside_their_label_are_refused(sheet: bytes, expected: list[Expected]) -> None:
    expected[2] = replace(expected[2], words=("H3", "Airing cupboard"))
    assert messages(sheet, expected) == ["label H3 does not show 'Airing cupboard' inside its edge"]
