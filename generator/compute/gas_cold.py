"""Pressure left in a cold bottle, and when it stops feeding the regulator.

The formulas stand in ``vapour``.
"""

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.gas import GROUP
from generator.compute.inputs import Inputs
from generator.compute.showing import down, exact, text, up
from generator.compute.vapour import SOURCE, air, air_kpa, temperature_c, vapour, vapour_kpa
from generator.compute.worked import Term, lines, put
from generator.units import Quantity, Rounding

_TEMPERATURES_C = (-10, -5, 0, 5, 10, 15, 20)
# Outlet of a caravan regulator: 30 mbar in the UK and EU, 2.75 kPa in NZ and AU (published). Below it nothing flows.
_OUTLET_KPA = 3.0
_SHARES = {"propane": (1.0,), "butane": (0.0,)}
_SEA_LEVEL = Quantity(0.0, "m")
_LINE_DIGITS = 3
_STATES = ("full", "nearly empty")  # of a mix: propane boils off first, so its last part is butane
_ASSUMES = ("lpg-mix-propane", "regulator-inlet")


def _shares(given: Inputs) -> tuple[float, ...]:
    """Return the share of propane in the bottle; of a mix, when it is full and when it is nearly empty."""
    fuel = given.text("gas.fuel")
    if fuel in _SHARES:
        return _SHARES[fuel]
    return float(given.assumed("lpg-mix-propane").to("dimensionless").magnitude), 0.0


def _inlet_kpa(given: Inputs) -> float:
    return float(given.assumed("regulator-inlet").to("kPa").magnitude)


@number(
    "gas-stops-at",
    group=GROUP,
    title="Coldest that a bottle still feeds",
    all_of=("gas",),
    needs=("gas.fuel",),
    assumes=_ASSUMES,
    unit="degC",
    rounding=Rounding.UP,
    method=(
        "Temperature of the liquid at which its pressure, less that of the air at sea level, is the least that the"
        " regulator needs."
    ),
    source=SOURCE,
)
def gas_stops_at(given: Inputs) -> Answer:
    """Return the lowest temperature of the bottle; of a mix, that of a full one and that of its last part."""
    pressure_kpa = _inlet_kpa(given) + air_kpa(0)
    coldest = [Quantity(temperature_c(share, pressure_kpa), "degC") for share in _shares(given)]
    shown = [up(each, "degC") for each in coldest]
    if len(coldest) > 1:
        shown = [f"{each} when {state}" for each, state in zip(shown, _STATES, strict=True)]
    sentence = "The bottle gets colder than the air while much gas is drawn: it stops before the air is that cold."
    # No formula gives the temperature of a mix: it was tried out, and the pressure it gives is shown.
    tried = [
        (f"Pressure at {text(at, 'degC', Rounding.NEAREST, 4)}", vapour(share, at, "kPa") - air(_SEA_LEVEL, "kPa"))
        for share, at in zip(_shares(given), coldest, strict=True)
    ]
    return Answer(value=coldest[-1], shown=", ".join(shown), sentence=sentence, worked=lines(tried, "kPa"))


@table(
    "gas-cold",
    group=GROUP,
    title="Pressure left in the bottle",
    all_of=("gas",),
    needs=("gas.fuel", "market.pressure_unit"),
    assumes=(*_ASSUMES, "high-site"),
    head=("The bottle is at", "Pressure at sea level", "Pressure high up", "What it does"),
    rounding=Rounding.DOWN,
    method="Pressure of the gas over its liquid, less that of the air.",
    source=SOURCE,
)
def gas_cold(given: Inputs) -> Rows:
    """Return a row for each temperature; the last column goes by sea level, where least is left."""
    height = given.assumed("high-site")
    airs = (air_kpa(0), air_kpa(float(height.to("m").magnitude)))
    shares, unit, inlet = _shares(given), given.text("market.pressure_unit"), _inlet_kpa(given)
    rows: list[tuple[str, ...]] = []
    sums: list[tuple[str, Term]] = [(f"Air at {exact(height)}", air(height, unit))]
    for at_c in _TEMPERATURES_C:
        sums += _sums(shares[0], at_c, airs, unit)
        left = [vapour_kpa(shares[0], at_c) - outside for outside in airs]
        does = tuple(_does(vapour_kpa(share, at_c) - airs[0], inlet) for share in shares)
        rows.append((exact(Quantity(at_c, "degC")), *(_left(each, unit) for each in left), _said(does)))
    full = " Pressures are those of a full bottle; propane boils off first, and what is left works like butane."
    note = f"High up means {exact(height)} above the sea.{full if len(shares) > 1 else ''}"
    return Rows(rows=tuple(rows), note=note, worked=lines(sums, unit, _LINE_DIGITS))


def _sums(share: float, at_c: float, airs: tuple[float, ...], unit: str) -> list[tuple[str, Term]]:
    """Return the pressure over the liquid, and what the air at sea level and high up leaves of it."""
    at = Quantity(float(at_c), "degC")
    over_liquid = vapour(share, at, unit)
    inside = put(over_liquid.value, unit, _LINE_DIGITS)
    names = f"{exact(at)}, sea level", f"{exact(at)}, high up"
    left = [
        (name, inside - put(Quantity(outside, "kPa"), unit, _LINE_DIGITS))
        for name, outside in zip(names, airs, strict=True)
    ]
    return [(f"{exact(at)}, over the liquid", over_liquid), *left]


def _left(pressure_kpa: float, unit: str) -> str:
    left = Quantity(max(pressure_kpa, 0.0), "kPa")
    return down(left, unit, 1 if unit == "bar" else 0)


def _does(pressure_kpa: float, inlet_kpa: float) -> str:
    if pressure_kpa >= inlet_kpa:
        return "feeds"
    return "small flames" if pressure_kpa > _OUTLET_KPA else "no gas"


def _said(does: tuple[str, ...]) -> str:
    if len(set(does)) == 1:
        return does[0].capitalize()
    return "; ".join(f"{state}: {each}" for state, each in zip(_STATES, does, strict=True)).capitalize()


RECIPES: tuple[Recipe, ...] = (gas_stops_at, gas_cold)
