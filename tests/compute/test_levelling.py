"""Heights for levelling, against trigonometry by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import compute
from generator.compute.levelling import rise
from generator.units import Quantity

from .vans import van


def table(traits: tuple[str, ...] = (), **plates: str):
    return compute(van(plates=plates, traits=traits)).tables["levelling"]


def test_each_slope_has_a_ramp_and_a_height_of_the_coupling() -> None:
    """1.90 m x sin 1 deg = 3.32 cm, sin 3 deg 9.94, sin 5 deg 16.56; 4 m: 6.98, 20.93, 34.86."""
    rows = {row[0]: row[1:] for row in table().rows}
    assert (rows["1°"], rows["3°"], rows["5°"]) == (("3 cm", "7 cm"), ("10 cm", "21 cm"), ("17 cm", "35 cm"))


def test_one_in_a_hundred_is_a_centimetre_for_each_metre() -> None:
    """A slope of 1 % is 0.573 deg: 2 m rise 2 cm (definition of the sine, small angles)."""
    assert rise(Quantity(2.0, "m"), 0.5729).value.to("cm").magnitude == pytest.approx(2.0, rel=1e-3)


def test_what_is_not_known_is_not_guessed_at() -> None:
    found = table(**{"body.track": "unknown"})
    assert {row[1] for row in found.rows} == {"Not known"}
    assert found.rows[1][2] == "7 cm"
    assert "measure from tyre middle to tyre middle" in found.note
    assert {row[2] for row in table(**{"body.coupling_to_axle": "unknown"}).rows} == {"Not known"}


def test_two_axles_take_two_ramps() -> None:
    assert "Both wheels of the low side" in table(traits=("twin-axle",)).note
    assert "Both wheels" not in table().note


@given(st.floats(0.5, 12.0), st.floats(0.0, 10.0), st.floats(0.0, 5.0))
def test_a_steeper_slope_never_asks_for_less(length: float, degrees: float, more: float) -> None:
    metres = Quantity(length, "m")
    assert rise(metres, degrees + more).value >= rise(metres, degrees).value
