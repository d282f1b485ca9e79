"""The load on the towball: as fitted, its limit, what to aim for and what moves it.

What may be loaded within these limits is worked out in ``masses``.
"""

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.fitted import BALL_NEEDS, KG, MASS_NEEDS, Shift, as_fitted, shifts
from generator.compute.inputs import Inputs
from generator.compute.margins import CLOSE, against, over
from generator.compute.moments import STATICS, moved
from generator.compute.sheet import place_title
from generator.compute.showing import down, exact, signed, up
from generator.compute.worked import Term, least, lines, put
from generator.errors import Fault, Level
from generator.model.numbers import Verdict
from generator.units import Quantity, Rounding, rounded

GROUP = "Ball load"
_PLATES = ("masses.max_ball_load", "coupling.max_ball_load")
_OF_PLATE = {"masses.max_ball_load": "the van's own plate", "coupling.max_ball_load": "the plate of the coupling"}


@number(
    "max-ball-load",
    group=GROUP,
    title="Largest ball load of the van",
    needs=_PLATES,
    unit=KG,
    rounding=Rounding.DOWN,
    method="The least of the plate of the van and the plate of the coupling; your car may allow less.",
    source="the plates of van and coupling; the lower limit wins",
)
def max_ball_load(given: Inputs) -> Answer:
    """Return the least of both plates and say which it is."""
    limits = {path: given.positive(path) for path in _PLATES}
    path, limit = min(limits.items(), key=lambda each: each[1])
    return Answer(
        value=least(*(put(each, KG) for each in limits.values())),
        sentence=f"{down(limit, KG)} is the limit, from {_OF_PLATE[path]}. Your car or its towbar may allow less.",
    )


@number(
    "ball-load-empty",
    group=GROUP,
    title="Ball load before you load the van",
    needs=("masses.ball_load_unladen", "masses.unladen", "body.coupling_to_axle", *BALL_NEEDS, *MASS_NEEDS),
    optional=("masses.max_axle",),
    uses=("max-ball-load",),
    unit=KG,
    rounding=Rounding.UP,
    method=(
        "Ball load of the unladen van, and for each thing fitted beside it mass × (L - d) / L, with L from coupling to"
        " axle and d from coupling to the thing."
    ),
    moves="What is fitted, and where: it rises ahead of the axle and falls behind it.",
    source=STATICS,
)
def ball_load_empty(given: Inputs) -> Answer:
    """Return N = N0 + sum of m (L - x) / L over what the unladen van does not hold."""
    worked = put(given.quantity("masses.ball_load_unladen"), KG)
    for shift in shifts(given):
        worked = _shifted(given, worked, shift)
    ball, limit = worked.value, given.number("max-ball-load")
    verdict = against(ball, limit)
    return Answer(
        value=worked,
        limit=limit,
        sentence=f"{up(ball, KG)} on the towball before you load. Limit {given.shown('max-ball-load')}.",
        verdict=verdict,
        faults=(*_ball_faults(given, ball, limit, verdict), *_axle_faults(given, ball)),
    )


def _shifted(given: Inputs, ball: Term, shift: Shift) -> Term:
    """Return ``ball`` with what ``shift`` brings or, below zero, takes away."""
    if shift.mass.magnitude < 0:
        return ball - moved(given, put(-1 * shift.mass, KG), shift.behind)
    return ball + moved(given, put(shift.mass, KG), shift.behind)


def _ball_faults(given: Inputs, ball: Quantity, limit: Quantity, verdict: Verdict) -> tuple[Fault, ...]:
    source = given.source("masses.ball_load_unladen")
    if ball.magnitude < 0:
        message = f"the ball load as fitted is {signed(ball, KG, 1)}: the van would lift off the towball"
        return (Fault(message, source, "check the places of what is fitted behind the axle"),)
    if verdict is Verdict.OVER:
        return (Fault(f"the ball load as fitted is {up(ball, KG, 1)}, over the limit of {exact(limit)}", source),)
    if verdict is Verdict.CLOSE:
        message = f"thin margin: the ball load as fitted is {up(ball, KG, 1)}, over {CLOSE:.0%} of {exact(limit)}"
        return (Fault(message, source, level=Level.WARNING),)
    return ()


def _axle_faults(given: Inputs, ball: Quantity) -> tuple[Fault, ...]:
    """Return the fault of an axle, or two axles together, over ``max_axle`` before anything is loaded."""
    if not given.known("masses.max_axle"):
        return ()
    limit, carried = given.quantity("masses.max_axle"), as_fitted(given) - ball
    if not over(carried, limit):
        return ()
    message = f"the axle carries {up(carried, KG, 1)} as fitted, over its limit of {exact(limit)}"
    return (Fault(message, given.source("masses.max_axle"), "of two axles, max_axle is what both carry together"),)


@number(
    "ball-load-target",
    group=GROUP,
    title="Ball load to aim for",
    needs=("masses.max_laden", "market.ball_load_share", "market.ball_load_source"),
    uses=("max-ball-load",),
    unit=KG,
    rounding=Rounding.DOWN,
    method="The share of the laden mass that is usual here, never above a plate of van or coupling.",
    source="guidance of the market",
)
def ball_load_target(given: Inputs) -> Answer:
    """Return the upper edge of the band; ``shown`` holds both edges, or the plate alone where guidance exceeds it."""
    laden, limit = put(given.positive("masses.max_laden"), KG), given.number("max-ball-load")
    edges = [laden * put(share, "percent") for share in given.quantities("market.ball_load_share", "percent")]
    low, high = (edge.value for edge in edges)
    upper = least(edges[1], put(limit, KG))
    low_kg, most_kg = rounded(low, KG, Rounding.UP), rounded(min(high, limit), KG, Rounding.DOWN)
    why = f"That is the usual share of the full van, {_shares(given)}."
    if low_kg < most_kg:
        band = f"{low_kg:f} to {most_kg:f} kg"
    else:
        band = f"{'at most' if low > limit else 'about'} {most_kg:f} kg"
    if high > limit:
        why = (
            f"Guidance for a full van is {_shares(given)}: up to {down(high, KG)}. The plates allow less, and they win."
        )
    return Answer(
        value=upper,
        worked=lines([("Lower edge", edges[0]), ("Upper edge", upper)], KG),
        shown=f"{band}, or your car's limit if lower",
        limit=limit,
        sentence=why,
        source=given.text("market.ball_load_source"),
    )


def _shares(given: Inputs) -> str:
    low, high = given.quantities("market.ball_load_share", "percent")
    return exact(high) if low == high else f"{exact(low)} to {exact(high)}"


@table(
    "ball-load-change",
    group=GROUP,
    title="What 10 kg does to the ball load",
    needs=("body.coupling_to_axle", "van.places"),
    head=("Place", "10 kg here changes it by"),
    rounding=Rounding.UP,
    method="10 kg × (L - d) / L, with L from coupling to axle and d from coupling to the place.",
    source=STATICS,
)
def ball_load_change(given: Inputs) -> Rows:
    """Return a row for each place behind the coupling, rounded away from zero."""
    ten = put(Quantity(10.0, KG), KG)
    found = [place for place in given.places if place.position and given.behind_coupling(place).magnitude > 0]
    changes = [(place_title(place), moved(given, ten, given.behind_coupling(place))) for place in found]
    rows = tuple((title, signed(change.value, KG, 1)) for title, change in changes)
    note = "Ahead of the axle, load presses on the towball. Behind it, load lifts."
    return Rows(rows=rows, note=note, worked=lines(changes, KG))


RECIPES: tuple[Recipe, ...] = (ball_load_empty, max_ball_load, ball_load_target, ball_load_change)
