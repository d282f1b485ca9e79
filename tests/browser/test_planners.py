"""The planners on the phone: their sums against those of the generator, and how they behave.

The generator's sums are themselves held against published ones elsewhere; here pint quantities and the functions the
numbers are made by are the reference, over random inputs and the plans of every demo van.
"""

import random
from collections.abc import Mapping
from dataclasses import asdict
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from generator.compute import Car, Towed, compute, match
from generator.compute.days_away import HABITS
from generator.compute.gas_days import WEATHER
from generator.compute.margins import against, over
from generator.compute.showing import down, half_days, up, whole_days
from generator.load import load
from generator.model.numbers import Verdict
from generator.model.planners import CarPlan, DaysPlan, LoadingPlan, LoadPlace, MainsPlan, Planners
from generator.resolve import resolve
from generator.units import Quantity
from tests.browser.conftest import OpenPhone
from tests.finished import TEMPLATE

pytestmark = pytest.mark.browser

RUNS = 1000
WORDS = {Verdict.WITHIN: "within", Verdict.CLOSE: "close", Verdict.OVER: "over"}


@lru_cache(maxsize=1)
def plans() -> tuple[Planners, ...]:
    """Return the planners of every demo van."""
    workspace = load(TEMPLATE.parent, ())
    return tuple(compute(resolve(spec, workspace)).planners for spec in workspace.vans.values())


def kg(value: float) -> Quantity:
    return Quantity(value, "kg")


def number(shown: str) -> float:
    return float(shown.split()[0].replace("\N{MINUS SIGN}", "-"))


def worked(page: Page, name: str, asked: list[tuple[object, object]]) -> list[Any]:
    """Return what the page's own function makes of each plan and input."""
    given = [[asdict(plan), what] for plan, what in asked]  # type: ignore[call-overload]
    return page.evaluate(f"given => given.map(([plan, what]) => lockerleafPlan.work.{name}(plan, what))", given)


@pytest.fixture
def page(phone: OpenPhone, folder: Path) -> Page:
    opened = phone().page
    opened.goto((folder / "plan-loading.html").as_uri())
    return opened


def alike(found: float, wanted: str, last: float = 1) -> bool:
    """Return whether two shown values differ by at most the last digit shown."""
    return abs(found - number(wanted)) <= last + 1e-9


# --- sums -----------------------------------------------------------------------------------------------


def _loaded(plan: LoadingPlan, loads: Mapping[str, float]) -> tuple[Quantity, Quantity]:
    mass = sum((kg(load) for load in loads.values()), kg(plan.fitted_kg))
    ball = sum((kg(loads[place.key]) * place.lever for place in plan.places), kg(plan.ball_kg))
    return mass, ball


def _bounds_kg(plan: LoadingPlan, place: LoadPlace, load_kg: float, mass_kg: float, ball_kg: float) -> dict[str, float]:
    """Return what each limit still allows at ``place``, by moments about the axle."""
    assert place.room_kg is not None and plan.max_axle_kg is not None
    bounds = {"own": place.room_kg - load_kg, "payload": plan.max_kg - mass_kg}
    if place.lever > 0:
        bounds["towball"] = (plan.max_ball_kg - ball_kg) / place.lever
    if place.lever < 0:
        bounds["light"] = (ball_kg - plan.least_ball_kg) / -place.lever
    bounds["axle"] = (plan.max_axle_kg - (mass_kg - ball_kg)) / (1 - place.lever)
    return bounds


