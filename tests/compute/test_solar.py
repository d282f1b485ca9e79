"""Sun: by month, by market, and with the battery."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import compute
from generator.compute.sun import MONTHS, daily_kwh_m2, monthly_kwh_m2, on_the_ground
from generator.model.numbers import Numbers
from generator.model.sourced import Origin

from .vans import Fit, market, van


def sunny(where: str = "uk", watts: int = 150, daily: str = "200 Wh", **assume: str) -> Numbers:
    battery = Fit(slot="battery", parameters={"capacity": "100 Ah", "voltage": "12 V", "usable_share": "50 percent"})
    panel = Fit(slot="panel", parameters={"daily_12v": "0 Wh"}, traits=("panel",))  # counts the lamps, here none
    solar = Fit(slot="solar", parameters={"panel": f"{watts} W"})
    radio = Fit(slot="radio", parameters={"daily_12v": daily})
    named = {key.replace("_", "-"): text for key, text in assume.items()}
    return compute(van(battery, panel, solar, radio, on=market(where), assume=named))


@pytest.mark.parametrize(
    ("where", "dark", "bright"), [("uk", "December", "June"), ("nz", "June", "December"), ("au", "June", "December")]
)
def test_each_market_has_its_own_winter(where: str, dark: str, bright: str) -> None:
    shown = sunny(where).numbers["solar-day"].shown
    assert f" in {dark}, " in shown and shown.endswith(f" in {bright}")


def test_the_latitude_of_the_market_is_an_assumption_that_can_be_set() -> None:
    where = {each.name: each for each in sunny("nz").numbers["solar-day"].inputs}
    latitude = where["Latitude where the van is used most"]
    assert (latitude.shown, latitude.origin) == ("−41°", Origin.ASSUMPTION)
    own = sunny("nz", latitude="-36.9 deg")
    assert {each.where for each in own.numbers["solar-day"].inputs if "Latitude" in each.name} == {"set for this van"}
    assert own.tables["solar-months"].note.startswith("At 36.9° south, with 200 Wh used each day.")


def test_a_panel_that_gives_what_is_used_keeps_the_battery_up() -> None:
    found = sunny(daily="10 Wh")
    assert found.numbers["battery-days-sun"].shown == "does not run down in December, does not run down in June"
    assert {row[2] for row in found.tables["solar-months"].rows} == {"does not run down"}


def test_a_panel_that_gives_less_stretches_the_battery() -> None:
    """600 Wh over 2000 Wh a day less some 50 Wh: as without sun, half a day at most."""
    found = sunny(daily="2000 Wh")
    assert found.numbers["battery-days-sun"].shown == "less than half a day in December, less than half a day in June"
    assert found.numbers["battery-days"].shown == "less than half a day"


def test_the_table_has_every_month_in_order() -> None:
    assert tuple(row[0] for row in sunny().tables["solar-months"].rows) == MONTHS


def test_beyond_the_polar_circle_the_sun_fills_nothing_in_winter() -> None:
    found = sunny(latitude="75 deg").numbers
    assert found["recharge-sun"].shown.startswith("not at all in ")
    assert found["solar-day"].shown.startswith("0 Wh in ")


@given(st.floats(-90, 90), st.integers(1, 365))
def test_sunlight_is_never_negative_nor_more_than_a_full_day_of_it(latitude: float, day: int) -> None:
    assert 0 <= daily_kwh_m2(latitude, day) <= 24 * 1.367 * 1.033


@given(st.floats(-90, 90), st.floats(0.01, 1), st.floats(0.01, 1))
def test_no_more_comes_through_the_sky_than_arrives(latitude: float, dark: float, bright: float) -> None:
    above = monthly_kwh_m2(latitude)
    for under, over in zip(on_the_ground(above, dark, bright), above, strict=True):
        assert 0 <= under <= over + 1e-12
