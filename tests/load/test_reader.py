from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

import pytest

from generator.errors import Source
from generator.load.faults import Faults
from generator.load.nodes import read_nodes
from generator.load.reader import Reader
from generator.model.sourced import UNKNOWN, Given, Length, Mass
from generator.units import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """A thing with an id."""

    id: str
    mass: Mass | None = None
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One field of every sort."""

    name: str = ""
    given: Given[str] | None = None
    mass: Mass | None = None
    length: Length | None = None
    flag: bool = False
    count: int = 0
    size: float = 0.0
    day: date | None = None
    side: Literal["left", "right"] = "left"
    words: tuple[str, ...] = ()
    things: tuple[Thing, ...] = ()
    by_name: Mapping[str, Thing] | None = None
    said: Mapping[str, Given[str]] | None = None


def read(text: str, wanted: Any = Box) -> tuple[Any, list[str]]:
    faults = Faults()
    node = read_nodes("a.yaml", text, faults)
    assert node is not None
    value = Reader(faults).read(node, wanted)
    return value, [str(fault).replace("\n  hint: ", " | ") for fault in faults.in_order()]


def test_all_sorts_of_fields() -> None:
    box, faults = read(
        "{name: no, given: '010', mass: 1400 kg, length: unknown, flag: yes, count: 12, size: 38.1, day: 2026-11-20,"
        " side: right, words: [a, b], things: [{id: x, mass: 2 kg}], by_name: {y: {}}, said: {k: v}}"
    )
    assert faults == []
    assert box.name == "no"
    assert box.given == Given("010", Source("a.yaml", 1, 19))
    assert box.mass.value == Quantity(1400, "kg") and box.length.value is UNKNOWN
    assert (box.flag, box.count, box.size, box.day, box.side) == (True, 12, 38.1, date(2026, 11, 20), "right")
    assert box.words == ("a", "b")
    assert [thing.id for thing in box.things] == ["x"] and box.by_name["y"].id == "y"
    assert box.said["k"].value == "v"


def test_things_with_an_id_may_be_a_mapping_by_id() -> None:
    box, _ = read("things: {x: {mass: 2 kg}, y: {}}")
    assert [thing.id for thing in box.things] == ["x", "y"]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("nmae: x", 'a.yaml:1:1: error: unknown key "nmae" | did you mean "name"?'),
        ("mass: 1400", 'a.yaml:1:7: error: "1400" has no unit | did you mean "1400 kg"?'),
        ("mass: 5 m", 'a.yaml:1:7: error: "5 m" is of the wrong kind: a quantity in kg is needed | such as "1 kg"'),
        ("mass: heavy", 'a.yaml:1:7: error: "heavy" is not a quantity | write a number and a unit, such as "1 kg"'),
        ("flag: maybe", 'a.yaml:1:7: error: "maybe" is not yes or no'),
        ("count: 1.5", 'a.yaml:1:8: error: "1.5" is not a whole number'),
        ("count: 1_0", 'a.yaml:1:8: error: "1_0" is not a whole number'),
        ("size: 1e9", 'a.yaml:1:7: error: "1e9" is not a number'),
        ("size: nan", 'a.yaml:1:7: error: "nan" is not a number'),
        ("day: 2026-02-30", 'a.yaml:1:6: error: "2026-02-30" is not a day, such as "2026-11-20"'),
        ("side: lefd", 'a.yaml:1:7: error: "lefd" is not known here | did you mean "left"?'),
        ("words: a", "a.yaml:1:8: error: a list belongs here | write [one, two]"),
        ("name: [a]", "a.yaml:1:7: error: a single value belongs here, not a list"),
        ("name: {a: b}", "a.yaml:1:7: error: a single value belongs here, not a mapping"),
        ("name:", "a.yaml:1:6: error: nothing is written here | write a value or delete the key"),
        ("things: [{}]", 'a.yaml:1:10: error: "id" is missing'),
        ("by_name: {y: [z]}", 'a.yaml:1:14: error: a mapping belongs here | write "key: value" lines'),
        ("source: x", 'a.yaml:1:1: error: unknown key "source"'),
    ],
)
def test_what_does_not_fit_is_told_with_its_position(text: str, fault: str) -> None:
    assert read(text)[1] == [fault]


def test_all_faults_of_a_mapping_are_told_together() -> None:
    assert len(read("{nmae: x, mass: 5, count: y, things: [{mass: 6}]}")[1]) == 5


def test_numbers_in_other_scripts_are_no_numbers() -> None:
    """``int`` would read them, and a plate shows none."""
    assert read("count: ٣")[1] == ['a.yaml:1:8: error: "٣" is not a whole number']
