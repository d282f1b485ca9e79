"""Water, waste and toilet, against worked examples."""

import pytest

from generator.compute import compute

from .vans import Fit, magnitude, van


def supply(volume: str, share: str = "100 percent") -> Fit:
    return Fit(slot="water_supply", parameters={"volume": volume, "usable_share": share}, traits=("water",))


def test_what_can_be_drawn_is_rounded_down() -> None:
    assert compute(van(supply("65 L", "90 percent"))).numbers["water-usable"].shown == "58 L"


def test_days_of_a_worked_example() -> None:
    """100 L, two persons at 15 L a day: 3.333 days (computed; 15 L is common practice, no source)."""
    found = compute(van(supply("100 L"), berths=2, assume={"water-use": "15 L"}))
    assert magnitude(found, "water-days", "day") == pytest.approx(3.333, abs=0.001)
    assert found.numbers["water-days"].shown == "3 days"


@pytest.mark.parametrize(
    ("tank", "strength", "millilitres", "shown"),
    [("100 L", "50 g/L", 100.0, "100 mL"), ("60 L", "42 g/L", 71.43, "72 mL"), ("100 L", "30 g/L", 166.67, "167 mL")],
)
def test_dose_of_worked_examples(tank: str, strength: str, millilitres: float, shown: str) -> None:
    """C1 V1 = C2 V2 for 50 mg/L of free chlorine (computed; BS 8558 and EN 806-4, from memory)."""
    found = compute(van(supply(tank), assume={"sanitiser-strength": strength}))
    assert magnitude(found, "sanitising-dose", "mL") == pytest.approx(millilitres, abs=0.01)
    assert found.numbers["sanitising-dose"].shown == f"{shown} if its label says {strength} of available chlorine"
    assert "read its label" in found.numbers["sanitising-dose"].sentence


def test_tanks_are_shown_rounded_down() -> None:
    waste = Fit(slot="waste", parameters={"volume": "38 L"})
    toilet = Fit(
        slot="toilet",
        parameters={"cassette": "17.8 L", "flush_tank": "15 L", "flush": "0.4 L"},
        traits=("toilet-cassette", "toilet-own-flush"),
    )
    found = compute(van(waste, toilet)).numbers
    assert [found[id].shown for id in ("waste-volume", "cassette-volume", "flush-tank-volume")] == [
        "38 L",
        "17 L",
        "15 L",
    ]


def test_an_unknown_tank_leaves_days_and_dose_unknown() -> None:
    found = compute(van(supply("unknown"))).numbers
    read = "Not known: read the volume of the water supply off its rating plate"
    assert {found[id].shown for id in ("water-usable", "water-days", "sanitising-dose")} == {read}


def test_waste_of_one_fill_and_whether_it_fits() -> None:
    """90 % of 90 L are 81 L."""
    for volume, said in (
        ("90 L", "The waste holds 90 L: empty it each time you fill fresh water."),
        ("40 L", "The waste holds 40 L: it is full when 49 % of the fresh water is used."),
    ):
        waste = Fit(slot="waste", parameters={"volume": volume})
        found = compute(van(supply("100 L", "90 percent"), waste)).numbers["waste-per-fill"]
        assert (found.shown, found.sentence) == ("81 L", said)


def test_everything_that_holds_water_is_drained() -> None:
    tanks = (
        Fit(slot="hot_water", parameters={"volume": "10 L"}),
        Fit(slot="toilet", parameters={"flush_tank": "15 L"}),
    )
    assert compute(van(supply("40.5 L"), *tanks)).numbers["drain-litres"].shown == "66 L"
    assert compute(van(supply("40 L"))).numbers["drain-litres"].shown == "40 L"
    unknown = Fit(slot="hot_water", parameters={"volume": "unknown"})
    shown = compute(van(supply("40 L"), unknown)).numbers["drain-litres"].shown
    assert shown == "Not known: read the volume of the hot water off its rating plate"
