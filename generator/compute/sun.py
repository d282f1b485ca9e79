"""Sunlight above the air on level ground, by latitude and day: closed formulas, in plain numbers.

What of it reaches a battery stands in ``solar``.
"""

import math
from functools import cache

SOURCE = (
    "Duffie and Beckman, Solar Engineering of Thermal Processes, equations 1.6.1b (declination, Spencer) and 1.10.3"
    " (daily sunlight above the air), means over each month"
)
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_SOLAR_CONSTANT_KW_M2 = 1.367
_SPENCER = (
    (0.006918, 0.0),
    (-0.399912, 0.070257),
    (-0.006758, 0.000907),
    (-0.002697, 0.00148),
)  # cosine and sine of 0, 1, 2 and 3 times the day's angle


def declination(day: int) -> float:
    """Return the angle of the sun above the equator on a day of the year (1 to 365) [radians]."""
    angle = 2 * math.pi * (day - 1) / 365
    return sum(c * math.cos(n * angle) + s * math.sin(n * angle) for n, (c, s) in enumerate(_SPENCER))


def daily_kwh_m2(latitude_deg: float, day: int) -> float:
    """Return the sunlight above the air on level ground in one day.

    Formula: H0 = 24 Gsc/pi (1 + 0.033 cos(2 pi n/365)) (cos phi cos d sin ws + ws sin phi sin d), cos ws = -tan phi
    tan d; without sunrise ws is 0, without sunset pi.
    """
    phi, tilt = math.radians(latitude_deg), declination(day)
    sunset = math.acos(min(1.0, max(-1.0, -math.tan(phi) * math.tan(tilt))))
    shape = math.cos(phi) * math.cos(tilt) * math.sin(sunset) + sunset * math.sin(phi) * math.sin(tilt)
    nearness = 1 + 0.033 * math.cos(2 * math.pi * day / 365)
    return max(0.0, 24 / math.pi * _SOLAR_CONSTANT_KW_M2 * nearness * shape)


@cache
def monthly_kwh_m2(latitude_deg: float) -> tuple[float, ...]:
    """Return the mean of ``daily_kwh_m2`` over each month."""
    means, first = [], 1
    for days in _DAYS:
        means.append(sum(daily_kwh_m2(latitude_deg, day) for day in range(first, first + days)) / days)
        first += days
    return tuple(means)


def on_the_ground(above_kwh_m2: tuple[float, ...], dark: float, bright: float) -> tuple[float, ...]:
    """Return the sunlight that comes through the sky in each month."""
    shares = sky_shares(above_kwh_m2, dark, bright)
    return tuple(each * share for each, share in zip(above_kwh_m2, shares, strict=True))


def sky_shares(above_kwh_m2: tuple[float, ...], dark: float, bright: float) -> tuple[float, ...]:
    """Return the share of the sunlight that comes through the sky in each month.

    The share is ``dark`` in the darkest month, ``bright`` in the sunniest, and in proportion to the light above the
    air in between.
    """
    least, most = min(above_kwh_m2), max(above_kwh_m2)
    spread = most - least
    return tuple(dark + (bright - dark) * ((each - least) / spread if spread else 0.0) for each in above_kwh_m2)
