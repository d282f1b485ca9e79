"""The toilet: what its tanks hold, how many flushes, and how many days the cassette lasts.

Fresh water stands in ``water``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.inputs import Inputs
from generator.compute.showing import half_days
from generator.compute.worked import Term, put, whole
from generator.units import Quantity, Rounding

TOILET = "Toilet"
LITRE = "L"


@number(
    "cassette-volume",
    group=TOILET,
    title="Toilet cassette",
    all_of=("toilet-cassette",),
    needs=("toilet.cassette",),
    unit=LITRE,
    rounding=Rounding.DOWN,
    method="Read off the cassette.",
    source="the label on the cassette",
)
def cassette_volume(given: Inputs) -> Quantity:
    """Return the volume of the cassette."""
    return given.positive("toilet.cassette")


@number(
    "flush-tank-volume",
    group=TOILET,
    title="Flush tank",
    all_of=("toilet-own-flush",),
    needs=("toilet.flush_tank",),
    unit=LITRE,
    rounding=Rounding.DOWN,
    method="Read off the label at the filler of the flush tank.",
    source="the label at the filler",
)
def flush_tank_volume(given: Inputs) -> Quantity:
    """Return the volume of the toilet's own flush tank."""
    return given.positive("toilet.flush_tank")


@number(
    "flushes",
    group=TOILET,
    title="Flushes from a full flush tank",
    all_of=("toilet-own-flush",),
    needs=("toilet.flush_tank", "toilet.flush"),
    unit="flushes",
    rounding=Rounding.DOWN,
    method="Volume of the flush tank over the water of one flush.",
    source="definition; the water of one flush stands in the catalogue and is common practice, no source",
)
def flushes(given: Inputs) -> Term:
    """Return V / v."""
    return (put(given.positive("toilet.flush_tank"), LITRE) / _one_flush(given)).to("flushes")


def _one_flush(given: Inputs) -> Term:
    """Return the water of one flush."""
    return put(given.positive("toilet.flush") / Quantity(1.0, "flushes"), "L/flushes")


@number(
    "cassette-days",
    group=TOILET,
    title="Days the cassette lasts",
    all_of=("toilet-cassette",),
    needs=("toilet.cassette", "toilet.flush", "berths"),
    assumes=("toilet-flushes", "toilet-body"),
    unit="day",
    rounding=Rounding.DOWN,
    digits=1,
    method=(
        "Volume of the cassette over what each person adds in a day, flush water included, with every berth taken; half"
        " days, rounded down."
    ),
    source="definition; flushes and what a person adds are common practice, no source",
)
def cassette_days(given: Inputs) -> Answer:
    """Return V / (persons x (flushes x water of one flush + what a person adds))."""
    count = float(given.assumed("toilet-flushes").to("dimensionless").magnitude)
    water = (put(Quantity(count, "flushes/day"), "flushes/day") * _one_flush(given)).to("L/day")
    daily = whole(given.count("berths")) * (water + put(given.assumed("toilet-body") / Quantity(1.0, "day"), "L/day"))
    days = (put(given.positive("toilet.cassette"), LITRE) / daily).to("day")
    return Answer(value=days, shown=half_days(days.value))


RECIPES: tuple[Recipe, ...] = (cassette_volume, cassette_days, flush_tank_volume, flushes)
