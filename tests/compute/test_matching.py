"""Whether a car may tow a van: the lowest of all limits is named, whichever it is."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import Car, RearAxle, Towed, match
from generator.compute.coupling import d_value
from generator.model.numbers import Verdict
from generator.units import Quantity

from .vans import quantity

VAN = Towed(
    laden=quantity("1400 kg"),
    ball_load=quantity("70 kg"),
    coupling_d=quantity("13.5 kN"),
    kerb_share=quantity("85 percent"),
)
# A car that is more than enough; a test lowers one value.
CAR = {
    "own_mass": "2200 kg",
    "trailer_mass": "2000 kg",
    "train_mass": "4200 kg",
    "ball_load": "100 kg",
    "towbar_d": "11.3 kN",
    "kerb_mass": "1700 kg",
}


def car(**changes: str) -> Car:
    return Car(**{name: quantity(text) for name, text in {**CAR, **changes}.items()})


def test_a_car_with_room_everywhere_is_within() -> None:
    found = match(VAN, car())
    assert (found.verdict, found.lowest, found.advice) == (Verdict.WITHIN, "The car's greatest trailer mass", "")
    assert found.sentence == (
        "The van may weigh 1400 kg. The car's greatest trailer mass allows a van of 2000 kg."
        " That is the lowest of all limits."
    )


@pytest.mark.parametrize(
    ("changes", "lowest", "most_kg"),
    [
        ({"trailer_mass": "1300 kg"}, "The car's greatest trailer mass", 1300),
        ({"train_mass": "3550 kg"}, "The greatest mass of both together", 1350),
        ({"ball_load": "60 kg"}, "The load on the car's towbar", 1200),  # 60 kg are 5 % of 1200 kg
        ({"towbar_d": "8.0 kN"}, "The D-value of the towbar", 1295.83),  # 8 x 2.2 / (9.81 x 2.2 - 8)
    ],
)
def test_the_lowest_limit_is_named_and_decides(changes: dict[str, str], lowest: str, most_kg: float) -> None:
    found = match(VAN, car(**changes))
    assert (found.verdict, found.lowest) == (Verdict.OVER, lowest)
    assert found.most.to("kg").magnitude == pytest.approx(most_kg, abs=0.01)


def test_the_van_s_own_coupling_may_be_the_lowest() -> None:
    """6.8 kN with a car of 2.2 t: 6.8 x 2.2 / (21.582 - 6.8) = 1.01204 t."""
    weak = Towed(laden=VAN.laden, ball_load=VAN.ball_load, coupling_d=quantity("6.8 kN"))
    found = match(weak, car())
    assert (found.lowest, found.verdict) == ("The D-value of the van's coupling", Verdict.OVER)
    assert found.most.to("kg").magnitude == pytest.approx(1012.04, abs=0.01)


def test_the_rear_axle_of_the_car_may_be_the_lowest() -> None:
    """70 kg on a ball 1 m behind a wheelbase of 2.5 m load the axle with 98 kg; 84 kg are left, six sevenths."""
    axle = RearAxle(spare=quantity("84 kg"), wheelbase=quantity("2.5 m"), overhang=quantity("1 m"))
    found = match(VAN, replace(car(), rear_axle=axle))
    assert (found.lowest, found.verdict) == ("The car's rear axle", Verdict.OVER)
    assert found.most.to("kg").magnitude == pytest.approx(1200)


def test_near_the_lowest_limit_is_close() -> None:
    assert match(VAN, car(trailer_mass="1500 kg")).verdict is Verdict.CLOSE
    assert match(VAN, car(trailer_mass="1400 kg")).verdict is Verdict.CLOSE


def test_kerb_mass_is_advice_and_no_limit() -> None:
    """85 % of 1500 kg are 1275 kg."""
    found = match(VAN, car(kerb_mass="1500 kg"))
    assert found.verdict is Verdict.WITHIN
    assert found.advice == "Advised for this car: a van of 1275 kg at most, 85 % of its kerb mass."
    no_share = Towed(laden=VAN.laden, ball_load=VAN.ball_load, coupling_d=VAN.coupling_d)
    assert match(no_share, car(kerb_mass="1000 kg")).advice == ""


kilograms = st.floats(300.0, 4000.0)


@given(kilograms, kilograms, kilograms, st.floats(25.0, 350.0), st.floats(3.0, 30.0))
@settings(max_examples=80, deadline=None)
def test_a_match_within_breaks_no_limit(trailer: float, spare: float, own: float, ball: float, d: float) -> None:
    """Judged in plain numbers: trailer mass, train mass, ball load by its share, both D-values."""
    one = Car(
        own_mass=Quantity(own, "kg"),
        trailer_mass=Quantity(trailer, "kg"),
        train_mass=Quantity(own + spare, "kg"),
        ball_load=Quantity(ball, "kg"),
        towbar_d=Quantity(d, "kN"),
    )
    found = match(VAN, one)
    holds = (
        trailer >= 1400
        and spare >= 1400
        and ball >= 70
        and d >= 9.81 * own * 1400 / (own + 1400) / 1000
        and d_value(one.own_mass, VAN.laden) <= VAN.coupling_d
    )
    assert (found.verdict is not Verdict.OVER) == holds
