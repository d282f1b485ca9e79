"""How many days the gas lasts: a typical day by weather, one bottle, all bottles.

What each appliance burns stands in ``gas``.
"""

from dataclasses import replace

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.gas import (
    GROUP,
    HEAT_SOURCE,
    RATE,
    RATE_ASSUMES,
    RATE_NEEDS,
    RATE_OPTIONAL,
    burn_rate,
    burning,
)
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.sheet import equipment_title
from generator.compute.showing import exact, joined, up, whole_days
from generator.compute.worked import Term, lines, put, summed
from generator.model.caravan import Equipment
from generator.model.numbers import Bar, BarChart, Worked
from generator.units import Quantity, Rounding

GRAM, DAILY = "g", "g/day"
# Hours at full flame in a typical day, by slot; a water heater's depend on whether it has a tank.
_HOURS = {"hob": "gas-hours-hob", "grill": "gas-hours-grill", "oven": "gas-hours-oven", "fridge": "gas-hours-fridge"}
_HEATING = {"cold": "gas-hours-heating-cold", "mild": "gas-hours-heating-mild"}  # none in warm weather
_SCALE_DAYS = 60.0
WEATHER = ("warm", "mild", "cold")
_HEAD = ("Weather", "Gas each day", "One bottle lasts", "All bottles last")
_NEEDS = ("gas.bottle", *RATE_NEEDS)
_OPTIONAL = (*RATE_OPTIONAL, "trait.hot-water-instant")
_ASSUMES = (
    *RATE_ASSUMES,
    *_HOURS.values(),
    "gas-hours-water-tank",
    "gas-hours-water-instant",
    *_HEATING.values(),
    "gas-hours-other",
)
_SOURCE = f"{HEAT_SOURCE}; the hours of a typical day are common practice, no source"


def _heats(fitted: Equipment) -> bool:
    return fitted.slot.id == "room_heater"


def typical_hours(given: Inputs, fitted: Equipment, weather: str) -> Quantity:
    """Return how long an appliance burns flat out in a typical day."""
    if _heats(fitted):
        return given.assumed(_HEATING[weather]) if weather in _HEATING else Quantity(0.0, "h")
    if fitted.slot.id == "hot_water":
        return given.assumed("gas-hours-water-instant" if given.trait("hot-water-instant") else "gas-hours-water-tank")
    return given.assumed(_HOURS.get(fitted.slot.id, "gas-hours-other"))


def _burnt(given: Inputs, fitted: Equipment, weather: str) -> Term:
    """Return the gas that an appliance burns in a typical day."""
    hours = typical_hours(given, fitted, weather) / Quantity(1.0, "day")
    return (put(burn_rate(given, fitted.key), RATE) * put(hours, "h/day")).to(DAILY)


def _day(given: Inputs, weather: str) -> Term:
    """Return the gas of a typical day; one without any counts as a milligram, since it divides."""
    burnt = [each for fitted in burning(given) if (each := _burnt(given, fitted, weather)).value.magnitude]
    return summed(burnt) if burnt else put(Quantity(0.001, DAILY), DAILY, 3)


def _lasts(contents: Quantity, day: Term) -> Term:
    """Return how long ``contents`` last."""
    return (put(contents, GRAM) / day).to("day")


def _weathers(given: Inputs) -> dict[str, str]:
    """Return the weather that days are told for, by what they are called; where gas heats nothing, it is all one."""
    if any(_heats(fitted) for fitted in burning(given)):
        return {"cold": "A cold day", "mild": "A mild day"}
    return {"cold": "A day"}


def _days(given: Inputs, contents: Quantity) -> Answer:
    """Return the days of ``contents`` in cold weather; where gas heats the van, those of mild weather beside."""
    found = {
        weather: _lasts(contents, put(_day(given, weather).value, DAILY, 3)).to("day") for weather in _weathers(given)
    }
    told = [f"{whole_days(days.value)} in {weather} weather" for weather, days in found.items()]
    worked = [(f"{weather.capitalize()} weather" if len(found) > 1 else "", days) for weather, days in found.items()]
    cold = found["cold"].value
    return Answer(
        value=cold,
        shown=", ".join(told) if len(told) > 1 else whole_days(cold),
        worked=lines(worked, "day"),
    )


@number(
    "gas-days-typical",
    group=GROUP,
    title="Typical days from one bottle",
    all_of=("gas",),
    needs=_NEEDS,
    optional=_OPTIONAL,
    assumes=_ASSUMES,
    unit="day",
    rounding=Rounding.DOWN,
    method="Contents of one bottle over the sum of what each appliance burns in its assumed hours flat out each day.",
    source=_SOURCE,
)
def gas_days_typical(given: Inputs) -> Answer:
    """Return the days of one bottle."""
    found = _days(given, given.positive("gas.bottle"))
    a_day = [(f"{name} takes", _day(given, weather)) for weather, name in _weathers(given).items()]
    return replace(found, worked=(*lines(a_day, DAILY), *found.worked))


