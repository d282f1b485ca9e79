"""How high to raise a wheel or the coupling so that the van stands level.

How it is done is told by the pages about the pitch.
"""

import math

from generator.compute.declare import Recipe, Rows, table
from generator.compute.inputs import Inputs
from generator.compute.showing import text
from generator.units import Quantity, Rounding

_DEGREES = (0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0)


def rise(length: Quantity, degrees: float) -> Quantity:
    """Return the height between the ends of ``length`` on a slope: h = l sin(slope)."""
    height: Quantity = length * math.sin(math.radians(degrees))
    return height.to("cm")


@table(
    "levelling",
    group="Levelling",
    title="How high to raise it",
    needs=("van.places",),
    optional=("body.track", "body.coupling_to_axle", "trait.twin-axle"),
    head=("Slope", "Low side: ramp under the wheel", "Along: coupling up or down"),
    rounding=Rounding.NEAREST,
    method=(
        "Across: track x sine of the slope. Along: distance from coupling to axle x sine of the slope. Rounded to the"
        " nearest centimetre."
    ),
    source="trigonometry",
)
def levelling(given: Inputs) -> Rows:
    """Return a row for each slope with the height across and along."""
    rows = tuple((f"{degrees:g}°", _cell(given, "body.track", degrees), _along(given, degrees)) for degrees in _DEGREES)
    twin = " Both wheels of the low side go up by that much." if given.trait("twin-axle") else ""
    note = f"Lay a phone with a level on the floor, across first. Raise the low side by the ramp's height.{twin}"
    missing = "" if given.known("body.track") else " The track is not known: measure from tyre middle to tyre middle."
    return Rows(rows=rows, note=f"{note}{missing}")


def _along(given: Inputs, degrees: float) -> str:
    return _cell(given, "body.coupling_to_axle", degrees)


def _cell(given: Inputs, path: str, degrees: float) -> str:
    if not given.known(path):
        return "Not known"
    return text(rise(given.positive(path), degrees), "cm", Rounding.NEAREST)


RECIPES: tuple[Recipe, ...] = (levelling,)
