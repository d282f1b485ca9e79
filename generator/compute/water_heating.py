"""How long a tank of cold water takes to get hot on gas, on mains and on both, and what showers it gives.

What it costs in gas a day is worked out in ``gas_days``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.gas import HEAT_SOURCE, RATE_ASSUMES, net_input
from generator.compute.inputs import Inputs, Refused
from generator.compute.showing import down, exact, up
from generator.compute.worked import Term, lines, put, smaller
from generator.errors import Fault
from generator.units import Quantity, Rounding

GROUP = "Hot water"
# Textbook values: within 0.5 % of the IAPWS-95 water properties for water of 5 to 25 degC heated to 70 degC.
_DENSITY = put(Quantity(1.0, "kg/L"), "kg/L")
_HEAT_CAPACITY = put(Quantity(4.186, "kJ/kg/delta_degC"), "kJ/kg/delta_degC", 3)
_MINUTE = put(Quantity(60.0, "s/min"), "s/min")
_METHOD = (
    "Mass of water × 4.186 kJ/(kg K) × temperature rise, over power × efficiency; heat lost on the way is left out."
)
_SOURCE = "heat capacity of water; efficiency is common practice, no source"
_TANK = ("hot_water.volume", "hot_water.set_temperature")
_WAYS_ASSUME = ("gas-water-efficiency", "mains-water-efficiency", *RATE_ASSUMES)


def heat_needed(given: Inputs) -> Term:
    """Return the heat that takes a tank of cold water to its set temperature: Q = m c (T2 - T1), none if colder."""
    return put(given.positive("hot_water.volume"), "L") * _DENSITY * _HEAT_CAPACITY * _rise(given)


def _rise(given: Inputs) -> Term:
    """Return how much hotter than the cold water the tank gets [temperature difference], none if colder."""
    rise = put(given.quantity("hot_water.set_temperature"), "degC") - put(given.assumed("cold-water"), "degC")
    return rise if rise.value.magnitude > 0 else put(Quantity(0.0, "delta_degC"), "delta_degC")


def _above(warm: Quantity, cold: Quantity) -> Term:
    """Return how much warmer than the cold water a shower is; at least a degree, so that it divides."""
    above = put(warm, "degC") - put(cold, "degC")
    return above if above.value.magnitude >= 1 else put(Quantity(1.0, "delta_degC"), "delta_degC")


@number(
    "heat-up-gas",
    group=GROUP,
    title="Hot water on gas, from cold",
    all_of=("hot-water-tank", "hot-water-gas"),
    needs=("hot_water.volume", "hot_water.set_temperature", "hot_water.gas_input", "gas.fuel"),
    assumes=("cold-water", "gas-water-efficiency", *RATE_ASSUMES),
    unit="min",
    rounding=Rounding.UP,
    method=_METHOD,
    source=f"{_SOURCE}; {HEAT_SOURCE}",
)
def heat_up_gas(given: Inputs) -> Answer:
    """Return t = Q / (P eta)."""
    return _heated(given, _on_gas(given))


@number(
    "heat-up-mains",
    group=GROUP,
    title="Hot water on mains, from cold",
    all_of=("hot-water-tank", "hot-water-mains"),
    needs=("hot_water.volume", "hot_water.set_temperature", "hot_water.mains_input"),
    assumes=("cold-water", "mains-water-efficiency"),
    unit="min",
    rounding=Rounding.UP,
    method=_METHOD,
    source=_SOURCE,
)
def heat_up_mains(given: Inputs) -> Answer:
    """Return t = Q / (P eta)."""
    return _heated(given, _on_mains(given))


@number(
    "heat-up-both",
    group=GROUP,
    title="Hot water on gas and mains together, from cold",
    all_of=("hot-water-tank", "hot-water-gas", "hot-water-mains"),
    needs=(*_TANK, "hot_water.gas_input", "hot_water.mains_input", "gas.fuel"),
    assumes=("cold-water", *_WAYS_ASSUME),
    unit="min",
    rounding=Rounding.UP,
    method=_METHOD,
    source=f"{_SOURCE}; {HEAT_SOURCE}",
)
def heat_up_both(given: Inputs) -> Answer:
    """Return t = Q / (P1 eta1 + P2 eta2)."""
    return _heated(given, _on_gas(given) + _on_mains(given), "Where the heater's label allows both at once.")


def _heated(given: Inputs, power: Term, sentence: str = "") -> Answer:
    """Return how long ``power``, losses taken off, heats a cold tank."""
    return Answer(value=_lasting(heat_needed(given), power), sentence=sentence)


def _lasting(heat: Term, power: Term) -> Term:
    """Return how long ``power`` takes for ``heat``."""
    return (heat / (power * _MINUTE)).to("min")


@number(
    "shower-water",
    group=GROUP,
    title="Shower water from one hot tank",
    all_of=("hot-water-tank",),
    needs=_TANK,
    assumes=("cold-water", "shower-temperature"),
    unit="L",
    rounding=Rounding.DOWN,
    method="Volume × (set - cold) over (shower - cold): the hot water mixed with cold.",
    source="energy balance of mixing",
)
def shower_water(given: Inputs) -> Answer:
    """Return V (T2 - T1) / (T - T1); no more than the tank where the shower is as hot as it."""
    cold, warm = given.assumed("cold-water"), given.assumed("shower-temperature")
    mixed = (put(given.positive("hot_water.volume"), "L") * _rise(given) / _above(warm, cold)).to("L")
    mixing = f"Mixed with cold water of {exact(cold)} to {exact(warm)}."
    return Answer(value=mixed, sentence=f"{mixing} Test it before a child does.")


@number(
    "second-shower",
    group=GROUP,
    title="Wait before the second shower",
    all_of=("hot-water-tank",),
    needs=_TANK,
    optional=("hot_water.gas_input", "hot_water.mains_input", "gas.fuel"),
    uses=("shower-water",),
    assumes=("cold-water", "shower-water", "shower-temperature", *_WAYS_ASSUME),
    unit="min",
    rounding=Rounding.UP,
    method=(
        "Heat that one shower takes out of the tank, all of it at most, over power × efficiency; heat lost on the way"
        " is left out."
    ),
    source=_SOURCE,
)
def second_shower(given: Inputs) -> Answer:
    """Return how long the heater takes to put back the heat of one shower, by each way it has; the slowest counts."""
    cold, warm = given.assumed("cold-water"), given.assumed("shower-temperature")
    shower = put(given.assumed("shower-water"), "L") * _DENSITY * _HEAT_CAPACITY * _above(warm, cold)
    taken = smaller(shower, heat_needed(given))
    ways = {"gas": "hot_water.gas_input", "mains": "hot_water.mains_input"}
    powers = {name: _POWERS[name](given) for name, path in ways.items() if given.has(path)}
    waits = {name: _lasting(taken, power) for name, power in powers.items()}
    if not waits:
        raise Refused(Fault("the water heater heats on neither gas nor mains", given.source("hot_water.volume")))
    tank, one = given.number("shower-water"), given.assumed("shower-water")
    return Answer(
        value=max(wait.value for wait in waits.values()),
        worked=lines([(f"On {name}", wait) for name, wait in waits.items()], "min"),
        shown=", ".join(f"{up(wait.value, 'min')} on {name}" for name, wait in waits.items()),
        sentence=f"For {exact(one)} a shower. One hot tank gives {down(tank, 'L')}.",
        source=f"{_SOURCE}; {HEAT_SOURCE}" if "gas" in waits else "",
    )


def _on_gas(given: Inputs) -> Term:
    """Return the heat that the flame gives the water [power]; the efficiency belongs to the net input."""
    return (net_input(given, "hot_water") * put(given.assumed("gas-water-efficiency"), "percent")).to("kW")


def _on_mains(given: Inputs) -> Term:
    """Return the heat that the element gives the water [power]."""
    share = put(given.assumed("mains-water-efficiency"), "percent")
    return (put(given.positive("hot_water.mains_input"), "kW", 3) * share).to("kW")


_POWERS = {"gas": _on_gas, "mains": _on_mains}


RECIPES: tuple[Recipe, ...] = (heat_up_gas, heat_up_mains, heat_up_both, shower_water, second_shower)
