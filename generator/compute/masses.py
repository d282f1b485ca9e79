"""How heavy the van may be and what may still be loaded.

Room left in each place is worked out in ``room``, the ball load in ``ball_load``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.fitted import KG, MASS_NEEDS, added, total
from generator.compute.inputs import Inputs
from generator.compute.margins import THIN_PAYLOAD, over
from generator.compute.showing import down, exact, up
from generator.errors import Fault, Level
from generator.model.numbers import Verdict
from generator.units import Quantity, Rounding

GROUP = "Masses"


@number(
    "max-laden",
    group=GROUP,
    title="Heaviest the van may be",
    needs=("masses.max_laden",),
    unit=KG,
    rounding=Rounding.DOWN,
    method="Read off the maker's plate of the van.",
    source="the maker's plate of the van",
)
def max_laden(given: Inputs) -> Quantity:
    """Return the plate value."""
    return given.positive("masses.max_laden")


@number(
    "payload",
    group=GROUP,
    title="What you may still load",
    needs=("masses.max_laden", "masses.unladen", *MASS_NEEDS),
    unit=KG,
    rounding=Rounding.DOWN,
    method=(
        "Maximum laden mass less unladen mass, less everything fitted that the unladen mass does not include, and less"
        " what fitted equipment weighs more than what the van was weighed with."
    ),
    source="definition of user payload, Regulation (EU) 1230/2012 article 2",
)
def payload(given: Inputs) -> Answer:
    """Return what is left of the maximum laden mass: m = max - unladen - sum of what is fitted beside it."""
    limit, unladen = given.positive("masses.max_laden"), given.positive("masses.unladen")
    extra = total(added(given))
    left: Quantity = limit - unladen - extra
    thin = bool(left < limit * THIN_PAYLOAD)
    return Answer(
        value=left,
        limit=limit,
        sentence=f"{down(left, KG)} may still go in. Then the van weighs {exact(limit)}, its limit.",
        verdict=Verdict.CLOSE if thin else Verdict.WITHIN,
        faults=_payload_faults(given, left, thin, extra),
    )


def _payload_faults(given: Inputs, left: Quantity, thin: bool, extra: Quantity) -> tuple[Fault, ...]:
    limit, unladen = given.quantity("masses.max_laden"), given.quantity("masses.unladen")
    if over(unladen, limit):
        message = f"the unladen mass of {exact(unladen)} is over the maximum laden mass of {exact(limit)}"
        return (Fault(message, given.source("masses.unladen")),)
    if not left.magnitude > 0:
        message = (
            f"no payload is left: {exact(unladen)} unladen and {up(extra, KG, 1)} of fitted equipment"
            f" reach the maximum laden mass of {exact(limit)}"
        )
        return (Fault(message, given.source("masses.max_laden"), "list in unladen_includes what the mass holds"),)
    if thin:
        message = (
            f"thin margin: the payload of {down(left, KG)} is less than {THIN_PAYLOAD:.0%}"
            f" of the maximum laden mass of {exact(limit)}"
        )
        return (Fault(message, given.source("masses.max_laden"), level=Level.WARNING),)
    return ()


RECIPES: tuple[Recipe, ...] = (max_laden, payload)
