"""What is shown never lies on the unsafe side of what was worked out."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute.showing import down, exact, half_days, joined, lower_first, signed, up, whole_days
from generator.units import Quantity

VALUES = st.floats(0.0, 5000.0)
NOISE = 1e-8  # a speck of float noise may not move a value by a whole step


def read(shown: str) -> Fraction:
    found = re.match(r"[+−]?[\d.]+", shown)
    assert found is not None, shown
    return Fraction(found[0].replace("−", "-"))


@given(VALUES, st.integers(0, 3))
def test_down_is_never_above_and_up_never_below(value: float, digits: int) -> None:
    step = 10.0**-digits
    below, above = (float(read(side(Quantity(value, "kg"), "kg", digits))) for side in (down, up))
    assert value - step <= below <= value + NOISE
    assert value - NOISE <= above <= value + step


@given(st.floats(-50.0, 50.0))
def test_a_change_is_never_shown_smaller_than_it_is(value: float) -> None:
    shown = float(read(signed(Quantity(value, "kg"), "kg", 1)))
    assert abs(shown) >= abs(value) - NOISE
    assert shown * value >= 0


@given(st.floats(0.0, 400.0))
def test_days_are_never_promised_too_long(value: float) -> None:
    days = Quantity(value, "day")
    words = {"less than half a day": 0.0, "half a day": 0.5, "less than 1 day": 0.0}
    for shown in (half_days(days), whole_days(days)):
        promised = words[shown] if shown in words else float(read(shown))
        assert promised <= value + NOISE
        assert promised > value - 1.0


@given(st.decimals(0, 3000, places=3))
def test_a_plate_value_is_shown_as_it_was_typed(value) -> None:
    assert read(exact(Quantity(float(value), "kg"))) == Fraction(value)


@pytest.mark.parametrize(
    ("shown", "text"),
    [
        (down(Quantity(9.0, "kg"), "kg", 1), "9 kg"),
        (down(Quantity(100.0, "kg"), "kg"), "100 kg"),
        (up(Quantity(6.3, "m"), "m", 2), "6.3 m"),
        (up(Quantity(10.0, "A"), "A", 1), "10 A"),
        (exact(Quantity(3.0, "bar"), 1), "3.0 bar"),
        (exact(Quantity(1.0, "day")), "1 day"),
        (signed(Quantity(-0.0, "kg"), "kg", 1), "0 kg"),
    ],
)
def test_idle_zeros_go_and_needed_ones_stay(shown: str, text: str) -> None:
    assert shown == text


def test_pieces_of_sentences() -> None:
    assert [joined(()), joined(("a",)), joined(("a", "b")), joined(("a", "b", "c"))] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]
    assert [lower_first("Tank volume"), lower_first("LPG mix"), lower_first("D-value")] == [
        "tank volume",
        "LPG mix",
        "D-value",
    ]
