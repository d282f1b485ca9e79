"""The toilet: what its tanks hold, how many flushes, and how many days the cassette lasts.

Fresh water stands in ``water``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.inputs import Inputs
from generator.compute.showing import half_days
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
def flushes(given: Inputs) -> Quantity:
    """Return V / v."""
    count: Quantity = given.positive("toilet.flush_tank") / given.positive("toilet.flush") * Quantity(1.0, "flushes")
    return count.to("flushes")


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
    water: Quantity = given.assumed("toilet-flushes").to("dimensionless") * given.positive("toilet.flush")
    daily = given.count("berths") * (water + given.assumed("toilet-body")) / Quantity(1.0, "day")
    days: Quantity = given.positive("toilet.cassette") / daily
    return Answer(value=days, shown=half_days(days))


RECIPES: tuple[Recipe, ...] = (cassette_volume, cassette_days, flush_tank_volume, flushes)
