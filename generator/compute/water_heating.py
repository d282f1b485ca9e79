"""How long a tank of cold water takes to get hot, on gas and on mains.

What it costs in gas a day is worked out in ``gas``.
"""

from generator.compute.declare import Recipe, number
from generator.compute.gas import HEAT_SOURCE, RATE_ASSUMES, heating_value
from generator.compute.inputs import Inputs
from generator.units import Quantity, Rounding

GROUP = "Hot water"
# Textbook values: within 0.5 % of the IAPWS-95 water properties for water of 5 to 25 degC heated to 70 degC.
_DENSITY = Quantity(1.0, "kg/L")
_HEAT_CAPACITY = Quantity(4.186, "kJ/kg/delta_degC")
_METHOD = (
    "Mass of water x 4.186 kJ/(kg K) x temperature rise, over power x efficiency; heat lost on the way is left out."
)
_SOURCE = "heat capacity of water; efficiency is common practice, no source"


def heat_needed(given: Inputs) -> Quantity:
    """Return the heat that takes a tank of cold water to its set temperature: Q = m c (T2 - T1), none if colder."""
    rise = given.quantity("hot_water.set_temperature") - given.assumed("cold-water")
    heat: Quantity = given.positive("hot_water.volume") * _DENSITY * _HEAT_CAPACITY * rise
    return max(heat, Quantity(0.0, "kJ"))


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
def heat_up_gas(given: Inputs) -> Quantity:
    """Return t = Q / (P eta), with the gas input P on the net basis."""
    power = given.positive("hot_water.gas_input")
    if given.basis("hot_water") == "gross":
        power = power * heating_value(given, "net") / heating_value(given, "gross")
    duration: Quantity = heat_needed(given) / (power * given.assumed("gas-water-efficiency"))
    return duration


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
def heat_up_mains(given: Inputs) -> Quantity:
    """Return t = Q / (P eta)."""
    power: Quantity = given.positive("hot_water.mains_input") * given.assumed("mains-water-efficiency")
    duration: Quantity = heat_needed(given) / power
    return duration


RECIPES: tuple[Recipe, ...] = (heat_up_gas, heat_up_mains)
