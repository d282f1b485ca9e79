"""What each mains appliance draws, and what may run together on the supply of a pitch.

The breakers themselves are listed in ``circuits``; which sets fit is searched in ``combinations``.
"""

from generator.compute.combinations import Chosen, Load, fitting, most
from generator.compute.declare import Recipe, Rows, number, table
from generator.compute.inputs import Inputs, NotKnown
from generator.compute.sheet import equipment_title
from generator.compute.showing import exact, joined, up
from generator.compute.worked import Term, lines, put, summed
from generator.model.caravan import Equipment
from generator.model.numbers import Worked
from generator.units import Quantity, Rounding

GROUP = "Mains"
_EVERYTHING = "everything fitted may run at once."
AMPERE = "A"
_LOADS = ("*.mains_input", "*.mains_steps")
_INLETS = {"inlet-15a": Quantity(15.0, AMPERE), "inlet-16a": Quantity(16.0, AMPERE)}
INLET_TRAITS = tuple(f"trait.{trait}" for trait in _INLETS)


@number(
    "mains-voltage",
    group=GROUP,
    title="Mains voltage",
    all_of=("mains",),
    needs=("market.mains_voltage",),
    unit="V",
    rounding=Rounding.NEAREST,
    method="The voltage of the supply where the van was sold.",
    source="the supply standard of the market",
)
def mains_voltage(given: Inputs) -> Quantity:
    """Return the voltage of the market."""
    return given.positive("market.mains_voltage")


def _powers(given: Inputs, fitted: Equipment) -> tuple[Quantity, ...]:
    """Return the power of each step of an appliance; of one without steps, its one power.

    Raises:
        NotKnown: neither is known.
    """
    steps = f"{fitted.key}.mains_steps"
    return given.quantities(steps, "W") if given.has(steps) else (given.positive(f"{fitted.key}.mains_input"),)


def appliances(given: Inputs) -> tuple[Equipment, ...]:
    """Return what draws from the mains, in the order of the catalogue."""
    keys = {fitted.key for pattern in _LOADS for fitted in given.fitted(pattern)}
    return tuple(fitted for fitted in given.equipment if fitted.key in keys)


@table(
    "mains-loads",
    group=GROUP,
    title="What each appliance draws from the mains",
    all_of=("mains",),
    needs=("market.mains_voltage", "van.equipment", *_LOADS),
    head=("Appliance", "Power", "Current"),
    rounding=Rounding.UP,
    method="Power on the plate over the mains voltage.",
    source="definition of electric power",
)
def mains_loads(given: Inputs) -> Rows:
    """Return a row for each appliance, or for each of its steps."""
    voltage = given.positive("market.mains_voltage")
    found = [each for fitted in appliances(given) for each in _load_rows(given, fitted, voltage)]
    return Rows(
        rows=tuple(row for row, _ in found),
        note="Add what you plug into the sockets yourself: its label says its watts.",
        worked=tuple(one for _, worked in found for one in worked),
    )


def _load_rows(given: Inputs, fitted: Equipment, voltage: Quantity) -> list[tuple[tuple[str, ...], tuple[Worked, ...]]]:
    title = equipment_title(fitted)
    try:
        powers = _powers(given, fitted)
    except NotKnown as unknown:
        return [((title, "Not known", f"Read {joined(unknown.missing)}."), ())]
    drawn = [(power, put(power, "W") / put(voltage, "V")) for power in powers]
    return [
        ((title, exact(power), up(current.value, AMPERE, 1)), lines([(title, current)], AMPERE))
        for power, current in drawn
    ]


@table(
    "mains-combinations",
    group=GROUP,
    title="What may run together",
    all_of=("mains",),
    needs=("market.mains_voltage", "market.pitch_ratings", "van.equipment", *_LOADS),
    optional=INLET_TRAITS,
    head=("Supply", "These fit together", "Together they draw"),
    rounding=Rounding.UP,
    method=(
        "Every set of appliances and steps whose power together is at most the supply × the mains voltage, and to which"
        " nothing can be added."
    ),
    source="definition of electric power",
)
def mains_combinations(given: Inputs) -> Rows:
    """Return, for each supply a pitch may have, the largest sets that fit, and a sentence on each."""
    voltage = given.positive("market.mains_voltage")
    loads = tuple(as_load(given, fitted) for fitted in appliances(given))
    rows: list[tuple[str, ...]] = []
    worked: list[Worked] = []
    sentences: list[str] = []
    for supply in supplies(given):
        found, sums, sentence = _on(supply, voltage, loads)
        rows += found
        worked += sums
        sentences.append(sentence)
    if not all(each.endswith(_EVERYTHING) for each in sentences):
        sentences.insert(0, "Choose one row of your supply, and run nothing else with it.")
    sentences.append("What you plug into the sockets counts too. A breaker in the van may trip before the supply does.")
    return Rows(rows=tuple(rows), note=" ".join(filter(None, sentences)), worked=tuple(worked))


def as_load(given: Inputs, fitted: Equipment) -> Load:
    """Return an appliance with its steps, rising."""
    powers = sorted(_powers(given, fitted))
    return Load(name=equipment_title(fitted), steps_w=tuple(float(power.to("W").magnitude) for power in powers))


def inlet_rating(given: Inputs) -> Quantity:
    """Return what the inlet of the van is made for; the larger where its kind does not say."""
    return min([rating for trait, rating in _INLETS.items() if given.trait(trait)], default=max(_INLETS.values()))


def supplies(given: Inputs) -> list[Quantity]:
    """Return the supplies a van may meet, rising, none above what its inlet is made for."""
    inlet = inlet_rating(given)
    return sorted({min(rating, inlet) for rating in given.quantities("market.pitch_ratings", AMPERE)})


def _on(
    supply: Quantity, voltage: Quantity, loads: tuple[Load, ...]
) -> tuple[list[tuple[str, ...]], tuple[Worked, ...], str]:
    """Return the rows of one supply, their sums and its sentence."""
    name = exact(supply)
    sets = fitting(loads, float((supply * voltage).to("W").magnitude))
    shown = most(sets)
    drawn = [_together(each, voltage) for each in shown]
    rows: list[tuple[str, ...]] = [
        (name, each.shown(), up(current.value, AMPERE, 1)) for each, current in zip(shown, drawn, strict=True)
    ]
    worked = lines([(name, current) for current in drawn], AMPERE)
    if len(sets) == 1 and sets[0].full(loads):
        return rows, worked, f"On {name} {_EVERYTHING}"
    left_out = joined(tuple(load.name.lower() for load in loads if all(each.without(load) for each in sets)))
    never = [f"{name} is too little for the {left_out}."] if left_out else []
    more = [f"For {name} the table shows {len(shown)} of {len(sets)} sets."] if len(shown) < len(sets) else []
    return rows, worked, " ".join(never + more)


def _together(chosen: Chosen, voltage: Quantity) -> Term:
    """Return the current of a set."""
    powers = [put(Quantity(power_w, "W"), "W") for _, power_w in chosen.parts]
    return summed(powers or [put(Quantity(0.0, "W"), "W")]) / put(voltage, "V")


RECIPES: tuple[Recipe, ...] = (mains_voltage, mains_loads, mains_combinations)
