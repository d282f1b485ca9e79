"""What a bottle holds and weighs, what each appliance burns, and whether the regulator passes it all.

Typical days stand in ``gas_days``, cold weather in ``gas_cold``, vents in ``gas_air``, hot water in ``water_heating``.
"""

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.margins import against
from generator.compute.sheet import equipment_title
from generator.compute.showing import down, exact, joined, up
from generator.compute.worked import Term, lines, put, summed
from generator.errors import Fault, Level
from generator.model.caravan import Equipment
from generator.model.numbers import Verdict, Worked
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


_PURE = {of: put(heat, "MJ/kg") for of, heat in _HEATING_VALUE.items()}
_HOURLY, _GRAMS = put(Quantity(3.6, "MJ/kWh"), "MJ/kWh"), put(Quantity(1000.0, "g/kg"), "g/kg")


def heating_value(given: Inputs, basis: str) -> Quantity:
    """Return the heat in a mass of the van's gas, on the net or gross basis; a mix counts by mass."""
    return heat_in_gas(given, basis).value


def heat_in_gas(given: Inputs, basis: str) -> Term:
    """Return ``heating_value`` as it is worked out."""
    fuel = given.text("gas.fuel")
    if fuel != "lpg-mix":
        return _PURE[fuel, basis]
    propane = put(given.assumed("lpg-mix-propane"), "percent")
    rest = put(Quantity(100.0, "percent"), "percent") - propane
    return (propane * _PURE["propane", basis] + rest * _PURE["butane", basis]).to("MJ/kg")


def burn_rate(given: Inputs, key: str) -> Quantity:
    """Return the gas an appliance burns flat out [mass/time]; the rate on its plate wins over its input."""
    return burning_at(given, key).value


def burning_at(given: Inputs, key: str) -> Term:
    """Return ``burn_rate`` as it is worked out: input over heating value, both on the basis of the plate."""
    if given.known(f"{key}.gas_rate"):
        return put(given.positive(f"{key}.gas_rate"), RATE, 1)
    heat = put(heating_value(given, given.basis(key)), "MJ/kg")
    return (input_of(given, key) * _GRAMS / heat).to(RATE)


def input_of(given: Inputs, key: str) -> Term:
    """Return the gas input of an appliance in megajoules an hour, from kilowatts where its plate says those."""
    stated = given.positive(f"{key}.gas_input")
    if _hourly(stated):
        return put(stated, "MJ/h")
    return (put(stated, "kW") * _HOURLY).to("MJ/h")


def net_input(given: Inputs, key: str) -> Term:
    """Return the net gas input of an appliance [power]; one that its plate states gross is turned into net."""
    stated = given.positive(f"{key}.gas_input")
    power = (put(stated, "MJ/h") / _HOURLY).to("kW") if _hourly(stated) else put(stated, "kW")
    if given.basis(key) == "net":
        return power
    net, gross = (put(heating_value(given, basis), "MJ/kg") for basis in ("net", "gross"))
    return (power * net / gross).to("kW")


def _hourly(stated: Quantity) -> bool:
    return bool(stated.units == Quantity(1, "MJ/h").units)


def rates(given: Inputs) -> tuple[tuple[str, Term], ...]:
    """Return what each gas appliance burns flat out; of a mix, the heat in it first."""
    return tuple((equipment_title(fitted), burning_at(given, fitted.key)) for fitted in burning(given))


def heats(given: Inputs) -> tuple[tuple[str, Term], ...]:
    """Return the heat in a kilogram of the gas for each basis that is put in; none where the gas is pure."""
    stated = [each.key for each in given.fitted("*.gas_input") if not given.known(f"{each.key}.gas_rate")]
    bases = dict.fromkeys(given.basis(key) for key in stated if given.known(f"{key}.gas_input"))
    return tuple((f"Heat in a kilogram of the mix, {basis}", heat_in_gas(given, basis)) for basis in bases)


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
def gas_per_bottle(given: Inputs) -> Answer:
    """Return the contents of one bottle, shown as the bottle is marked."""
    contents = given.positive("gas.bottle")
    return Answer(value=contents, shown=exact(contents))


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
def gas_bottle_mass(given: Inputs) -> Term:
    """Return the mass of a full bottle."""
    return put(given.positive("gas.bottle"), "kg") + put(given.positive("gas.bottle_tare"), "kg")


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
    rows, worked = [], [*lines(heats(given), "MJ/kg")]
    for fitted in given.fitted("*.gas_input"):
        cells, sums = _row(given, fitted, bottle)
        rows.append(cells)
        worked += sums
    return Rows(rows=tuple(rows), note=note, worked=tuple(worked))


def _row(given: Inputs, fitted: Equipment, bottle: Quantity) -> tuple[tuple[str, ...], tuple[Worked, ...]]:
    title = equipment_title(fitted)
    try:
        rate = burning_at(given, fitted.key)
    except NotKnown as unknown:
        return (title, "Not known", f"Read {joined(unknown.missing)}."), ()
    hours = (put(bottle, "g") / put(rate.value, RATE)).to("h")
    cells = title, up(rate.value, RATE), down(hours.value, "h")
    return cells, (*lines([(f"{title} burns", rate)], RATE), *lines([(f"{title}, from one bottle", hours)], "h"))


@number(
    "gas-demand",
    group=GROUP,
    title="All gas appliances at once",
    all_of=("gas",),
    needs=RATE_NEEDS,
    optional=("gas.regulator_flow", "trait.bbq-point", *RATE_OPTIONAL),
    assumes=RATE_ASSUMES,
    unit=RATE,
    rounding=Rounding.UP,
    method="Sum of what each appliance burns flat out, set against the plate of the regulator.",
    moves="How many appliances burn at once.",
    source=f"sum; the regulator must pass what all of them burn: published worked example; {HEAT_SOURCE}",
)
def gas_demand(given: Inputs) -> Answer:
    """Return what all appliances burn flat out; more than the plate of the regulator says is a fault."""
    each = rates(given)
    together = summed(put(rate.value, RATE) for _, rate in each)
    worked = (*lines(heats(given), "MJ/kg"), *lines(each, RATE), *lines([("Together", together)], RATE))
    demand = together.value
    more = " A barbecue on its outlet burns more: add what its label says." if given.trait("bbq-point") else ""
    if not given.known("gas.regulator_flow"):
        told = "Read the plate of the regulator: it must pass as much or more." + more
        return Answer(value=demand, sentence=told, worked=worked)
    flow = given.positive("gas.regulator_flow")
    verdict = against(demand, flow)
    return Answer(
        value=demand,
        worked=worked,
        limit=flow,
        verdict=verdict,
        sentence=f"{up(demand, RATE)} with everything flat out. The regulator passes {exact(flow)}.{more}",
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
