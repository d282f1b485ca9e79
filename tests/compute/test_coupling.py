"""What the coupling allows: no headline beyond any car, warnings where a plate looks wrong.

The formulas are held to published examples in ``tests/against_published/test_towing.py``.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import compute
from generator.compute.coupling import d_value, heaviest_partner
from generator.units import Quantity

from .vans import Fit, van


def kg(mass: float) -> Quantity:
    return Quantity(mass, "kg")


def coupled(d: str, laden: str = "1400 kg"):
    head = Fit(slot="coupling", parameters={"max_ball_load": "100 kg", "d_value": d}, at="A0")
    return compute(van(head, plates={"masses.max_laden": laden, "masses.unladen": "1000 kg"}))


@pytest.mark.parametrize(
    ("d", "shown"),
    [
        ("13.5 kN", "any car up to 3500 kg"),  # by formula 80.8 t: no limit worth telling
        ("13.8 kN", "any car up to 3500 kg"),  # over g R = 13.734 kN: no bound at all
        ("9.8 kN", "cars up to 3487 kg"),  # 9.8 x 1.4 / (13.734 - 9.8) = 3.48754
        ("8.0 kN", "cars up to 1953 kg"),  # 8 x 1.4 / 5.734 = 1.95326
        ("unknown", "Not known: read the d value of the coupling off its rating plate"),
    ],
)
def test_the_heaviest_car_is_told_only_where_it_is_a_limit(d: str, shown: str) -> None:
    assert coupled(d).numbers["tow-car-heaviest"].shown == shown


def test_a_coupling_for_cars_lighter_than_the_van_is_warned_of() -> None:
    """At T = R the D-value is g R / 2 = 6.867 kN; less is a slip or the wrong coupling."""
    assert not coupled("6.9 kN").warnings
    (fault,) = coupled("6.8 kN").warnings
    assert fault.message == "the coupling's D-value of 6.8 kN allows only cars up to 1372 kg, lighter than the van"


def test_the_d_value_that_is_always_enough_is_rounded_up() -> None:
    """9.81 x 3.5 x 1.4 / 4.9 = 9.81 kN exactly, so 9.9 is shown."""
    found = coupled("13.5 kN").numbers["d-value-needed"]
    assert found.shown == "9.9 kN"
    assert found.sentence == "9.9 kN is enough for any car up to 3500 kg. A lighter car needs less."


@given(st.floats(500.0, 3500.0), st.floats(300.0, 3500.0))
@settings(max_examples=60, deadline=None)
def test_the_heaviest_partner_needs_just_the_d_value(car: float, trailer: float) -> None:
    d = d_value(kg(car), kg(trailer))
    partner = heaviest_partner(d, kg(trailer))
    assert partner is not None
    assert partner.to("kg").magnitude == pytest.approx(car, rel=1e-6)


@given(st.floats(500.0, 3500.0), st.floats(0.0, 500.0), st.floats(300.0, 3500.0))
@settings(max_examples=60, deadline=None)
def test_a_heavier_car_never_needs_less(car: float, more: float, trailer: float) -> None:
    assert d_value(kg(car + more), kg(trailer)) >= d_value(kg(car), kg(trailer))
