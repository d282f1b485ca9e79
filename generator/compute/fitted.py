"""Masses of what is fitted and where they sit, shared by the numbers about masses and ball load.

What follows from them stands in those modules.
"""

from dataclasses import dataclass

from generator.compute.inputs import Inputs, NotKnown
from generator.compute.sheet import equipment_title
from generator.compute.showing import lower_first
from generator.model.caravan import Equipment, Held, Place
from generator.units import Quantity

# Gas has no mass of its own: its bottles count, full.
_MASSES = ("van.equipment", "*.mass", "*.bottles", "*.bottle", "*.bottle_tare")
MASS_NEEDS = ("van.outside_unladen", "van.held_in_unladen", *_MASSES)
BALL_NEEDS = ("van.outside_ball_load", "van.held_in_ball_load", "van.places", *_MASSES)
KG = "kg"


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A mass and the code of the place it sits at; empty where the build sheet gives none."""

    key: str
    title: str
    mass: Quantity
    code: str


@dataclass(frozen=True, slots=True)
class Shift:
    """A mass that a stated ball load does not hold, or holds too much of (below zero), and where it sits."""

    mass: Quantity
    behind: Quantity  # the coupling


def nothing() -> Quantity:
    """Return no mass at all, the start of a sum."""
    return Quantity(0.0, KG)


def mass_of(given: Inputs, fitted: Equipment, stated: str = "") -> Quantity:
    """Return the mass of a piece of equipment; of gas, that of its full bottles.

    Args:
        given: The inputs.
        fitted: The equipment.
        stated: "unladen." or "ball_load." for equipment that this stated value holds.

    Raises:
        NotKnown: it is written as unknown, or its kind gives none.
    """
    key = stated + fitted.key
    if given.has(f"{key}.bottle"):
        bottle: Quantity = given.quantity(f"{key}.bottle") + given.quantity(f"{key}.bottle_tare")
        full: Quantity = bottle * given.count(f"{key}.bottles")
        return full
    if not given.has(f"{key}.mass"):
        name = fitted.kind.name if stated else equipment_title(fitted)
        raise NotKnown(f"the mass of the {lower_first(name)} off a scale")
    return given.quantity(f"{key}.mass")


def first_code(fitted: Equipment) -> str:
    """Return the code of the place at which the mass of a piece of equipment is taken to sit.

    It is that of the first point its kind names.
    """
    named = [fitted.at[point] for point in fitted.kind.points if point in fitted.at]
    return next(iter(named + list(fitted.at.values())), "")


def added(given: Inputs) -> tuple[Item, ...]:
    """Return everything fitted that the unladen mass does not hold.

    Of equipment that is heavier than what the van was weighed with, that is the difference. Lighter equipment
    counts as the heavier one: a catalogue mass is not sure enough to promise more payload.

    Raises:
        NotKnown: one of the masses is not known.
    """
    beside = tuple(_item(given, fitted) for fitted in given.outside_unladen)
    return (*beside, *(item for held in given.held_in_unladen if (item := _heavier(given, held)) is not None))


def _heavier(given: Inputs, held: Held) -> Item | None:
    now = _item(given, given.fitted_as(held.was.key))
    more: Quantity = now.mass - mass_of(given, held.was, "unladen.")
    if not more.magnitude > 0:
        return None
    return Item(key=now.key, title=f"{now.title}, heavier than weighed", mass=more, code=now.code)


def as_fitted(given: Inputs) -> Quantity:
    """Return the mass of the van with everything fitted, nothing loaded; needs ``masses.unladen`` too."""
    mass: Quantity = given.positive("masses.unladen") + total(added(given))
    return mass


def shifts(given: Inputs) -> tuple[Shift, ...]:
    """Return every mass that the ball load of the unladen van does not hold as it is fitted.

    Raises:
        NotKnown: a mass, or where it sits, is not known.
    """
    found = [Shift(mass_of(given, fitted), behind(given, fitted)) for fitted in given.outside_ball_load]
    for held in given.held_in_ball_load:
        found += _exchanged(given, held)
    return tuple(found)


def _exchanged(given: Inputs, held: Held) -> list[Shift]:
    """Return what is fitted now as more mass, and what it takes the place of as less."""
    now, was = given.fitted_as(held.was.key), held.was
    mass, before = mass_of(given, now), mass_of(given, was, "ball_load.")
    code, code_before = first_code(now), first_code(was)
    if code == code_before and mass == before:
        return []
    behind_before = held.behind.get(code_before)
    if behind_before is None:
        behind_before = behind(given, was)
    taken: Quantity = nothing() - before
    return [Shift(mass, behind(given, now)), Shift(taken, behind_before)]


def behind(given: Inputs, fitted: Equipment) -> Quantity:
    """Return how far behind the coupling a piece of equipment is taken to sit.

    Raises:
        NotKnown: the build sheet does not say.
    """
    code = first_code(fitted)
    if not code:
        raise NotKnown(f"the place of the {lower_first(equipment_title(fitted))} off the build sheet")
    return given.behind_coupling(given.place(code))


def at_place(given: Inputs, place: Place) -> tuple[Item, ...]:
    """Return everything fitted at ``place``, whether the unladen mass holds it or not."""
    return tuple(_item(given, fitted) for fitted in given.equipment if first_code(fitted) == place.code)


def total(items: tuple[Item, ...]) -> Quantity:
    """Return the mass of ``items`` together."""
    return sum((item.mass for item in items), nothing())


def _item(given: Inputs, fitted: Equipment) -> Item:
    return Item(key=fitted.key, title=equipment_title(fitted), mass=mass_of(given, fitted), code=first_code(fitted))
