"""How heavy the van may be, what may still be loaded, and what the payload is used for.

Room left in each place is worked out in ``room``, the ball load in ``ball_load``, what tanks weigh in ``liquids``.
"""

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.fitted import KG, MASS_NEEDS, added, total
from generator.compute.inputs import Inputs
from generator.compute.liquids import LIQUID_NEEDS, LIQUID_OPTIONAL, liquids
from generator.compute.margins import THIN_PAYLOAD, over
from generator.compute.showing import down, exact, up
from generator.compute.worked import Term, less, lines, most, put, smaller, whole
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


# How heavy the van may get: the plate, or less where axle and towball together carry less.
HEAVIEST_NEEDS = ("masses.max_laden",)
HEAVIEST_OPTIONAL = ("masses.max_axle", "masses.max_ball_load", "coupling.max_ball_load")


def heaviest(given: Inputs) -> Quantity:
    """Return the most the van may weigh: its plate, or what axle and towball may carry together if that is less."""
    return most_weight(given).value


def most_weight(given: Inputs) -> Term:
    """Return ``heaviest`` as it is worked out: W = A + N, the axle load and the ball load of one van."""
    laden = put(given.positive("masses.max_laden"), KG)
    if not all(given.known(path) for path in HEAVIEST_OPTIONAL):
        return laden
    axle, van, coupling = (put(given.positive(path), KG) for path in HEAVIEST_OPTIONAL)
    return smaller(laden, axle + smaller(van, coupling))


@number(
    "payload",
    group=GROUP,
    title="What you may still load",
    needs=(*HEAVIEST_NEEDS, "masses.unladen", *MASS_NEEDS),
    optional=HEAVIEST_OPTIONAL,
    unit=KG,
    rounding=Rounding.DOWN,
    method=(
        "Maximum laden mass less unladen mass, less everything fitted that the unladen mass does not include, and less"
        " what fitted equipment weighs more than what the van was weighed with. Where axle and towball together may"
        " carry less than the maximum laden mass, that counts instead."
    ),
    moves="What you load, and what is fitted later.",
    source="definition of user payload, Regulation (EU) 1230/2012 article 2",
)
def payload(given: Inputs) -> Answer:
    """Return what is left of the mass the van may have: m = max - unladen - sum of what is fitted beside it."""
    items = added(given)
    limit, extra = heaviest(given), total(items)
    worked = less(
        most_weight(given) - put(given.positive("masses.unladen"), KG), (put(item.mass, KG) for item in items)
    )
    left = worked.value
    thin = bool(left < limit * THIN_PAYLOAD)
    capped = bool(limit < given.quantity("masses.max_laden"))
    most = "all that axle and towball may carry" if capped else "its limit"
    return Answer(
        value=worked,
        limit=limit,
        sentence=f"{down(left, KG)} may still go in. Then the van weighs {down(limit, KG, 1)}, {most}.",
        verdict=Verdict.CLOSE if thin else Verdict.WITHIN,
        faults=(*_payload_faults(given, limit, left, thin, extra), *(_capped_faults(given, limit) if capped else ())),
    )


def _capped_faults(given: Inputs, limit: Quantity) -> tuple[Fault, ...]:
    laden = given.quantity("masses.max_laden")
    message = (
        f"the plates of axle and towball carry {down(limit, KG, 1)} together, less than the maximum laden mass of"
        f" {exact(laden)}: payload is counted from {down(limit, KG, 1)}"
    )
    hint = "compare max_axle and max_ball_load with the plates"
    return (Fault(message, given.source("masses.max_laden"), hint, Level.WARNING),)


def _payload_faults(given: Inputs, limit: Quantity, left: Quantity, thin: bool, extra: Quantity) -> tuple[Fault, ...]:
    unladen, laden = given.quantity("masses.unladen"), given.quantity("masses.max_laden")
    if over(unladen, laden):
        message = f"the unladen mass of {exact(unladen)} is over the maximum laden mass of {exact(laden)}"
        return (Fault(message, given.source("masses.unladen")),)
    if not left.magnitude > 0:
        message = (
            f"no payload is left: {exact(unladen)} unladen and {up(extra, KG, 1)} of fitted equipment"
            f" reach {_named(limit, laden)}"
        )
        return (Fault(message, given.source("masses.max_laden"), "list in unladen_includes what the mass holds"),)
    if thin:
        message = (
            f"thin margin: the payload of {down(left, KG)} is less than {THIN_PAYLOAD:.0%} of {_named(limit, laden)}"
        )
        return (Fault(message, given.source("masses.max_laden"), level=Level.WARNING),)
    return ()


def _named(limit: Quantity, laden: Quantity) -> str:
    plate = "the maximum laden mass of" if limit == laden else "what axle and towball may carry together,"
    return f"{plate} {down(limit, KG, 1)}"


