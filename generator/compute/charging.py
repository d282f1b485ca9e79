"""How long mains and car take to fill the battery, and what its voltage at rest says of it.

The sun stands in ``solar``.
"""

from generator.compute.battery import GROUP
from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs
from generator.compute.worked import put
from generator.units import Quantity, Rounding

_NEEDS = ("battery.capacity", "battery.usable_share")
_OPTIONAL = ("trait.battery-lithium",)
_ASSUMES = ("charge-kept-lead-acid", "charge-kept-lithium")
_METHOD = "Capacity × the share that was used, over the charging current × the share that is kept; nothing switched on."
_SOURCE = "definition of electric charge; the share that is kept is common practice, no source"


def _filled(given: Inputs, current: Quantity) -> Answer:
    """Return how long ``current`` takes to put back the whole usable share."""
    lithium = given.trait("battery-lithium")
    kept = given.assumed("charge-kept-lithium" if lithium else "charge-kept-lead-acid")
    used = put(given.positive("battery.capacity"), "Ah") * put(given.positive("battery.usable_share"), "percent")
    hours = (used / (put(current, "A") * put(kept, "percent"))).to("h")
    sentence = "" if lithium else "The charger slows down near the end: leave it on for a night."
    return Answer(value=hours, sentence=sentence)


@number(
    "recharge-mains",
    group=GROUP,
    title="The mains charger fills the empty battery in",
    all_of=("battery", "mains-charger"),
    needs=(*_NEEDS, "charger.output"),
    optional=_OPTIONAL,
    assumes=_ASSUMES,
    unit="h",
    rounding=Rounding.UP,
    method=_METHOD,
    source=_SOURCE,
)
def recharge_mains(given: Inputs) -> Answer:
    """Return the hours on the mains charger."""
    return _filled(given, given.positive("charger.output"))


@number(
    "recharge-car",
    group=GROUP,
    title="The car fills the empty battery in",
    all_of=("battery", "dcdc"),
    needs=(*_NEEDS, "dcdc.output"),
    optional=_OPTIONAL,
    assumes=_ASSUMES,
    unit="h",
    rounding=Rounding.UP,
    method=_METHOD,
    source=_SOURCE,
)
def recharge_car(given: Inputs) -> Answer:
    """Return the hours of driving."""
    return _filled(given, given.positive("dcdc.output"))


# Rounded to tenths from four published tables that differ by up to 0.2 V; the lower end where they do.
_REST_BANDS = (
    ("12.6 V and more", "full"),
    ("12.4 to 12.6 V", "about three quarters"),
    ("12.2 to 12.4 V", "about half: charge it"),
    ("12.0 to 12.2 V", "about a quarter: charge it today"),
    ("below 12.0 V", "empty: charge it now"),
)


@table(
    "rest-volts",
    group=GROUP,
    title="Volts at rest",
    all_of=("battery-lead-acid",),
    needs=(),
    head=("Volts at rest", "How full"),
    rounding=Rounding.DOWN,
    method="Bands that published tables of lead-acid batteries share, rounded to tenths of a volt.",
    source="four published tables of rest voltages, which differ by up to 0.2 V",
)
def rest_volts(given: Inputs) -> Rows:
    """Return the bands; they are the same for every lead-acid battery of 12 V."""
    note = "After some hours with nothing on and nothing charging, at about 20 °C. Cold and age lower them."
    return Rows(rows=_REST_BANDS, note=note)


RECIPES: tuple[Recipe, ...] = (recharge_mains, recharge_car, rest_volts)
