"""What the leisure battery holds, what a day takes out of it, and how long it lasts with nothing charging it.

Charging stands in ``charging``, the sun in ``solar``, heavy draws in ``mover``.
"""

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.sheet import equipment_title
from generator.compute.showing import half_days, joined, lower_first, up
from generator.compute.worked import Term, lines, put, summed
from generator.model.caravan import Equipment
from generator.model.numbers import Worked
from generator.units import Quantity, Rounding

GROUP = "12 V"
ENERGY = "Wh"
LOADS = "*.daily_12v"
LAMPS = ("trait.panel",)  # the lamps of a van count with its panel; without one they are assumed
LAMPS_ASSUMED = ("lamps-day",)
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
    optional=LAMPS,
    assumes=LAMPS_ASSUMED,
    unit=ENERGY,
    rounding=Rounding.UP,
    method="Sum of what everything fitted takes in a typical day, lamps too; what you plug in comes on top.",
    source=f"sum; {_HABIT}",
)
def daily_12v(given: Inputs) -> Term:
    """Return what everything fitted takes in a day.

    Raises:
        NotKnown: nothing fitted takes any, lamps apart.
    """
    loads = [load for load in (given.quantity(f"{each.key}.daily_12v") for each in given.fitted(LOADS)) if load]
    if not loads:
        raise NotKnown("what you connect off its own rating plate")
    return summed(put(load, ENERGY) for load in (*loads, *_lamps(given)))


def _lamps(given: Inputs) -> tuple[Quantity, ...]:
    """Return what the lamps take in a day, where no panel counts them."""
    return () if given.trait("panel") else (given.assumed("lamps-day"),)


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
    optional=LAMPS,
    assumes=LAMPS_ASSUMED,
    head=("Appliance", "Energy", "Charge"),
    rounding=Rounding.UP,
    method="As the catalogue or the build sheet says; charge is energy over the voltage of the battery.",
    source=_HABIT,
)
def daily_12v_loads(given: Inputs) -> Rows:
    """Return a row for each load, the largest first; one that is not known comes before them."""
    voltage = given.positive("battery.voltage")
    rows = [_row(given, fitted, voltage) for fitted in given.fitted(LOADS)]
    rows += [_load("Lamps", lamps, voltage) for lamps in _lamps(given)]
    found = sorted(rows, key=lambda item: -item[0])
    note = "What you plug into a 12 V socket comes on top."
    return Rows(
        rows=tuple(cells for _, cells, _ in found),
        note=note,
        worked=tuple(one for _, _, worked in found for one in worked),
    )


_Load = tuple[float, tuple[str, ...], tuple[Worked, ...]]


def _row(given: Inputs, fitted: Equipment, voltage: Quantity) -> _Load:
    title = _told(fitted)
    try:
        energy = given.quantity(f"{fitted.key}.daily_12v")
    except NotKnown as unknown:
        return float("inf"), (title, "Not known", f"Read {joined(unknown.missing)}."), ()
    return _load(title, energy, voltage)


def _told(fitted: Equipment) -> str:
    """Return the name of a load with what of it takes the 12 V: "Control panel (lights and panel)"."""
    title, declared = equipment_title(fitted), fitted.kind.parameters.get("daily_12v")
    what, typical, _ = declared.name.partition(" in a typical") if declared else ("", "", "")
    return f"{title} ({lower_first(what)})" if typical and what != title else title


def _load(title: str, energy: Quantity, voltage: Quantity) -> _Load:
    charge = put(energy, ENERGY) / put(voltage, "V")
    cells = title, up(energy, ENERGY), up(charge.value, "Ah", 1)
    return float(energy.to(ENERGY).magnitude), cells, lines([(title, charge)], "Ah")


RECIPES: tuple[Recipe, ...] = (battery_usable, daily_12v, battery_days, daily_12v_loads)