def test_loading_is_worked_out_as_the_generator_does(page: Page) -> None:
    chance = random.Random(1)
    asked: list[tuple[LoadingPlan, dict[str, float]]] = []
    for _ in range(RUNS):
        plan = chance.choice([each.loading for each in plans() if each.loading])
        asked.append((plan, {place.key: round(chance.uniform(0, 60), 1) for place in plan.places}))
    for (plan, loads), found in zip(asked, worked(page, "loading", list(asked)), strict=True):
        mass, ball = _loaded(plan, loads)
        carried = mass - kg(plan.fitted_kg)
        assert alike(found["mass"], up(mass, "kg")) and alike(found["ball"], up(ball, "kg"))
        assert alike(found["axle"], up(mass - ball, "kg"))
        assert alike(found["left"], down(kg(plan.max_kg) - mass, "kg"))
        assert found["payload"] == WORDS[against(carried, kg(plan.max_kg - plan.fitted_kg))]
        assert found["towball"] == WORDS[against(ball, kg(plan.max_ball_kg))]
        assert plan.max_axle_kg is not None
        assert found["wheels"] == WORDS[against(mass - ball, kg(plan.max_axle_kg))]
        assert found["isLight"] == bool(ball < kg(plan.least_ball_kg))
        least = mass * plan.advised_share
        assert found["isAdvisedMore"] == bool(not over(least, kg(plan.max_ball_kg)) and ball < least)
        for place, room in zip(plan.places, found["places"], strict=True):
            if place.room_kg is None:
                assert room is None
            else:
                load = kg(loads[place.key])
                assert room["verdict"] == WORDS[against(load, kg(place.room_kg))]
                assert alike(room["over"], up(max(load - kg(place.room_kg), kg(0)), "kg"))
                bounds = _bounds_kg(plan, place, loads[place.key], float(mass.magnitude), float(ball.magnitude))
                least = min(bounds.values())
                assert bounds[room["by"]] - least < 1e-6
                assert alike(room["left"], down(kg(max(least, 0)), "kg"))


def test_a_car_is_matched_as_the_generator_does(page: Page) -> None:
    chance = random.Random(2)
    asked: list[tuple[CarPlan, dict[str, float]]] = []
    for _ in range(RUNS):
        plan, own = chance.choice([each.car for each in plans() if each.car]), chance.randint(900, 3500)
        given = {
            "own": own,
            "trailer": chance.randint(300, 3500),
            "train": own + chance.randint(200, 3500),
            "ball": chance.randint(20, 350),
            "d": round(chance.uniform(3, 25), 1),
            "kerb": chance.randint(700, 3000),
        }
        asked.append((plan, given))
    for (plan, given), found in zip(asked, worked(page, "car", list(asked)), strict=True):
        van = Towed(
            laden=kg(plan.laden_kg),
            ball_load=kg(plan.ball_kg),
            coupling_d=Quantity(plan.coupling_d_kn, "kN"),
            kerb_share=None if plan.kerb_share is None else Quantity(plan.kerb_share, "dimensionless"),
        )
        car = Car(
            own_mass=kg(given["own"]),
            trailer_mass=kg(given["trailer"]),
            train_mass=kg(given["train"]),
            ball_load=kg(given["ball"]),
            towbar_d=Quantity(given["d"], "kN"),
            kerb_mass=kg(given["kerb"]),
        )
        wanted = match(van, car)
        assert (found["verdict"], found["lowest"]) == (WORDS[wanted.verdict], wanted.lowest)
        assert alike(found["most"], down(wanted.most, "kg"))
        assert (found["advised"] is not None) == bool(wanted.advice)
        if plan.kerb_share is not None and wanted.advice:
            assert alike(found["advised"], down(kg(given["kerb"] * plan.kerb_share), "kg"))


def _habits(chance: random.Random, plan: DaysPlan) -> dict[str, Any]:
    burners = plan.gas.burners if plan.gas else ()
    return {
        "days": chance.randint(1, 21),
        "hours": [chance.randint(0, 48) / 4 for _ in burners],
        "energy": chance.randint(10, 1500),
        "month": chance.randint(0, 11),
        "persons": chance.randint(1, 6),
        "litres": chance.randint(2, 40),
        "flushes": chance.randint(0, 12),
    }


def _lasting(plan: DaysPlan, given: dict[str, Any]) -> dict[str, Quantity]:
    day, found = Quantity(1.0, "day"), {}
    if plan.gas:
        burnt = sum(
            (
                Quantity(burner.g_per_h, "g/h") * Quantity(hours, "h")
                for burner, hours in zip(plan.gas.burners, given["hours"], strict=True)
            ),
            Quantity(0.0, "g"),
        )
        found["gas"] = Quantity(plan.gas.bottle_g, "g") * plan.gas.bottles / max(burnt, Quantity(0.001, "g")) * day
    if plan.battery:
        sun = plan.battery.sun_wh[given["month"]] if plan.battery.sun_wh else 0.0
        net = Quantity(given["energy"], "Wh") - Quantity(sun, "Wh")
        found["battery"] = (
            Quantity(plan.battery.usable_wh, "Wh") / net * day if net.magnitude > 0 else Quantity(365.0, "day")
        )
    if plan.water:
        found["water"] = Quantity(plan.water.usable_l, "L") / Quantity(given["persons"] * given["litres"], "L") * day
    if plan.cassette:
        each = given["flushes"] * Quantity(plan.cassette.flush_l, "L") + Quantity(plan.cassette.body_l, "L")
        found["cassette"] = Quantity(plan.cassette.usable_l, "L") / (given["persons"] * each) * day
    year = Quantity(365.0, "day")
    return {name: min(lasting.to("day"), year) for name, lasting in found.items()}


