"""What the leisure battery holds, how long it lasts, and the solar panel that feeds it.

Charging and the sun by month are left to others.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.showing import half_days
from generator.units import Quantity, Rounding

GROUP = "12 V"
ENERGY = "Wh"


@number(
    "battery-usable",
    group=GROUP,
    title="Energy the battery gives",
    all_of=("battery",),
    needs=("battery.capacity", "battery.voltage", "battery.usable_share"),
    unit=ENERGY,
    rounding=Rounding.DOWN,
    method="Capacity x voltage x the share that may be used.",
    source="definition of electric energy; the share stands in the catalogue",
)
def battery_usable(given: Inputs) -> Quantity:
    """Return E = Q U share."""
    energy: Quantity = given.positive("battery.capacity") * given.positive("battery.voltage")
    usable: Quantity = energy * given.positive("battery.usable_share")
    return usable


@number(
    "battery-days",
    group=GROUP,
    title="Days the battery lasts",
    all_of=("battery",),
    needs=("*.daily_12v",),
    uses=("battery-usable",),
    unit="day",
    rounding=Rounding.DOWN,
    digits=1,
    method="Energy the battery gives over what everything fitted takes in a typical day; half days, rounded down.",
    source="definition of electric energy; a typical day stands in the catalogue and is common practice, no source",
)
def battery_days(given: Inputs) -> Answer:
    """Return how long the battery lasts with nothing charging it."""
    usable = given.number("battery-usable")
    loads = (given.quantity(f"{fitted.key}.daily_12v") for fitted in given.fitted("*.daily_12v"))
    together: Quantity = sum(loads, Quantity(0.0, ENERGY))
    if not together.magnitude > 0:
        raise NotKnown("what you connect off its own rating plate")
    days: Quantity = usable / (together / Quantity(1.0, "day"))
    return Answer(value=days, shown=half_days(days))


@number(
    "solar-panel",
    group="Solar",
    title="Solar panel",
    all_of=("solar",),
    needs=("solar.panel",),
    unit="W",
    rounding=Rounding.DOWN,
    method="Read off the label of the panel: its power in full sun, square on.",
    source="the label of the panel",
)
def solar_panel(given: Inputs) -> Quantity:
    """Return the power of the panel."""
    return given.positive("solar.panel")


RECIPES: tuple[Recipe, ...] = (battery_usable, battery_days, solar_panel)
