"""What the owner's car must allow for this van, and the local limit for a van without brakes.

The forces are worked out in ``coupling``; one car is judged by ``matching``.
"""

from collections.abc import Callable, Iterator
from contextlib import suppress

from generator.compute.coupling import GROUP, HEAVIEST_CAR, KN, R55, dc_value, pull, v_value
from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.fitted import KG
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.margins import against, over
from generator.compute.showing import down, exact, not_known, up
from generator.compute.worked import Term, lines, most, put, smaller
from generator.errors import Fault, Level
from generator.model.numbers import Verdict
from generator.units import Quantity, Rounding

_CARS = (Quantity(1500.0, KG), Quantity(2000.0, KG), Quantity(2500.0, KG), HEAVIEST_CAR)
_HEAVY = Quantity(3500.0, KG)  # above it a centre-axle trailer needs Dc and V too
_ON_BALL, _KERB_MASS = "Greatest load on the towbar", "Kerb mass of the car"
_KERB = ("market.kerb_share", "market.kerb_text", "market.kerb_source")


@table(
    "car-must-allow",
    group=GROUP,
    title="What the car must allow",
    needs=("masses.max_laden", "market.ball_load_share"),
    optional=("trait.unbraked", "masses.max_axle", "body.length", "body.coupling_to_axle", *_KERB),
    uses=("max-ball-load", "ball-load-floor"),
    head=("Read on car and towbar", "It must be at least", "Why"),
    rounding=Rounding.UP,
    method=(
        "The greatest mass of the van, the load its towball needs, and the D-value of van and car, D = g T R / (T + R)."
        " Everything is rounded up."
    ),
    source=f"{R55}; the plates of the van; the lowest of all limits counts",
)
def car_must_allow(given: Inputs) -> Rows:
    """Return a row for each limit of car and towbar with what this van asks of it."""
    return Rows(
        rows=(*_mass_rows(given), *_force_rows(given), *_kerb_rows(given)),
        note="One of them lower: this car may not tow this van fully loaded. The car's own plates and papers count.",
        worked=(*lines(_masses(given), KG), *lines(_pulls(given), KN)),
    )


def _masses(given: Inputs) -> Iterator[tuple[str, Term]]:
    with suppress(NotKnown):
        yield _ON_BALL, least_ball_load(given)
    if given.has("market.kerb_share"):
        yield _KERB_MASS, kerb_mass(given)


def _pulls(given: Inputs) -> Iterator[tuple[str, Term]]:
    van = given.positive("masses.max_laden")
    return ((_pull_title(car), pull(car, van)) for car in _CARS)


def _pull_title(car: Quantity) -> str:
    return f"D-value of the towbar, car up to {exact(car)}"


def _mass_rows(given: Inputs) -> Iterator[tuple[str, ...]]:
    laden = up(given.positive("masses.max_laden"), KG)
    brakes = "without brakes" if given.trait("unbraked") else "with brakes"
    yield f"Greatest trailer mass, {brakes}", laden, "The most this van may weigh"
    yield "Greatest mass of both together", f"the loaded car and {laden}", "Both are weighed loaded"
    yield (
        _ON_BALL,
        _told(ball_load_needed, given, KG, 0),
        "The least this van needs there when full",
    )


def _told(work: Callable[[Inputs], Quantity], given: Inputs, unit: str, digits: int) -> str:
    """Return what ``work`` finds, or for this row alone what to read."""
    try:
        return up(work(given), unit, digits)
    except NotKnown as unknown:
        return not_known(unknown.missing)


def ball_load_needed(given: Inputs) -> Quantity:
    """Return the least ball load of the full van: by guidance within the plates, and for its axle.

    Declared as ``masses.max_laden``, ``market.ball_load_share``, and the numbers max-ball-load and ball-load-floor.
    """
    return least_ball_load(given).value


