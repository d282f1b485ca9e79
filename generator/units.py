"""Quantities: the one pint registry, reading them from text, rounding and showing them.

Which unit a market wants is decided by its file; here a unit is only converted to.
"""

import math
import re
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from enum import Enum
from functools import cache
from typing import TYPE_CHECKING, Any, TypeAlias

import pint

ureg: "pint.UnitRegistry[Any]" = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
if TYPE_CHECKING:  # the registry builds its own class, which a type checker cannot follow
    Quantity: TypeAlias = pint.Quantity[Any]
    Unit: TypeAlias = Any  # of a quantity, as pint's own annotations have it: not the registry's class
else:
    Quantity = ureg.Quantity
    Unit = ureg.Unit

ureg.define("mm2 = millimeter ** 2")  # copper sections and vents; powers cannot be typed
ureg.define("m2 = meter ** 2")
ureg.define("flushes = count")  # of a toilet

# Squares and cubes only, never one on another: "kg**9**9**9" would keep pint busy for years.
_UNIT = r"(?!.*\*\*(?![23](?![0-9*])))[A-Za-z%°µ][A-Za-z0-9/*%°µ ]*"
_TEXT = re.compile(rf"(?P<number>[+-]?\d+(?:\.\d+)?)(?:\s*(?P<unit>{_UNIT}))?")
_LONGEST = 40  # characters; a longer text is no quantity


class UnitError(ValueError):
    """A text is no quantity of the wanted dimension; ``hint`` says what would be."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.hint = hint


class Rounding(Enum):
    """The safe side a number is rounded to when it is shown."""

    DOWN = "down"
    UP = "up"
    NEAREST = "nearest"


_MODES = {Rounding.DOWN: ROUND_FLOOR, Rounding.UP: ROUND_CEILING, Rounding.NEAREST: ROUND_HALF_EVEN}

# How a unit is written for a reader; a unit that is missing here is shown in pint's short form.
_SHOWN = {
    "kilogram": "kg", "gram": "g", "meter": "m", "millimeter": "mm", "centimeter": "cm", "liter": "L",
    "milliliter": "mL", "degree_Celsius": "°C", "degree": "°", "percent": "%", "bar": "bar",
    "kilopascal": "kPa", "newton * meter": "N·m", "meter * newton": "N·m", "hour": "h", "minute": "min",
    "day": "days", "ampere": "A", "volt": "V", "watt": "W", "kilowatt": "kW", "watt_hour": "Wh",
    "kilowatt_hour": "kWh", "ampere_hour": "Ah", "ampere * hour": "Ah", "kilonewton": "kN",
    "gram / hour": "g/h", "megajoule / hour": "MJ/h", "kilometer / hour": "km/h", "mile_per_hour": "mph",
    "dimensionless": "", "millimeter ** 2": "mm²", "mm2": "mm²", "m2": "m²", "milligram / liter": "mg/L",
    "gram / liter": "g/L", "liter / minute": "L/min", "year": "years", "month": "months",
    "watt / kelvin / m2": "W/(m²·K)", "kilojoule / delta_degree_Celsius / kilogram": "kJ/(kg·K)",
    "delta_degree_Celsius": "K", "meter / second ** 2": "m/s²", "newton / kilonewton": "N/kN",
    "liter / flushes": "L/flush", "milligram / milliliter": "mg/mL", "hour * mm2 / megajoule": "mm²/(MJ/h)",
    "second / minute": "s/min", "hour / day": "h/day", "liter / day": "L/day", "watt_hour / day": "Wh/day",
    "gram / day": "g/day", "megajoule / kilowatt_hour": "MJ/kWh", "megajoule / kilogram": "MJ/kg",
    "watt / kilowatt": "W/kW", "flushes / day": "flushes/day",
    "kilowatt_hour / m2": "kWh/m²", "kilowatt / m2": "kW/m²", "ohm / kilometer": "Ω/km", "meter / kilometer": "m/km",
    "kilogram / meter": "kg/m", "kilogram / liter": "kg/L", "gram / kilogram": "g/kg", "minute / hour": "min/h",
    "kilogram / hour": "kg/h", "millibar": "mbar",
}  # fmt: skip


def parse(text: str, unit: str) -> Quantity:
    """Read a quantity from text such as ``1400 kg``; the unit must be given and must fit.

    Args:
        text: What the author typed.
        unit: A unit of the wanted dimension, for the check and for hints ("kg").

    Returns:
        The quantity in the unit that was typed.

    Raises:
        UnitError: no number, no unit, an unknown unit or one of another dimension.
    """
    match = _TEXT.fullmatch(text.strip()) if len(text) <= _LONGEST else None
    if match is None:
        raise UnitError(f'"{text[:_LONGEST]}" is not a quantity', f'write a number and a unit, such as "1 {unit}"')
    if match["unit"] is None:
        raise UnitError(f'"{text}" has no unit', f'did you mean "{text.strip()} {unit}"?')
    try:
        quantity = Quantity(float(match["number"]), ureg.parse_units(match["unit"].strip()))
    except (pint.PintError, ArithmeticError, AssertionError, ValueError, TypeError, AttributeError) as error:
        raise UnitError(f'"{text}" has an unknown unit', f'write it in {unit}, such as "1 {unit}"') from error
    if not quantity.is_compatible_with(unit):
        raise UnitError(f'"{text}" is of the wrong kind: a quantity in {unit} is needed', f'such as "1 {unit}"')
    return quantity


def rounded(quantity: Quantity, unit: str, rounding: Rounding, digits: int = 0) -> Decimal:
    """Return the magnitude in ``unit``, rounded once to the safe side.

    A speck of float noise (1e-9 of the step) is not allowed to move a value by a whole step.

    Args:
        quantity: Any quantity compatible with ``unit``.
        unit: Unit to show.
        rounding: The safe side.
        digits: Decimals kept; negative rounds to tens.
    """
    magnitude = quantity.to(unit).magnitude
    if not math.isfinite(magnitude):
        raise ValueError(f"cannot show {magnitude}")
    step = Decimal(1).scaleb(-digits)
    settled = Decimal(repr(round(float(magnitude), digits + 9)))
    return (settled / step).to_integral_value(rounding=_MODES[rounding]) * step


@cache
def unit_text(unit: str) -> str:
    """Return ``unit`` as a reader sees it: ``kg``, ``°C``, ``N·m``."""
    long = str(ureg.parse_units(unit))
    return _SHOWN.get(long, f"{ureg.parse_units(unit):~P}")


def show(quantity: Quantity, unit: str, rounding: Rounding = Rounding.NEAREST, digits: int = 0) -> str:
    """Return ``quantity`` for a reader, rounded to the safe side: ``74 kg``."""
    magnitude = f"{rounded(quantity, unit, rounding, digits):f}"
    magnitude = magnitude.replace("-", "\N{MINUS SIGN}")
    shown = unit_text(unit)
    if shown in ("", "°", "%"):
        return magnitude + ("" if shown == "" else shown if shown == "°" else " %")
    return f"{magnitude} {shown}"