def test_days_away_are_worked_out_as_the_generator_does(page: Page) -> None:
    chance = random.Random(3)
    chosen = [chance.choice([each.days for each in plans() if each.days]) for _ in range(RUNS)]
    asked = [(plan, _habits(chance, plan)) for plan in chosen]
    for (plan, given), found in zip(asked, worked(page, "days", list(asked)), strict=True):
        wanted = _lasting(plan, given)
        assert set(found) == set(wanted)
        for name, lasting in wanted.items():
            assert found[name]["lasting"] == pytest.approx(lasting.magnitude, rel=1e-9)
            judged = Verdict.WITHIN if lasting.magnitude >= 365 else against(Quantity(given["days"], "day"), lasting)
            assert found[name]["verdict"] == WORDS[judged]


def test_habit_and_season_set_what_the_generator_takes_for_a_day(page: Page) -> None:
    chance = random.Random(6)
    asked = []
    for _ in range(RUNS):
        plan = chance.choice([each.days for each in plans() if each.days])
        asked.append((plan, chance.choice(list(HABITS)), chance.choice(WEATHER)))
    given = [[asdict(plan), habit, weather] for plan, habit, weather in asked]
    made = page.evaluate("given => given.map(each => lockerleafPlan.work.preset(...each))", given)
    for (plan, habit, weather), found in zip(asked, made, strict=True):
        share = HABITS[habit]
        assert found["hours"] == pytest.approx(
            [each.hours[weather] * (share if each.by_habit else 1) for each in (plan.gas.burners if plan.gas else ())]
        )
        if plan.battery:
            own = plan.battery.day_wh - plan.battery.steady_wh - plan.battery.heat_wh
            heat = plan.battery.heat_wh if weather != "warm" else 0
            assert found["energy"] == pytest.approx(plan.battery.steady_wh + heat + own * share)
            assert found["month"] == (plan.battery.season_month[weather] if plan.battery.sun_wh else 0)
        assert found["litres"] == pytest.approx(plan.water.person_l * share if plan.water else 0)
        assert found["flushes"] == pytest.approx(plan.cassette.flushes * share if plan.cassette else 0)


def test_days_are_shown_as_the_generator_shows_them(page: Page) -> None:
    chance = random.Random(4)
    lasting = [chance.uniform(0, 30) for _ in range(RUNS)] + [0.5, 1.0, 1.5, 2.0, 0.0, 30.0]
    halves = page.evaluate("given => given.map(lockerleafPlan.work.halves)", lasting)
    whole = page.evaluate("given => given.map(lockerleafPlan.work.whole)", lasting)
    assert halves == [half_days(Quantity(each, "day")) for each in lasting]
    assert whole == [whole_days(Quantity(each, "day")) for each in lasting]


def test_mains_is_worked_out_as_the_generator_does(page: Page) -> None:
    chance = random.Random(5)
    asked: list[tuple[MainsPlan, dict[str, Any]]] = []
    for _ in range(RUNS):
        plan = chance.choice([each.mains for each in plans() if each.mains])
        powers = [chance.choice((0.0, *each.steps_w)) for each in plan.loads] + [float(chance.randint(0, 2500))]
        asked.append((plan, {"supply": chance.choice(plan.supplies_a), "powers": powers}))
    for (plan, given), found in zip(asked, worked(page, "mains", list(asked)), strict=True):
        power = sum((Quantity(each, "W") for each in given["powers"]), Quantity(0.0, "W"))
        voltage, supply = Quantity(plan.voltage_v, "V"), Quantity(given["supply"], "A")
        limit = (supply * voltage).to("W")
        assert found["verdict"] == WORDS[against(power, limit)]
        assert alike(found["power"], up(power, "W")) and alike(found["limit"], down(limit, "W"))
        assert alike(found["current"], up((power / voltage).to("A"), "A", 1), last=0.1)
        assert alike(found["left"], down(limit - power, "W"))


def test_a_wrong_sum_would_be_seen(page: Page) -> None:
    """A check that cannot fail is none."""
    plan = next(each.loading for each in plans() if each.loading)
    loads = {place.key: 10.0 for place in plan.places}
    (found,) = worked(page, "loading", [(plan, {**loads, plan.places[0].key: 20.0})])
    mass, _ = _loaded(plan, loads)
    assert not alike(found["mass"], up(mass, "kg"))


