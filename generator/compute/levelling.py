"""How high to raise a wheel or the coupling so that the van stands level.

How it is done is told by the pages about the pitch.
"""

from generator.compute.declare import Recipe, Rows, table
from generator.compute.inputs import Inputs
from generator.compute.showing import text
from generator.compute.worked import Term, lines, put, sine
from generator.units import Quantity, Rounding

_SIDES = {"body.track": "across", "body.coupling_to_axle": "along"}
_DEGREES = (0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0)


def rise(length: Quantity, degrees: float) -> Term:
    """Return the height between the ends of ``length`` on a slope: h = l sin(slope)."""
    return put(length, "cm") * sine(put(Quantity(degrees, "deg"), "deg"))


@table(
    "levelling",
    group="Levelling",
    title="How high to raise it",
    needs=("van.places",),
    optional=(*_SIDES, "trait.twin-axle"),
    head=("Slope", "Low side: ramp under the wheel", "Along: coupling up or down"),
    rounding=Rounding.NEAREST,
    method=(
        "Across: track × sine of the slope. Along: distance from coupling to axle × sine of the slope. Rounded to the"
        " nearest centimetre."
    ),
    source="trigonometry",
)
def levelling(given: Inputs) -> Rows:
    """Return a row for each slope with the height across and along."""
    rows = tuple((_slope(degrees), _cell(given, "body.track", degrees), _along(given, degrees)) for degrees in _DEGREES)
    twin = " Both wheels of the low side go up by that much." if given.trait("twin-axle") else ""
    note = f"Lay a phone with a level on the floor, across first. Raise the low side by the ramp's height.{twin}"
    missing = "" if given.known("body.track") else " The track is not known: measure from tyre middle to tyre middle."
    sides = [path for path in _SIDES if given.known(path)]
    sums = [(f"{_slope(each)} {_SIDES[path]}", rise(given.positive(path), each)) for each in _DEGREES for path in sides]
    return Rows(rows=rows, note=f"{note}{missing}", worked=lines(sums, "cm"))


def _slope(degrees: float) -> str:
    return f"{degrees:g}°"


def _along(given: Inputs, degrees: float) -> str:
    return _cell(given, "body.coupling_to_axle", degrees)


def _cell(given: Inputs, path: str, degrees: float) -> str:
    if not given.known(path):
        return "Not known"
    return text(rise(given.positive(path), degrees).value, "cm", Rounding.NEAREST)


RECIPES: tuple[Recipe, ...] = (levelling,)
