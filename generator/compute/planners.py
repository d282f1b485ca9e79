"""What the planners reckon with, from the same functions that the numbers are made by.

The sums themselves are done on the owner's phone, by the page script.
"""

from collections.abc import Callable
from typing import TypeVar

from generator.compute import car, coupling, days_away, liquids, loading, mains, masses, room
from generator.compute.assumptions import assumed
from generator.compute.declare import Recipe
from generator.compute.fitted import KG, as_fitted, at_place, nothing, total
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.moments import lever
from generator.compute.sheet import Sheet
from generator.model.caravan import Caravan, Place
from generator.model.numbers import Declared, Numbers
from generator.model.planners import CarPlan, DaysPlan, LoadingPlan, LoadPlace, MainsLoad, MainsPlan, Planners
from generator.units import Quantity, Rounding

_LOADING = (room.room_here, masses.payload, loading.ball_load_laden, loading.axle_load_laden, liquids.full_tanks)
_CAR = (car.car_must_allow, coupling.tow_car_heaviest)
_MAINS = (mains.mains_combinations, mains.mains_loads)

_Plan = TypeVar("_Plan")


def planners(caravan: Caravan, found: Numbers) -> Planners:
    """Return what each planner of ``caravan`` reckons with; one that lacks an input says what to read."""
    missing: dict[str, tuple[str, ...]] = {}

    def made(name: str, recipes: tuple[Recipe, ...], work: Callable[[Inputs], _Plan]) -> _Plan | None:
        if not all(recipe.declared.holds(caravan.traits) for recipe in recipes):
            return None
        try:
            return work(_inputs(caravan, found, recipes))
        except NotKnown as unknown:
            missing[name] = unknown.missing
            return None

    stocks = {name: made(name, recipes, work) for name, (recipes, work) in days_away.STOCKS.items()}
    if stocks["battery"] is None:
        stocks["battery"] = made("battery", *days_away.BATTERY_ALONE)
    return Planners(
        loading=made("loading", _LOADING[:-1], lambda given: _loading(given, _tanks(caravan, found))),
        car=made("car", _CAR, _car),
        days=DaysPlan(**stocks, habits=days_away.HABITS) if any(stocks.values()) else None,
        mains=made("mains", _MAINS, _mains),
        missing=missing,
    )


def _inputs(caravan: Caravan, found: Numbers, recipes: tuple[Recipe, ...]) -> Inputs:
    """Return what the declarations of ``recipes`` may read together."""
    declared = [recipe.declared for recipe in recipes]
    together = Declared(
        id="planner",
        form="table",
        group="",
        title="",
        needs=_each(declared, "needs"),
        optional=_each(declared, "optional"),
        uses=_each(declared, "uses"),
        assumes=_each(declared, "assumes"),
        rounding=Rounding.NEAREST,
        method="",
        source="",
    )
    return Inputs(together, Sheet(caravan, assumed(caravan)), found.numbers, {})


def _each(declared: list[Declared], field: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for one in declared for name in getattr(one, field)))


def _in(quantity: Quantity, unit: str) -> float:
    return float(quantity.to(unit).magnitude)


# --- loading --------------------------------------------------------------------------------------------


def _loading(given: Inputs, tanks: tuple[LoadPlace, ...]) -> LoadingPlan:
    kept = tuple(found for place in given.places if (found := _place(given, place)) is not None)
    low, _ = given.quantities("market.ball_load_share", "percent")
    return LoadingPlan(
        max_kg=_in(masses.heaviest(given), KG),
        fitted_kg=_in(as_fitted(given), KG),
        ball_kg=_in(given.number("ball-load-empty"), KG),
        max_ball_kg=_in(given.number("max-ball-load"), KG),
        least_ball_kg=_in(given.assumed("least-ball-load"), KG),
        advised_share=_in(low, "dimensionless"),
        max_axle_kg=_in(given.positive("masses.max_axle"), KG) if given.known("masses.max_axle") else None,
        axles=2 if given.trait("twin-axle") else 1,
        places=(*kept, *tanks),
    )


def _place(given: Inputs, place: Place) -> LoadPlace | None:
    """Return a place where things are kept; one of which limit or position is not known cannot be reckoned with."""
    if not room.stores(given, place) or place.position is None:
        return None
    left = None
    if place.max_contents is not None:
        try:
            limit = given.quantity(f"place.{place.code}.max_contents")
        except NotKnown:
            return None
        left = _in(max(limit - total(at_place(given, place)), nothing()), KG)
    share = _in(lever(given, place), "dimensionless")
    return LoadPlace(key=place.code, code=place.code, name=place.name, lever=share, room_kg=left)


def _tanks(caravan: Caravan, found: Numbers) -> tuple[LoadPlace, ...]:
    """Return the tanks that are filled before a trip, where volume and place of all are known."""
    recipe = liquids.full_tanks
    if not recipe.declared.holds(caravan.traits):
        return ()
    given = _inputs(caravan, found, (recipe,))
    try:
        filled = [tank for tank in liquids.liquids(given) if tank.role in ("use", "kept")]
        shares = [_in(liquids.pressed(given, tank) / tank.mass, "dimensionless") for tank in filled]
    except NotKnown:
        return ()
    return tuple(
        LoadPlace(key=f"tank-{number}", code="", name=tank.name, lever=share, room_kg=_in(tank.mass, KG))
        for number, (tank, share) in enumerate(zip(filled, shares, strict=True))
    )


# --- car ------------------------------------------------------------------------------------------------


def _car(given: Inputs) -> CarPlan:
    kerb = _in(given.positive("market.kerb_share"), "dimensionless") if given.has("market.kerb_share") else None
    return CarPlan(
        laden_kg=_in(given.positive("masses.max_laden"), KG),
        ball_kg=_in(car.ball_load_needed(given), KG),
        coupling_d_kn=_in(given.positive("coupling.d_value"), coupling.KN),
        braked=not given.trait("unbraked"),
        kerb_share=kerb,
    )


# --- mains ----------------------------------------------------------------------------------------------


def _mains(given: Inputs) -> MainsPlan:
    return MainsPlan(
        voltage_v=_in(given.positive("market.mains_voltage"), "V"),
        supplies_a=tuple(_in(supply, "A") for supply in mains.supplies(given)),
        loads=tuple(
            MainsLoad(name=load.name, steps_w=load.steps_w)
            for load in (mains.as_load(given, fitted) for fitted in mains.appliances(given))
        ),
    )
