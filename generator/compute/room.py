"""Room left in each place: its own limit, the payload, and what ball load and axle allow.

Payload and ball load are worked out in ``masses`` and ``ball_load``.
"""

from dataclasses import dataclass, replace

from generator.compute.declare import Answer, Recipe, Rows, places, table
from generator.compute.fitted import KG, MASS_NEEDS, as_fitted, at_place, nothing, total
from generator.compute.inputs import Inputs
from generator.compute.margins import over
from generator.compute.masses import GROUP
from generator.compute.moments import lever, reach
from generator.compute.sheet import place_title
from generator.compute.showing import down, exact, joined, lower_first, up
from generator.compute.worked import Term, least, most, put
from generator.errors import Fault
from generator.model.caravan import Place
from generator.model.numbers import Number
from generator.units import Rounding


@dataclass(frozen=True, slots=True)
class _Bound:
    """The most that one limit allows, and that limit in words."""

    mass: Term
    reason: str


@places(
    "room-here",
    group=GROUP,
    title="Room left",
    needs=(
        "masses.unladen",
        "masses.max_axle",
        "body.coupling_to_axle",
        "van.places",
        "place.*.max_contents",
        *MASS_NEEDS,
    ),
    uses=("payload", "ball-load-empty", "max-ball-load"),
    assumes=("least-ball-load",),
    unit=KG,
    rounding=Rounding.DOWN,
    method=(
        "The least of the place's own limit less what is fitted there, the payload, and what ball load and axle"
        " allow by moments about the axle."
    ),
    source="statics about the axle; the plates of the van",
)
def room_here(given: Inputs, place: Place) -> Answer | None:
    """Return what may still go in ``place``, with nothing else loaded; None where nothing is kept."""
    if not stores(given, place):
        return None
    bounds = [*_own_bound(given, place), _Bound(put(given.number("payload"), KG), _payload_reason(given))]
    if place.position is not None:
        bounds += _ball_bounds(given, place) + _axle_bounds(given, place)
    lowest = min(bounds, key=lambda bound: bound.mass.value)
    left = least(*(bound.mass for bound in bounds))
    if left.value.magnitude < 0:
        left = most(put(nothing(), KG), left)
    own = place.max_contents is not None
    return Answer(
        value=left,
        shown="" if own else f"{down(left.value, KG)}, and no limit of its own is stated",
        limit=given.quantity(f"place.{place.code}.max_contents") if own else None,
        sentence=f"{lowest.reason}.",
        faults=_place_faults(given, place),
    )


def stores(given: Inputs, place: Place) -> bool:
    """Return whether things are kept at ``place``: it has a limit, or lies inside with nothing fitted there.

    A flue, an inlet, a door or a roof light is a place too, and no room is to be promised there.
    """
    if place.max_contents is not None:
        return True
    taken = any(place.code in fitted.at.values() for fitted in given.equipment)
    return (
        not taken
        and place.where == "inside"
        and place.position is not None
        and given.behind_coupling(place).magnitude > 0
    )


def _payload_reason(given: Inputs) -> str:
    return f"The whole van may still carry {given.shown('payload')}"


def _own_bound(given: Inputs, place: Place) -> list[_Bound]:
    if place.max_contents is None:
        return []
    limit, there = given.quantity(f"place.{place.code}.max_contents"), total(at_place(given, place))
    beside = f", with {up(there, KG, 1)} fitted in it" if there.magnitude else ""
    left = put(limit, KG)
    return [_Bound(left - put(there, KG) if there.magnitude else left, f"Its own limit is {exact(limit)}{beside}")]


def _ball_bounds(given: Inputs, place: Place) -> list[_Bound]:
    """Return what the ball load allows: its limit ahead of the axle, the least load behind it.

    Formula: m = (N_limit - N) L / (L - x), moments about the axle.
    """
    share, behind = lever(given, place), given.behind_coupling(place)
    ball, axle = put(given.number("ball-load-empty"), KG), put(given.positive("body.coupling_to_axle"), "m")
    if share.magnitude > 0:
        ahead = (put(given.number("max-ball-load"), KG) - ball) * axle / reach(axle, behind)
        return [_Bound(ahead, f"The ball load limit is {given.shown('max-ball-load')}")]
    if share.magnitude < 0:
        keep = given.assumed("least-ball-load")
        lifted = (ball - put(keep, KG)) * axle / (put(behind, "m") - axle)
        return [_Bound(lifted, f"The towball must keep {exact(keep)}")]
    return []


def _axle_bounds(given: Inputs, place: Place) -> list[_Bound]:
    """Return what the axle allows; of two axles ``max_axle`` is what both may carry together."""
    limit, behind = given.positive("masses.max_axle"), given.behind_coupling(place)
    if not behind.magnitude > 0:
        return []
    carried = put(as_fitted(given), KG) - put(given.number("ball-load-empty"), KG)
    axle = put(given.positive("body.coupling_to_axle"), "m")
    left = (put(limit, KG) - carried) * axle / put(behind, "m")
    return [_Bound(left, f"The axle limit is {exact(limit)}")]


def _place_faults(given: Inputs, place: Place) -> tuple[Fault, ...]:
    if place.max_contents is None:
        return ()
    limit, items = given.quantity(f"place.{place.code}.max_contents"), at_place(given, place)
    if not over(total(items), limit):
        return ()
    what = joined(tuple(f"{lower_first(item.title)} {up(item.mass, KG, 1)}" for item in items))
    message = f"{place_title(place)} may hold {exact(limit)}, but {up(total(items), KG, 1)} is fitted there: {what}"
    return (Fault(message, given.source(f"place.{place.code}.max_contents"), "its limit covers everything in it"),)


_ROOM_NOTE = (
    "Each row counts with nothing else loaded. What you load in one place uses up room in all the others."
    " Behind the axle, load lightens the towball: keep the ball load at its target."
    " A place without a row has no stated limit: ask your dealer before you store things there."
)


@table(
    "room-left",
    group=GROUP,
    title="Room left in each place",
    needs=("van.places",),
    uses=("room-here",),
    head=("Place", "You may still add", "What sets it"),
    rounding=Rounding.DOWN,
    method=room_here.declared.method,
    source=room_here.declared.source,
)
def room_left(given: Inputs) -> Rows:
    """Return a row for each place where things are kept, in walking order."""
    rooms = given.by_place("room-here")
    kept = [place for place in given.places if place.code in rooms]
    rows = tuple(_room_row(place, rooms[place.code]) for place in kept)
    worked = tuple(replace(one, label=place_title(place)) for place in kept for one in rooms[place.code].worked)
    return Rows(rows=rows, note=_ROOM_NOTE, worked=worked)


def _room_row(place: Place, room: Number) -> tuple[str, ...]:
    if room.value is None:
        return place_title(place), "Not known", f"Read {joined(room.missing)}."
    return place_title(place), room.shown, room.sentence


RECIPES: tuple[Recipe, ...] = (room_here, room_left)
