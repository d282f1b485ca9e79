"""How cold it may be outside, by a heat balance worked by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import compute

from .test_gas import bottle
from .vans import Fit, magnitude, van

# A box of 4 x 2 x 2 m has 40 m2; at 2 W for each m2 and degree it loses 80 W/K.
BOX = {"body.length": "4 m", "body.width": "2 m"}
FACTS = {"inside-height": "2 m", "heat-loss": "2 W/m2/K", "inside-temperature": "18 degC"}


def heater(trait: str, basis: str = "", **parameters: str) -> Fit:
    return Fit(slot="room_heater", parameters=parameters, traits=(trait,), basis=basis)


def test_on_mains_the_highest_step_counts() -> None:
    """2000 W over 80 W/K are 25 K: 18 - 25 = -7 degC."""
    found = compute(van(heater("room-heat-mains", mains_steps="500 W, 2000 W"), plates=BOX, assume=FACTS))
    assert magnitude(found, "heat-holds-mains", "degC") == pytest.approx(-7)
    assert found.numbers["heat-holds-mains"].shown == "−7 °C"
    assert found.numbers["heat-holds-mains"].sentence.startswith("It keeps 18 °C inside down to that outside.")


def test_on_gas_the_net_input_counts_with_its_efficiency() -> None:
    """2 kW net x 0.8 over 80 W/K are 20 K; the same plate read as gross gives 46.35 / 50.43 of it."""
    for basis, rise in (("net", 20.0), ("gross", 20.0 * 46.35 / 50.43)):
        gas = heater("room-heat-gas", basis, gas_input="2 kW")
        found = compute(van(bottle(), gas, plates=BOX, assume={**FACTS, "heater-efficiency": "80 percent"}))
        assert magnitude(found, "heat-holds-gas", "degC") == pytest.approx(18 - rise)


def test_on_diesel_the_output_of_the_plate_counts() -> None:
    found = compute(van(heater("room-heat-diesel", output="2000 W"), plates=BOX, assume=FACTS))
    assert magnitude(found, "heat-holds-diesel", "degC") == pytest.approx(-7)


def test_an_unknown_heater_is_read_off_its_plate() -> None:
    found = compute(van(heater("room-heat-mains", mains_steps="unknown"), plates=BOX))
    assert found.numbers["heat-holds-mains"].shown == (
        "Not known: read the mains steps of the room heater off its rating plate"
    )


@given(st.integers(100, 5000))
@settings(max_examples=20, deadline=None)
def test_what_is_shown_is_never_colder_than_what_was_found(watts: int) -> None:
    found = compute(van(heater("room-heat-mains", mains_steps=f"{watts} W"), plates=BOX, assume=FACTS))
    shown = float(found.numbers["heat-holds-mains"].shown.replace("−", "-").removesuffix(" °C"))
    assert shown >= magnitude(found, "heat-holds-mains", "degC") - 1e-9
