"""Tyres against the plate of the wheels; what is stamped on them is read as tyre makers write it.

Loads and speeds are held to the standards in ``tests/against_published/test_tyres.py``.
"""

import pytest

from generator.compute import compute
from generator.compute.load_index import Service, service
from generator.errors import ComputeError
from generator.model.numbers import Verdict

from .vans import magnitude, market, van


@pytest.mark.parametrize(
    ("stamped", "index", "symbol"),
    [
        ("195/70 R14 96N", 96, "N"),
        ("195/70R14 96 N", 96, "N"),
        ("185 R14C 102/100Q", 102, "Q"),  # fitted singly counts, not side by side
        ("155/70 R 12 C 104/102 N", 104, "N"),
        ("205/75 R16 110R", 110, "R"),
        ("165/70 R13 79T XL", 79, "T"),
        ("235/75R15 109s", 109, "S"),
        ("5.00-10 79M", 79, "M"),
        ("145/80 B10 74N", 74, "N"),
        ("215/70 R15 C 109/107S", 109, "S"),
    ],
)
def test_index_and_letter_are_read_behind_the_rim(stamped: str, index: int, symbol: str) -> None:
    assert service(stamped) == Service(index, symbol)


@pytest.mark.parametrize("stamped", ["195/70 R14", "unknown", "", "14 inch", "195/70 R14 NN", "96N"])
def test_a_size_without_them_is_not_guessed_at(stamped: str) -> None:
    assert service(stamped) is None


def shod(tyre: str, axle: str = "1340 kg", **more: object):
    return compute(van(plates={"wheels.tyre": tyre, "masses.max_axle": axle}, **more))


@pytest.mark.parametrize(
    ("tyre", "shown", "verdict", "warned"),
    [
        ("195/70 R14 104N", "1800 kg", Verdict.WITHIN, 0),  # 900 kg each
        ("195/70 R14 96N", "1420 kg", Verdict.CLOSE, 1),  # 710 kg each; 1340 is over nine tenths
        ("195/70 R14 94N", "1340 kg", Verdict.CLOSE, 1),  # 670 kg each: just enough
    ],
)
def test_tyres_are_set_against_the_plate_of_the_axle(tyre: str, shown: str, verdict: Verdict, warned: int) -> None:
    found = shod(tyre)
    assert (found.numbers["tyre-load"].shown, found.numbers["tyre-load"].verdict) == (shown, verdict)
    assert len(found.warnings) == warned


def test_tyres_that_are_too_weak_are_refused() -> None:
    """93 carries 650 kg: 1300 kg for 1340."""
    with pytest.raises(ComputeError, match="the tyres carry 1300 kg together, less than the 1340 kg"):
        shod("195/70 R14 93N")


def test_two_axles_have_four_tyres() -> None:
    assert magnitude(shod("195/70 R14 88N", axles=2, traits=("twin-axle",)), "tyre-load", "kg") == 4 * 560


def test_without_an_index_the_number_says_what_to_read() -> None:
    found = shod("195/70 R14")
    for id in ("tyre-load", "tyre-speed"):
        assert found.numbers[id].missing == ("the load index and the speed letter off the side of the tyre",)
    beyond = shod("195/70 R14 59Z").numbers
    assert beyond["tyre-load"].missing == ("the load for load index 59 off a table of the tyre trade",)
    assert beyond["tyre-speed"].missing == ("the speed for speed letter Z off a table of the tyre trade",)


def test_an_unknown_axle_leaves_the_load_without_a_verdict() -> None:
    found = shod("195/70 R14 96N", "unknown").numbers["tyre-load"]
    assert (found.shown, found.verdict) == ("1420 kg", None)


def test_tyres_too_weak_for_the_full_van_are_refused_whatever_the_axle_may_carry() -> None:
    """1400 kg less 100 kg on the towball are 1300 kg on the wheels; 92 carries 630 kg, 94 carries 670 kg."""
    with pytest.raises(ComputeError, match="1260 kg together, less than the 1300 kg that the wheels of the full van"):
        shod("195/70 R14 92N", "unknown")
    assert not shod("195/70 R14 94N", "unknown").warnings


@pytest.mark.parametrize(("unit", "shown"), [("km/h", "140 km/h"), ("mph", "140 km/h (86 mph)")])
def test_the_speed_stands_in_the_unit_of_the_market_rounded_down(unit: str, shown: str) -> None:
    """140 km/h are 86.99 mph (a mile is 1.609344 km by definition)."""
    found = compute(van(plates={"wheels.tyre": "195/70 R14 104N"}, on=market(speed_unit=unit)))
    assert found.numbers["tyre-speed"].shown == shown
