"""How long the gas lasts: what each appliance burns, hours and days of one bottle, the regulator.

Heating water with gas is worked out in ``water_heating``.
"""

from dataclasses import dataclass

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.margins import over
from generator.compute.sheet import equipment_title
from generator.compute.showing import down, exact, joined, up, whole_days
from generator.errors import Fault, Level
from generator.model.caravan import Equipment
from generator.units import Quantity, Rounding

GROUP = "Gas"
RATE = "g/h"
# What the rate at which an appliance burns gas is worked out from; the basis comes with the input.
RATE_NEEDS = ("*.gas_input", "gas.fuel")
RATE_OPTIONAL = ("*.gas_rate",)
RATE_ASSUMES = ("lpg-mix-propane",)
HEAT_SOURCE = (
    "heating values of the pure gases: propane 46.35 net and 50.43 gross, n-butane 45.74 and 49.62 MJ/kg (published"
    " table; within 0.3 % of ISO 6976 from memory)"
)
_HEATING_VALUE = {
    ("propane", "net"): Quantity(46.35, "MJ/kg"),
    ("propane", "gross"): Quantity(50.43, "MJ/kg"),
    ("butane", "net"): Quantity(45.74, "MJ/kg"),
    ("butane", "gross"): Quantity(49.62, "MJ/kg"),
}
# Hours at full flame in a typical day, by slot; a water heater's depend on whether it has a tank.
_HOURS = {"hob": "gas-hours-hob", "grill": "gas-hours-grill", "oven": "gas-hours-oven", "fridge": "gas-hours-fridge"}


def heating_value(given: Inputs, basis: str) -> Quantity:
    """Return the heat in a mass of the van's gas, on the net or gross basis; a mix counts by mass."""
    fuel = given.text("gas.fuel")
    if fuel != "lpg-mix":
        return _HEATING_VALUE[fuel, basis]
    propane = given.assumed("lpg-mix-propane")
    mixed: Quantity = propane * _HEATING_VALUE["propane", basis] + (1 - propane) * _HEATING_VALUE["butane", basis]
    return mixed


def burn_rate(given: Inputs, key: str) -> Quantity:
    """Return the gas an appliance burns flat out [mass/time]; the rate on its plate wins over its input.

    Formula: rate = input / heating value, both on the basis of the plate.
    """
    if given.known(f"{key}.gas_rate"):
        return given.positive(f"{key}.gas_rate")
    rate: Quantity = given.positive(f"{key}.gas_input") / heating_value(given, given.basis(key))
    return rate


@number(
    "gas-per-bottle",
    group=GROUP,
    title="Gas in a full bottle",
    all_of=("gas",),
    needs=("gas.bottle",),
    unit="kg",
    rounding=Rounding.DOWN,
    digits=1,
    method="Read off the bottle.",
    source="the mark on the bottle",
)
def gas_per_bottle(given: Inputs) -> Quantity:
    """Return the contents of one bottle."""
    return given.positive("gas.bottle")


@dataclass(frozen=True, slots=True)
class _Row:
    """An appliance, its burn rate where it is known, and its row."""

    rate: Quantity | None
    cells: tuple[str, ...]


@table(
    "gas-hours",
    group=GROUP,
    title="Hours from one bottle, each flat out",
    all_of=("gas",),
    needs=("gas.bottle", *RATE_NEEDS),
    optional=("gas.regulator_flow", *RATE_OPTIONAL),
    assumes=RATE_ASSUMES,
    head=("Appliance", "Burns, flat out", "One bottle lasts"),
    rounding=Rounding.DOWN,
    method="Contents of a bottle over the rate on the plate of the appliance, or over its input by the heating value.",
    source=HEAT_SOURCE,
)
def gas_hours(given: Inputs) -> Rows:
    """Return a row for each appliance, and a warning where all together ask more than the regulator passes."""
    bottle = given.positive("gas.bottle")
    rows = [_row(given, fitted, bottle) for fitted in given.fitted("*.gas_input")]
    cells = tuple(row.cells for row in rows)
    rates = [row.rate for row in rows if row.rate is not None]
    note = "Each alone, flat out, from a full bottle. Cold weather and a low bottle give less."
    return Rows(rows=cells, note=note, faults=_regulator_faults(given, sum(rates, Quantity(0.0, RATE))))


def _row(given: Inputs, fitted: Equipment, bottle: Quantity) -> _Row:
    title = equipment_title(fitted)
    try:
        rate = burn_rate(given, fitted.key)
    except NotKnown as unknown:
        return _Row(None, (title, "Not known", f"Read {joined(unknown.missing)}."))
    return _Row(rate, (title, up(rate, RATE), down(bottle / rate, "h")))


def _regulator_faults(given: Inputs, together: Quantity) -> tuple[Fault, ...]:
    """Return a warning where the appliances together ask more than the regulator passes."""
    if not given.known("gas.regulator_flow"):
        return ()
    flow = given.positive("gas.regulator_flow")
    if not over(together, flow):
        return ()
    message = f"all gas appliances together burn {up(together, RATE)}, the regulator passes {exact(flow)}"
    return (Fault(message, given.source("gas.regulator_flow"), level=Level.WARNING),)


@number(
    "gas-days-typical",
    group=GROUP,
    title="Typical days from one bottle",
    all_of=("gas",),
    needs=("gas.bottle", *RATE_NEEDS),
    optional=(*RATE_OPTIONAL, "trait.hot-water-instant"),
    assumes=(
        *RATE_ASSUMES,
        *_HOURS.values(),
        "gas-hours-water-tank",
        "gas-hours-water-instant",
        "gas-hours-heating-cold",
        "gas-hours-heating-mild",
        "gas-hours-other",
    ),
    unit="day",
    rounding=Rounding.DOWN,
    method="Contents of one bottle over the sum of what each appliance burns in its assumed hours flat out each day.",
    source=HEAT_SOURCE,
)
def gas_days_typical(given: Inputs) -> Answer:
    """Return the days of a bottle; where gas heats the van, those of cold weather, and mild weather beside."""
    bottle, burners = given.positive("gas.bottle"), given.fitted("*.gas_input")
    if not burners:
        raise NotKnown("what you connect off its own rating plate")
    mild, cold = (bottle / _daily(given, burners, season) for season in ("mild", "cold"))
    if not any(fitted.slot.id == "room_heater" for fitted in burners):
        return Answer(value=cold, shown=whole_days(cold))
    return Answer(value=cold, shown=f"{whole_days(cold)} in cold weather, {whole_days(mild)} in mild weather")


def _daily(given: Inputs, burners: tuple[Equipment, ...], season: str) -> Quantity:
    """Return the gas of a typical day [mass/time]."""
    shares = (burn_rate(given, fitted.key) * given.assumed(_hours(given, fitted, season)) for fitted in burners)
    daily: Quantity = sum(shares, Quantity(0.0, "g")) / Quantity(1.0, "day")
    return daily


def _hours(given: Inputs, fitted: Equipment, season: str) -> str:
    """Return the assumption that says how long an appliance burns in a day."""
    if fitted.slot.id == "hot_water":
        return "gas-hours-water-instant" if given.trait("hot-water-instant") else "gas-hours-water-tank"
    if fitted.slot.id == "room_heater":
        return f"gas-hours-heating-{season}"
    return _HOURS.get(fitted.slot.id, "gas-hours-other")


RECIPES: tuple[Recipe, ...] = (gas_per_bottle, gas_hours, gas_days_typical)
