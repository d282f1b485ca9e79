"""Ball load and axle load of the fully loaded van, and what its towball must carry at least.

The ball load as fitted is worked out in ``ball_load``, the states of a trip in ``states``.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.ball_load import GROUP
from generator.compute.declare import Answer, Recipe, number
from generator.compute.fitted import KG, MASS_NEEDS, at_place, nothing, total
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.liquids import Liquid, pressed
from generator.compute.margins import CLOSE, against, over
from generator.compute.masses import HEAVIEST_OPTIONAL, heaviest
from generator.compute.moments import STATICS, lever
from generator.compute.showing import down, exact, up
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

    mass: Quantity
    ball: Quantity

    @property
    def wheels(self) -> Quantity:
        """What the axle carries, or both together."""
        carried: Quantity = self.mass - self.ball
        return carried

    def plus(self, more: "Weight") -> "Weight":
        """Return this with ``more`` on board."""
        return Weight(self.mass + more.mass, self.ball + more.ball)

    def less(self, gone: "Weight") -> "Weight":
        """Return this with ``gone`` used up."""
        return Weight(self.mass - gone.mass, self.ball - gone.ball)


def spread(given: Inputs, load: Quantity) -> Quantity:
    """Return by how much ``load`` changes the ball load where it is spread as a full load is.

    Formula: sum of f r (L - x) / L over the places, with r the room in each and f = min(1, load / sum of r).

    Raises:
        NotKnown: no place has a limit, or one that is not known, or the build sheet does not say where it is.
    """
    rooms = [(place, _room(given, place)) for place in given.places if place.max_contents is not None]
    if not rooms:
        raise NotKnown("the load limit of each place off the label there")
    together: Quantity = sum((room for _, room in rooms), nothing())
    if not together.magnitude > 0:
        return nothing()
    share = min(float((load / together).to("dimensionless").magnitude), 1.0)
    moved: Quantity = sum((share * room * lever(given, place) for place, room in rooms if room.magnitude), nothing())
    return moved


def _room(given: Inputs, place: Place) -> Quantity:
    """Return what the limit of ``place`` leaves beside what is fitted there."""
    left: Quantity = given.quantity(f"place.{place.code}.max_contents") - total(at_place(given, place))
    return max(left, nothing())


def full_van(given: Inputs, tanks: tuple[Liquid, ...] = ()) -> Weight:
    """Return the van at the most it may weigh, with ``tanks`` full and a full load in what payload they leave."""
    water = full_tanks(given, tanks)
    load: Quantity = given.number("payload") - water.mass
    return Weight(heaviest(given), given.number("ball-load-empty") + water.ball + spread(given, load))


def full_tanks(given: Inputs, tanks: tuple[Liquid, ...]) -> Weight:
    """Return what full tanks weigh and how they change the ball load."""
    mass: Quantity = sum((tank.mass for tank in tanks), nothing())
    moved: Quantity = sum((pressed(given, tank) for tank in tanks), nothing())
    return Weight(mass, moved)


@number(
    "ball-load-laden",
    group=GROUP,
    title="Ball load with a full load",
    needs=LOAD_NEEDS,
    optional=HEAVIEST_OPTIONAL,
    uses=LOAD_USES,
    unit=KG,
    rounding=Rounding.UP,
    method=f"Ball load before you load, plus mass x (L - x) / L for the load in each place. {FULL_LOAD}",
    source=STATICS,
)
def ball_load_laden(given: Inputs) -> Answer:
    """Return N = N0 + sum of m (L - x) / L over the load, tanks empty."""
    full, limit = full_van(given), given.number("max-ball-load")
    verdict, least = against(full.ball, limit), guidance(given, full.mass)
    low = full.ball < least
    advice = f"Guidance is at least {up(least, KG)}. " if least.magnitude else ""
    sentence = f"{up(full.ball, KG)} on the towball when every place is filled alike. {advice}Limit {down(limit, KG)}."
    return Answer(
        value=full.ball,
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
    ball = up(full.ball, KG, 1)
    if verdict is Verdict.OVER:
        yield Fault(
            f"with a full load the ball load is {ball}, over the limit of {exact(limit)}", source, "", Level.WARNING
        )
    elif verdict is Verdict.CLOSE:
        message = f"thin margin: with a full load the ball load is {ball}, over {CLOSE:.0%} of {exact(limit)}"
        yield Fault(message, source, "", Level.WARNING)
    elif full.ball < least:
        message = (
            f"with a full load the ball load is {down(full.ball, KG, 1)}, less than the guidance of {up(least, KG)}"
        )
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
    method=f"What the full van weighs less its ball load. Of two axles it is the load on both. {FULL_LOAD}",
    source=STATICS,
)
def axle_load_laden(given: Inputs) -> Answer:
    """Return A = W - N, against the plate of the axle or of both."""
    full, limit = full_van(given), given.positive("masses.max_axle")
    verdict = against(full.wheels, limit)
    whose = "both axles" if given.trait("twin-axle") else "the axle"
    shown = up(full.wheels, KG)
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
    rest: Quantity = heaviest(given) - axle
    if rest > least:
        shown = up(rest, KG)
        return Answer(
            value=rest,
            sentence=f"The wheels carry {exact(axle)} at most. With less than {shown} on the towball they carry more.",
        )
    return Answer(value=least, sentence=f"With less than {exact(least)} on the towball the van may sway.")


RECIPES: tuple[Recipe, ...] = (ball_load_laden, axle_load_laden, ball_load_floor)