@number(
    "gas-days-all",
    group=GROUP,
    title="Typical days from all bottles",
    all_of=("gas",),
    none_of=("one-bottle",),
    needs=(*_NEEDS, "gas.bottles"),
    optional=_OPTIONAL,
    assumes=_ASSUMES,
    unit="day",
    rounding=Rounding.DOWN,
    method="Contents of all bottles over the sum of what each appliance burns in its assumed hours flat out each day.",
    source=_SOURCE,
)
def gas_days_all(given: Inputs) -> Answer:
    """Return the days of the whole set of bottles."""
    return _days(given, given.positive("gas.bottle") * given.count("gas.bottles"))


@table(
    "gas-day",
    group=GROUP,
    title="Gas in a typical day",
    all_of=("gas",),
    needs=(*_NEEDS, "gas.bottles"),
    optional=_OPTIONAL,
    assumes=_ASSUMES,
    head=_HEAD,
    rounding=Rounding.DOWN,
    method="What each appliance burns × its assumed hours flat out each day in that weather, added up.",
    source=_SOURCE,
)
def gas_day(given: Inputs) -> Rows:
    """Return a row for each weather, or one where the weather makes no difference; one bottle is all there is."""
    heated = any(_heats(fitted) for fitted in burning(given))
    named = {weather: weather.capitalize() for weather in WEATHER} if heated else {"warm": "Any"}
    bottle, bottles = given.positive("gas.bottle"), given.count("gas.bottles")
    held = {"one bottle": bottle} | ({"all bottles": bottle * bottles} if bottles > 1 else {})
    rows: list[tuple[str, ...]] = []
    worked: list[Worked] = []
    for weather, name in named.items():
        day = _day(given, weather)
        lasting = {name: _lasts(contents, put(day.value, DAILY)) for name, contents in held.items()}
        rows.append(
            (name, up(day.value * Quantity(1.0, "day"), GRAM), *(whole_days(each.value) for each in lasting.values()))
        )
        said = f"{name} weather"
        worked += lines([(said, day)], DAILY)
        worked += lines([(f"{said}, {name}", each) for name, each in lasting.items()], "day")
    note = "From full bottles. In frost a bottle gives less than it holds."
    chart = _by_weather(given, bottle * bottles) if heated else _by_bottles(given, bottle, bottles)
    head = _HEAD[: 2 + len(held)]
    return Rows(rows=tuple(rows), head=head, note=note, chart=chart, worked=tuple(worked))


def _by_weather(given: Inputs, contents: Quantity) -> BarChart:
    """Return the days of all the gas by weather; a season without any gas would make the scale endless."""
    bars = (_bar(weather.capitalize(), contents, _day(given, weather)) for weather in WEATHER)
    return BarChart(title="Days that the gas lasts, by weather", bars=tuple(bars), most=_SCALE_DAYS)


def _by_bottles(given: Inputs, bottle: Quantity, bottles: int) -> BarChart:
    """Return the days of one bottle and of all: where gas heats nothing, weather makes no difference."""
    day, named = _day(given, "warm"), {"One bottle": 1} | ({"All bottles": bottles} if bottles > 1 else {})
    bars = (_bar(name, bottle * count, day) for name, count in named.items())
    return BarChart(title="Days that the gas lasts, in any weather", bars=tuple(bars), most=_SCALE_DAYS)


def _bar(name: str, contents: Quantity, day: Term) -> Bar:
    days = _lasts(contents, day).value
    return Bar(name, float(days.to("day").magnitude), whole_days(days))


@table(
    "gas-day-appliances",
    group=GROUP,
    title="What each appliance burns in a typical day",
    all_of=("gas",),
    needs=RATE_NEEDS,
    optional=_OPTIONAL,
    assumes=_ASSUMES,
    head=("Appliance", "Flat out, each day", "Gas each day"),
    rounding=Rounding.UP,
    method="What the appliance burns flat out × its assumed hours each day.",
    source=_SOURCE,
)
def gas_day_appliances(given: Inputs) -> Rows:
    """Return a row for each appliance; two for heating, which depends on the weather."""
    found = [
        _row(given, fitted, weather)
        for fitted in given.fitted("*.gas_input")
        for weather in (_HEATING if _heats(fitted) else ("",))
    ]
    note = "Your own habits differ: your dealer can set other hours for this van."
    return Rows(
        rows=tuple(row for row, _ in found), note=note, worked=tuple(one for _, worked in found for one in worked)
    )


def _row(given: Inputs, fitted: Equipment, weather: str) -> tuple[tuple[str, ...], tuple[Worked, ...]]:
    title = equipment_title(fitted) + (f", {weather} weather" if weather else "")
    hours = typical_hours(given, fitted, weather)
    try:
        burnt = _burnt(given, fitted, weather)
    except NotKnown as unknown:
        return (title, exact(hours), f"Not known: read {joined(unknown.missing)}."), ()
    return (title, exact(hours), up(burnt.value * Quantity(1.0, "day"), GRAM)), lines([(title, burnt)], DAILY)


RECIPES: tuple[Recipe, ...] = (gas_days_typical, gas_days_all, gas_day, gas_day_appliances)
