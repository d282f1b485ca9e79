"""Water and waste: what the tanks hold, how long water lasts, the dose that cleans the system, what to drain.

Heating water is worked out in ``water_heating``, the toilet in ``toilet``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.inputs import Inputs
from generator.compute.margins import over
from generator.compute.showing import down, exact, half_days, up
from generator.compute.worked import Term, put, summed, whole
from generator.units import Quantity, Rounding

WATER = "Water"
LITRE = "L"
_DOSE_SOURCE = "50 mg/L for 60 minutes: BS 8558 and EN 806-4 (from memory)"


@number(
    "water-usable",
    group=WATER,
    title="Water you can draw",
    all_of=("water",),
    needs=("water_supply.volume", "water_supply.usable_share"),
    unit=LITRE,
    rounding=Rounding.DOWN,
    method="Volume × the share of it that can be drawn.",
    source="definition; the share stands in the catalogue and is common practice, no source",
)
def water_usable(given: Inputs) -> Term:
    """Return V share."""
    share = put(given.positive("water_supply.usable_share"), "percent")
    return (put(given.positive("water_supply.volume"), LITRE) * share).to(LITRE)


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
    daily = whole(given.count("berths")) * put(given.assumed("water-use") / Quantity(1.0, "day"), "L/day")
    days = put(given.number("water-usable"), LITRE) / daily
    return Answer(value=days, shown=half_days(days.value))


@number(
    "sanitising-dose",
    group=WATER,
    title="Cleaning product for one full fill",
    all_of=("water",),
    needs=("water_supply.volume",),
    assumes=("sanitising-chlorine", "sanitising-contact", "sanitiser-strength"),
    unit="mL",
    rounding=Rounding.UP,
    method="Volume × wanted free chlorine over the available chlorine of the product.",
    source=_DOSE_SOURCE,
)
def sanitising_dose(given: Inputs) -> Answer:
    """Return V1 = c2 V2 / c1."""
    strength, dose = given.assumed("sanitiser-strength"), _dose(given, "water_supply.volume")
    return Answer(
        value=dose,
        shown=f"{up(dose.value, 'mL')} if its label says {exact(strength)} of available chlorine",
        sentence=(
            f"A product of another strength needs another dose: read its label."
            f" Leave it in for {exact(given.assumed('sanitising-contact'))}."
        ),
    )


def _dose(given: Inputs, path: str) -> Term:
    """Return V1 = c2 V2 / c1; the strength of the product stands in mg/mL, which is the g/L of its label."""
    wanted = put(given.positive(path), LITRE) * put(given.assumed("sanitising-chlorine"), "mg/L")
    return (wanted / put(given.assumed("sanitiser-strength"), "mg/mL")).to("mL")


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
    "waste-per-fill",
    group=WATER,
    title="Waste water from one fill of fresh water",
    all_of=("water", "waste"),
    needs=("waste.volume",),
    uses=("water-usable",),
    assumes=("waste-share",),
    unit=LITRE,
    rounding=Rounding.UP,
    method="Water you can draw × the share of it that ends as waste water, against what the waste holds.",
    source="definition; the share is common practice, no source",
)
def waste_per_fill(given: Inputs) -> Answer:
    """Return the waste of one fill, and whether it fits."""
    worked = (put(given.number("water-usable"), LITRE) * put(given.assumed("waste-share"), "percent")).to(LITRE)
    waste, volume = worked.value, given.positive("waste.volume")
    if not over(waste, volume):
        sentence = f"The waste holds {down(volume, LITRE)}: empty it each time you fill fresh water."
    else:
        share = down((volume / waste).to("percent"), "percent")
        sentence = f"The waste holds {down(volume, LITRE)}: it is full when {share} of the fresh water is used."
    return Answer(value=worked, sentence=sentence)


@number(
    "sanitising-dose-heater",
    group=WATER,
    title="Cleaning product for as much water as the heater takes",
    all_of=("water", "hot-water-tank"),
    needs=("hot_water.volume",),
    assumes=("sanitising-chlorine", "sanitiser-strength"),
    unit="mL",
    rounding=Rounding.UP,
    method="Volume of the heater's tank × wanted free chlorine over the available chlorine of the product.",
    source=_DOSE_SOURCE,
)
def sanitising_dose_heater(given: Inputs) -> Answer:
    """Return V1 = c2 V2 / c1 for the water that stands in the heater."""
    strength, dose = given.assumed("sanitiser-strength"), _dose(given, "hot_water.volume")
    return Answer(
        value=dose,
        shown=f"{up(dose.value, 'mL')} if its label says {exact(strength)} of available chlorine",
        sentence="Only where the heater's own instructions allow chlorine in it.",
    )


@number(
    "drain-litres",
    group=WATER,
    title="Water to drain from a full van",
    all_of=("water",),
    needs=("water_supply.volume",),
    optional=("hot_water.volume", "toilet.flush_tank"),
    unit=LITRE,
    rounding=Rounding.UP,
    method="Volumes of all tanks for clean water added up; what stands in the pipes and in the waste comes on top.",
    source="sum",
)
def drain_litres(given: Inputs) -> Term:
    """Return what runs out when everything is drained."""
    tanks = ("water_supply.volume", "hot_water.volume", "toilet.flush_tank")
    return summed(put(given.positive(tank), LITRE) for tank in tanks if given.has(tank))


RECIPES: tuple[Recipe, ...] = (
    water_usable,
    water_days,
    sanitising_dose,
    sanitising_dose_heater,
    waste_volume,
    waste_per_fill,
    drain_litres,
)
