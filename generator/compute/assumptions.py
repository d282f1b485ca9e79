"""What the numbers assume where no plate says it; a build sheet may set any of them by its id.

Which of them a number uses stands in its declaration.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.compute.assumption import HABIT, Assumption, assumption
from generator.compute.energy_assumptions import ENERGY
from generator.errors import Fault, Source, SpecError, nearest
from generator.model.caravan import Caravan
from generator.model.sourced import Given
from generator.units import Quantity, UnitError, parse


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumed:
    """An assumption as it holds for one van; ``where`` is its source for a reader."""

    title: str
    value: Quantity
    where: str
    source: Source | None  # position in the build sheet that set it


_DAY = (0.0, 24.0)
_ALL = (
    assumption("gas-hours-hob", "Hob at full flame, each day", 1, "h", _DAY, HABIT),
    assumption("gas-hours-grill", "Grill at full flame, each day", 0.25, "h", _DAY, HABIT),
    assumption("gas-hours-oven", "Oven at full flame, each day", 0.5, "h", _DAY, HABIT),
    # 15 g/h as a mean of the day against 35 g/h with the burner lit is ten hours of 24.
    assumption("gas-hours-fridge", "Fridge burner at full flame, each day", 10, "h", _DAY, HABIT),
    assumption("gas-hours-water-tank", "Water heater burner, each day", 1, "h", _DAY, HABIT),
    assumption("gas-hours-water-instant", "Hot water drawn, each day", 0.25, "h", _DAY, HABIT),
    assumption("gas-hours-heating-cold", "Heating at full output, each day in cold weather", 6, "h", _DAY, HABIT),
    assumption("gas-hours-heating-mild", "Heating at full output, each day in mild weather", 1, "h", _DAY, HABIT),
    assumption("gas-hours-other", "Any other appliance at full flame, each day", 1, "h", _DAY, HABIT),
    assumption("lpg-mix-propane", "Propane in the mix, by mass", 60, "percent", (0, 100), HABIT),
    assumption("water-use", "Water for each person, each day", 15, "L", (1, 500), HABIT),
    assumption(
        "sanitising-chlorine", "Free chlorine in the tank", 50, "mg/L", (1, 500), "BS 8558 and EN 806-4 (from memory)"
    ),
    assumption(
        "sanitising-contact", "Time the water stands", 60, "min", (1, 1440), "BS 8558 and EN 806-4 (from memory)"
    ),
    assumption(
        "sanitiser-strength",
        "Available chlorine in the product",
        40,
        "g/L",
        (1, 200),
        f"{HABIT}: read the label of the product",
    ),
    assumption("cold-water", "Temperature of the cold water", 15, "degC", (0, 40), HABIT),
    assumption(
        "gas-water-efficiency", "Share of the flame's heat that reaches the water", 80, "percent", (1, 100), HABIT
    ),
    assumption(
        "mains-water-efficiency",
        "Share of the element's heat that reaches the water",
        100,
        "percent",
        (1, 100),
        "an element in the water gives it all its heat; losses of the tank are left out",
    ),
    assumption(
        "least-ball-load",
        "Least ball load to keep on the towball",
        25,
        "kg",
        (0, 500),
        "EU type approval asks for at most 25 kg as the least load on the coupling (from memory)",
    ),
    *ENERGY,
)

ASSUMPTIONS: Mapping[str, Assumption] = {each.id: each for each in _ALL}


def assumed(caravan: Caravan) -> dict[str, Assumed]:
    """Return every assumption as it holds for ``caravan``.

    Raises:
        SpecError: the build sheet sets one that does not exist, or to something it cannot be.
    """
    held = {each.id: _default(each, caravan.market.id) for each in _ALL}
    faults: list[Fault] = []
    for id, given in caravan.assume.items():
        assert isinstance(given, Given)
        try:
            held[id] = _set(id, given)
        except SpecError as error:
            faults.extend(error.faults)
    if faults:
        raise SpecError(*faults)
    return held


def _default(known: Assumption, market: str) -> Assumed:
    value = known.by_market.get(market, known.default)
    return Assumed(title=known.title, value=value, where=known.source, source=None)


def _set(id: str, given: Given[str]) -> Assumed:
    known = ASSUMPTIONS.get(id)
    if known is None:
        raise SpecError(Fault(f'unknown assumption "{id}"', given.source, nearest(id, ASSUMPTIONS)))
    try:
        value = parse(given.value, known.unit)
    except UnitError as error:
        raise SpecError(Fault(f"assumption {id}: {error}", given.source, error.hint)) from error
    if not known.least <= value.to(known.unit).magnitude <= known.most:
        hint = f"write {known.least:g} to {known.most:g} {known.unit}"
        raise SpecError(Fault(f'assumption {id}: "{given.value}" cannot be', given.source, hint))
    return Assumed(title=known.title, value=value, where="set for this van", source=given.source)
