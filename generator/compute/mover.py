"""How long the battery drives the mover: a heavy draw, which takes more out of a lead-acid battery.

What the battery gives to small loads stands in ``battery``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.inputs import Inputs
from generator.compute.worked import Term, lines, logarithm, power, put, whole
from generator.units import Quantity, Rounding

_RATED = Quantity(20.0, "h")  # the capacity on the label of a lead-acid battery is that of 20 hours
_FAST = Quantity(5.0, "h")
_DIGITS = 4


def exponent(fast_share: float) -> Term:
    """Return Peukert's exponent of a battery that gives ``fast_share`` of its 20 h capacity in 5 h.

    Formula: k = (ln H2 - ln H1) / (ln(C1/H1) - ln(C2/H2)).
    """
    ratio = logarithm(put(_FAST, "h") / put(_RATED, "h"))
    return ratio / (ratio - logarithm(put(Quantity(100 * fast_share, "percent"), "percent")))


def discharge_time(capacity: Quantity, current: Quantity, k: float) -> Term:
    """Return how long a full battery carries ``current``: t = H (C / (I H)) ** k, with H 20 h.

    Source: Peukert 1897, in the form for a capacity that is stated for H hours. At or below the rated current it
    promises more than the label, which is left out.
    """
    load = put(capacity, "Ah") / (put(current, "A") * put(_RATED, "h"))
    eased = k != 1 and load.value.to("dimensionless").magnitude < 1
    return (put(_RATED, "h") * (power(load, whole(k)) if eased else load)).to("h")


@number(
    "mover-minutes",
    group="12 V",
    title="Minutes of driving the mover from a full battery",
    all_of=("mover", "battery"),
    needs=("mover.current", "battery.capacity", "battery.usable_share"),
    optional=("trait.battery-lead-acid",),
    assumes=("five-hour-share",),
    unit="min",
    rounding=Rounding.DOWN,
    method=(
        "Share that may be used × 20 h × (capacity / (current × 20 h)) to the power of Peukert's exponent: 1 where a"
        " fast draw costs nothing, else from the share given in five hours."
    ),
    source="Peukert's law (1897); the current is what the kind states for level ground, common practice, no source",
)
def mover_minutes(given: Inputs) -> Answer:
    """Return the minutes that the usable share lasts at the mover's current."""
    share = float(given.assumed("five-hour-share").to("dimensionless").magnitude)
    k = exponent(share) if given.trait("battery-lead-acid") else whole(1)
    time = discharge_time(given.positive("battery.capacity"), given.positive("mover.current"), k.magnitude)
    hourly = put(Quantity(60.0, "min/h"), "min/h")
    minutes = (put(given.positive("battery.usable_share"), "percent") * hourly * time).to("min")
    return Answer(
        value=minutes,
        worked=(*lines([("Peukert's exponent", k)], "", _DIGITS), *lines([("Minutes", minutes)], "min")),
        sentence="Slopes, soft ground and cold take much of it. Charge the battery before and after.",
    )


RECIPES: tuple[Recipe, ...] = (mover_minutes,)
