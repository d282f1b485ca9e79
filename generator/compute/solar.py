"""What a flat solar panel gives by month, and how far that stretches the battery.

Sunlight above the air is worked out in ``sun``.
"""

from generator.compute.battery import ENERGY
from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs
from generator.compute.showing import down, exact, half_days, up
from generator.compute.sun import MONTHS, SOURCE, monthly_kwh_m2, on_the_ground
from generator.model.numbers import Bar, BarChart
from generator.units import Quantity, Rounding

GROUP = "Solar"
_DAY = Quantity(1.0, "day")
_YEAR = Quantity(365.0, "day")  # stands for a battery that does not run down
_ASSUMES = ("latitude", "sky-dark", "sky-bright", "panel-share")
_SOURCE = f"{SOURCE}; shares of sky and panel are common practice, no source"
_METHOD = (
    "Sunlight above the air at the latitude x the share that comes through the sky x the rating of the panel (for 1"
    " kW/m²) x the share that reaches the battery."
)
_MONTH = Quantity(30.0, "day")  # a difference so small that no sum promises more
_SCALE_DAYS = 14.0  # a chart shows no more: what matters is which months are short
_CHART = "Days the battery lasts with sun, by month"
_HOLDS = "does not run down"


def monthly_yields(given: Inputs) -> tuple[Quantity, ...]:
    """Return what the panel gives on a usual day of each month [energy]."""
    latitude = float(given.assumed("latitude").to("deg").magnitude)
    dark, bright = (float(given.assumed(id).to("dimensionless").magnitude) for id in ("sky-dark", "sky-bright"))
    sun = on_the_ground(monthly_kwh_m2(latitude), dark, bright)
    rating, share = given.positive("solar.panel"), given.assumed("panel-share")
    # A panel's rating is its power under 1 kW/m2, so its energy is the rating x that many hours of full sun.
    return tuple((rating * Quantity(hours, "h") * share).to(ENERGY) for hours in sun)


def _extremes(yields: tuple[Quantity, ...]) -> tuple[int, int]:
    """Return the months of least and most sun, counted from 0."""
    order = sorted(range(len(yields)), key=lambda month: (float(yields[month].magnitude), month))
    return order[0], order[-1]


@number(
    "solar-panel",
    group=GROUP,
    title="Solar panel",
    all_of=("solar",),
    needs=("solar.panel",),
    unit="W",
    rounding=Rounding.DOWN,
    method="Read off the label of the panel: its power in full sun, square on.",
    source="the label of the panel",
)
def solar_panel(given: Inputs) -> Quantity:
    """Return the power of the panel."""
    return given.positive("solar.panel")


@number(
    "solar-day",
    group=GROUP,
    title="Solar gives on a usual day",
    all_of=("solar",),
    needs=("solar.panel",),
    assumes=_ASSUMES,
    unit=ENERGY,
    rounding=Rounding.DOWN,
    method=_METHOD,
    source=_SOURCE,
)
def solar_day(given: Inputs) -> Answer:
    """Return the energy of a day in the darkest month, and that of the sunniest beside it."""
    yields = monthly_yields(given)
    least, most = _extremes(yields)
    shown = f"{down(yields[least], ENERGY)} in {MONTHS[least]}, {down(yields[most], ENERGY)} in {MONTHS[most]}"
    return Answer(
        value=yields[least], shown=shown, sentence="Flat on the roof, in no shade. Clouds for days give less."
    )


def _stretched(usable: Quantity, use: Quantity, gain: Quantity) -> Quantity:
    """Return how long the battery lasts where the sun gives back ``gain`` of a day's ``use``."""
    if gain >= use:
        return _YEAR
    days: Quantity = usable / ((use - gain) / _DAY)
    return min(days, _YEAR)


def _shown(days: Quantity) -> str:
    if days >= _YEAR:
        return _HOLDS
    return "more than a month" if days > _MONTH else half_days(days)


@number(
    "battery-days-sun",
    group=GROUP,
    title="Days the battery lasts with sun",
    all_of=("solar", "battery"),
    needs=("solar.panel",),
    uses=("battery-usable", "daily-12v"),
    assumes=_ASSUMES,
    unit="day",
    rounding=Rounding.DOWN,
    digits=1,
    method="Energy the battery gives over what a typical day takes, less what the sun gives on a usual day.",
    source=_SOURCE,
)
def battery_days_sun(given: Inputs) -> Answer:
    """Return the days of the darkest month, and those of the sunniest beside them."""
    usable, use, yields = given.number("battery-usable"), given.number("daily-12v"), monthly_yields(given)
    least, most = _extremes(yields)
    dark, bright = (_stretched(usable, use, yields[month]) for month in (least, most))
    shown = f"{_shown(dark)} in {MONTHS[least]}, {_shown(bright)} in {MONTHS[most]}"
    return Answer(value=dark, shown=shown)


@table(
    "solar-months",
    group=GROUP,
    title="Sun by month",
    all_of=("solar", "battery"),
    needs=("solar.panel",),
    uses=("battery-usable", "daily-12v"),
    assumes=_ASSUMES,
    head=("Month", "The panel gives, each day", "The battery lasts"),
    rounding=Rounding.DOWN,
    method=_METHOD,
    source=_SOURCE,
)
def solar_months(given: Inputs) -> Rows:
    """Return a row for each month."""
    usable, use = given.number("battery-usable"), given.number("daily-12v")
    found = tuple(
        (month, gain, _stretched(usable, use, gain)) for month, gain in zip(MONTHS, monthly_yields(given), strict=True)
    )
    rows = tuple((month, down(gain, ENERGY), _shown(days)) for month, gain, days in found)
    latitude = float(given.assumed("latitude").to("deg").magnitude)
    where = f"At {exact(Quantity(abs(latitude), 'deg'))} {'south' if latitude < 0 else 'north'}"
    note = f"{where}, with {up(use, ENERGY)} used each day. Shade and days of cloud give less."
    bars = tuple(Bar(month[:3], float(days.to("day").magnitude), _shown(days)) for month, _, days in found)
    return Rows(rows=rows, note=note, chart=BarChart(title=_CHART, bars=bars, most=_SCALE_DAYS))


@number(
    "recharge-sun",
    group=GROUP,
    title="Sun fills the empty battery in",
    all_of=("solar", "battery"),
    needs=("solar.panel",),
    uses=("battery-usable",),
    assumes=_ASSUMES,
    unit="day",
    rounding=Rounding.UP,
    method="Energy the battery gives over what the sun gives on a usual day, with nothing switched on.",
    source=_SOURCE,
)
def recharge_sun(given: Inputs) -> Answer:
    """Return the days of the darkest month, and those of the sunniest beside them."""
    usable, yields = given.number("battery-usable"), monthly_yields(given)
    least, most = _extremes(yields)
    slow, fast = (min(usable / max(yields[month], Quantity(0.001, ENERGY)) * _DAY, _YEAR) for month in (least, most))
    return Answer(value=slow, shown=f"{_fills(slow)} in {MONTHS[least]}, {_fills(fast)} in {MONTHS[most]}")


def _fills(days: Quantity) -> str:
    return "not at all" if days >= _YEAR else up(days, "day")


RECIPES: tuple[Recipe, ...] = (solar_panel, solar_day, battery_days_sun, recharge_sun, solar_months)
