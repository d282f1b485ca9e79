"""The most that towball and wheels carry in any state of a trip, whichever tanks are full.

The states themselves stand in ``states``.
"""

from collections.abc import Callable

from generator.compute.ball_load import GROUP
from generator.compute.declare import Answer, Recipe, number
from generator.compute.fitted import KG
from generator.compute.inputs import Inputs
from generator.compute.liquids import LIQUID_NEEDS, LIQUID_OPTIONAL
from generator.compute.loading import LOAD_NEEDS, LOAD_USES, Weight
from generator.compute.margins import against
from generator.compute.masses import HEAVIEST_OPTIONAL
from generator.compute.moments import STATICS
from generator.compute.showing import exact, lower_first, up
from generator.compute.states import states
from generator.compute.worked import Term, most, put
from generator.model.numbers import Verdict
from generator.units import Quantity, Rounding

_NEEDS = (*LOAD_NEEDS, *LIQUID_NEEDS)
_OPTIONAL = (*HEAVIEST_OPTIONAL, *LIQUID_OPTIONAL)
_METHOD = "The greatest that the table “Ball load on the way” has in any state, however the tanks stand."
_OFF = " In that state the van must not go on the road: empty tanks, or load less."


def _greatest(given: Inputs, of: Callable[[Weight], Term], limit: Quantity, where: str) -> Answer:
    """Return the greatest of what ``of`` reads from each state, and which state that is."""
    found = [(state.title, put(of(state.weight).value, KG)) for state in states(given)]
    title, worst = max(found, key=lambda each: each[1].value)
    verdict = against(worst.value, limit)
    off = _OFF if verdict is Verdict.OVER else ""
    return Answer(
        value=most(*(term for _, term in found)),
        limit=limit,
        verdict=verdict,
        sentence=f"{up(worst.value, KG)} {where} in one state: {lower_first(title)}. Limit {exact(limit)}.{off}",
    )


@number(
    "ball-load-most",
    group=GROUP,
    title="Most on the towball on the way",
    all_of=("liquids",),
    needs=_NEEDS,
    optional=_OPTIONAL,
    uses=LOAD_USES,
    unit=KG,
    rounding=Rounding.UP,
    method=_METHOD,
    moves="Which tanks are full, and where you put the load.",
    source=STATICS,
)
def ball_load_most(given: Inputs) -> Answer:
    """Return the greatest ball load of a trip."""
    return _greatest(given, lambda weight: weight.ball, given.number("max-ball-load"), "on the towball")


@number(
    "axle-load-most",
    group=GROUP,
    title="Most on the wheels on the way",
    all_of=("liquids",),
    needs=(*_NEEDS, "masses.max_axle"),
    optional=_OPTIONAL,
    uses=LOAD_USES,
    unit=KG,
    rounding=Rounding.UP,
    method=_METHOD,
    moves="Which tanks are full, and how much of the load presses on the towball.",
    source=STATICS,
)
def axle_load_most(given: Inputs) -> Answer:
    """Return the greatest load on the wheels of a trip."""
    return _greatest(given, lambda weight: weight.wheels, given.positive("masses.max_axle"), "on the wheels")


RECIPES: tuple[Recipe, ...] = (ball_load_most, axle_load_most)