# --- how they behave ------------------------------------------------------------------------------------


def test_a_load_is_typed_or_stepped_and_judged(page: Page) -> None:
    status = page.locator(".plan__verdict")
    expect(status).to_have_text("Within the limit 168 kg still to load, 66 kg on the towball.")
    page.get_by_label("A1 Front gas locker, kg").fill("12")
    page.get_by_role("button", name="+1 kg: A1 Front gas locker").click()
    expect(page.get_by_label("A1 Front gas locker, kg")).to_have_value("13")
    expect(page.locator("#plan-A1-note")).to_have_text("Room left: 1 kg. Its own limit sets it. Close to the limit")
    expect(status).to_contain_text("Close to the limit")
    page.get_by_label("Fresh water tank, kg").fill("200")
    expect(status).to_contain_text("Over the limit")
    expect(status).to_contain_text("The van is too heavy by 45 kg.")
    assert status.get_attribute("role") == "status"
    page.get_by_role("button", name="Clear what is typed").click()
    expect(status).to_contain_text("168 kg still to load")


@pytest.mark.parametrize(
    ("typed", "counted"),
    [("12,5", "155 kg"), ("12.5", "155 kg"), (" 7 ", "161 kg"), (".5", "167 kg"), ("1,200", "too heavy by 1032 kg")],
)
def test_a_number_is_read_as_owners_type_it(page: Page, typed: str, counted: str) -> None:
    """A comma is the point, unless it parts thousands; 168 kg are left with nothing typed."""
    page.get_by_label("Fresh water tank, kg").fill(typed)
    expect(page.locator(".plan__verdict")).to_contain_text(counted)
    expect(page.locator("[aria-invalid=true]")).to_have_count(0)


@pytest.mark.parametrize("typed", ["-5", "abc", "1e3", "5..5", "1,2,3", "12 kg", "99999", "\N{MINUS SIGN}"])
def test_what_is_no_number_is_never_judged(page: Page, typed: str) -> None:
    field = page.get_by_label("A1 Front gas locker, kg")
    field.fill(typed)
    expect(page.locator(".plan__verdict")).to_have_text("Not a number that can be right: A1 Front gas locker.")
    expect(page.locator("#plan-A1-wrong")).to_have_text("Type a number from 0 to 2000.")
    expect(field).to_have_attribute("aria-invalid", "true")
    assert "plan-A1-wrong" in (field.get_attribute("aria-describedby") or "")
    expect(page.get_by_text("Room left:")).to_have_count(0)
    field.fill("2")
    expect(page.locator(".plan__verdict")).to_contain_text("Within the limit")
    expect(page.locator("#plan-A1-wrong")).to_have_text("")


@pytest.mark.parametrize(("field", "asked"), [("days", "how many days"), ("persons", "how many persons")])
def test_days_for_nobody_are_not_judged(page: Page, folder: Path, field: str, asked: str) -> None:
    page.goto((folder / "plan-days.html").as_uri())
    for empty in ("", "0"):
        page.locator(f"#plan-{field}").fill(empty)
        expect(page.locator(".plan__verdict")).to_contain_text(f"Type {asked}")
        expect(page.locator(".plan__verdict .verdict")).to_have_count(0)


def test_a_towball_that_carries_too_little_is_told(page: Page) -> None:
    page.get_by_label("H5 Washroom, kg").fill("90")
    expect(page.locator(".plan__verdict")).to_contain_text("Too light on the towball")
    expect(page.locator(".plan__verdict")).to_contain_text("the van may sway")


def test_what_is_typed_is_kept_for_this_van(page: Page) -> None:
    page.get_by_label("H3 Wardrobe, kg").fill("7")
    page.reload()
    expect(page.get_by_label("H3 Wardrobe, kg")).to_have_value("7")


def test_the_lowest_limit_of_a_car_is_named(page: Page, folder: Path) -> None:
    page.goto((folder / "plan-car.html").as_uri())
    status = page.locator(".plan__verdict")
    expect(status).to_have_text("5 more to type.")
    typed = {"own": "2000", "trailer": "1500", "train": "3300", "ball": "75", "d": "9.5"}
    for id_, value in typed.items():
        page.locator(f"#plan-{id_}").fill(value)
    expect(status).to_have_text(
        "Over the limit This van may weigh 1400 kg. The greatest mass of both together allows 1300 kg."
        " That is the lowest of all limits."
    )
    page.locator("#plan-train").fill("1900")
    expect(status).to_contain_text("must be more than the car's own")


