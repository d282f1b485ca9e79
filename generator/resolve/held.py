"""What a stated mass holds that this van has otherwise: a chassis may fit another kind than the model was weighed with.

What follows for payload and ball load is left to ``compute``.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from generator.model.caravan import Equipment, Held, Place
from generator.model.content import Workspace
from generator.model.sourced import Fact
from generator.model.specs import Fitting, Spec
from generator.resolve.equipment import read_equipment
from generator.resolve.faults import Faults
from generator.resolve.merge import merged_where
from generator.resolve.places import read_places
from generator.resolve.plates import Stated

_WEIGHING = ("mass", "bottle", "bottle_tare", "bottles")  # parameters; gas weighs what its full bottles do


@dataclass(frozen=True, slots=True)
class Included:
    """Keys of fitted equipment that a stated mass leaves out, and what it holds in place of other equipment."""

    without: tuple[str, ...]
    held: tuple[Held, ...]


def included(
    spec: Spec,
    workspace: Workspace,
    merged: Spec,
    equipment: tuple[Equipment, ...],
    stated: Stated,
    gives: Callable[[Spec], bool],
) -> Included:
    """Return what a stated mass holds of what is fitted.

    Args:
        spec: The build sheet of a chassis.
        workspace: Its models and the catalogue.
        merged: The build sheet over its models.
        equipment: What is fitted.
        stated: The slots that the mass holds.
        gives: Whether a sheet states the mass itself; what was fitted there is what it holds.
    """
    without = tuple(item.key for item in equipment if item.slot.id not in stated.slots)
    if stated.measured:  # on this very van, with what is fitted
        return Included(without, ())
    base = merged_where(spec, workspace.models, gives)
    changed = frozenset(_changed(merged, base, stated.slots))
    if not changed:
        return Included(without, ())
    found = _read(base, changed, workspace)
    added = tuple(item.key for item in equipment if item.slot.many and _is_new(item, found, changed))
    return Included((*without, *added), tuple(held for key, held in found.items() if _still_there(key, equipment)))


def _changed(merged: Spec, base: Spec, slots: frozenset[str]) -> Iterator[str]:
    """Yield each slot of ``slots`` that weighs otherwise, or elsewhere, than in the sheet that states the mass."""
    before = {slot.value: fittings for slot, fittings in base.fitted.items()}
    for slot, fittings in merged.fitted.items():
        known = before.get(slot.value)
        if slot.value in slots and known and known is not fittings and _weight(known) != _weight(fittings):
            yield slot.value


def _weight(fittings: tuple[Fitting, ...]) -> list[object]:
    """Return what decides the mass of a slot and where it sits; other parameters change neither."""
    return [
        (
            fitting.kind and fitting.kind.value,
            {point: code.value for point, code in fitting.at.items()},
            {name: given.value for name, given in fitting.parameters.items() if name in _WEIGHING},
        )
        for fitting in fittings
    ]


def _read(base: Spec, changed: frozenset[str], workspace: Workspace) -> dict[str, Held]:
    """Return by key what the base has in the ``changed`` slots; its faults are not those of this van."""
    sheet = replace(base, fitted={slot: fittings for slot, fittings in base.fitted.items() if slot.value in changed})
    places = read_places(sheet, Faults())
    equipment, facts = read_equipment(sheet, workspace.catalogue, Faults())
    return {item.key: _held(item, facts, places) for item in equipment}


def _held(item: Equipment, facts: Mapping[str, Fact], places: tuple[Place, ...]) -> Held:
    codes = set(item.at.values())
    return Held(
        was=item,
        facts={path: fact for path, fact in facts.items() if path.startswith(f"{item.key}.")},
        behind={place.code: place.position[0] for place in places if place.code in codes and place.position},
    )


def _is_new(item: Equipment, found: Mapping[str, Held], changed: frozenset[str]) -> bool:
    """Return whether a slot that takes many has ``item`` beside what the stated mass holds."""
    return item.slot.id in changed and item.key not in found


def _still_there(key: str, equipment: tuple[Equipment, ...]) -> bool:
    """Return whether something fitted stands in the place of what is held.

    A kind taken out of a slot of many stays in the mass: payload is not raised by a guess.
    """
    return any(item.key == key for item in equipment)
