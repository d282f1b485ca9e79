"""What a bottle holds and weighs, what each appliance burns, and whether the regulator passes it all.

Typical days stand in ``gas_days``, cold weather in ``gas_cold``, vents in ``gas_air``, hot water in ``water_heating``.
"""

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.margins import against
from generator.compute.sheet import equipment_title
from generator.compute.showing import down, exact, joined, up
from generator.errors import Fault, Level
from generator.model.caravan import Equipment
from generator.model.numbers import Verdict
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


@number(
    "gas-bottle-mass",
    group=GROUP,
    title="One full gas bottle weighs",
    all_of=("gas",),
    needs=("gas.bottle", "gas.bottle_tare"),
    unit="kg",
    rounding=Rounding.UP,
    digits=1,
    method="Gas in the full bottle + the tare stamped on it.",
    source="the marks on the bottle",
)
def gas_bottle_mass(given: Inputs) -> Quantity:
    """Return the mass of a full bottle."""
    full: Quantity = given.positive("gas.bottle") + given.positive("gas.bottle_tare")
    return full


@table(
    "gas-hours",
    group=GROUP,
    title="Hours from one bottle, each flat out",
    all_of=("gas",),
    needs=("gas.bottle", *RATE_NEEDS),
    optional=RATE_OPTIONAL,
    assumes=RATE_ASSUMES,
    head=("Appliance", "Burns, flat out", "One bottle lasts"),
    rounding=Rounding.DOWN,
    method="Contents of a bottle over the rate on the plate of the appliance, or over its input by the heating value.",
    source=HEAT_SOURCE,
)
def gas_hours(given: Inputs) -> Rows:
    """Return a row for each appliance."""
    bottle = given.positive("gas.bottle")
    note = "Each alone, flat out, from a full bottle. Cold weather and a low bottle give less."
    return Rows(rows=tuple(_row(given, fitted, bottle) for fitted in given.fitted("*.gas_input")), note=note)


def _row(given: Inputs, fitted: Equipment, bottle: Quantity) -> tuple[str, ...]:
    title = equipment_title(fitted)
    try:
        rate = burn_rate(given, fitted.key)
    except NotKnown as unknown:
        return title, "Not known", f"Read {joined(unknown.missing)}."
    return title, up(rate, RATE), down(bottle / rate, "h")


@number(
    "gas-demand",
    group=GROUP,
    title="All gas appliances at once",
    all_of=("gas",),
    needs=RATE_NEEDS,
    optional=("gas.regulator_flow", *RATE_OPTIONAL),
    assumes=RATE_ASSUMES,
    unit=RATE,
    rounding=Rounding.UP,
    method="Sum of what each appliance burns flat out, set against the plate of the regulator.",
    source=f"sum; the regulator must pass what all of them burn: published worked example; {HEAT_SOURCE}",
)
def gas_demand(given: Inputs) -> Answer:
    """Return what all appliances burn flat out; more than the plate of the regulator says is a fault."""
    burners = burning(given)
    demand: Quantity = sum((burn_rate(given, fitted.key) for fitted in burners), Quantity(0.0, RATE))
    if not given.known("gas.regulator_flow"):
        return Answer(value=demand, sentence="Read the plate of the regulator: it must pass as much or more.")
    flow = given.positive("gas.regulator_flow")
    verdict = against(demand, flow)
    return Answer(
        value=demand,
        limit=flow,
        verdict=verdict,
        sentence=f"{up(demand, RATE)} with everything flat out. The regulator passes {exact(flow)}.",
        faults=_regulator_faults(given, demand, flow, verdict),
    )


def burning(given: Inputs) -> tuple[Equipment, ...]:
    """Return what burns gas.

    Raises:
        NotKnown: nothing fitted does; a barbecue point feeds what an owner connects.
    """
    burners = given.fitted("*.gas_input")
    if not burners:
        raise NotKnown("what you connect off its own rating plate")
    return burners


def _regulator_faults(given: Inputs, demand: Quantity, flow: Quantity, verdict: Verdict) -> tuple[Fault, ...]:
    if verdict is Verdict.WITHIN:
        return ()
    at, message = given.source("gas.regulator_flow"), f"all gas appliances together burn {up(demand, RATE)}"
    if verdict is Verdict.CLOSE:
        return (Fault(f"thin margin: {message}, the regulator passes {exact(flow)}", at, level=Level.WARNING),)
    hint = "read the plates again; a regulator that passes more is work for a gas fitter"
    return (Fault(f"{message}, more than the {exact(flow)} that the regulator passes", at, hint),)


RECIPES: tuple[Recipe, ...] = (gas_per_bottle, gas_bottle_mass, gas_demand, gas_hours)
