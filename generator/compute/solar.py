"""What a flat solar panel gives by month, and how far that stretches the battery.

Sunlight above the air is worked out in ``sun``.
"""

from generator.compute.battery import ENERGY
from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs
from generator.compute.showing import down, exact, half_days, up
from generator.compute.sun import MONTHS, SOURCE, monthly_kwh_m2, sky_shares
from generator.compute.worked import Term, lines, put
from generator.model.numbers import Bar, BarChart, Worked
from generator.units import Quantity, Rounding

GROUP = "Solar"
_DAY = Quantity(1.0, "day")
_YEAR = Quantity(365.0, "day")  # stands for a battery that does not run down
_ASSUMES = ("latitude", "sky-dark", "sky-bright", "panel-share")
_SOURCE = f"{SOURCE}; shares of sky and panel are common practice, no source"
_METHOD = (
    "Sunlight above the air at the latitude × the share that comes through the sky × the rating of the panel (for 1"
    " kW/m²) × the share that reaches the battery."
)
_MONTH = Quantity(30.0, "day")  # a difference so small that no sum promises more
_SCALE_DAYS = 14.0  # a chart shows no more: what matters is which months are short
_CHART = "Days the battery lasts with sun, by month"
_HOLDS = "does not run down"


def monthly_yields(given: Inputs) -> tuple[Quantity, ...]:
    """Return what the panel gives on a usual day of each month [energy]."""
    return tuple(month.value for month in months(given))


def months(given: Inputs) -> tuple[Term, ...]:
    """Return ``monthly_yields`` as they are worked out, from the sunlight above the air."""
    latitude = float(given.assumed("latitude").to("deg").magnitude)
    dark, bright = (float(given.assumed(id).to("dimensionless").magnitude) for id in ("sky-dark", "sky-bright"))
    sun = monthly_kwh_m2(latitude)
    # A panel's rating is its power under 1 kW/m2.
    panel, share = put(given.positive("solar.panel"), "W"), put(given.assumed("panel-share"), "percent")
    rated = put(Quantity(1.0, "kW/m2"), "kW/m2")
    return tuple(
        (
            put(Quantity(above, "kWh/m2"), "kWh/m2", 3)
            * put(Quantity(100 * sky, "percent"), "percent")
            * panel
            * share
            / rated
        ).to(ENERGY)
        for above, sky in zip(sun, sky_shares(sun, dark, bright), strict=True)
    )


def _extremes(yields: tuple[Term, ...]) -> tuple[int, int]:
    """Return the months of least and most sun, counted from 0."""
    order = sorted(range(len(yields)), key=lambda month: (float(yields[month].value.magnitude), month))
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
    yields = months(given)
    ends = _extremes(yields)
    shown = ", ".join(f"{down(yields[month].value, ENERGY)} in {MONTHS[month]}" for month in ends)
    return Answer(
        value=yields[ends[0]],
        shown=shown,
        worked=lines([(MONTHS[month], yields[month]) for month in ends], ENERGY),
        sentence="Flat on the roof, in no shade. Clouds for days give less.",
    )


def _stretched(usable: Quantity, use: Quantity, gain: Quantity) -> Quantity:
    """Return how long the battery lasts where the sun gives back ``gain`` of a day's ``use``."""
    return _YEAR if gain >= use else min(_lasting(usable, use, gain).value, _YEAR)


def _lasting(usable: Quantity, use: Quantity, gain: Quantity) -> Term:
    """Return the energy of the battery over what a day takes more than the sun gives."""
    a_day = put(use / _DAY, "Wh/day") - put(gain / _DAY, "Wh/day")
    return (put(usable, ENERGY) / a_day).to("day")


def _balance(usable: Quantity, use: Quantity, gain: Quantity, month: int) -> tuple[Worked, ...]:
    """Return how long the battery lasts in a month, or what the sun leaves over where it does not run down."""
    if gain < use:
        return lines([(MONTHS[month], _lasting(usable, use, gain))], "day")
    return lines([(f"{MONTHS[month]}, left over each day", put(gain, ENERGY) - put(use, ENERGY))], ENERGY)


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
    usable, use, yields = given.number("battery-usable"), given.number("daily-12v"), months(given)
    ends = _extremes(yields)
    dark, bright = (_stretched(usable, use, yields[month].value) for month in ends)
    shown = f"{_shown(dark)} in {MONTHS[ends[0]]}, {_shown(bright)} in {MONTHS[ends[1]]}"
    worked = (_balance(usable, use, yields[month].value, month) for month in ends)
    return Answer(value=dark, shown=shown, worked=tuple(one for some in worked for one in some))


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
    usable, use, yields = given.number("battery-usable"), given.number("daily-12v"), months(given)
    found = tuple(
        (month, gain.value, _stretched(usable, use, gain.value)) for month, gain in zip(MONTHS, yields, strict=True)
    )
    worked = [
        one
        for month, gain in enumerate(yields)
        for one in (*lines([(MONTHS[month], gain)], ENERGY), *_balance(usable, use, gain.value, month))
    ]
    rows = tuple((month, down(gain, ENERGY), _shown(days)) for month, gain, days in found)
    latitude = float(given.assumed("latitude").to("deg").magnitude)
    where = f"At {exact(Quantity(abs(latitude), 'deg'))} {'south' if latitude < 0 else 'north'}"
    note = f"{where}, with {up(use, ENERGY)} used each day. Shade and days of cloud give less."
    bars = tuple(Bar(month[:3], float(days.to("day").magnitude), _shown(days)) for month, _, days in found)
    chart = BarChart(title=_CHART, bars=bars, most=_SCALE_DAYS)
    return Rows(rows=rows, note=note, chart=chart, worked=tuple(worked))


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
    usable, yields = put(given.number("battery-usable"), ENERGY), months(given)
    ends = _extremes(yields)
    gains = [max(yields[month].value, Quantity(0.001, ENERGY)) / _DAY for month in ends]
    filled = [(usable / put(gain, "Wh/day", 3)).to("day") for gain in gains]
    slow, fast = (min(days.value, _YEAR) for days in filled)
    return Answer(
        value=slow,
        shown=f"{_fills(slow)} in {MONTHS[ends[0]]}, {_fills(fast)} in {MONTHS[ends[1]]}",
        worked=lines([(MONTHS[month], days) for month, days in zip(ends, filled, strict=True)], "day"),
    )


def _fills(days: Quantity) -> str:
    return "not at all" if days >= _YEAR else up(days, "day")


RECIPES: tuple[Recipe, ...] = (solar_panel, solar_day, battery_days_sun, recharge_sun, solar_months)
