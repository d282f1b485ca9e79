"""Masses of what is fitted and where they sit, shared by the numbers about masses and ball load.

What follows from them stands in those modules.
"""

from dataclasses import dataclass

from generator.compute.inputs import Inputs, NotKnown
from generator.compute.sheet import equipment_title
from generator.compute.showing import lower_first
from generator.model.caravan import Equipment, Place
from generator.units import Quantity

# Gas has no mass of its own: its bottles count, full.
MASS_NEEDS = ("van.equipment", "van.outside_unladen", "*.mass", "*.bottles", "*.bottle", "*.bottle_tare")
KG = "kg"


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A mass and the code of the place it sits at; empty where the build sheet gives none."""

    key: str
    title: str
    mass: Quantity
    code: str


def nothing() -> Quantity:
    """Return no mass at all, the start of a sum."""
    return Quantity(0.0, KG)


def mass_of(given: Inputs, fitted: Equipment) -> Quantity:
    """Return the mass of a piece of equipment; of gas, that of its full bottles.

    Raises:
        NotKnown: it is written as unknown, or its kind gives none.
    """
    if given.has(f"{fitted.key}.bottle"):
        bottle: Quantity = given.quantity(f"{fitted.key}.bottle") + given.quantity(f"{fitted.key}.bottle_tare")
        full: Quantity = bottle * given.count(f"{fitted.key}.bottles")
        return full
    if not given.has(f"{fitted.key}.mass"):
        raise NotKnown(f"the mass of the {lower_first(equipment_title(fitted))} off a scale")
    return given.quantity(f"{fitted.key}.mass")


def first_code(fitted: Equipment) -> str:
    """Return the code of the place at which the mass of a piece of equipment is taken to sit.

    It is that of the first point its kind names.
    """
    named = [fitted.at[point] for point in fitted.kind.points if point in fitted.at]
    return next(iter(named + list(fitted.at.values())), "")


def added(given: Inputs) -> tuple[Item, ...]:
    """Return everything fitted that the unladen mass does not hold.

    Raises:
        NotKnown: one of the masses is not known.
    """
    return tuple(_item(given, fitted) for fitted in given.outside_unladen)


def at_place(given: Inputs, place: Place) -> tuple[Item, ...]:
    """Return everything fitted at ``place``, whether the unladen mass holds it or not."""
    return tuple(_item(given, fitted) for fitted in given.equipment if first_code(fitted) == place.code)


def total(items: tuple[Item, ...]) -> Quantity:
    """Return the mass of ``items`` together."""
    return sum((item.mass for item in items), nothing())


def _item(given: Inputs, fitted: Equipment) -> Item:
    return Item(key=fitted.key, title=equipment_title(fitted), mass=mass_of(given, fitted), code=first_code(fitted))
