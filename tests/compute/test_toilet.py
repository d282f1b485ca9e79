"""The toilet, by hand."""

from generator.compute import compute

from .vans import Fit, van


def toilet(*traits: str, **parameters: str) -> Fit:
    return Fit(slot="toilet", parameters={"cassette": "18 L", "flush": "0.5 L", **parameters}, traits=traits)


def test_flushes_of_a_full_tank_are_whole_and_rounded_down() -> None:
    found = compute(van(toilet("toilet-cassette", "toilet-own-flush", flush_tank="15.4 L"))).numbers
    assert found["flushes"].shown == "30 flushes"


def test_days_of_a_cassette() -> None:
    """Two persons: 2 x (4 x 0.5 + 1.5) = 7 L a day, 18 L last 2.57 days."""
    found = compute(van(toilet("toilet-cassette"), berths=2)).numbers
    assert found["cassette-days"].shown == "2.5 days"
    assert compute(van(toilet("toilet-cassette"), berths=4)).numbers["cassette-days"].shown == "1 day"


def test_habits_can_be_set() -> None:
    """Two persons: 2 x (2 x 0.5 + 1.25) = 4.5 L a day, 18 L last 4 days."""
    habits = {"toilet-flushes": "2 flushes", "toilet-body": "1.25 L"}
    found = compute(van(toilet("toilet-cassette"), berths=2, assume=habits)).numbers["cassette-days"]
    assert found.shown == "4 days"
    assert {each.shown for each in found.inputs if each.name.startswith("Flushes")} == {"2 flushes"}
