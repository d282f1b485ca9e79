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

# The units a build sheet, a catalogue or a market may use, in pint's own notation and with pint's own values: the full
# list takes longer to read than a van to compute, and holds units that are slips here (a bag, a slug, a US gallon).
_DEFINED = """
nano- = 1e-9 = n-
micro- = 1e-6 = µ- = μ- = u-
milli- = 1e-3 = m-
centi- = 1e-2 = c-
deci- = 1e-1 = d-
hecto- = 1e2 = h-
kilo- = 1e3 = k-
mega- = 1e6 = M-
giga- = 1e9 = G-
meter = [length] = m = metre
second = [time] = s = sec
ampere = [current] = A = amp
gram = [mass] = g
kelvin = [temperature]; offset: 0 = K = degK
radian = [] = rad
count = []
flushes = count
percent = 0.01 = %
permille = 0.001 = ‰
ppm = 1e-6
degree = 0.017453292519943295 * radian = deg = angular_degree
turn = 360 * degree = _ = revolution
minute = 60 * second = min
hour = 60 * minute = h = hr
day = 24 * hour = d
week = 7 * day
year = 365.25 * day = a = yr
month = year / 12
hertz = 1 / second = Hz
revolutions_per_minute = revolution / minute = rpm
degree_Celsius = kelvin; offset: 273.15 = °C = celsius = degC = degreeC
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = °F = fahrenheit = degF = degreeF
inch = 0.0254 * meter = in = inches
foot = 12 * inch = ft = feet
yard = 3 * foot = yd
mile = 1760 * yard = mi
mm2 = millimeter ** 2
m2 = meter ** 2
liter = decimeter ** 3 = l = L = ℓ = litre
imperial_gallon = 4.54609 * liter = imperial_gal = UK_gallon
imperial_pint = imperial_gallon / 8 = imperial_pt = UK_pint
pound = 0.45359237 * kilogram = lb
ounce = pound / 16 = oz
stone = 14 * pound
metric_ton = 1e3 * kilogram = t = tonne
mile_per_hour = mile / hour = mph = MPH
kilometer_per_hour = kilometer / hour = kph = KPH
standard_gravity = 9.80665 * meter / second ** 2 = g_0 = g_n
newton = kilogram * meter / second ** 2 = N
force_kilogram = g_0 * kilogram = kgf = kilogram_force
force_pound = g_0 * pound = lbf = pound_force
foot_pound = foot * force_pound = ft_lb = footpound
pascal = newton / meter ** 2 = Pa
bar = 1e5 * pascal
standard_atmosphere = 1.01325e5 * pascal = atm
pound_force_per_square_inch = force_pound / inch ** 2 = psi
joule = newton * meter = J
watt = joule / second = W
watt_hour = watt * hour = Wh = watthour
calorie = 4.184 * joule = cal
british_thermal_unit = 1055.056 * joule = Btu = BTU
horsepower = 550 * foot * force_pound / second = hp
coulomb = ampere * second = C
ampere_hour = ampere * hour = Ah
volt = joule / coulomb = V
ohm = volt / ampere = Ω
siemens = ampere / volt = S
"""

ureg: "pint.UnitRegistry[Any]" = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=True)
ureg.load_definitions(_DEFINED.strip().splitlines())
if TYPE_CHECKING:  # the registry builds its own class, which a type checker cannot follow
    Quantity: TypeAlias = pint.Quantity[Any]
    Unit: TypeAlias = Any  # of a quantity, as pint's own annotations have it: not the registry's class
else:
    Quantity = ureg.Quantity
    Unit = ureg.Unit

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
        raise UnitError(f'"{text[:_LONGEST]}" is not a quantity', _hint(text, unit))
    if match["unit"] is None:
        raise UnitError(f'"{text}" has no unit', f'did you mean "{text.strip()} {unit}"?')
    try:
        quantity = Quantity(float(match["number"]), ureg.parse_units(match["unit"].strip()))
    except (pint.PintError, ArithmeticError, AssertionError, ValueError, TypeError, AttributeError) as error:
        raise UnitError(f'"{text}" has an unknown unit', f'did you mean "{match["number"]} {unit}"?') from error
    if not quantity.is_compatible_with(unit):
        raise UnitError(f'"{text}" is of the wrong kind: a quantity in {unit} is needed', f'such as "1 {unit}"')
    return quantity


def _hint(text: str, unit: str) -> str:
    """Return what was meant where a comma stands for the point, or what a quantity looks like."""
    point = text.replace(",", ".")
    meant = point != text and _TEXT.fullmatch(point.strip()) is not None
    return f'did you mean "{point}"?' if meant else f'write a number and a unit, such as "1 {unit}"'


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