def test_what_sets_the_room_is_said(page: Page) -> None:
    note = page.locator("#plan-H3-note")
    expect(note).to_have_text("Room left: 30 kg. Its own limit sets it.")
    page.get_by_label("Fresh water tank, kg").fill("140")
    expect(note).to_have_text("Room left: 5 kg. The limit of the axle sets it.")
    page.get_by_label("A1 Front gas locker, kg").fill("20")
    expect(page.locator("#plan-A1-note")).to_have_text("Too much by 6 kg. Over the limit")
    expect(page.locator(".plan__verdict")).to_contain_text("Too much in A1 Front gas locker, Fresh water tank.")
    rows = page.locator(".plan__rows")
    expect(rows).to_contain_text("On the axle. Limit 1340 kg1343 kgOver the limit")
    expect(rows).to_contain_text("Least room left: A1 Front gas locker. The limit of the axle sets it.0 kg")


def test_habit_and_season_set_the_usual_amounts(page: Page, folder: Path) -> None:
    page.goto((folder / "plan-days.html").as_uri())
    heater, hob = (page.get_by_label(f"{name}, flat out each day, hours") for name in ("Room heater", "Hob"))
    expect(heater).to_have_value("6")
    expect(page.locator(".plan__rows")).to_contain_text("Gas, all bottles9 days")
    expect(page.locator(".plan__rows")).to_contain_text("Toilet cassette: empty it on the way1 dayOver the limit")
    expect(page.locator(".plan__verdict")).to_contain_text("Water runs out first: half a day.")
    page.get_by_label("Season").select_option("warm")
    page.get_by_label("How you live").select_option("sparing")
    expect(heater).to_have_value("0")
    expect(hob).to_have_value("0.6")
    expect(page.get_by_label("12 V used each day, Wh")).to_have_value("102")
    expect(page.get_by_label("Water for each person each day, litres")).to_have_value("9")
    expect(page.locator("#plan-flushes")).to_have_value("3")
    expect(page.get_by_label("Month, for the sun")).to_have_value("9")
    page.locator("#plan-persons").fill("1")
    expect(page.locator(".plan__verdict")).to_contain_text("3 days away. Water runs out first: 3 days.")
    page.reload()
    expect(page.get_by_label("How you live")).to_have_value("sparing")
    expect(hob).to_have_value("0.6")


def test_a_supply_that_trips_is_told(page: Page, folder: Path) -> None:
    page.goto((folder / "plan-mains.html").as_uri())
    page.get_by_label("Room heater").select_option("2000")
    page.get_by_label("Water heater").select_option("850")
    status = page.locator(".plan__verdict")
    expect(status).to_have_text("Over the limit 2850 W of 2300 W. The supply trips. Turn something off.")
    page.get_by_label("Supply of the pitch").select_option("16")
    expect(status).to_have_text("Within the limit 2850 W of 3680 W. 830 W left.")


@pytest.mark.parametrize("name", ["loading", "car", "days", "mains"])
def test_controls_are_large_enough_for_a_finger(page: Page, folder: Path, name: str) -> None:
    page.goto((folder / f"plan-{name}.html").as_uri())
    sizes = page.evaluate(
        "[...document.querySelectorAll('main button, main input, main select')].map(one => one.getBoundingClientRect())"
        ".map(box => [box.width, box.height])"
    )
    assert len(sizes) > 3
    assert [size for size in sizes if size[0] < 48 or size[1] < 48] == []
    assert page.evaluate("document.documentElement.scrollWidth") == 390


@pytest.mark.parametrize(
    ("name", "stands"),
    [("loading", "A1 Front gas locker"), ("car", "Load on the towball"), ("days", "battery"), ("mains", "still load")],
)
def test_without_script_the_tables_stand(phone: OpenPhone, folder: Path, name: str, stands: str) -> None:
    plain = phone(java_script_enabled=False).page
    plain.goto((folder / f"plan-{name}.html").as_uri())
    expect(plain.get_by_role("heading", name="As this van stands")).to_be_visible()
    expect(plain.locator(f".group--plan-{name}")).to_contain_text(stands, ignore_case=True)
    expect(plain.locator(".plan__fields")).to_have_count(0)
