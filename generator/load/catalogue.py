"""The catalogue: slots, kinds, rules between them and derived traits.

Whether traits, topics and messages named here exist is checked by ``references``.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pint

from generator import units
from generator.errors import Source, nearest
from generator.load.dates import check_dates
from generator.load.faults import Faults
from generator.load.inline import TRAIT
from generator.load.panels import check_panels
from generator.load.reader import Reader
from generator.load.sources import read_record, read_value, yaml_files
from generator.model.catalogue import Catalogue, DerivedTrait, Kind, Parameter, Rule, Slot
from generator.model.sourced import Given

FOLDER = "content/equipment"
SNAKE = re.compile(r"[a-z][a-z0-9]*(?:_[a-z0-9]+)*")


def read_catalogue(root: Path, faults: Faults) -> Catalogue:
    """Return what could be read of slots, kinds, rules and derived traits."""
    slots = _slots(root, faults)
    kinds = {(kind.slot, kind.id): kind for kind in _kinds(root, slots, faults)}
    return Catalogue(slots=slots, kinds=kinds, rules=_rules(root, faults), derived=_derived(root, faults))


def _slots(root: Path, faults: Faults) -> dict[str, Slot]:
    slots: dict[str, Slot] = read_value(root, root / FOLDER / "slots.yaml", dict[str, Slot], faults) or {}
    for slot in slots.values():
        if not SNAKE.fullmatch(slot.id):
            faults.add(f'"{slot.id}" is no name for a slot', slot.source, 'write snake_case, such as "hot_water"')
    return slots


def _kinds(root: Path, slots: dict[str, Slot], faults: Faults) -> Iterator[Kind]:
    for folder in sorted(path for path in (root / FOLDER).glob("*") if path.is_dir()):
        if folder.name not in slots and slots:
            at = Source(f"{FOLDER}/{folder.name}")
            faults.add(f'unknown slot "{folder.name}"', at, nearest(folder.name, slots))
        for path in yaml_files(folder):
            kind = read_record(root, path, Kind, Reader(faults), id=path.stem, slot=folder.name)
            if kind is not None:
                _check_kind(kind, slots, faults)
                yield kind


def _check_kind(kind: Kind, slots: dict[str, Slot], faults: Faults) -> None:
    """Check what a kind's file says of itself."""
    if not TRAIT.fullmatch(kind.id):
        faults.add(f'"{kind.id}" is no name for a kind', kind.source, 'name the file in kebab-case, "two-gas.yaml"')
    for name in (*kind.points, *kind.parameters, *kind.say, *kind.pictures, *kind.states):
        if not SNAKE.fullmatch(name):
            faults.add(f'"{name}" is no name for a point, parameter or sentence', kind.source, "write snake_case")
    for name in {"kind", "at", "basis", "mass"} & set(kind.parameters):
        faults.add(f'"{name}" is no name for a parameter', kind.parameters[name].source, "a fitting has it already")
    for control in kind.controls.values():
        if control.at.value not in kind.points:
            hint = nearest(control.at.value, kind.points)
            faults.add(f'{kind.id} has no point "{control.at.value}"', control.at.source, hint)
        if sum(map(bool, (control.positions, control.lamp, control.message, control.sound))) != 1:
            faults.add("a control has positions, a lamp, a message or a sound, one of them", control.source)
    check_panels(kind, faults)
    for parameter in kind.parameters.values():
        _check_parameter(parameter, faults)
    check_dates(kind.dates, faults)
    for slot in kind.also_fills:
        if slots and slot.value not in slots:
            faults.add(f'unknown slot "{slot.value}"', slot.source, nearest(slot.value, slots))


def _check_parameter(parameter: Parameter, faults: Faults) -> None:
    if parameter.unit is not None and not _is_unit(parameter.unit):
        faults.add(f'"{parameter.unit}" is no unit', parameter.source, "such as kg, L, kW or Ah")
    elif parameter.default is not None:
        for text in parameter.default.value.split(",") if parameter.many else [parameter.default.value]:
            _check_default(parameter, Given(text.strip(), parameter.default.source), faults)
    if sum(map(bool, (parameter.unit, parameter.choices, parameter.count))) > 1:
        faults.add("a parameter has a unit, choices or a count, one of them", parameter.source)


def _check_default(parameter: Parameter, default: Given[str], faults: Faults) -> None:
    if parameter.unit is not None and default.value != "unknown":
        Reader(faults).quantity(default.value, parameter.unit, default.source)
    if parameter.choices and default.value not in parameter.choices:
        faults.add(f'"{default.value}" is no choice', default.source, nearest(default.value, parameter.choices))
    if parameter.count and not default.value.isdecimal():
        faults.add(f'"{default.value}" is not a whole number', default.source)


def _is_unit(text: str) -> bool:
    try:
        units.parse(f"1 {text}", text)
    except (units.UnitError, pint.PintError, ValueError):
        return False
    return True


def _rules(root: Path, faults: Faults) -> tuple[Rule, ...]:
    rules: tuple[Rule, ...] = read_value(root, root / FOLDER / "rules.yaml", tuple[Rule, ...], faults) or ()
    for rule in rules:
        if not rule.need and not rule.exclude:
            faults.add("this rule demands nothing", rule.source, 'give it "need" or "exclude"')
    return rules


def _derived(root: Path, faults: Faults) -> tuple[DerivedTrait, ...]:
    path = root / "content/traits.yaml"
    derived: tuple[DerivedTrait, ...] = read_value(root, path, tuple[DerivedTrait, ...], faults) or ()
    for trait in derived:
        if not TRAIT.fullmatch(trait.id):
            faults.add(f'"{trait.id}" is no name for a trait', trait.source, "write kebab-case")
        if not (trait.any or trait.all or trait.none):
            faults.add(f'"{trait.id}" follows from nothing', trait.source, 'give it "any", "all" or "none"')
    return derived