def least_ball_load(given: Inputs) -> Term:
    """Return ``ball_load_needed`` as it is worked out."""
    low, _ = given.quantities("market.ball_load_share", "percent")
    guidance = (put(given.positive("masses.max_laden"), KG) * put(low, "percent")).to(KG)
    within = smaller(guidance, put(given.number("max-ball-load"), KG))
    return most(within, put(given.number("ball-load-floor"), KG))


def _force_rows(given: Inputs) -> Iterator[tuple[str, ...]]:
    van = given.positive("masses.max_laden")
    for title, term in _pulls(given):
        yield title, up(term.value, KN, 1), "Pull between car and van"
    if van > _HEAVY:
        why = "A van above 3500 kg needs it too"
        yield f"Dc-value of the towbar, car up to {exact(HEAVIEST_CAR)}", _told(_dc, given, KN, 1), why
        yield "V-value of the towbar", _told(_v, given, KN, 1), why


def _dc(given: Inputs) -> Quantity:
    return dc_value(HEAVIEST_CAR, given.positive("masses.max_axle"))


def _v(given: Inputs) -> Quantity:
    body, drawbar = given.positive("body.length"), given.positive("body.coupling_to_axle")
    return v_value(body, drawbar, given.positive("masses.max_axle"))


def _kerb_rows(given: Inputs) -> Iterator[tuple[str, ...]]:
    """Yield the kerb mass that the market asks for or advises; most markets do not."""
    if not given.has("market.kerb_share"):
        return
    share = given.positive("market.kerb_share")
    why = (
        f"{given.text('market.kerb_text')} Van at most {exact(share)} of it. Source: {given.text('market.kerb_source')}"
    )
    yield _KERB_MASS, up(kerb_mass(given).value, KG), why


def kerb_mass(given: Inputs) -> Term:
    """Return the kerb mass of a car for which the full van is the share that the market names."""
    share = put(given.positive("market.kerb_share"), "percent")
    return (put(given.positive("masses.max_laden"), KG) / share).to(KG)


@number(
    "unbraked-limit",
    group=GROUP,
    title="Most a van without brakes may weigh here",
    all_of=("unbraked",),
    needs=("masses.max_laden",),
    optional=("masses.max_axle", "market.unbraked_limit", "market.unbraked_of", "market.unbraked_source"),
    unit=KG,
    rounding=Rounding.DOWN,
    method="The limit of the country; in some it counts for the mass on the wheels alone.",
    moves="What the plate says that the van may weigh.",
    source="local rules",
)
def unbraked_limit(given: Inputs) -> Answer:
    """Return the local limit, and refuse a van without brakes that may be loaded over it."""
    if not given.has("market.unbraked_limit"):
        raise NotKnown("the most a van without brakes may weigh off your local rules")
    limit = given.quantity("market.unbraked_limit")
    wheels = given.text("market.unbraked_of") == "wheels"
    path = "masses.max_axle" if wheels else "masses.max_laden"
    mass = given.positive(path)
    verdict = against(mass, limit)
    of_it = "on its wheels" if wheels else "with its load"
    faults: tuple[Fault, ...] = ()
    if over(mass, limit):
        message = f"a van without brakes may weigh {exact(limit)} {of_it} here, and this one {exact(mass)}"
        faults = (Fault(message, given.source(path), "fit brakes, or have its plate lowered"),)
    elif verdict is Verdict.CLOSE:
        message = f"thin margin: {exact(mass)} {of_it}, and {exact(limit)} is allowed without brakes"
        faults = (Fault(message, given.source(path), level=Level.WARNING),)
    return Answer(
        value=limit,
        sentence=f"This van may weigh {down(mass, KG)} {of_it}. {down(limit, KG)} is allowed without brakes.",
        verdict=verdict,
        source=given.text("market.unbraked_source"),
        faults=faults,
    )


RECIPES: tuple[Recipe, ...] = (car_must_allow, unbraked_limit)
