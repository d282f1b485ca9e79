"""Fixed vents: the free area that a standard asks for, against what is fitted.

For information: gas installations are the work of licensed people, who judge them by the whole standard.
"""

from dataclasses import dataclass

from generator.compute.declare import Answer, Recipe, number
from generator.compute.gas import GROUP, RATE_ASSUMES, RATE_NEEDS, RATE_OPTIONAL, burn_rate, heating_value
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.showing import exact, up
from generator.errors import Fault, Level
from generator.model.caravan import Equipment
from generator.model.numbers import Verdict
from generator.units import Quantity, Rounding

AREA = "mm2"
FITTED = "body.ventilation"
_AIR = "combustion_air"
_AS_NZS = "AS/NZS 5601.2 section 7, as two published pages quote it; the edition in force comes first"
_EN_721 = "EN 721, rows quoted in a published leaflet; the edition in force comes first"
_LEAST = Quantity(4000.0, AREA)
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
        "New Zealand and Australia: 610 mm² for each MJ/h (gross) of appliances that take their air from the room +"
        " 650 mm² for each berth, 4000 mm² at least. Elsewhere: the row of EN 721 for the outside length x width of the"
        " body, high and low vents added up."
    ),
    source=f"{_AS_NZS}; {_EN_721}",
)
def vents_needed(given: Inputs) -> Answer:
    """Return the area that the standard of the market asks for; too little fitted is a fault in NZ and AU, by law."""
    by_law = given.trait("market-nz") or given.trait("market-au")
    needed, split, source = _by_input(given) if by_law else _by_floor(given)
    sentence = (
        f"{split}Windows and hatches that shut do not count. For information: gas is the work of licensed people."
    )
    if not given.known(FITTED):
        return Answer(value=needed, sentence=f"Ask your dealer what is fitted. {sentence}", source=source)
    fitted = given.positive(FITTED)
    enough = bool(fitted >= needed)
    return Answer(
        value=needed,
        limit=fitted,
        # Vents do not change in use: as much as is asked for is enough, without a margin.
        verdict=Verdict.WITHIN if enough else Verdict.OVER,
        sentence=f"{up(needed, AREA)} needed, {exact(fitted)} fitted. {sentence}",
        source=source,
        faults=() if enough else (_short(given, needed, fitted, by_law),),
    )


def _from_room(given: Inputs) -> list[Equipment]:
    """Return the gas appliances that take their air from the room; one that does not say counts as one."""
    burners = given.fitted("*.gas_input")
    said = {fitted.key: given.text(f"{fitted.key}.{_AIR}") for fitted in burners if given.known(f"{fitted.key}.{_AIR}")}
    return [fitted for fitted in burners if said.get(fitted.key, "room") == "room"]


def _by_input(given: Inputs) -> tuple[Quantity, str, str]:
    """Return the area by AS/NZS 5601.2: max(4000, 610 U + 650 P) mm2, with U gross."""
    gross = heating_value(given, "gross")
    heat = sum((burn_rate(given, each.key) * gross for each in _from_room(given)), Quantity(0.0, "MJ/h"))
    area: Quantity = (_PER_INPUT * heat + _PER_BERTH * given.count("berths")).to(AREA)
    return max(area, _LEAST), "", _AS_NZS


def _by_floor(given: Inputs) -> tuple[Quantity, str, str]:
    """Return the area by EN 721, and how it is shared out."""
    floor_m2 = float((given.positive("body.length") * given.positive("body.width")).to("m2").magnitude)
    rows = _BURNING if _from_room(given) else _NOT_BURNING
    row = next((row for row in rows if floor_m2 <= row.floor_m2), None)
    if row is None:
        raise NotKnown(f"the area for a floor above {rows[-1].floor_m2:g} m² off EN 721; your dealer has it")
    high, low = Quantity(row.roof_mm2, AREA), Quantity(row.low_mm2, AREA)
    return high + low, f"{exact(high)} of it in the roof, {exact(low)} low down. ", _EN_721


def _short(given: Inputs, needed: Quantity, fitted: Quantity, by_law: bool) -> Fault:
    message = f"fixed vents of {exact(fitted)} are less than the {up(needed, AREA)} needed"
    if by_law:
        return Fault(f"{message} (AS/NZS 5601.2)", given.source(FITTED), "check area, gas inputs and combustion_air")
    # The floor is taken by the outside of the body, so a row too high may be met: a person judges.
    hint = "the row of EN 721 goes by the outside of the body; check it against the floor"
    return Fault(f"{message} (EN 721)", given.source(FITTED), hint, level=Level.WARNING)


RECIPES: tuple[Recipe, ...] = (vents_needed,)
