"""Parameters of what is fitted, read by the declaration of its kind: given, by default, or not known.

What is worked out from them is left to ``compute``.
"""

from collections.abc import Iterator

from generator.errors import Source, nearest
from generator.model.caravan import Equipment
from generator.model.catalogue import Parameter
from generator.model.sourced import UNKNOWN, Fact, Given, Origin
from generator.model.specs import Fitting
from generator.resolve.faults import Faults
from generator.resolve.plausible import check_plausible
from generator.units import Quantity, UnitError, parse

_BASES = ("net", "gross")
_OWN = ("basis", "mass")  # what any fitting may give besides the parameters of its kind
_MOST = 99  # of anything that is counted


def read_parameters(item: Equipment, fitting: Fitting, faults: Faults) -> dict[str, Fact]:
    """Return the facts of one piece of equipment by path.

    Args:
        item: The equipment.
        fitting: What the build sheet says of it.
        faults: Takes parameters that are unknown to the kind, missing or of the wrong form.
    """
    declared = item.kind.parameters
    for name, given in fitting.parameters.items():
        if name not in declared and name not in _OWN:
            hint = nearest(name, (*declared, "mass", "at"))
            faults.add(f'{item.kind.id} has no parameter "{name}"', given.source, hint)
    facts: dict[str, Fact] = {}
    for name, parameter in declared.items():
        fact = _read(item, name, parameter, fitting, faults)
        if fact is not None:
            facts[f"{item.key}.{name}"] = fact
    facts.update(_basis(item, fitting, facts, faults))
    facts.update(_mass(item, fitting, faults))
    return facts


def _read(item: Equipment, name: str, parameter: Parameter, fitting: Fitting, faults: Faults) -> Fact | None:
    given = fitting.parameters.get(name)
    if given is not None:
        return _fact(name, parameter, given, Origin.PLATE, faults)
    if parameter.default is not None:
        return _fact(name, parameter, parameter.default, Origin.CATALOGUE, faults)
    if not parameter.optional:
        where = f"read it from {parameter.read_from}" if parameter.read_from else "give it"
        message, hint = f'{item.key} has no "{name}"', f'{where}, or write "unknown"'
        faults.absent(message, fitting.source, hint, of=["fitted"])
    return None


def _fact(name: str, parameter: Parameter, given: Given[str], origin: Origin, faults: Faults) -> Fact | None:
    if given.value == "unknown":
        return Fact(UNKNOWN, origin, given.source)
    if parameter.many:
        texts = [text.strip() for text in given.value.split(",")]
        values = [_value(name, parameter, text, given.source, faults) for text in texts]
        return None if None in values else Fact(", ".join(texts), origin, given.source)
    value = _value(name, parameter, given.value, given.source, faults)
    return None if value is None else Fact(value, origin, given.source)


def _value(name: str, parameter: Parameter, text: str, at: Source, faults: Faults) -> Quantity | int | str | None:
    if parameter.unit is not None:
        return _quantity(name, text, parameter.unit, at, faults)
    if parameter.count:
        if text.isascii() and text.isdecimal() and 1 <= int(text[:6]) <= _MOST:
            return int(text)
        faults.add(f'{name}: "{text[:40]}" is not a whole number from 1 to {_MOST}', at)
        return None
    if parameter.choices and text not in parameter.choices:
        faults.add(f'{name}: "{text[:40]}" is not known', at, nearest(text, parameter.choices))
        return None
    return text


def _quantity(name: str, text: str, unit: str, at: Source, faults: Faults) -> Quantity | None:
    try:
        value = parse(text, unit)
    except UnitError as error:
        faults.add(f"{name}: {error}", at, error.hint)
        return None
    if value.dimensionless and not 0 <= value.to("percent").magnitude <= 100:
        faults.add(f'{name}: "{text}" is no share', at, "between 0 percent and 100 percent")
        return None
    # Energy and power may be none at all; a tank, bottle or plate of nothing is a slip.
    may_be_zero = value.is_compatible_with("W") or value.is_compatible_with("Wh") or not value._is_multiplicative
    if value._is_multiplicative and (value.magnitude < 0 or (value.magnitude == 0 and not may_be_zero)):
        faults.add(f'{name}: "{text}" is not above zero', at)
        return None
    return value


def _basis(item: Equipment, fitting: Fitting, facts: dict[str, Fact], faults: Faults) -> Iterator[tuple[str, Fact]]:
    """Return whether a gas input is net or gross, where the kind has one."""
    declared = {name: parameter for name, parameter in item.kind.parameters.items() if parameter.basis is not None}
    given = fitting.parameters.get("basis")
    if given is not None and not declared:
        faults.add(f'{item.kind.id} has no parameter "basis"', given.source, "it has no gas input")
    elif given is not None and given.value not in _BASES:
        faults.add(f'basis: "{given.value[:40]}" is not known', given.source, nearest(given.value, _BASES))
    elif given is not None:
        yield f"{item.key}.basis", Fact(given.value, Origin.PLATE, given.source)
    else:
        yield from _declared_basis(item, declared, fitting, facts, faults)


def _declared_basis(
    item: Equipment, declared: dict[str, Parameter], fitting: Fitting, facts: dict[str, Fact], faults: Faults
) -> Iterator[tuple[str, Fact]]:
    for name, parameter in declared.items():
        fact = facts.get(f"{item.key}.{name}")
        if fact is None or fact.value is UNKNOWN:
            continue
        if parameter.basis == "required":
            hint = 'write "basis: net" or "basis: gross", as its rating plate says'
            message = f"{item.key} does not say whether its {name} is net or gross"
            faults.absent(message, fitting.source, hint, of=["fitted"])
        elif parameter.basis is not None:
            yield f"{item.key}.basis", Fact(parameter.basis, Origin.CATALOGUE, parameter.source)


def _mass(item: Equipment, fitting: Fitting, faults: Faults) -> Iterator[tuple[str, Fact]]:
    """Return the mass of equipment: as given, or as the catalogue has it."""
    given, path = fitting.parameters.get("mass"), f"{item.key}.mass"
    if given is None:
        if item.kind.mass is not None:
            yield path, Fact(item.kind.mass.value, Origin.CATALOGUE, item.kind.mass.source)
    elif given.value == "unknown":
        yield path, Fact(UNKNOWN, Origin.PLATE, given.source)
    else:
        mass = _quantity("mass", given.value, "kg", given.source, faults)
        if mass is not None:
            check_plausible("mass", mass, given.source, faults)
            yield path, Fact(mass, Origin.PLATE, given.source)
