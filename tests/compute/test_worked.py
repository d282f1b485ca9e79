"""The sums a reader can follow: reckoned again from their own text, they give the number that is shown."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from random import Random

import pytest
from pint import DimensionalityError

from generator.compute import DECLARED, compute
from generator.compute.worked import Term, least, line, most, power, put, sine, summed, whole
from generator.errors import ComputeError
from generator.load import load
from generator.model.caravan import Caravan
from generator.model.numbers import DataTable, Number, Numbers, Worked, in_line
from generator.model.sourced import Fact
from generator.resolve import resolve
from generator.units import Quantity

from .reckoner import Span, reckoned, value

ROOT = Path(__file__).parents[2]
WORKSPACE = load(ROOT)
VANS = sorted(WORKSPACE.vans)
# Read off a plate, a table or the build sheet: there is nothing to work out.
READ_OFF = {
    *("max-laden", "unbraked-limit", "wheel-nut-torque", "tyre-speed"),
    *("overall-length", "body-width", "overall-height"),
    *("gas-per-bottle", "solar-panel", "mains-voltage", "waste-volume", "cassette-volume", "flush-tank-volume"),
    *("rest-volts", "circuits"),
}
# Shown without a sum where one value is all there is: one tank, one appliance, pressure in the unit of its plate.
SOMETIMES = {"ball-load-empty", "drain-litres", "daily-12v", "tyre-pressure"}
# The sum is the proof of the number, not the number: what a coupling is asked for, the pressure at a temperature. That
# of the tyres is in the unit of the market.
PROVED = {"tow-car-heaviest", "gas-stops-at", "tyre-pressure"}
A_YEAR = 365.0  # stands for a battery that does not run down or never fills
STEPS = re.compile("left over|Air at|over the liquid|Heat in a kilogram")  # on the way to what a row says


@lru_cache(maxsize=6)
def van(name: str) -> Caravan:
    return resolve(WORKSPACE.vans[name], WORKSPACE)


@lru_cache(maxsize=6)
def demo(name: str) -> Numbers:
    return compute(van(name))


def everything(found: Numbers) -> Iterator[Number | DataTable]:
    yield from found.numbers.values()
    yield from found.place_limits.values()
    yield from found.tables.values()


def result_of(worked: Worked) -> Span:
    number, _, unit = worked.result.replace("\u00a0", " ").partition(" ")
    return value(number, unit or None)


def assert_right(found: Numbers) -> None:
    """Every sum comes to what stands behind it, and close enough that this says something."""
    for one in everything(found):
        for worked in one.worked:
            if one.id == "dates":
                continue
            sums, result = reckoned(in_line(worked.formula)), result_of(worked)
            assert sums.low <= result.high and result.low <= sums.high, (one.id, str(worked))
            assert sums.wide <= 0.1 * abs(result.middle) + 0.2, (one.id, str(worked), sums)


def assert_shown(found: Numbers) -> None:
    """One of the sums of a number ends in that number."""
    for number in [*found.numbers.values(), *found.place_limits.values()]:
        if number.worked and number.id not in PROVED:
            assert number.value is not None
            id = "room-here" if number.id.startswith("room-here-") else number.id
            amount = float(number.value.to(DECLARED[id].unit).magnitude)
            ends = [result_of(worked) for worked in number.worked]
            assert amount == A_YEAR or any(end.low <= amount <= end.high for end in ends), (number.id, amount, ends)


# --- the calculator itself --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "comes_to"),
    [
        ("9\u00a0kg × (4\u00a0m \N{MINUS SIGN} 1\u00a0m) ÷ 4\u00a0m", 6.75),
        ("10\u00a0kg × 4.186\u00a0kJ/(kg·K) × 55\u00a0K ÷ (60\u00a0s/min × 1\u00a0kW)", 38.37),
        ("12 \N{MINUS SIGN} 3 \N{MINUS SIGN} 4 × 2", 1),
        ("the least of 5 \N{MINUS SIGN} 1, 9 and (the greatest of 2 and 3)", 3),
        ("2 × 10 to the power of (5 \N{MINUS SIGN} 3)", 200),
        ("100\u00a0cm × sine of 30°", 50),
        ("\N{MINUS SIGN}5\u00a0kg + 50\u00a0%", -4.5),
        ("8 ÷ 4 ÷ 2", 1),
    ],
)
def test_the_calculator_of_this_test(text: str, comes_to: float) -> None:
    assert reckoned(text).middle == pytest.approx(comes_to, rel=2e-3)


@pytest.mark.parametrize("text", ["9 kg ×", "(9 + 1", "9 % 1", "nine", "9 9"])
def test_the_calculator_refuses_what_is_no_sum(text: str) -> None:
    with pytest.raises((ValueError, IndexError)):
        reckoned(text)


# --- terms ------------------------------------------------------------------------------------------------------


def kg(amount: float) -> Term:
    return put(Quantity(amount, "kg"), "kg")


@pytest.mark.parametrize(
    ("term", "text"),
    [
        (kg(5) - (kg(3) - kg(1)), "5 kg \N{MINUS SIGN} (3 kg \N{MINUS SIGN} 1 kg) = 3 kg"),
        (kg(5) + (kg(3) - kg(1)), "5 kg + 3 kg \N{MINUS SIGN} 1 kg = 7 kg"),
        (kg(5) + kg(-3), "5 kg \N{MINUS SIGN} 3 kg = 2 kg"),
        (kg(5) - kg(-3), "5 kg + 3 kg = 8 kg"),
        (whole(2) * (kg(5) + kg(1)), "2 × (5 kg + 1 kg) = 12 kg"),
        ((kg(5) + kg(1)) / (whole(2) * whole(3)), "(5 kg + 1 kg) ÷ (2 × 3) = 1 kg"),
        (kg(8) / (whole(4) / whole(2)), "8 kg ÷ (4 ÷ 2) = 4 kg"),
        (least(kg(5), kg(2) + kg(1)) * whole(2), "(the least of 5 kg and 2 kg + 1 kg) × 2 = 6 kg"),
        (most(kg(5), kg(2), kg(7)), "the greatest of 5 kg, 2 kg and 7 kg = 7 kg"),
        (kg(2) * power(whole(2) / whole(4), whole(3)), "2 kg × (2 ÷ 4) to the power of 3 = 0.25 kg"),
        (kg(2) * sine(put(Quantity(30.0, "deg"), "deg")), "2 kg × sine of 30° = 1 kg"),
        (summed([kg(1), kg(2), kg(-4)]), "1 kg + 2 kg \N{MINUS SIGN} 4 kg = \N{MINUS SIGN}1 kg"),
    ],
)
def test_a_term_writes_itself_down_with_the_brackets_it_needs(term: Term, text: str) -> None:
    worked = line(term, "kg")
    assert str(worked).replace("\u00a0", " ") == text
    assert reckoned(in_line(worked.formula)).middle == pytest.approx(result_of(worked).middle, rel=0.01)


def test_terms_of_another_dimension_do_not_add_and_temperatures_do_not_multiply() -> None:
    warm = put(Quantity(20.0, "degC"), "degC")
    with pytest.raises(DimensionalityError):
        kg(1) + put(Quantity(1.0, "m"), "m")
    with pytest.raises(ValueError, match="temperature"):
        kg(1) * warm
    assert (warm - put(Quantity(5.0, "degC"), "degC")).value == Quantity(15.0, "delta_degC")


# --- vans -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", VANS)
def test_every_sum_of_a_demo_van_is_right(name: str) -> None:
    assert_right(demo(name))
    assert_shown(demo(name))


@pytest.mark.parametrize("name", VANS)
def test_every_number_that_is_worked_out_has_its_sum(name: str) -> None:
    for one in everything(demo(name)):
        if isinstance(one, Number) and one.id not in READ_OFF | SOMETIMES:
            assert bool(one.worked) is (one.value is not None), one.id
        if isinstance(one, DataTable) and one.id not in READ_OFF and one.rows:
            assert one.worked, one.id


def test_what_is_read_off_has_no_sum_in_any_van_and_what_sometimes_has_one_has_it_in_some() -> None:
    summed_up = {one.id for name in VANS for one in everything(demo(name)) if one.worked}
    assert not summed_up & READ_OFF
    assert summed_up >= SOMETIMES | PROVED


AMOUNT = re.compile(r"(?P<number>[+\N{MINUS SIGN}]?\d+(?:\.(?P<decimals>\d+))?) (?P<unit>[^\s,()]+)")


@pytest.mark.parametrize("name", VANS)
def test_what_a_table_says_is_what_its_sums_come_to(name: str) -> None:
    for table in demo(name).tables.values():
        cells = [match for row in table.rows for cell in row for match in AMOUNT.finditer(cell)]
        for worked in table.worked:
            if STEPS.search(worked.label) or table.id == "dates":
                continue
            result, _, unit = worked.result.replace("\u00a0", " ").partition(" ")
            if unit in ("day", "days", "g/day"):  # told in half days and whole days, and as g in a day
                continue
            amount = float(result.replace("\N{MINUS SIGN}", "-"))
            near = [
                match
                for match in cells
                if match["unit"] == unit
                and abs(float(match["number"].replace("\N{MINUS SIGN}", "-")) - amount)
                <= 10.0 ** -len(match["decimals"] or "") + 0.006
            ]
            assert near, (table.id, str(worked))


UNITS = {"kilogram": "g", "meter": "cm", "liter": "mL", "kilowatt": "MJ/h", "watt": "kW", "ampere": "mA"}


def varied(caravan: Caravan, dice: Random) -> Caravan:
    """Return the van with every plate and parameter a little different, some written in another unit.

    What would soon be over a plate changes to the safe side only: this is about sums, not about refusals.
    """

    def fact(path: str, old: Fact) -> Fact:
        if not isinstance(old.value, Quantity) or str(old.value.units) in ("bar", "degree_Celsius", "percent"):
            return old
        up = ("max_laden", "max_axle", "max_ball_load", "regulator_flow", "ventilation", "max_contents")
        low, high = (1.0, 1.05) if path.endswith(up) else (0.97, 1.0) if path.startswith("masses.") else (0.9, 1.02)
        changed = Quantity(round(float(old.value.magnitude) * dice.uniform(low, high), 2), old.value.units)
        other = UNITS.get(str(changed.units))
        # A rate of kilowatts is a rate of megajoules an hour only where gas is burnt; power stays power.
        if other and dice.random() < 0.3 and not path.endswith(("mains_input", "output", "panel")):
            changed = changed.to(other)
        return replace(old, value=changed)

    return replace(caravan, facts={path: fact(path, old) for path, old in caravan.facts.items()})


@pytest.mark.parametrize("name", VANS)
def test_every_sum_of_a_random_van_is_right(name: str) -> None:
    dice = Random(name)
    made = 0
    for _ in range(12):
        try:
            found = compute(varied(van(name), dice))
        except ComputeError:  # over a plate by chance
            continue
        assert_right(found)
        assert_shown(found)
        for number in found.numbers.values():
            assert number.value is None or number.value.is_compatible_with(DECLARED[number.id].unit or "kg")
        made += 1
        if made == 5:
            return
    assert made
