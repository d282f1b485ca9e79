"""How cold it may be outside while the heater keeps the van warm: an estimate, and said to be one.

What the heater burns stands in ``gas``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.gas import HEAT_SOURCE, RATE_ASSUMES, net_input
from generator.compute.inputs import Inputs
from generator.compute.showing import exact
from generator.compute.worked import Term, put, whole
from generator.units import Quantity, Rounding

GROUP = "Heating"
_BODY = ("body.length", "body.width")
_ASSUMES = ("inside-temperature", "inside-height", "heat-loss")
_WATTS = put(Quantity(1000.0, "W/kW"), "W/kW")
_METHOD = (
    "Inside temperature - heat of the heater / (surface of a box of body length × width × inside height × heat lost for"
    " each square metre and degree)."
)
_SOURCE = "steady heat balance; heat loss and efficiency are common practice, no source"
_ESTIMATE = "An estimate: wind, open doors and thin walls cost more."


def _coldest(given: Inputs, heat: Term) -> Answer:
    """Return the outside temperature at which ``heat`` is all lost: T = Ti - P / (U A)."""
    length, width = (put(given.positive(path), "m") for path in _BODY)
    height = put(given.assumed("inside-height"), "m")
    surface = whole(2) * (length * width + length * height + width * height)
    warmer = (heat / (put(given.assumed("heat-loss"), "W/K/m2") * surface)).to("delta_degC")
    inside = given.assumed("inside-temperature")
    return Answer(
        value=put(inside, "degC") - warmer,
        sentence=f"It keeps {exact(inside)} inside down to that outside. {_ESTIMATE}",
    )


@number(
    "heat-holds-gas",
    group=GROUP,
    title="On gas the heater keeps the van warm down to",
    all_of=("room-heat-gas",),
    needs=(*_BODY, "room_heater.gas_input", "gas.fuel"),
    assumes=(*_ASSUMES, "heater-efficiency", *RATE_ASSUMES),
    unit="degC",
    rounding=Rounding.UP,
    method=f"{_METHOD} Heat is net gas input × efficiency.",
    source=f"{_SOURCE}; {HEAT_SOURCE}",
)
def heat_holds_gas(given: Inputs) -> Answer:
    """Return the coldest outside temperature on gas."""
    heat = net_input(given, "room_heater") * _WATTS * put(given.assumed("heater-efficiency"), "percent")
    return _coldest(given, heat.to("W"))


@number(
    "heat-holds-mains",
    group=GROUP,
    title="On mains the heater keeps the van warm down to",
    all_of=("room-heat-mains",),
    needs=(*_BODY, "room_heater.mains_steps"),
    assumes=_ASSUMES,
    unit="degC",
    rounding=Rounding.UP,
    method=f"{_METHOD} Heat is the highest mains step.",
    source=_SOURCE,
)
def heat_holds_mains(given: Inputs) -> Answer:
    """Return the coldest outside temperature on the highest mains step."""
    return _coldest(given, put(max(given.quantities("room_heater.mains_steps", "W")), "W"))


@number(
    "heat-holds-diesel",
    group=GROUP,
    title="On diesel the heater keeps the van warm down to",
    all_of=("room-heat-diesel",),
    needs=(*_BODY, "room_heater.output"),
    assumes=_ASSUMES,
    unit="degC",
    rounding=Rounding.UP,
    method=f"{_METHOD} Heat is the output on the plate of the heater.",
    source=_SOURCE,
)
def heat_holds_diesel(given: Inputs) -> Answer:
    """Return the coldest outside temperature on diesel."""
    return _coldest(given, put(given.positive("room_heater.output"), "W"))


RECIPES: tuple[Recipe, ...] = (heat_holds_gas, heat_holds_mains, heat_holds_diesel)
