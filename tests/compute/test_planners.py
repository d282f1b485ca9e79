"""What the planners reckon with agrees with the numbers of the same van, at every point where they meet."""

import calendar
from functools import lru_cache

import pytest

from generator.compute import compute
from generator.compute.showing import down, half_days, up, whole_days
from generator.load import load
from generator.model.numbers import Numbers
from generator.resolve import resolve
from generator.units import Quantity
from tests.compute.vans import van
from tests.finished import TEMPLATE

VANS = ("banksia-0215", "marram-0417", "marram-0431-nz", "samphire-0077", "sorrel-0032", "tansy-0108")


@lru_cache(maxsize=1)
def demo() -> dict[str, Numbers]:
    """Return the numbers of every demo van by the name of its build sheet."""
    workspace = load(TEMPLATE.parent, ())
    sheets = workspace.vans.items()
    return {file.rsplit("/", 1)[-1].removesuffix(".yaml"): compute(resolve(spec, workspace)) for file, spec in sheets}


@pytest.mark.parametrize("name", VANS)
def test_nothing_loaded_is_payload_and_ball_load_as_printed(name: str) -> None:
    numbers = demo()[name]
    plan = numbers.planners.loading
    assert plan is not None
    assert down(Quantity(plan.max_kg - plan.fitted_kg, "kg"), "kg") == numbers.numbers["payload"].shown
    assert up(Quantity(plan.ball_kg, "kg"), "kg") == numbers.numbers["ball-load-empty"].shown
    assert down(Quantity(plan.max_ball_kg, "kg"), "kg") == numbers.numbers["max-ball-load"].shown


@pytest.mark.parametrize("name", VANS)
def test_a_place_has_at_least_the_room_that_is_printed(name: str) -> None:
    """The printed room counts payload, ball load and axle too; alone in its place a load meets its own limit first."""
    numbers = demo()[name]
    plan = numbers.planners.loading
    assert plan is not None
    places = [place for place in plan.places if place.code and place.room_kg is not None]
    assert {place.code for place in places} <= set(numbers.place_limits)
    for place in places:
        printed = numbers.place_limits[place.code].value
        assert printed is not None and place.room_kg is not None
        assert printed.to("kg").magnitude <= place.room_kg + 1e-9


@pytest.mark.parametrize("name", [name for name in VANS if name != "tansy-0108"])
def test_usual_hours_give_the_days_of_gas_that_are_printed(name: str) -> None:
    numbers = demo()[name]
    plan = numbers.planners.days
    assert plan is not None and plan.gas is not None
    burnt = sum(burner.g_per_h * burner.hours["cold"] for burner in plan.gas.burners)
    days = Quantity(plan.gas.bottle_g * plan.gas.bottles / burnt, "day")
    printed = numbers.numbers.get("gas-days-all", numbers.numbers["gas-days-typical"])  # of one bottle, where it is all
    assert printed.shown.startswith(whole_days(days))


def test_sets_that_are_printed_fit_their_supply() -> None:
    numbers = demo()["marram-0417"]
    plan = numbers.planners.mains
    assert plan is not None
    steps = {f"{load.name} {power:g} W": power for load in plan.loads for power in load.steps_w}
    for supply, chosen, _ in numbers.tables["mains-combinations"].rows:
        power = sum(steps[one] for one in chosen.split(" + "))
        assert power <= float(supply.split()[0]) * plan.voltage_v


def test_a_van_without_gas_or_mains_has_no_plan_of_them() -> None:
    tansy, sorrel = demo()["tansy-0108"].planners, demo()["sorrel-0032"].planners
    assert tansy.days is not None and tansy.days.gas is None and tansy.mains is not None
    assert sorrel.mains is None and sorrel.car is not None and not sorrel.car.braked


def test_what_is_not_known_is_said_instead_of_guessed() -> None:
    made = compute(van(plates={"masses.unladen": "unknown"}))
    assert made.planners.loading is None and made.planners.missing["loading"]
    assert made.planners.car is not None


@pytest.mark.parametrize("name", [name for name in VANS if name != "sorrel-0032"])
def test_usual_flushes_fill_the_cassette_in_the_days_that_are_printed(name: str) -> None:
    numbers = demo()[name]
    plan = numbers.planners.days
    assert plan is not None and plan.cassette is not None
    each = plan.cassette.flushes * plan.cassette.flush_l + plan.cassette.body_l
    days = Quantity(plan.cassette.usable_l / (plan.cassette.berths * each), "day")
    assert half_days(days) == numbers.numbers["cassette-days"].shown


@pytest.mark.parametrize("name", VANS)
def test_a_usual_cold_day_takes_the_12_v_that_is_printed(name: str) -> None:
    """What runs by itself and what heating takes are parts of that day, not on top of it."""
    numbers = demo()[name]
    plan = numbers.planners.days
    assert plan is not None and plan.battery is not None
    assert up(Quantity(plan.battery.day_wh, "Wh"), "Wh") == numbers.numbers["daily-12v"].shown
    assert 0 <= plan.battery.steady_wh + plan.battery.heat_wh <= plan.battery.day_wh


def test_each_weather_counts_its_darkest_month() -> None:
    """In New Zealand the sun is lowest in June, and of spring and autumn the darkest month touches winter."""
    plan = demo()["samphire-0077"].planners.days
    assert plan is not None and plan.battery is not None
    months = {weather: calendar.month_name[month + 1] for weather, month in plan.battery.season_month.items()}
    assert months == {"cold": "June", "mild": "August", "warm": "November"}
