"""Whether the tyres carry what the wheels may carry, and the speed they are made for.

Their pressure is read off a plate, in ``plates``; load index and speed symbol are explained in ``load_index``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.fitted import KG
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.load_index import LOAD_KG, SPEED_KM_H, Service, service
from generator.compute.margins import against, over
from generator.compute.showing import down, exact
from generator.compute.worked import put, whole
from generator.errors import Fault, Level
from generator.model.numbers import Verdict
from generator.units import Quantity, Rounding

_SIZE = "Size and wheels"
_EACH_AXLE = 2  # tyres; two side by side are not fitted to touring vans
_ON_BALL = ("masses.max_ball_load", "coupling.max_ball_load")


@number(
    "tyre-load",
    group=_SIZE,
    title="What the tyres may carry",
    needs=("wheels.tyre", "axles"),
    optional=("masses.max_axle", "masses.max_laden", *_ON_BALL),
    unit=KG,
    rounding=Rounding.DOWN,
    method="Load of one tyre by the load index on its side, times the tyres that carry the van.",
    moves="Other tyres alone.",
    source="load index of ISO 4000-1 and ETRTO",
)
def tyre_load(given: Inputs) -> Answer:
    """Return n x load(index), and refuse tyres that carry less than the plate of the wheels."""
    stamped, count = _service(given), _EACH_AXLE * given.count("axles")
    if stamped.index not in LOAD_KG:
        raise NotKnown(f"the load for load index {stamped.index} off a table of the tyre trade")
    each = Quantity(float(LOAD_KG[stamped.index]), KG)
    worked = whole(count) * put(each, KG)
    carried = worked.value
    what = f"{count} tyres of load index {stamped.index}, {exact(each)} each."
    if not given.known("masses.max_axle"):
        told = f"{what} Read the plate of the axle: they must carry as much or more."
        return Answer(value=worked, sentence=told, faults=_without_plate(given, carried))
    limit = given.positive("masses.max_axle")
    verdict = against(limit, carried)
    return Answer(
        value=worked,
        sentence=f"{what} The wheels may carry {exact(limit)} at most{_spare(carried, limit)}.",
        verdict=verdict,
        faults=_faults(given, carried, limit, verdict),
    )


def _without_plate(given: Inputs, carried: Quantity) -> tuple[Fault, ...]:
    """Return the fault of tyres too weak for the full van even with all that may rest on the towball there."""
    if not all(given.known(path) for path in ("masses.max_laden", *_ON_BALL)):
        return ()
    wheels: Quantity = given.positive("masses.max_laden") - min(given.positive(path) for path in _ON_BALL)
    return _faults(given, carried, wheels, Verdict.OVER) if over(wheels, carried) else ()


def _spare(carried: Quantity, limit: Quantity) -> str:
    return f": {down(carried - limit, KG)} to spare" if carried > limit else ""


def _service(given: Inputs) -> Service:
    stamped = service(given.text("wheels.tyre"))
    if stamped is None:
        raise NotKnown("the load index and the speed letter off the side of the tyre")
    return stamped


def _faults(given: Inputs, carried: Quantity, limit: Quantity, verdict: Verdict) -> tuple[Fault, ...]:
    source, tyres = given.source("wheels.tyre"), f"the tyres carry {exact(carried)}"
    if verdict is Verdict.OVER:
        bear = "may carry" if given.known("masses.max_axle") else "of the full van carry at least"
        message = f"{tyres} together, less than the {exact(limit)} that the wheels {bear}"
        return (Fault(message, source, "compare the load index with the side of the tyre"),)
    if verdict is Verdict.CLOSE:
        message = f"thin margin: {tyres} together, and the wheels may carry {exact(limit)}"
        return (Fault(message, source, level=Level.WARNING),)
    return ()


@number(
    "tyre-speed",
    group=_SIZE,
    title="Speed the tyres are made for",
    needs=("wheels.tyre", "market.speed_unit"),
    unit="km/h",
    rounding=Rounding.DOWN,
    method="Read off the speed letter on the side of the tyre.",
    source="speed symbols of ISO 4000-1 and UN R54",
)
def tyre_speed(given: Inputs) -> Answer:
    """Return the speed of the symbol, in the unit of the market too where that is another."""
    symbol, unit = _service(given).symbol, given.text("market.speed_unit")
    if symbol not in SPEED_KM_H:
        raise NotKnown(f"the speed for speed letter {symbol} off a table of the tyre trade")
    speed = Quantity(float(SPEED_KM_H[symbol]), "km/h")
    same = Quantity(1, unit).units == speed.units
    return Answer(
        value=speed,
        shown=exact(speed) if same else f"{exact(speed)} ({down(speed, unit)})",
        sentence=f"Letter {symbol}. It says what the tyre is made for, not how fast you may tow.",
    )


RECIPES: tuple[Recipe, ...] = (tyre_load, tyre_speed)
