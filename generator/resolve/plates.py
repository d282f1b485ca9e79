"""Facts from plates and measurements: masses, body, wheels, berths, axles; and which fields a van must have.

What equipment brings is left to ``equipment``.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from generator.errors import nearest
from generator.model.sourced import UNKNOWN, Fact, Given, Mass, Origin, Unknown
from generator.model.specs import AsBuilt, Spec
from generator.resolve.faults import Faults
from generator.resolve.plausible import check_plausible, is_plausible
from generator.units import Quantity

_PLATE = 'read it from the plate on the van, or write "unknown"'
_REQUIRED = {
    "masses.unladen": _PLATE,
    "masses.max_laden": _PLATE,
    "masses.max_axle": _PLATE,
    "masses.max_ball_load": _PLATE,
    "masses.ball_load_unladen": 'the mass on the coupling of the empty van, or "unknown"',
    "body.length": "the body without the drawbar",
    "body.width": "",
    "body.overall_length": "from the front of the coupling to the rear",
    "body.coupling_to_axle": "from the coupling to the axle, or to the middle of two",
    "wheels.tyre": 'as stamped on the tyre, such as "195/70 R14 96N"',
    "wheels.pressure": _PLATE,
    "wheels.nut_torque": _PLATE,
}
_NEEDED = {
    "chassis": "the number on the chassis plate",
    "name": "the model's name, as on the van",
    "market": "such as uk",
    "dealer": "who publishes the manual",
    "berths": "how many may sleep in the van",
}
_INCLUDES_HINT = "payload would be wrong: list the slots whose equipment this mass already holds"


def plate_facts(spec: Spec, faults: Faults) -> dict[str, Fact]:
    """Return the facts of masses, body, wheels, berths and axles; what was measured wins.

    Args:
        spec: The merged build sheet.
        faults: Takes fields that are missing, impossible or against each other.
    """
    facts = dict(_groups(spec, faults))
    for path, hint in _REQUIRED.items():
        if path not in facts:
            faults.absent(f'"{path}" is missing', spec.source, hint, of=[path.split(".")[0]])
    for name, hint in _NEEDED.items():
        if getattr(spec, name) is None:
            faults.absent(f'"{name}" is missing', spec.source, hint, of=[name])
    if spec.berths:
        facts["berths"] = Fact(spec.berths.value, Origin.PLATE, spec.berths.source)
    facts["axles"] = _fact(spec.axles) if spec.axles else Fact(1, Origin.ASSUMPTION, spec.source)
    _check_against_each_other(facts, faults)
    return facts


def _fact(given: Given[Any], origin: Origin = Origin.PLATE) -> Fact:
    return Fact(given.value, origin, given.source)


def _groups(spec: Spec, faults: Faults) -> Iterator[tuple[str, Fact]]:
    """Return each given field of masses, body and wheels, then what was measured on this van."""
    for group in ("masses", "body", "wheels"):
        values = getattr(spec, group)
        for name in values.__slots__:
            given = getattr(values, name)
            if isinstance(given, Given):
                yield f"{group}.{name}", _checked(f"{group}.{name}", _fact(given), faults)
    for name in ("unladen", "ball_load_unladen"):
        measured = getattr(spec.as_built, name, None)
        if measured is not None and measured.value is not UNKNOWN:
            yield f"masses.{name}", _checked(f"masses.{name}", _fact(measured, Origin.MEASURED), faults)


def _checked(path: str, fact: Fact, faults: Faults) -> Fact:
    if not isinstance(fact.value, int | str):
        check_plausible(path, fact.value, fact.source, faults)
    return fact


def _check_against_each_other(facts: Mapping[str, Fact], faults: Faults) -> None:
    """Refuse values that cannot hold together; both must be known."""
    smaller = {
        ("masses.unladen", "masses.max_laden"): "nothing could be loaded",
        ("body.length", "body.overall_length"): "the drawbar belongs to the overall length",
        ("body.coupling_to_axle", "body.overall_length"): "the axle would be behind the van",
        ("body.track", "body.width"): "the wheels would stand outside the body",
    }
    for (less, more), why in smaller.items():
        low, high = _known(facts, less), _known(facts, more)
        if low is not None and high is not None and not low < high:
            faults.add(f"{less} is not below {more}", facts[less].source, why)


def _known(facts: Mapping[str, Fact], path: str) -> Quantity | None:
    """Return a quantity that is there, known and possible."""
    value = facts[path].value if path in facts else UNKNOWN
    return None if isinstance(value, int | str | Unknown) or not is_plausible(path, value) else value


@dataclass(frozen=True, slots=True)
class Stated:
    """The slots whose equipment a stated mass holds, and whether it was measured on this very van."""

    slots: frozenset[str]
    measured: bool


def stated_masses(spec: Spec, faults: Faults) -> tuple[Stated, Stated]:
    """Return what the unladen mass holds, and what the ball load of the unladen van was measured or plated with.

    Args:
        spec: The merged build sheet.
        faults: Takes a missing list, and names of slots that are not filled.
    """
    built, plate = spec.as_built or AsBuilt(), spec.masses.unladen_includes
    if plate is None:
        faults.absent('"masses.unladen_includes" is missing', spec.source, _INCLUDES_HINT, of=["masses"])
    for includes in (plate, built.includes):
        _check_slots(includes or (), spec, faults)
    return (
        _stated(plate or (), built.includes or (), built.unladen),
        # A ball load may have been measured with what the plate lists, and no list of its own.
        _stated(plate or (), plate or () if built.includes is None else built.includes, built.ball_load_unladen),
    )


def _stated(plate: tuple[Given[str], ...], built: tuple[Given[str], ...], value: Mass | None) -> Stated:
    measured = value is not None and value.value is not UNKNOWN
    return Stated(frozenset(slot.value for slot in (built if measured else plate)), measured)


def _check_slots(includes: tuple[Given[str], ...], spec: Spec, faults: Faults) -> None:
    filled = {slot.value for slot, fittings in spec.fitted.items() if fittings}
    taken_out = {slot.value for slot in spec.fitted} - filled
    for slot in includes:
        if slot.value not in filled:
            meant = "" if slot.value in taken_out else nearest(slot.value, filled)
            hint = meant or "leave it out, and state the mass without it"
            message = f'the van has no "{slot.value}" that its mass could include'
            faults.absent(message, slot.source, hint, of=["fitted"])
