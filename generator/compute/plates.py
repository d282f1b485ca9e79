"""Numbers that are read off a plate and shown as they are.

Those that are worked out from plates stand in the modules by topic.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.showing import exact, text
from generator.compute.worked import Term, line, put
from generator.units import Quantity, Rounding

_SIZE = "Size and wheels"
_PRESSURE_DIGITS = {"bar": 1}  # psi and kPa are shown whole


@number(
    "tyre-pressure",
    group=_SIZE,
    title="Tyre pressure, cold",
    needs=("wheels.pressure", "market.pressure_unit", "market.gauge_unit"),
    unit="bar",
    rounding=Rounding.NEAREST,
    digits=1,
    method="Read off the tyre label of the van; in brackets the same pressure in what gauges here show.",
    source="the tyre label of the van",
)
def tyre_pressure(given: Inputs) -> Answer:
    """Return the plate value first and, where gauges of the market show other units, that in those."""
    pressure = given.positive("wheels.pressure")
    plate = exact(pressure, least=1 if pressure.units == Quantity(1, "bar").units else 0)
    asked = dict.fromkeys((given.text("market.pressure_unit"), given.text("market.gauge_unit")))
    others = [unit for unit in asked if unit and pressure.units != Quantity(1, unit).units]
    told = ", ".join(text(pressure, unit, Rounding.NEAREST, _PRESSURE_DIGITS.get(unit, 0)) for unit in others)
    return Answer(
        value=pressure,
        worked=tuple(line(_turned(pressure, unit), unit) for unit in others),
        shown=f"{plate} ({told})" if told else plate,
    )


def _turned(pressure: Quantity, unit: str) -> Term:
    """Return ``pressure`` in another unit, as it is worked out."""
    one = Quantity(1.0, pressure.units)
    return put(pressure, str(pressure.units)) * put(one.to(unit) / one, f"{unit}/({pressure.units})", 4)


@number(
    "wheel-nut-torque",
    group=_SIZE,
    title="Wheel nut torque",
    needs=("wheels.nut_torque",),
    unit="N*m",
    rounding=Rounding.NEAREST,
    digits=0,
    method="Read off the wheel label of the van.",
    source="the wheel label of the van",
)
def wheel_nut_torque(given: Inputs) -> Answer:
    """Return the plate value as it was written."""
    torque = given.positive("wheels.nut_torque")
    return Answer(value=torque, shown=exact(torque))


@number(
    "overall-length",
    group=_SIZE,
    title="Overall length",
    needs=("body.overall_length",),
    unit="m",
    rounding=Rounding.UP,
    digits=2,
    method="From the coupling to the rear wall, rounded up.",
    source="the build sheet",
)
def overall_length(given: Inputs) -> Quantity:
    """Return the length with drawbar."""
    return given.positive("body.overall_length")


@number(
    "body-width",
    group=_SIZE,
    title="Body width",
    needs=("body.width",),
    unit="m",
    rounding=Rounding.UP,
    digits=2,
    method="Over the side walls, without the car's mirrors, rounded up.",
    source="the build sheet",
)
def body_width(given: Inputs) -> Quantity:
    """Return the width of the body."""
    return given.positive("body.width")


@number(
    "overall-height",
    group=_SIZE,
    title="Overall height",
    needs=(),
    optional=("body.height",),
    unit="m",
    rounding=Rounding.UP,
    digits=2,
    method="From the ground to the highest fixed part, rounded up. What you put on the roof comes on top.",
    source="the build sheet",
)
def overall_height(given: Inputs) -> Quantity:
    """Return the height; a build sheet need not give it, and then a tape measure does."""
    if not given.has("body.height"):
        raise NotKnown("the height off a tape measure")
    return given.positive("body.height")


RECIPES: tuple[Recipe, ...] = (tyre_pressure, wheel_nut_torque, overall_length, body_width, overall_height)
