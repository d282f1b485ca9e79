"""Battery, against the definition of energy."""

from dataclasses import replace

import pytest

from generator.compute import compute

from .vans import Fit, magnitude, van


def battery(capacity: str = "100 Ah", voltage: str = "12 V", share: str = "50 percent", **more: str) -> Fit:
    parameters = {"capacity": capacity, "voltage": voltage, "usable_share": share, **more}
    # With a panel, which counts the lamps.
    return Fit(slot="battery", parameters=parameters, traits=("electrics", "panel"))


def load(slot: str, daily: str) -> Fit:
    return Fit(slot=slot, parameters={"daily_12v": daily})


@pytest.mark.parametrize(
    ("capacity", "voltage", "share", "usable_wh"),
    [
        ("100 Ah", "12 V", "50 percent", 600),
        ("200 Ah", "12.8 V", "80 percent", 2048),
        ("95 Ah", "12 V", "50 percent", 570),
    ],
)
def test_usable_energy(capacity: str, voltage: str, share: str, usable_wh: float) -> None:
    found = compute(van(battery(capacity, voltage, share)))
    assert magnitude(found, "battery-usable", "Wh") == pytest.approx(usable_wh)
    assert found.numbers["battery-usable"].shown == f"{usable_wh} Wh"


@pytest.mark.parametrize(("share", "hours"), [("50 percent", 12.5), ("80 percent", 20.0)])
def test_a_constant_load_runs_for_the_hours_of_a_worked_example(share: str, hours: float) -> None:
    """100 Ah at 4 A: 12.5 h at half depth, 20 h at four fifths (computed). 4 A at 12 V is 1152 Wh a day."""
    found = compute(van(battery(share=share), load("radio", "1152 Wh")))
    assert magnitude(found, "battery-days", "hour") == pytest.approx(hours)


@pytest.mark.parametrize(
    ("daily", "shown"),
    [
        ("100 Wh", "6 days"),
        ("241 Wh", "2 days"),  # 2.49
        ("240 Wh", "2.5 days"),
        ("600 Wh", "1 day"),
        ("700 Wh", "half a day"),
        ("1300 Wh", "less than half a day"),
    ],
)
def test_days_are_rounded_down_to_half_days(daily: str, shown: str) -> None:
    assert compute(van(battery(), load("radio", daily))).numbers["battery-days"].shown == shown


def test_all_loads_count_and_one_unknown_leaves_the_days_unknown() -> None:
    loads = (load("radio", "50 Wh"), load("taps", "50 Wh"), load("fridge", "0 Wh"))
    assert compute(van(battery(), *loads)).numbers["battery-days"].shown == "6 days"
    found = compute(van(battery(), *loads[:2], load("fridge", "unknown"))).numbers["battery-days"]
    assert found.shown == "Not known: read the daily 12v of the fridge off its rating plate"


def test_without_any_load_there_are_no_days() -> None:
    assert compute(van(battery())).numbers["battery-days"].value is None


def test_the_panel_is_what_its_label_says() -> None:
    assert compute(van(Fit(slot="solar", parameters={"panel": "150 W"}))).numbers["solar-panel"].shown == "150 W"


def test_loads_stand_with_the_largest_first_and_add_up() -> None:
    found = compute(van(battery(), load("radio", "30 Wh"), load("fridge", "480.5 Wh"), load("taps", "unknown")))
    assert found.tables["daily-12v-loads"].rows == (
        ("Taps", "Not known", "Read the daily 12v of the taps off its rating plate."),
        ("Fridge", "481 Wh", "40.1 Ah"),
        ("Radio", "30 Wh", "2.5 Ah"),
    )
    assert found.numbers["daily-12v"].value is None
    assert compute(van(battery(), load("radio", "30.2 Wh"))).numbers["daily-12v"].shown == "31 Wh"


def test_lamps_are_assumed_where_no_panel_counts_them() -> None:
    """170 Wh of 600 Wh are 3.53 days; without lamps it would be four."""
    bare = replace(battery(), traits=("electrics",))
    found = compute(van(bare, load("radio", "150 Wh")))
    assert found.tables["daily-12v-loads"].rows[-1] == ("Lamps", "20 Wh", "1.7 Ah")
    assert (found.numbers["daily-12v"].shown, found.numbers["battery-days"].shown) == ("170 Wh", "3.5 days")
    assert compute(van(bare)).numbers["daily-12v"].value is None
    brighter = compute(van(bare, load("radio", "150 Wh"), assume={"lamps-day": "50 Wh"}))
    assert brighter.numbers["daily-12v"].shown == "200 Wh"
