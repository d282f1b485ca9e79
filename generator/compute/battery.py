"""What the leisure battery holds, what a day takes out of it, and how long it lasts with nothing charging it.

Charging stands in ``charging``, the sun in ``solar``, heavy draws in ``mover``.
"""

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.sheet import equipment_title
from generator.compute.showing import half_days, joined, up
from generator.compute.worked import Term, lines, put, summed
from generator.model.caravan import Equipment
from generator.model.numbers import Worked
from generator.units import Quantity, Rounding

GROUP = "12 V"
ENERGY = "Wh"
LOADS = "*.daily_12v"
_HABIT = "a typical day stands in the catalogue and is common practice, no source"


@number(
    "battery-usable",
    group=GROUP,
    title="Energy the battery gives",
    all_of=("battery",),
    needs=("battery.capacity", "battery.voltage", "battery.usable_share"),
    unit=ENERGY,
    rounding=Rounding.DOWN,
    method="Capacity × voltage × the share that may be used.",
    source="definition of electric energy; the share stands in the catalogue",
)
def battery_usable(given: Inputs) -> Term:
    """Return E = Q U share."""
    energy = put(given.positive("battery.capacity"), "Ah") * put(given.positive("battery.voltage"), "V")
    return energy * put(given.positive("battery.usable_share"), "percent")


@number(
    "daily-12v",
    group=GROUP,
    title="12 V used in a typical day",
    all_of=("battery",),
    needs=(LOADS,),
    unit=ENERGY,
    rounding=Rounding.UP,
    method="Sum of what everything fitted takes in a typical day; what you plug in comes on top.",
    source=f"sum; {_HABIT}",
)
def daily_12v(given: Inputs) -> Term:
    """Return what everything fitted takes in a day."""
    loads = [given.quantity(f"{fitted.key}.daily_12v") for fitted in given.fitted(LOADS)]
    together = summed([put(load, ENERGY) for load in loads if load.magnitude] or [put(Quantity(0.0, ENERGY), ENERGY)])
    if not together.value.magnitude > 0:
        raise NotKnown("what you connect off its own rating plate")
    return together


@number(
    "battery-days",
    group=GROUP,
    title="Days the battery lasts",
    all_of=("battery",),
    needs=(),
    uses=("battery-usable", "daily-12v"),
    unit="day",
    rounding=Rounding.DOWN,
    digits=1,
    method="Energy the battery gives over what everything fitted takes in a typical day; half days, rounded down.",
    source=f"definition of electric energy; {_HABIT}",
)
def battery_days(given: Inputs) -> Answer:
    """Return how long the battery lasts with nothing charging it."""
    daily = put(given.number("daily-12v") / Quantity(1.0, "day"), "Wh/day")
    days = (put(given.number("battery-usable"), ENERGY) / daily).to("day")
    return Answer(value=days, shown=half_days(days.value))


@table(
    "daily-12v-loads",
    group=GROUP,
    title="What takes 12 V in a typical day",
    all_of=("battery",),
    needs=("battery.voltage", LOADS),
    head=("Appliance", "Energy", "Charge"),
    rounding=Rounding.UP,
    method="As the catalogue or the build sheet says; charge is energy over the voltage of the battery.",
    source=_HABIT,
)
def daily_12v_loads(given: Inputs) -> Rows:
    """Return a row for each load, the largest first; one that is not known comes before them."""
    voltage = given.positive("battery.voltage")
    found = sorted((_row(given, fitted, voltage) for fitted in given.fitted(LOADS)), key=lambda item: -item[0])
    note = "What you plug into a 12 V socket comes on top."
    return Rows(
        rows=tuple(cells for _, cells, _ in found),
        note=note,
        worked=tuple(one for _, _, worked in found for one in worked),
    )


def _row(given: Inputs, fitted: Equipment, voltage: Quantity) -> tuple[float, tuple[str, ...], tuple[Worked, ...]]:
    title = equipment_title(fitted)
    try:
        energy = given.quantity(f"{fitted.key}.daily_12v")
    except NotKnown as unknown:
        return float("inf"), (title, "Not known", f"Read {joined(unknown.missing)}."), ()
    charge = put(energy, ENERGY) / put(voltage, "V")
    cells = title, up(energy, ENERGY), up(charge.value, "Ah", 1)
    return float(energy.to(ENERGY).magnitude), cells, lines([(title, charge)], "Ah")


RECIPES: tuple[Recipe, ...] = (battery_usable, daily_12v, battery_days, daily_12v_loads)
