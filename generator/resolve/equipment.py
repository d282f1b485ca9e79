"""What is fitted: kinds looked up, points put at places.

Their parameters are read by ``parameters``; rules between kinds are held by ``traits``.
"""

from collections.abc import Collection, Iterator, Mapping

from generator.errors import nearest
from generator.model.caravan import Circuit, Equipment
from generator.model.catalogue import Catalogue, Kind, Slot
from generator.model.sourced import Fact, Given, Origin, Unknown
from generator.model.specs import Fitting, Spec
from generator.resolve.faults import KINDS, Faults
from generator.resolve.parameters import read_parameters
from generator.resolve.plausible import check_plausible
from generator.units import Quantity

_FOLDER = "content/equipment"


def read_equipment(spec: Spec, catalogue: Catalogue, faults: Faults) -> tuple[tuple[Equipment, ...], dict[str, Fact]]:
    """Return what is fitted in catalogue order of slots, and its facts by path.

    Args:
        spec: The merged build sheet.
        catalogue: Slots and kinds.
        faults: Takes unknown slots, kinds, points and places, and what is missing.
    """
    fitted = {slot.value: (slot, fittings) for slot, fittings in spec.fitted.items()}
    for given in spec.fitted:
        if given.value not in catalogue.slots:
            _unknown_slot(given, catalogue, faults)
    codes = {place.code.value for place in spec.places}
    equipment: list[Equipment] = []
    facts: dict[str, Fact] = {}
    for slot in catalogue.slots.values():
        for fitting, kind in _kinds(slot, fitted.get(slot.id), catalogue, faults):
            item = _item(slot, kind, fitting, codes, faults)
            equipment.append(item)
            if faults.rest_on(kind.source.file):
                facts.update(read_parameters(item, fitting, faults))
    _check_slots(spec, catalogue, equipment, fitted, faults)
    return tuple(equipment), facts


def _unknown_slot(given: Given[str], catalogue: Catalogue, faults: Faults) -> None:
    hint = nearest(given.value, catalogue.slots)
    faults.absent(f'unknown slot "{given.value}"', given.source, hint, name=given.value, by=f"{_FOLDER}/slots.yaml")
    faults.lose([KINDS])


def _kinds(
    slot: Slot, fitted: tuple[Given[str], tuple[Fitting, ...]] | None, catalogue: Catalogue, faults: Faults
) -> Iterator[tuple[Fitting, Kind]]:
    """Return the fittings of a slot with their kinds."""
    name, fittings = fitted or (None, ())
    if name is not None and len(fittings) > 1 and not slot.many:
        faults.add(f'"{slot.id}" takes one kind, {len(fittings)} are given', name.source)
    seen: set[str] = set()
    for fitting in fittings:
        kind = _kind(slot, fitting, catalogue, faults)
        if kind is not None and kind.id in seen:
            faults.add(f'"{kind.id}" is given twice', fitting.source)
        elif kind is not None:
            seen.add(kind.id)
            yield fitting, kind


def _kind(slot: Slot, fitting: Fitting, catalogue: Catalogue, faults: Faults) -> Kind | None:
    known = [kind for slot_id, kind in catalogue.kinds if slot_id == slot.id]
    if fitting.kind is None:
        faults.absent(f'{slot.id} has no "kind"', fitting.source, nearest("", known), of=["fitted"])
        faults.lose([KINDS])
        return None
    kind = catalogue.kinds.get((slot.id, fitting.kind.value))
    if kind is None:
        name = fitting.kind.value
        message, file = f'unknown {slot.id} "{name}"', f"{_FOLDER}/{slot.id}/{name}."
        faults.absent(message, fitting.kind.source, nearest(name, known), name=name, by=file)
        faults.lose([KINDS])
    return kind


def _item(slot: Slot, kind: Kind, fitting: Fitting, codes: Collection[str], faults: Faults) -> Equipment:
    at = {point: code for point, code in fitting.at.items() if code.value != "none"}
    for point, code in at.items():
        if point not in kind.points:
            hint = nearest(point, kind.points)
            faults.absent(f'{kind.id} has no point "{point}"', code.source, hint, name=point, by=kind.source.file)
        if code.value not in codes:
            _no_place(code, codes, faults)
    for point, need in kind.points.items():
        if need == "required" and point not in at:
            message = f'{slot.id} does not say where its "{point}" is'
            faults.absent(message, fitting.source, f"at: {{{point}: A1}}", of=["fitted"])
    key = f"{slot.id}.{kind.id}" if slot.many else slot.id
    return Equipment(
        slot=slot, kind=kind, key=key, at={point: code.value for point, code in at.items()}, source=fitting.source
    )


def _check_slots(
    spec: Spec,
    catalogue: Catalogue,
    equipment: list[Equipment],
    fitted: Mapping[str, tuple[Given[str], tuple[Fitting, ...]]],
    faults: Faults,
) -> None:
    """Check that required slots are filled, and none by two kinds at once."""
    also = {slot.value: item for item in equipment for slot in item.kind.also_fills}
    for slot in catalogue.slots.values():
        name, fittings = fitted.get(slot.id, (None, ()))
        if slot.required and not fittings and slot.id not in also:
            at = name.source if name else spec.source
            message, hint = f'nothing is fitted as "{slot.id}"', f"every van has one: {slot.name}"
            faults.absent(message, at, hint, of=["fitted", KINDS], name=slot.id, by=_FOLDER)
        if name is not None and fittings and slot.id in also:
            by = also[slot.id].kind.id
            faults.add(f'"{slot.id}" is filled already', name.source, f'"{by}" fills it too; leave one of them out')


def _no_place(code: Given[str], codes: Collection[str], faults: Faults) -> None:
    hint = nearest(code.value, codes) or f"the van has: {', '.join(sorted(codes))}"
    faults.absent(f'there is no place "{code.value}"', code.source, hint, of=["places"])


def read_circuits(spec: Spec, catalogue: Catalogue, faults: Faults) -> tuple[Circuit, ...]:
    """Return the fused circuits of a merged build sheet."""
    codes = {place.code.value for place in spec.places}
    circuits = []
    for entry in spec.circuits:
        if entry.at.value not in codes:
            _no_place(entry.at, codes, faults)
        check_plausible("fuse", entry.fuse.value, entry.fuse.source, faults)
        fuse = Fact(entry.fuse.value, Origin.PLATE, entry.fuse.source)
        if entry.feeds is not None and entry.feeds.value not in catalogue.slots:
            _unknown_slot(entry.feeds, catalogue, faults)
        circuits.append(
            Circuit(
                name=entry.name.value,
                fuse=fuse,
                at=entry.at.value,
                supply=entry.supply,
                run=_cable("run", entry.run, faults),
                section=_cable("section", entry.section, faults),
                feeds=entry.feeds.value if entry.feeds else "",
            )
        )
    return tuple(circuits)


def _cable(name: str, given: Given[Quantity | Unknown] | None, faults: Faults) -> Fact | None:
    """Return length or section of a circuit's cable, where the build sheet gives it."""
    if given is None:
        return None
    check_plausible(name, given.value, given.source, faults)
    return Fact(given.value, Origin.PLATE, given.source)
