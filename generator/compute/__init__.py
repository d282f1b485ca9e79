"""From a van to its numbers: masses, ball load, gas, 12 V, mains, water.

How to add a number: open the module of its topic (or a new one, and list it in ``RECIPES`` below) and write

    @number(
        "spare-gas",
        group="Gas", title="Gas in all bottles",
        all_of=("gas",),                               # traits it needs; none_of for those it excludes
        needs=("gas.bottle", "gas.bottles"),           # facts by path; "*.mass" is that of everything fitted
        unit="kg", rounding=Rounding.DOWN, digits=1,   # shown in this unit, rounded to this side, once
        method="Contents of one bottle × bottles.",    # one sentence for a reader
        source="definition",                           # or "common practice, no source"
    )
    def spare_gas(given: Inputs) -> Term:
        return put(given.positive("gas.bottle"), "kg") * whole(given.count("gas.bottles"))

and append it to the module's ``RECIPES``. A ``Term`` (``worked``) writes itself down while it is worked out, and its
page prints that: put values in in units that cancel to the unit of the number. What is read off a plate is returned
as the bare quantity. ``moves`` says of a number with a limit what moves it. The function gets nothing but what it
declares: asking ``Inputs`` for anything else raises. ``optional`` names facts that may be missing, ``uses`` other
numbers, ``assumes`` assumptions of ``assumptions``. Return an ``Answer`` instead for a verdict, a limit, a sentence,
or faults: an error for a broken plate or legal limit, a warning for a thin margin. ``@table`` fills a table with
``Rows``. An ``unknown`` input needs no code: the number then says what to read off which plate, and so does all that
builds on it. In a table that has a row for each appliance, catch ``NotKnown`` to say it in that row alone.
"""

from collections.abc import Mapping
from dataclasses import replace

from generator.compute import (
    ball_load,
    battery,
    car,
    charging,
    circuits,
    coupling,
    dates,
    extremes,
    gas,
    gas_air,
    gas_cold,
    gas_days,
    heating,
    levelling,
    liquids,
    loading,
    mains,
    mains_trips,
    masses,
    mover,
    planners,
    plates,
    room,
    solar,
    states,
    toilet,
    tyres,
    water,
    water_heating,
    wiring,
)
from generator.compute.assumptions import ASSUMPTIONS
from generator.compute.declare import Recipe
from generator.compute.engine import evaluate
from generator.compute.matching import Car, Match, RearAxle, Towed, match
from generator.model.caravan import Caravan
from generator.model.numbers import Declared, Numbers

# In the order a reader meets them.
RECIPES: tuple[Recipe, ...] = (
    *masses.RECIPES,
    *room.RECIPES,
    *ball_load.RECIPES,
    *loading.RECIPES,
    *states.RECIPES,
    *extremes.RECIPES,
    *liquids.RECIPES,
    *coupling.RECIPES,
    *car.RECIPES,
    *plates.RECIPES,
    *tyres.RECIPES,
    *levelling.RECIPES,
    *gas.RECIPES,
    *gas_days.RECIPES,
    *gas_cold.RECIPES,
    *gas_air.RECIPES,
    *battery.RECIPES,
    *charging.RECIPES,
    *mover.RECIPES,
    *solar.RECIPES,
    *mains.RECIPES,
    *mains_trips.RECIPES,
    *wiring.RECIPES,
    *circuits.RECIPES,
    *water.RECIPES,
    *water_heating.RECIPES,
    *toilet.RECIPES,
    *heating.RECIPES,
    *dates.RECIPES,
)

DECLARED: Mapping[str, Declared] = {recipe.declared.id: recipe.declared for recipe in RECIPES}
NUMBER_IDS = frozenset(id for id, declared in DECLARED.items() if declared.form == "number")
TABLE_IDS = frozenset(id for id, declared in DECLARED.items() if declared.form == "table")
DRAWING_IDS = frozenset({"van"})


def compute(caravan: Caravan) -> Numbers:
    """Return everything computed for ``caravan``.

    Raises:
        SpecError: an assumption the build sheet sets does not exist or makes no sense.
        ComputeError: an input makes no sense, or a plate or legal limit is broken; all faults at once.
    """
    found = evaluate(caravan, RECIPES)
    return replace(found, dates=dates.due_dates(caravan), planners=planners.planners(caravan, found))


__all__ = [
    "ASSUMPTIONS",
    "DECLARED",
    "DRAWING_IDS",
    "NUMBER_IDS",
    "TABLE_IDS",
    "Car",
    "Match",
    "RearAxle",
    "Towed",
    "compute",
    "match",
]
