"""Ball load and axle load in every state of a trip: empty, loaded, with water on board, with water and gas used up.

What a full load is stands in ``loading``, what tanks weigh in ``liquids``.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.ball_load import GROUP
from generator.compute.declare import Recipe, Rows, table
from generator.compute.fitted import KG, as_fitted, behind
from generator.compute.inputs import Inputs
from generator.compute.liquids import LIQUID_NEEDS, LIQUID_OPTIONAL, Liquid, liquids
from generator.compute.loading import (
    FULL_LOAD,
    LOAD_NEEDS,
    LOAD_USES,
    Weight,
    full_tanks,
    full_van,
    guidance,
    wet_van,
)
from generator.compute.margins import against, over
from generator.compute.masses import HEAVIEST_OPTIONAL
from generator.compute.moments import STATICS, moved
from generator.compute.showing import down, exact, lower_first, up
from generator.compute.worked import lines, put
from generator.errors import Fault, Level
from generator.model.numbers import Bar, BarChart, Verdict
from generator.units import Quantity, Rounding


@dataclass(frozen=True, slots=True)
class State:
    """The van in one state of a trip."""

    title: str
    weight: Weight


@table(
    "ball-load-states",
    group=GROUP,
    title="Ball load on the way",
    needs=(*LOAD_NEEDS, *LIQUID_NEEDS),
    optional=(*HEAVIEST_OPTIONAL, *LIQUID_OPTIONAL),
    uses=LOAD_USES,
    head=("The van", "On the towball", "On the wheels", "Judged"),
    rounding=Rounding.UP,
    method=(
        "Ball load before you load, plus mass × (L - d) / L for all that the row says is in the van, less for what is"
        f" used up. {FULL_LOAD} What else is in leaves less of the payload for load."
    ),
    source=STATICS,
)
def ball_load_states(given: Inputs) -> Rows:
    """Return a row for each state of the van on a trip, judged against the plates and the guidance."""
    found = tuple(states(given))
    faults = tuple(fault for state in found if (fault := _state_fault(given, state)) is not None)
    note = "A state that is over a limit must not go on the road. Move load, or leave some out."
    rows = tuple(_state_row(given, state) for state in found)
    sums = [
        (f"{state.title}, {where}", term)
        for state in found
        for where, term in (("on the towball", state.weight.ball), ("on the wheels", state.weight.settled.wheels))
    ]
    return Rows(rows=rows, note=note, chart=_chart(given, found), worked=lines(sums, KG), faults=faults)


def _chart(given: Inputs, found: tuple[State, ...]) -> BarChart:
    bars = tuple(
        Bar(state.title, float(ball.to(KG).magnitude), up(ball, KG))
        for state, ball in ((state, state.weight.ball.value) for state in found)
    )
    limit = given.number("max-ball-load")
    line = Bar("Limit", float(limit.to(KG).magnitude), down(limit, KG))
    return BarChart(title="Ball load in each state of a trip, against its limit", bars=bars, limits=(line,))


def states(given: Inputs) -> Iterator[State]:
    """Yield each state of a trip; the declaration needs what that of ``ball_load_states`` does."""
    tanks = liquids(given)
    to_use = tuple(tank for tank in tanks if tank.role == "use")
    water = tuple(tank for tank in tanks if tank.role in ("use", "kept"))
    waste = tuple(tank for tank in tanks if tank.role == "waste")
    bare = Weight(put(as_fitted(given), KG), put(given.number("ball-load-empty"), KG))
    yield State("Nothing loaded", bare)
    for kind, some in (("water", water), ("waste", waste)):
        if some:
            yield State(f"Nothing loaded, {_filled(kind, some)}", bare.plus(full_tanks(given, some)))
    full, title = full_van(given).settled, _dry(given)
    yield State(title, full)
    if (wet := _loaded_beside(given, water)) is not None:
        yield State(f"Full load, {_filled('water', water)}", wet)
        if to_use:
            yield State("Full load with water, water used up", wet.settled.less(full_tanks(given, to_use).settled))
    if (soiled := _loaded_beside(given, waste)) is not None:
        yield State(f"Full load, {_filled('waste', waste)}", soiled)
    if given.has("gas.bottle"):
        yield State(f"{title}, gas used up", full.less(_gas(given)))


def _loaded_beside(given: Inputs, tanks: tuple[Liquid, ...]) -> Weight | None:
    """Return the van at the most it may weigh with ``tanks`` full; None without any, or where they leave no payload."""
    held = full_tanks(given, tanks)
    return wet_van(given, held) if tanks and held.mass.value < given.number("payload") else None


def _filled(kind: str, tanks: tuple[Liquid, ...]) -> str:
    """Return that ``tanks`` are full; where there is one, it has its name."""
    return f"{lower_first(tanks[0].name)} full" if len(tanks) == 1 else f"{kind} tanks full"


def _dry(given: Inputs) -> str:
    held = len(liquids(given))
    return f"Full load, {'tank' if held == 1 else 'tanks'} empty" if held else "Full load"


def _gas(given: Inputs) -> Weight:
    """Return what the gas in all bottles weighs, and what of that rests on the towball."""
    bottles = next(fitted for fitted in given.equipment if fitted.key == "gas")
    gas: Quantity = given.quantity("gas.bottle") * given.count("gas.bottles")
    return Weight(put(gas, KG), moved(given, put(gas, KG), behind(given, bottles)))


def _state_row(given: Inputs, state: State) -> tuple[str, ...]:
    ball, wheels = state.weight.ball.value, state.weight.wheels.value
    return state.title, up(ball, KG), up(wheels, KG), _judged(given, state)


def _judged(given: Inputs, state: State) -> str:
    """Return how a state stands to the plates of towball and wheels, gravest first, then to the guidance."""
    limit, laden = given.number("max-ball-load"), given.quantity("masses.max_laden")
    ball, wheels, mass = (term.value for term in (state.weight.ball, state.weight.wheels, state.weight.mass))
    told = []
    if over(ball, limit):
        told.append(f"Over the ball load limit of {down(limit, KG)}")
    if given.known("masses.max_axle") and over(wheels, given.quantity("masses.max_axle")):
        told.append(f"Over the limit of the wheels, {exact(given.quantity('masses.max_axle'))}")
    if over(mass, laden):
        told.append(f"Heavier than the {exact(laden)} allowed")
    if told:
        return ". ".join(told)
    if against(ball, limit) is Verdict.CLOSE:
        told.append(f"Close to the ball load limit of {down(limit, KG)}")
    if given.known("masses.max_axle") and against(wheels, given.quantity("masses.max_axle")) is Verdict.CLOSE:
        told.append(f"Close to the limit of the wheels, {exact(given.quantity('masses.max_axle'))}")
    if ball < guidance(given, mass):
        told.append(f"Less on the towball than guidance, {up(guidance(given, mass), KG)}")
    return ". ".join(told) or Verdict.WITHIN.value


def _state_fault(given: Inputs, state: State) -> Fault | None:
    """Return a warning for a state over a limit; that of the plain full load is told by its own number."""
    judged = _judged(given, state)
    if not judged.startswith(("Over", "Heavier")) or state.title == _dry(given):
        return None
    ball, wheels = up(state.weight.ball.value, KG, 1), up(state.weight.wheels.value, KG, 1)
    message = f"{lower_first(state.title)}: {ball} on the towball and {wheels} on the wheels. {judged}"
    return Fault(message, given.source("masses.max_laden"), level=Level.WARNING)


RECIPES: tuple[Recipe, ...] = (ball_load_states,)
