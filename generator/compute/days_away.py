"""What the planner of days away reckons with: what a van holds, what a day takes of it, by habit and weather.

When it runs out is worked out on the owner's phone.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from generator.compute import battery, gas_days, solar, toilet, water
from generator.compute.declare import Recipe
from generator.compute.gas import burn_rate, burning
from generator.compute.inputs import Inputs
from generator.compute.sheet import equipment_title
from generator.model.planners import BatteryStock, Burner, CassetteStock, GasStock, WaterStock
from generator.units import Quantity

# The share of a usual day that each habit takes. Common practice, no source.
HABITS: Mapping[str, float] = {"sparing": 0.6, "usual": 1.0, "generous": 1.5}
# What runs by itself, whatever one's habits: a fridge by its thermostat, heating by the weather.
_FRIDGE, _HEATING = "fridge", "room_heater"
_SEASON = 3  # months


def _in(quantity: Quantity, unit: str) -> float:
    return float(quantity.to(unit).magnitude)


def _gas(given: Inputs) -> GasStock:
    return GasStock(
        bottle_g=_in(given.positive("gas.bottle"), "g"),
        bottles=given.count("gas.bottles"),
        burners=tuple(
            Burner(
                name=equipment_title(fitted),
                g_per_h=_in(burn_rate(given, fitted.key), "g/h"),
                hours={each: _in(gas_days.typical_hours(given, fitted, each), "h") for each in gas_days.WEATHER},
                by_habit=fitted.slot.id not in (_FRIDGE, _HEATING),
            )
            for fitted in burning(given)
        ),
    )


def _battery(given: Inputs) -> BatteryStock:
    return BatteryStock(
        usable_wh=_in(given.number("battery-usable"), battery.ENERGY),
        day_wh=_in(given.number("daily-12v"), battery.ENERGY),
        steady_wh=_taken(given, _FRIDGE),
        heat_wh=_taken(given, _HEATING),
    )


def _with_sun(given: Inputs) -> BatteryStock:
    sun = tuple(_in(month, battery.ENERGY) for month in solar.monthly_yields(given))
    return replace(_battery(given), sun_wh=sun, season_month=_season_months(sun))


def _taken(given: Inputs, slot: str) -> float:
    """Return what the equipment of one slot takes of 12 V in a typical day, in Wh."""
    loads = [fitted for fitted in given.fitted(battery.LOADS) if fitted.slot.id == slot]
    return sum((_in(given.quantity(f"{fitted.key}.daily_12v"), battery.ENERGY) for fitted in loads), 0.0)


def _season_months(sun: tuple[float, ...]) -> dict[str, int]:
    """Return the darkest month of each weather: cold is the three darkest months, warm the three sunniest."""
    rising = sorted(range(len(sun)), key=lambda month: sun[month])
    return {"cold": rising[0], "mild": rising[_SEASON], "warm": rising[-_SEASON]}


def _water(given: Inputs) -> WaterStock:
    return WaterStock(
        usable_l=_in(given.number("water-usable"), water.LITRE),
        person_l=_in(given.assumed("water-use"), water.LITRE),
        berths=given.count("berths"),
    )


def _cassette(given: Inputs) -> CassetteStock:
    return CassetteStock(
        usable_l=_in(given.positive("toilet.cassette"), toilet.LITRE),
        flush_l=_in(given.positive("toilet.flush"), toilet.LITRE),
        flushes=_in(given.assumed("toilet-flushes"), "dimensionless"),
        body_l=_in(given.assumed("toilet-body"), toilet.LITRE),
        berths=given.count("berths"),
    )


_Stock = tuple[tuple[Recipe, ...], Callable[[Inputs], Any]]
_BATTERY = (battery.battery_days, battery.daily_12v)
# Each stock by its field of ``DaysPlan``: the recipes whose inputs it may read, and its function.
STOCKS: Mapping[str, _Stock] = {
    "gas": ((gas_days.gas_day,), _gas),
    "battery": ((*_BATTERY, solar.solar_months), _with_sun),
    "water": ((water.water_days,), _water),
    "cassette": ((toilet.cassette_days,), _cassette),
}
BATTERY_ALONE: _Stock = (_BATTERY, _battery)
