"""Cold bottles: what each fuel does at which temperature, and how height counts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import compute
from generator.compute.vapour import air_kpa, temperature_c, vapour_kpa
from generator.model.numbers import Numbers

from .test_gas import bottle
from .vans import magnitude, market, van


def cold(fuel: str, where: str = "uk", **assume: str) -> Numbers:
    return compute(
        van(bottle(fuel=fuel), on=market(where), assume={key.replace("_", "-"): v for key, v in assume.items()})
    )


def does(found: Numbers) -> dict[str, str]:
    return {row[0]: row[3] for row in found.tables["gas-cold"].rows}


def test_butane_fades_at_five_degrees_and_is_gone_at_freezing() -> None:
    said = does(cold("butane"))
    assert [said[at] for at in ("−10 °C", "−5 °C", "0 °C", "5 °C", "10 °C")] == [
        "No gas",
        "No gas",
        "No gas",
        "Small flames",
        "Feeds",
    ]


def test_propane_feeds_in_frost() -> None:
    found = cold("propane")
    assert set(does(found).values()) == {"Feeds"}
    assert found.numbers["gas-stops-at"].shown == "−36 °C"  # CoolProp: -36.06


def test_the_last_part_of_a_mix_is_butane_and_both_are_said() -> None:
    found = cold("lpg-mix")
    assert found.numbers["gas-stops-at"].shown.endswith("when full, 7 °C when nearly empty")
    assert does(found)["0 °C"] == "Full: feeds; nearly empty: no gas"
    assert does(found)["10 °C"] == "Feeds"
    assert "works like butane" in found.tables["gas-cold"].note


@pytest.mark.parametrize(("where", "shown"), [("uk", "3.7 bar"), ("nz", "370 kPa")])
def test_pressures_are_shown_in_the_unit_of_the_market_rounded_down(where: str, shown: str) -> None:
    """Propane at 0 degC: 474.5 kPa absolute (CoolProp), 373.1 over the air; the fit lies 0.56 % below: 370.5."""
    row = next(row for row in cold("propane", where).tables["gas-cold"].rows if row[0] == "0 °C")
    assert row[1] == shown


def test_higher_up_more_pressure_is_left() -> None:
    found = cold("butane", high_site="1500 m")
    row = next(row for row in found.tables["gas-cold"].rows if row[0] == "0 °C")
    assert (row[1], row[2]) == ("0 bar", "0.1 bar")
    assert found.tables["gas-cold"].note.startswith("High up means 1500 m above the sea.")


def test_a_regulator_that_needs_more_stops_earlier() -> None:
    low, high = (
        magnitude(cold("propane", regulator_inlet=inlet), "gas-stops-at", "degC") for inlet in ("0.3 bar", "1 bar")
    )
    assert high > low + 5


@given(st.floats(0, 1), st.floats(-40, 40))
def test_the_temperature_of_a_pressure_is_the_inverse(share: float, at_c: float) -> None:
    assert temperature_c(share, vapour_kpa(share, at_c)) == pytest.approx(at_c, abs=1e-6)


@given(st.floats(-40, 40), st.floats(0, 0.99))
def test_more_propane_and_more_warmth_give_more_pressure(at_c: float, share: float) -> None:
    assert vapour_kpa(share + 0.01, at_c) > vapour_kpa(share, at_c)
    assert vapour_kpa(share, at_c + 0.5) > vapour_kpa(share, at_c)


@given(st.floats(0, 4900))
def test_air_gets_thinner_with_height(height_m: float) -> None:
    assert air_kpa(height_m + 100) < air_kpa(height_m)
