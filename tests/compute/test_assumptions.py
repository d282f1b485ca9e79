"""Assumptions: what a build sheet may set, and what it is told when it sets something else."""

import pytest

from generator.compute import compute
from generator.errors import Level, Source, SpecError
from generator.model.sourced import Origin

from .vans import SPEC, Fit, magnitude, van

WATER = Fit(slot="water_supply", parameters={"volume": "90 L", "usable_share": "100 percent"}, traits=("water",))


def test_a_build_sheet_sets_an_assumption_and_the_working_says_so() -> None:
    found = compute(van(WATER, assume={"water-use": "9 L"}, berths=2))
    assert magnitude(found, "water-days", "day") == pytest.approx(5)
    read = {each.name: each for each in found.numbers["water-days"].inputs}
    own = read["Water for each person, each day"]
    assert (own.shown, own.origin, own.where) == ("9 L", Origin.ASSUMPTION, "set for this van")


def test_every_wrong_assumption_is_told_at_its_position_at_once() -> None:
    wrong = {"water-uses": "9 L", "water-use": "9 kg", "cold-water": "90 degC", "sanitiser-strength": "40"}
    with pytest.raises(SpecError) as raised:
        compute(van(WATER, assume=wrong))
    told = [(fault.message, fault.hint) for fault in raised.value.faults]
    assert told == [
        ('unknown assumption "water-uses"', 'did you mean "water-use"?'),
        ('assumption water-use: "9 kg" is of the wrong kind: a quantity in L is needed', 'such as "1 L"'),
        ('assumption cold-water: "90 degC" cannot be', "write 0 to 40 degC"),
        ('assumption sanitiser-strength: "40" has no unit', 'did you mean "40 g/L"?'),
    ]
    assert {fault.source for fault in raised.value.faults} == {Source(SPEC, 40)}


def test_an_assumption_that_no_number_of_the_van_uses_is_a_warning() -> None:
    found = compute(van(assume={"gas-hours-oven": "2 h"}))
    assert [(fault.message, fault.level) for fault in found.warnings] == [
        ("no number of this van uses the assumption gas-hours-oven", Level.WARNING)
    ]
