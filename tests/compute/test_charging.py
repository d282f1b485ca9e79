"""Charging: current x time, with the share that a battery keeps."""

import pytest

from generator.compute import compute

from .vans import Fit, van


def battery(trait: str, capacity: str = "100 Ah", share: str = "50 percent") -> Fit:
    parameters = {"capacity": capacity, "voltage": "12 V", "usable_share": share}
    return Fit(slot="battery", parameters=parameters, traits=(trait,))


CHARGER = Fit(slot="charger", parameters={"output": "20 A"}, traits=("mains-charger",))
CAR = Fit(slot="dcdc", parameters={"output": "40 A"})


def test_mains_and_car_fill_it_by_their_current() -> None:
    """50 Ah over 20 A x 0.8 are 3.125 h, over 40 A x 0.8 half of it: rounded up."""
    found = compute(van(battery("battery-lead-acid"), CHARGER, CAR)).numbers
    assert (found["recharge-mains"].shown, found["recharge-car"].shown) == ("4 h", "2 h")
    assert "slows down near the end" in found["recharge-mains"].sentence


def test_a_lithium_battery_keeps_more_and_does_not_slow_down() -> None:
    """160 Ah over 40 A x 0.95 are 4.21 h."""
    found = compute(van(battery("battery-lithium", "200 Ah", "80 percent"), CAR)).numbers["recharge-car"]
    assert (found.shown, found.sentence) == ("5 h", "")


def test_an_unknown_current_is_read_off_the_charger() -> None:
    charger = Fit(slot="charger", parameters={"output": "unknown"}, traits=("mains-charger",))
    found = compute(van(battery("battery-lead-acid"), charger)).numbers["recharge-mains"]
    assert found.shown == "Not known: read the output of the charger off its rating plate"


@pytest.mark.parametrize(("trait", "has"), [("battery-lead-acid", True), ("battery-lithium", False)])
def test_volts_at_rest_are_told_of_lead_acid_only(trait: str, has: bool) -> None:
    assert ("rest-volts" in compute(van(battery(trait))).tables) is has
