"""Ball load and axle load of the fully loaded van, and what its towball must carry at least.

The ball load as fitted is worked out in ``ball_load``, the states of a trip in ``states``.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.ball_load import GROUP
from generator.compute.declare import Answer, Recipe, number
from generator.compute.fitted import KG, MASS_NEEDS, at_place, nothing, total
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.liquids import Liquid, change
from generator.compute.margins import CLOSE, against, over
from generator.compute.masses import HEAVIEST_OPTIONAL, most_weight
from generator.compute.moments import STATICS, moved
from generator.compute.sheet import place_title
from generator.compute.showing import down, exact, up
from generator.compute.worked import Term, lines, most, put, smaller, summed
from generator.errors import Fault, Level
from generator.model.caravan import Place
from generator.model.numbers import Verdict
from generator.units import Quantity, Rounding

LOAD_NEEDS = (
    "masses.max_laden",
    "masses.unladen",
    "body.coupling_to_axle",
    "place.*.max_contents",
    "van.places",
    "market.ball_load_share",
    *MASS_NEEDS,
)
LOAD_USES = ("payload", "ball-load-empty", "max-ball-load")
FULL_LOAD = (
    "Full load is all of the payload. Every place with a stated limit is filled to the same share of the room in it;"
    " what does not fit there lies on the floor over the axle."
)


@dataclass(frozen=True, slots=True)
class Weight:
    """What the van weighs and what of that rests on the towball."""

    mass: Term
    ball: Term

    @property
    def wheels(self) -> Term:
        """What the axle carries, or both together."""
        return self.mass - self.ball

    @property
    def settled(self) -> "Weight":
        """This as it was found, without the sums it came from."""
        return Weight(put(self.mass.value, KG), put(self.ball.value, KG))

    def plus(self, more: "Weight") -> "Weight":
        """Return this with ``more`` on board."""
        return Weight(self.mass + more.mass, self.ball + more.ball)

    def less(self, gone: "Weight") -> "Weight":
        """Return this with ``gone`` used up."""
        return Weight(self.mass - gone.mass, self.ball - gone.ball)


@dataclass(frozen=True, slots=True)
class Spread:
    """A load spread as a full load is: the share every place is filled to, and what each does to the ball load."""

    share: Term
    parts: tuple[tuple[str, Term], ...]

    @property
    def ball(self) -> Term:
        """By how much it changes the ball load."""
        return summed([put(part.value, KG) for _, part in self.parts] or [put(nothing(), KG)])


def spread(given: Inputs, load: Quantity) -> Spread:
    """Return by how much ``load`` changes the ball load where it is spread as a full load is.

    Formula: f r (L - d) / L for each place, with r the room in it and f = min(1, load / sum of r).

    Raises:
        NotKnown: no place has a limit, or one that is not known, or the build sheet does not say where it is.
    """
    rooms = [(place, _room(given, place)) for place in given.places if place.max_contents is not None]
    if not rooms:
        raise NotKnown("the load limit of each place off the label there")
    rooms = [(place, room) for place, room in rooms if room.magnitude]
    all_of_it = put(Quantity(100.0, "percent"), "percent")
    if not rooms:
        return Spread(all_of_it, ())
    together = summed(put(room, KG) for _, room in rooms)
    share = smaller(all_of_it, (put(load, KG) / together).to("percent"))
    filled = put(share.value, "percent")
    parts = ((place, moved(given, filled * put(room, KG), given.behind_coupling(place))) for place, room in rooms)
    return Spread(share, tuple((place_title(place), part.to(KG)) for place, part in parts))


def _room(given: Inputs, place: Place) -> Quantity:
    """Return what the limit of ``place`` leaves beside what is fitted there."""
    left: Quantity = given.quantity(f"place.{place.code}.max_contents") - total(at_place(given, place))
    return max(left, nothing())


def full_van(given: Inputs) -> Weight:
    """Return the van at the most it may weigh: all of the payload loaded, tanks empty."""
    load = spread(given, given.number("payload")).ball
    return Weight(most_weight(given), put(given.number("ball-load-empty"), KG) + load)


def wet_van(given: Inputs, water: Weight) -> Weight:
    """Return the van at the most it may weigh, with ``water`` on board and a full load in what payload it leaves."""
    load: Quantity = given.number("payload") - water.mass.value
    moved_by = spread(given, load).ball.value
    empty = put(given.number("ball-load-empty"), KG)
    return Weight(most_weight(given), empty + put(water.ball.value, KG) + put(moved_by, KG))


def full_tanks(given: Inputs, tanks: tuple[Liquid, ...]) -> Weight:
    """Return what full tanks weigh and how they change the ball load."""
    mass = summed([put(tank.mass, KG) for tank in tanks] or [put(nothing(), KG)])
    ball = summed([put(change(given, tank).value, KG) for tank in tanks] or [put(nothing(), KG)])
    return Weight(mass, ball)


@number(
    "ball-load-laden",
    group=GROUP,
    title="Ball load with a full load",
    needs=LOAD_NEEDS,
    optional=HEAVIEST_OPTIONAL,
    uses=LOAD_USES,
    unit=KG,
    rounding=Rounding.UP,
    method=f"Ball load before you load, plus mass × (L - d) / L for the load in each place. {FULL_LOAD}",
    moves="Where you put the load: it rises ahead of the axle and falls behind it.",
    source=STATICS,
)
def ball_load_laden(given: Inputs) -> Answer:
    """Return N = N0 + sum of m (L - x) / L over the load, tanks empty."""
    full, limit, load = full_van(given), given.number("max-ball-load"), spread(given, given.number("payload"))
    ball = full.ball.value
    verdict, least = against(ball, limit), guidance(given, full.mass.value)
    low = ball < least
    advice = f"Guidance is at least {up(least, KG)}. " if least.magnitude else ""
    sentence = f"{up(ball, KG)} on the towball when every place is filled alike. {advice}Limit {down(limit, KG)}."
    return Answer(
        value=full.ball,
        worked=(
            *lines([("Each place is filled to", load.share)], "percent"),
            *lines([*load.parts, ("Together", full.ball)], KG),
        ),
        limit=limit,
        sentence=f"{sentence} Put more of the load in front of the axle." if low else sentence,
        verdict=verdict,
        faults=tuple(_laden_faults(given, full, verdict, least)),
    )


def guidance(given: Inputs, mass: Quantity) -> Quantity:
    """Return the lower edge of the guidance for ``mass``; none where a plate allows less."""
    low, _ = given.quantities("market.ball_load_share", "percent")
    least: Quantity = (mass * low).to(KG)
    return nothing() if over(least, given.number("max-ball-load")) else least


def _laden_faults(given: Inputs, full: Weight, verdict: Verdict, least: Quantity) -> Iterator[Fault]:
    """Yield warnings only: how the van is loaded is up to its owner. What holds without load is told already."""
    if verdict is not Verdict.WITHIN and verdict is against(
        given.number("ball-load-empty"), given.number("max-ball-load")
    ):
        return
    limit, source = given.number("max-ball-load"), given.source("masses.max_laden")
    ball = up(full.ball.value, KG, 1)
    if verdict is Verdict.OVER:
        yield Fault(
            f"with a full load the ball load is {ball}, over the limit of {exact(limit)}", source, "", Level.WARNING
        )
    elif verdict is Verdict.CLOSE:
        message = f"thin margin: with a full load the ball load is {ball}, over {CLOSE:.0%} of {exact(limit)}"
        yield Fault(message, source, "", Level.WARNING)
    elif full.ball.value < least:
        found = down(full.ball.value, KG, 1)
        message = f"with a full load the ball load is {found}, less than the guidance of {up(least, KG)}"
        yield Fault(message, source, "say at handover what has to lie in front of the axle", Level.WARNING)


@number(
    "axle-load-laden",
    group=GROUP,
    title="Load on the wheels with a full load",
    needs=(*LOAD_NEEDS, "masses.max_axle"),
    optional=(*HEAVIEST_OPTIONAL, "trait.twin-axle"),
    uses=LOAD_USES,
    unit=KG,
    rounding=Rounding.UP,
    method=f"What the full van weighs less its ball load, on all its wheels together. {FULL_LOAD}",
    moves="How much you load, and how much of it presses on the towball.",
    source=STATICS,
)
def axle_load_laden(given: Inputs) -> Answer:
    """Return A = W - N, against the plate of the axle or of both."""
    full, limit = full_van(given).settled, given.positive("masses.max_axle")
    verdict = against(full.wheels.value, limit)
    whose = "both axles" if given.trait("twin-axle") else "the axle"
    shown = up(full.wheels.value, KG)
    faults: tuple[Fault, ...] = ()
    if verdict is Verdict.OVER:
        message = f"with a full load {whose} carry {shown}, over {exact(limit)}: too little rests on the towball"
        faults = (Fault(message, given.source("masses.max_axle"), "tell the owner what to leave out", Level.WARNING),)
    return Answer(
        value=full.wheels,
        limit=limit,
        sentence=f"{shown} on {whose}, the rest on the towball. Limit {exact(limit)}.",
        verdict=verdict,
        faults=faults,
    )


@number(
    "ball-load-floor",
    group=GROUP,
    title="Least ball load of the full van",
    needs=("masses.max_laden", "masses.max_axle"),
    optional=HEAVIEST_OPTIONAL,
    assumes=("least-ball-load",),
    unit=KG,
    rounding=Rounding.UP,
    method=(
        "The most the van may weigh less the most the wheels may carry: with less than that on the towball a full van"
        " overloads its wheels. Never below the least load to keep on the towball."
    ),
    source="statics; the plates of the van",
)
def ball_load_floor(given: Inputs) -> Answer:
    """Return max(W - A, least), with W the most the van may weigh and A the plate of the axle or of both."""
    axle, least = given.positive("masses.max_axle"), given.assumed("least-ball-load")
    rest = most_weight(given) - put(axle, KG)
    floor = most(rest, put(least, KG))
    if rest.value > least:
        shown = up(rest.value, KG)
        return Answer(
            value=floor,
            sentence=f"The wheels carry {exact(axle)} at most. With less than {shown} on the towball they carry more.",
        )
    return Answer(value=floor, sentence=f"With less than {exact(least)} on the towball the van may sway.")


RECIPES: tuple[Recipe, ...] = (ball_load_laden, axle_load_laden, ball_load_floor)
