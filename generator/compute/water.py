"""Water, waste and toilet: what the tanks hold, how long water lasts, the dose that cleans the system.

Heating water is worked out in ``water_heating``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.inputs import Inputs
from generator.compute.showing import exact, half_days, up
from generator.units import Quantity, Rounding

WATER, TOILET = "Water", "Toilet"
LITRE = "L"


@number(
    "water-usable",
    group=WATER,
    title="Water you can draw",
    all_of=("water",),
    needs=("water_supply.volume", "water_supply.usable_share"),
    unit=LITRE,
    rounding=Rounding.DOWN,
    method="Volume x the share of it that can be drawn.",
    source="definition; the share stands in the catalogue and is common practice, no source",
)
def water_usable(given: Inputs) -> Quantity:
    """Return V share."""
    usable: Quantity = given.positive("water_supply.volume") * given.positive("water_supply.usable_share")
    return usable


@number(
    "water-days",
    group=WATER,
    title="Days the water lasts",
    all_of=("water",),
    needs=("berths",),
    uses=("water-usable",),
    assumes=("water-use",),
    unit="day",
    rounding=Rounding.DOWN,
    digits=1,
    method="Water you can draw over what each person uses in a day, with every berth taken; half days, rounded down.",
    source="definition; use for each person is common practice, no source",
)
def water_days(given: Inputs) -> Answer:
    """Return V / (persons x use)."""
    daily: Quantity = given.count("berths") * given.assumed("water-use") / Quantity(1.0, "day")
    days: Quantity = given.number("water-usable") / daily
    return Answer(value=days, shown=half_days(days))


@number(
    "sanitising-dose",
    group=WATER,
    title="Cleaning product for one full fill",
    all_of=("water",),
    needs=("water_supply.volume",),
    assumes=("sanitising-chlorine", "sanitising-contact", "sanitiser-strength"),
    unit="mL",
    rounding=Rounding.UP,
    method="Volume x wanted free chlorine over the available chlorine of the product.",
    source="50 mg/L for 60 minutes: BS 8558 and EN 806-4 (from memory)",
)
def sanitising_dose(given: Inputs) -> Answer:
    """Return V1 = c2 V2 / c1."""
    strength = given.assumed("sanitiser-strength")
    dose: Quantity = given.positive("water_supply.volume") * given.assumed("sanitising-chlorine") / strength
    return Answer(
        value=dose,
        shown=f"{up(dose, 'mL')} if its label says {exact(strength)} of available chlorine",
        sentence=(
            f"A product of another strength needs another dose: read its label."
            f" Leave it in for {exact(given.assumed('sanitising-contact'))}."
        ),
    )


@number(
    "waste-volume",
    group=WATER,
    title="Waste water it holds",
    all_of=("waste",),
    needs=("waste.volume",),
    unit=LITRE,
    rounding=Rounding.DOWN,
    method="Read off the tank.",
    source="the label on the tank",
)
def waste_volume(given: Inputs) -> Quantity:
    """Return the volume for waste water."""
    return given.positive("waste.volume")


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


RECIPES: tuple[Recipe, ...] = (
    water_usable,
    water_days,
    sanitising_dose,
    waste_volume,
    cassette_volume,
    flush_tank_volume,
)
