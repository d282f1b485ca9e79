"""A chassis merged over the models it is based on.

Whether the result makes sense is left to the other modules of this stage.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields, replace
from typing import TypeVar

from generator.errors import Fault, SpecError, nearest
from generator.model.sourced import Given
from generator.model.specs import ANY, CircuitEntry, Fitting, PlaceEntry, Spec
from generator.resolve.faults import Faults

LONGEST_CHAIN = 4  # models a chassis may be based on, one on another

_D = TypeVar("_D")


def chain(spec: Spec, models: Mapping[str, Spec], faults: Faults) -> list[Spec]:
    """Return ``spec`` and the models it is based on, nearest first, as far as there are any.

    Raises:
        SpecError: a model is based on itself, or the chain is too long.
    """
    result, names = [spec], list[str]()
    while result[-1].based_on is not None:
        name, at = result[-1].based_on.value, result[-1].based_on.source
        if name in names:
            raise SpecError(Fault(f'model "{name}" is based on itself', at, " -> ".join([*names, name])))
        if name not in models:
            hint = nearest(name, models)
            faults.absent(f'unknown model "{name}"', at, hint, name=name, by=f"van_specs/models/{name}.")
            faults.lose([ANY])
            break
        if len(names) == LONGEST_CHAIN:
            raise SpecError(Fault(f"more than {LONGEST_CHAIN} models are based on one another", at))
        names.append(name)
        result.append(models[name])
    return result


def merge(spec: Spec, models: Mapping[str, Spec], faults: Faults) -> Spec:
    """Return the build sheet with everything it takes from its models.

    Args:
        spec: The build sheet of a chassis.
        models: All models by id.
        faults: Takes models and places that do not exist, and what is lost of the sheets.

    Raises:
        SpecError: the models it is based on cannot be followed.
    """
    sheets = chain(spec, models, faults)
    faults.lose(field for sheet in sheets for field in sheet.spoilt)
    return _merge_all(sheets, faults)


def merged_where(spec: Spec, models: Mapping[str, Spec], gives: Callable[[Spec], bool]) -> Spec:
    """Return the nearest sheet of ``spec`` and its models that ``gives`` something, merged over its own models.

    Its faults are those of ``merge``, which has told them.
    """
    sheets = chain(spec, models, Faults())
    nearest_first = [number for number, sheet in enumerate(sheets) if gives(sheet)]
    return _merge_all(sheets[nearest_first[0] if nearest_first else 0 :], Faults())


def _merge_all(sheets: list[Spec], faults: Faults) -> Spec:
    """Return sheets, nearest first, merged into one."""
    first = sheets[-1]
    merged = replace(first, places=tuple(_places((), first.places, faults)))
    for sheet in sheets[-2::-1]:
        merged = _merge_two(merged, sheet, faults)
    return merged


def _merge_two(base: Spec, over: Spec, faults: Faults) -> Spec:
    return replace(
        _over(base, over),
        source=over.source,
        masses=_over(base.masses, over.masses),
        body=_over(base.body, over.body),
        wheels=_over(base.wheels, over.wheels),
        places=tuple(_places(base.places, over.places, faults)),
        fitted=_fitted(base.fitted, over.fitted),
        circuits=_circuits(base.circuits, over.circuits),
        assume={**base.assume, **over.assume},
        pictures={**base.pictures, **over.pictures},
    )


def _over(base: _D, over: _D) -> _D:
    """Return ``base`` with each field that ``over`` gives."""
    given = {field.name: getattr(over, field.name) for field in fields(over)}  # type: ignore[arg-type]
    return replace(base, **{name: value for name, value in given.items() if value is not None})  # type: ignore[type-var]


def _places(base: Iterable[PlaceEntry], over: Iterable[PlaceEntry], faults: Faults) -> list[PlaceEntry]:
    """Return the places in walking order: changed, removed, added at the end or after another one."""
    places = {place.code.value: place for place in base}
    for entry in over:
        code = entry.code.value
        if not entry.remove:
            places[code] = _over(places[code], entry) if code in places else entry
        elif places.pop(code, None) is None:
            message = f'there is no place "{code}" to remove'
            faults.absent(message, entry.code.source, nearest(code, places), of=["places"])
    moves = {entry.code.value: entry.after for entry in over if entry.after and not entry.remove}
    return [places[code] for code in _moved(list(places), moves, faults)]


def _moved(order: list[str], moves: dict[str, Given[str]], faults: Faults) -> list[str]:
    """Return the codes with each one to be moved behind the code it comes after.

    A place that others come after is moved before them; of several after one place, the first written comes first.
    """
    while moves:
        ready = [code for code, after in moves.items() if after.value not in moves]
        code = ready[-1] if ready else next(iter(moves))
        after = moves.pop(code)
        if not ready or after.value not in order:
            why = f'there is no place "{after.value}"' if ready else "places come after one another in a circle"
            faults.absent(
                why, after.source, nearest(after.value, [name for name in order if name != code]), of=["places"]
            )
            continue
        order.remove(code)
        order.insert(order.index(after.value) + 1, code)
    return order


_Fitted = Mapping[Given[str], tuple[Fitting, ...]]


def _fitted(base: _Fitted, over: _Fitted) -> _Fitted:
    """Return equipment by slot; a slot keeps the position where it was last written."""
    slots = {slot.value: (slot, fittings) for slot, fittings in base.items()}
    for slot, fittings in over.items():
        known = slots[slot.value][1] if slot.value in slots else ()
        slots[slot.value] = (slot, tuple(_fitting(fitting, known) for fitting in fittings))
    return dict(slots.values())


def _fitting(over: Fitting, known: tuple[Fitting, ...]) -> Fitting:
    """Return a fitting over the model's of the same kind, or over its only one where no kind is given."""
    if over.kind is None:
        base = known[0] if len(known) == 1 else None
    else:
        base = next((fitting for fitting in known if fitting.kind and fitting.kind.value == over.kind.value), None)
    if base is None:
        return over
    return Fitting(
        kind=over.kind or base.kind,
        at={**base.at, **over.at},
        parameters={**base.parameters, **over.parameters},
        source=over.source,
    )


def _circuits(base: Iterable[CircuitEntry], over: Iterable[CircuitEntry]) -> tuple[CircuitEntry, ...]:
    by_name = {circuit.name.value: circuit for circuit in base}
    return tuple({**by_name, **{circuit.name.value: circuit for circuit in over}}.values())
