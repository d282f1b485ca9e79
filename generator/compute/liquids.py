"""What the tanks of the van weigh when they are full, and where they sit.

What follows for payload and ball load is worked out in ``masses`` and ``loading``.
"""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from typing import Literal

from generator.compute.declare import Recipe, Rows, table
from generator.compute.fitted import KG, first_code
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.moments import moved
from generator.compute.sheet import place_title
from generator.compute.showing import lower_first, signed, up
from generator.compute.worked import Term, lines, put
from generator.model.caravan import Equipment
from generator.units import Quantity, Rounding

# Rounded up from 0.998 kg/L at 20 degC (IAPWS-95), so that a tank never weighs less than it does.
_WATER = Quantity(1.0, "kg/L")
# The upper end of EN 590 at 15 degC (from memory).
_FUEL = Quantity(0.845, "kg/L")

# The traits are asked because a barrel and a caddy have a volume too, and stay outside on the road.
LIQUID_NEEDS = ("van.equipment", "*.volume", "*.flush_tank", "*.cassette", "*.tank_volume")
LIQUID_OPTIONAL = ("trait.water-tank", "trait.waste-tank", "trait.hot-water-tank")


# Filled before a trip and used up on it; filled with it and full until it is drained; filled by use; fuel.
Role = Literal["use", "kept", "waste", "fuel"]


@dataclass(frozen=True, slots=True)
class _Tank:
    """A parameter that is the volume of a tank, and the point of its kind that the tank sits at."""

    slot: str
    parameter: str
    point: str
    name: str
    role: Role
    trait: str = ""  # counts only in vans with it
    density: Quantity = _WATER


_TANKS = (
    _Tank("water_supply", "volume", "filler", "Fresh water tank", "use", "water-tank"),
    _Tank("toilet", "flush_tank", "filler", "Flush tank", "use"),
    _Tank("hot_water", "volume", "heater", "Water heater", "kept", "hot-water-tank"),
    _Tank("waste", "volume", "valve", "Waste tank", "waste", "waste-tank"),
    _Tank("toilet", "cassette", "cassette", "Toilet cassette", "waste"),
    _Tank("room_heater", "tank_volume", "tank", "Fuel tank of the heater", "fuel", density=_FUEL),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Liquid:
    """One full tank: what it holds weighs ``weight``, and it sits at the place with ``code``, where that is known."""

    name: str
    weight: Term
    code: str
    role: Role

    @property
    def mass(self) -> Quantity:
        """Its mass."""
        return self.weight.value


def liquids(given: Inputs) -> tuple[Liquid, ...]:
    """Return every tank that goes with the van, full.

    Raises:
        NotKnown: a volume is not known.
    """
    by_slot = {fitted.slot.id: fitted for fitted in given.equipment}
    carried = [tank for tank in _TANKS if tank.slot in by_slot and _carries(given, tank, by_slot[tank.slot])]
    return tuple(_full(given, tank, by_slot[tank.slot]) for tank in carried)


def _carries(given: Inputs, tank: _Tank, fitted: Equipment) -> bool:
    return given.has(f"{fitted.key}.{tank.parameter}") and (not tank.trait or given.trait(tank.trait))


def _full(given: Inputs, tank: _Tank, fitted: Equipment) -> Liquid:
    volume, density = given.positive(f"{fitted.key}.{tank.parameter}"), put(tank.density, "kg/L", 3)
    code = fitted.at.get(tank.point) or first_code(fitted)
    return Liquid(name=tank.name, weight=(put(volume, "L") * density).to(KG), code=code, role=tank.role)


def pressed(given: Inputs, liquid: Liquid) -> Quantity:
    """Return by how much a full tank changes the ball load.

    Raises:
        NotKnown: the build sheet does not say where it is.
    """
    return change(given, liquid).value


def change(given: Inputs, liquid: Liquid) -> Term:
    """Return by how much a full tank changes the ball load, as it is worked out; see ``pressed``."""
    if not liquid.code:
        raise NotKnown(f"the place of the {lower_first(liquid.name)} off the build sheet")
    return moved(given, liquid.weight, given.behind_coupling(given.place(liquid.code)))


@table(
    "liquids",
    group="Ball load",
    title="What full tanks do",
    all_of=("liquids",),
    needs=(*LIQUID_NEEDS, "van.places", "body.coupling_to_axle"),
    optional=LIQUID_OPTIONAL,
    head=("Full", "It weighs", "On the towball"),
    rounding=Rounding.UP,
    method=(
        "Volume × 1 kg for a litre of water; on the towball mass × (L - d) / L, with L from coupling to axle and d from"
        " coupling to the place the tank is filled or emptied at."
    ),
    source="density of water; statics: moments about the axle, or the middle of two axles",
)
def full_tanks(given: Inputs) -> Rows:
    """Return a row for each tank with its mass and how it changes the ball load."""
    found = liquids(given)
    rows = tuple(_row(given, liquid) for liquid in found)
    worked = [each for liquid in found for each in _terms(given, liquid)]
    note = "Filling and using up change the ball load by turns: emptied behind the axle it rises, in front it falls."
    return Rows(rows=rows, note=note, worked=lines(worked, KG))


def _title(given: Inputs, liquid: Liquid) -> str:
    return liquid.name + (f" at {place_title(given.place(liquid.code))}" if liquid.code else "")


def _terms(given: Inputs, liquid: Liquid) -> Iterator[tuple[str, Term]]:
    """Yield mass and change of the ball load; the mass alone where the place is not known."""
    yield f"{liquid.name} weighs", liquid.weight
    with suppress(NotKnown):
        yield f"{liquid.name}, on the towball", change(given, liquid)


def _row(given: Inputs, liquid: Liquid) -> tuple[str, ...]:
    try:
        pressing = signed(pressed(given, liquid), KG, 1)
    except NotKnown as unknown:
        pressing = f"Not known: read {unknown.missing[0]}"
    return _title(given, liquid), up(liquid.mass, KG, 1), pressing


RECIPES: tuple[Recipe, ...] = (full_tanks,)
