"""Fixed vents: the free area that a standard asks for, against what is fitted.

For information: gas installations are the work of licensed people, who judge them by the whole standard.
"""

from dataclasses import dataclass

from generator.compute.declare import Answer, Recipe, number
from generator.compute.gas import GROUP, RATE_ASSUMES, RATE_NEEDS, RATE_OPTIONAL, burn_rate, heating_value
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.margins import over
from generator.compute.sheet import equipment_title
from generator.compute.showing import exact, up
from generator.compute.worked import Term, lines, most, put, summed, whole
from generator.errors import Fault, Level
from generator.model.caravan import Equipment
from generator.model.numbers import Verdict, Worked
from generator.units import Quantity, Rounding

AREA = "mm2"
FITTED = "body.ventilation"
_AIR = "combustion_air"
_AS_NZS = "AS/NZS 5601.2 section 7, as two published pages quote it; the edition in force comes first"
_EN_721 = "EN 721, rows quoted in a published leaflet; the edition in force comes first"
_LEAST = Quantity(4000.0, AREA)
_HEAT = "MJ/h"
_GRAMS = put(Quantity(1000.0, "g/kg"), "g/kg")
_PER_INPUT = Quantity(610.0, "mm2 / (MJ/h)")
_PER_BERTH = Quantity(650.0, AREA)


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of EN 721: up to which floor area, vents in the roof and low down."""

    floor_m2: float
    roof_mm2: float
    low_mm2: float


_BURNING = (_Row(5, 7500, 1000), _Row(10, 10000, 1500))
_NOT_BURNING = (_Row(10, 1500, 500),)  # nothing burns, or all of it is room-sealed


@number(
    "vents-needed",
    group=GROUP,
    title="Free area of fixed vents needed",
    all_of=("gas",),
    needs=(*RATE_NEEDS, "berths"),
    optional=(
        *RATE_OPTIONAL,
        f"*.{_AIR}",
        FITTED,
        "body.length",
        "body.width",
        "trait.market-nz",
        "trait.market-au",
    ),
    assumes=RATE_ASSUMES,
    unit=AREA,
    rounding=Rounding.UP,
    method=(
        "By the standard of the country: in New Zealand and Australia by gas inputs and berths, elsewhere by the floor"
        " of the body, up to 10 m², high and low vents added up."
    ),
    moves="Nothing in use. Never cover a vent.",
    source=f"{_AS_NZS}; {_EN_721}",
)
def vents_needed(given: Inputs) -> Answer:
    """Return the area that the standard of the market asks for; too little fitted is a fault in NZ and AU, by law."""
    by_law = given.trait("market-nz") or given.trait("market-au")
    found = _by_input(given) if by_law else _by_floor(given)
    needed, split, source, worked = found.area.value, found.split, found.source, found.worked
    sentence = (
        f"{split}Windows and hatches that shut do not count. For information: gas is the work of licensed people."
    )
    if not given.known(FITTED):
        told = f"Ask your dealer what is fitted. {sentence}"
        return Answer(value=needed, sentence=told, source=source, worked=worked)
    fitted = given.positive(FITTED)
    enough = not over(needed, fitted)
    return Answer(
        value=needed,
        limit=fitted,
        # Vents do not change in use: as much as is asked for is enough, without a margin.
        verdict=Verdict.WITHIN if enough else Verdict.OVER,
        sentence=f"{up(needed, AREA)} needed, {exact(fitted)} fitted. {sentence}",
        source=source,
        worked=worked,
        faults=() if enough else (_short(given, needed, fitted, by_law),),
    )


def _from_room(given: Inputs) -> list[Equipment]:
    """Return the gas appliances that take their air from the room; one that does not say counts as one."""
    burners = given.fitted("*.gas_input")
    said = {fitted.key: given.text(f"{fitted.key}.{_AIR}") for fitted in burners if given.known(f"{fitted.key}.{_AIR}")}
    return [fitted for fitted in burners if said.get(fitted.key, "room") == "room"]


@dataclass(frozen=True, slots=True)
class _Asked:
    """The area that a standard asks for, how it is shared out, and which standard it is."""

    area: Term
    split: str
    source: str
    first: tuple[Worked, ...] = ()

    @property
    def worked(self) -> tuple[Worked, ...]:
        return (*self.first, *lines([("Vents", self.area)], AREA))


def _by_input(given: Inputs) -> _Asked:
    """Return the area by AS/NZS 5601.2: max(4000, 610 U + 650 P) mm2, with U gross."""
    gross = put(heating_value(given, "gross"), "MJ/kg")
    heats = [
        (equipment_title(each), (put(burn_rate(given, each.key), "g/h") * gross / _GRAMS).to(_HEAT))
        for each in _from_room(given)
    ]
    berths = put(_PER_BERTH, AREA) * whole(given.count("berths"))
    parts = [put(_PER_INPUT, f"{AREA}/({_HEAT})") * put(heat.value, _HEAT) for _, heat in heats]
    area = most(put(_LEAST, AREA), summed([*(part.to(AREA) for part in parts), berths]))
    return _Asked(area, "", _AS_NZS, lines([(f"{title}, gross", heat) for title, heat in heats], _HEAT))


def _by_floor(given: Inputs) -> _Asked:
    """Return the area by EN 721, and how it is shared out."""
    floor = put(given.positive("body.length"), "m") * put(given.positive("body.width"), "m")
    floor_m2 = float(floor.value.to("m2").magnitude)
    rows = _BURNING if _from_room(given) else _NOT_BURNING
    row = next((row for row in rows if floor_m2 <= row.floor_m2), None)
    if row is None:
        raise NotKnown("the area needed off the papers of the gas system; ask your dealer for them")
    high, low = Quantity(row.roof_mm2, AREA), Quantity(row.low_mm2, AREA)
    split = f"{exact(high)} of it in the roof, {exact(low)} low down. "
    return _Asked(put(high, AREA) + put(low, AREA), split, _EN_721, lines([("Floor", floor)], "m2"))


def _short(given: Inputs, needed: Quantity, fitted: Quantity, by_law: bool) -> Fault:
    message = f"fixed vents of {exact(fitted)} are less than the {up(needed, AREA)} needed"
    if by_law:
        return Fault(f"{message} (AS/NZS 5601.2)", given.source(FITTED), "check area, gas inputs and combustion_air")
    # The floor is taken by the outside of the body, so a row too high may be met: a person judges.
    hint = "the row of EN 721 goes by the outside of the body; check it against the floor"
    return Fault(f"{message} (EN 721)", given.source(FITTED), hint, level=Level.WARNING)


RECIPES: tuple[Recipe, ...] = (vents_needed,)
