"""How long the battery drives the mover: a heavy draw, which takes more out of a lead-acid battery.

What the battery gives to small loads stands in ``battery``.
"""

import math

from generator.compute.declare import Answer, Recipe, number
from generator.compute.inputs import Inputs
from generator.units import Quantity, Rounding

_RATED = Quantity(20.0, "h")  # the capacity on the label of a lead-acid battery is that of 20 hours
_FAST = Quantity(5.0, "h")


def exponent(fast_share: float) -> float:
    """Return Peukert's exponent of a battery that gives ``fast_share`` of its 20 h capacity in 5 h.

    Formula: k = (ln H2 - ln H1) / (ln(C1/H1) - ln(C2/H2)).
    """
    ratio = float((_FAST / _RATED).to("dimensionless").magnitude)
    return math.log(ratio) / (math.log(ratio) - math.log(fast_share))


def discharge_time(capacity: Quantity, current: Quantity, k: float) -> Quantity:
    """Return how long a full battery carries ``current``: t = H (C / (I H)) ** k, with H 20 h.

    Source: Peukert 1897, in the form for a capacity that is stated for H hours. At or below the rated current it
    promises more than the label, which is left out.
    """
    load = float((capacity / (current * _RATED)).to("dimensionless").magnitude)
    time: Quantity = _RATED * (math.pow(load, k) if load < 1 else load)
    return time


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
        "Share that may be used x 20 h x (capacity / (current x 20 h)) to the power of Peukert's exponent: 1 where a"
        " fast draw costs nothing, else from the share given in five hours."
    ),
    source="Peukert's law (1897); the current is what the kind states for level ground, common practice, no source",
)
def mover_minutes(given: Inputs) -> Answer:
    """Return the minutes that the usable share lasts at the mover's current."""
    k = 1.0
    if given.trait("battery-lead-acid"):
        k = exponent(float(given.assumed("five-hour-share").to("dimensionless").magnitude))
    time = discharge_time(given.positive("battery.capacity"), given.positive("mover.current"), k)
    minutes: Quantity = (time * given.positive("battery.usable_share")).to("min")
    return Answer(
        value=minutes, sentence="Slopes, soft ground and cold take much of it. Charge the battery before and after."
    )


RECIPES: tuple[Recipe, ...] = (mover_minutes,)
