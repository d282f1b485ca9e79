"""Minutes of the mover, by hand after Peukert."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import compute
from generator.compute.mover import discharge_time
from generator.units import Quantity

from .vans import Fit, magnitude, van


def minutes(trait: str, **assume: str) -> float:
    battery = Fit(
        slot="battery",
        parameters={"capacity": "100 Ah", "voltage": "12 V", "usable_share": "50 percent"},
        traits=(trait,),
    )
    mover = Fit(slot="mover", parameters={"current": "50 A"})
    return magnitude(compute(van(battery, mover, assume=assume)), "mover-minutes", "min")


def test_a_lithium_battery_gives_all_it_holds() -> None:
    """Half of 100 Ah at 50 A: one hour."""
    assert minutes("battery-lithium") == pytest.approx(60)


def test_a_lead_acid_battery_gives_less() -> None:
    """With k = ln 4 / ln 3.2 = 1.1919; 20 h x (100 / 1000) ** k x 0.5 = 38.57 min."""
    assert minutes("battery-lead-acid", **{"five-hour-share": "80 percent"}) == pytest.approx(38.57, abs=0.01)


def test_a_battery_that_loses_nothing_in_five_hours_counts_like_lithium() -> None:
    assert minutes("battery-lead-acid", **{"five-hour-share": "100 percent"}) == pytest.approx(60)


@given(st.floats(1, 200), st.floats(1, 1.5))
def test_no_current_gets_more_out_than_the_label_says(amperes: float, k: float) -> None:
    time = discharge_time(Quantity(100.0, "Ah"), Quantity(amperes, "A"), k).value
    assert float((time * Quantity(amperes, "A")).to("Ah").magnitude) <= 100.0 * (1 + 1e-9)