@table(
    "payload-use",
    group=GROUP,
    title="Where the payload goes",
    needs=(*HEAVIEST_NEEDS, "masses.unladen", *MASS_NEEDS, *LIQUID_NEEDS),
    optional=(*HEAVIEST_OPTIONAL, *LIQUID_OPTIONAL),
    head=("What", "It weighs", "Left after it"),
    rounding=Rounding.DOWN,
    method=(
        "From the most the van may weigh, the mass in each row is taken away in turn. Water counts as 1 kg for a litre."
    ),
    source=payload.declared.source,
)
def payload_use(given: Inputs) -> Rows:
    """Return a row for each mass with what is left after it; water and fuel to set out with come last."""
    taken = [("The van without load", given.positive("masses.unladen"))]
    taken += [(item.title, item.mass) for item in added(given)]
    taken += [(f"{liquid.name}, full", liquid.mass) for liquid in liquids(given) if liquid.role != "waste"]
    rows, worked, left = [], [], most_weight(given)
    for name, mass in taken:
        after = left - put(mass, KG)
        worked.append((name, after))
        left = put(after.value, KG)
        rows.append((name, up(mass, KG, 1), down(left.value, KG, 1)))
    note = f"The most the van may weigh is {down(heaviest(given), KG, 1)}."
    return Rows(rows=tuple(rows), note=note, worked=lines(worked, KG))


@number(
    "payload-with-water",
    group=GROUP,
    title="What you may load with the water tank full",
    all_of=("water-tank",),
    needs=("water_supply.volume",),
    optional=("hot_water.volume", "trait.hot-water-tank"),
    uses=("payload",),
    unit=KG,
    rounding=Rounding.DOWN,
    method="What you may still load, less all water on board with the fresh water tank full, at 1 kg for each litre.",
    moves="How full the tank is when you set out.",
    source="definition; density of water",
)
def payload_with_water(given: Inputs) -> Answer:
    """Return payload - V x 1 kg/L; less than nothing is told, since the tank may be part full.

    A water heater with a tank fills with it and counts, whatever the unladen mass was weighed with.
    """
    tank, heater = put(given.positive("water_supply.volume"), "L"), _in_heater(given)
    per_litre = put(Quantity(1.0, "kg/L"), "kg/L")
    full = (tank * per_litre if heater is None else (tank + heater) * per_litre).to(KG)
    left, water = put(given.number("payload"), KG) - full, full.value
    if left.value.magnitude > 0:
        who, weighs = ("A full tank weighs", "it") if heater is None else ("Tank and water heater, full, weigh", "them")
        return Answer(value=left, sentence=f"{who} {up(water, KG)}. {down(left.value, KG)} may go in beside {weighs}.")
    litres = given.number("payload") / Quantity(1.0, "kg/L")
    told, kept = ("", "") if heater is None else (", heater included,", ", heater included")
    message = f"a full water tank of {up(water, KG)}{told} uses up the whole payload of {given.shown('payload')}"
    return Answer(
        value=most(put(Quantity(0.0, KG), KG), left),
        sentence=f"On the road you may carry {down(litres, 'L')} of water at most{kept}, and then nothing else.",
        verdict=Verdict.OVER,
        faults=(Fault(message, given.source("water_supply.volume"), level=Level.WARNING),),
    )


def _in_heater(given: Inputs) -> Term | None:
    """Return the water that stands in the heater; it fills with the tank. None where the heater has no tank."""
    stored = given.trait("hot-water-tank") and given.has("hot_water.volume")
    return put(given.positive("hot_water.volume"), "L") if stored else None


@number(
    "payload-advice",
    group=GROUP,
    title="Payload that is advised",
    all_of=("payload-advice",),
    needs=("berths", "body.length"),
    uses=("payload",),
    unit=KG,
    rounding=Rounding.UP,
    method="10 kg for each berth, 10 kg for each metre of body without drawbar, and 30 kg. Advice, not a limit.",
    source="EN 1645-2 on the least user payload (from memory; advice only)",
)
def payload_advice(given: Inputs) -> Answer:
    """Return 10 (n + L) + 30 and say whether this van has it."""
    berth, metre, more = (put(Quantity(amount, unit), unit) for amount, unit in ((10, KG), (10, "kg/m"), (30, KG)))
    body = metre * put(given.positive("body.length"), "m")
    worked = berth * whole(given.count("berths")) + body + more
    left, advised = given.number("payload"), worked.value
    if left < advised:
        message = (
            f"the payload of {down(left, KG)} is less than the {up(advised, KG)} that EN 1645-2 advises (from memory)"
        )
        fault = Fault(message, given.source("body.length"), level=Level.WARNING)
        sentence = f"This van leaves {down(left, KG)}, less than is advised. Pack lightly."
        return Answer(value=worked, sentence=sentence, faults=(fault,))
    return Answer(value=worked, sentence=f"This van leaves {down(left, KG)}, which is as much or more.")


RECIPES: tuple[Recipe, ...] = (max_laden, payload, payload_with_water, payload_advice, payload_use)
