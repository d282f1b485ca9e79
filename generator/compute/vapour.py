"""Pressure of gas over its liquid, and of the air at a height: closed formulas, in plain numbers.

What they mean for a bottle stands in ``gas_cold``.
"""

import math

from generator.compute.worked import Term, power, put, summed, whole
from generator.units import Quantity

SOURCE = (
    "Antoine equation with the constants of Poling, Prausnitz and O'Connell, The Properties of Gases and Liquids, 5th"
    " edition (within 1.5 % of CoolProp from -40 to 20 °C); mixes by Raoult's law; air pressure of the ISA standard"
    " atmosphere"
)
# log10(p / bar) = A - B / (t / degC + C)
_ANTOINE = {"propane": (3.92828, 803.997, 247.040), "butane": (3.93266, 935.773, 238.789)}
_MOLAR_MASS = {"propane": 44.0956, "butane": 58.1222}  # g/mol
_SEA_LEVEL_KPA, _SEA_LEVEL_K, _LAPSE_K_PER_M, _EXPONENT = 101.325, 288.15, 0.0065, 5.25588
_TEMPERATURE_DIGITS = 4
_LEAST_C, _MOST_C = -60.0, 60.0  # a bottle is never outside


def vapour_kpa(propane_share: float, temperature_c: float) -> float:
    """Return the absolute pressure over a liquid of propane (share by mass, 0 to 1) and n-butane.

    Formula: Antoine for each, weighted by its share of molecules in the liquid (Raoult).
    """
    moles = {"propane": propane_share / _MOLAR_MASS["propane"], "butane": (1 - propane_share) / _MOLAR_MASS["butane"]}
    parts = (moles[gas] * 100 * 10 ** (a - b / (temperature_c + c)) for gas, (a, b, c) in _ANTOINE.items())
    return sum(parts) / sum(moles.values())


def temperature_c(propane_share: float, pressure_kpa: float) -> float:
    """Return at which temperature the absolute pressure over the liquid is ``pressure_kpa``, by halving."""
    low, high = _LEAST_C, _MOST_C
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if vapour_kpa(propane_share, middle) < pressure_kpa else (low, middle)
    return high


def vapour(propane_share: float, temperature: Quantity, unit: str) -> Term:
    """Return ``vapour_kpa`` as it is worked out, in ``unit``; of a mix, the shares of molecules are put in."""
    at = whole(round(float(temperature.to("degC").magnitude), _TEMPERATURE_DIGITS))
    moles = {"propane": propane_share / _MOLAR_MASS["propane"], "butane": (1 - propane_share) / _MOLAR_MASS["butane"]}
    parts = []
    for gas, (a, b, c) in _ANTOINE.items():
        pressure = put(Quantity(1.0, "bar"), unit) * power(whole(10), whole(a) - whole(b) / (at + whole(c)))
        share = put(Quantity(100.0 * moles[gas] / sum(moles.values()), "percent"), "percent")
        if moles[gas]:
            parts.append(pressure if moles[gas] == sum(moles.values()) else share * pressure)
    return summed(parts).to(unit)


def air(height: Quantity, unit: str) -> Term:
    """Return ``air_kpa`` as it is worked out, in ``unit``; at sea level it is one value."""
    sea = put(Quantity(_SEA_LEVEL_KPA, "kPa"), unit, 4)
    if not height.magnitude:
        return sea
    lapse = whole(1) - whole(_LAPSE_K_PER_M) * whole(float(height.to("m").magnitude)) / whole(_SEA_LEVEL_K)
    return sea * power(lapse, whole(_EXPONENT))


def air_kpa(height_m: float) -> float:
    """Return the pressure of the air at a height above the sea.

    Formula: p = p0 (1 - L h / T0) ** 5.25588, the troposphere of the ISA standard atmosphere (ISO 2533).
    """
    return _SEA_LEVEL_KPA * math.pow(1 - _LAPSE_K_PER_M * height_m / _SEA_LEVEL_K, _EXPONENT)
