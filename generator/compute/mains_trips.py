"""What trips first when too much runs on mains: the supply of the pitch or a breaker in the van.

What may run together stands in ``mains``.
"""

from generator.compute.declare import Recipe, Rows, table
from generator.compute.inputs import Inputs
from generator.compute.mains import GROUP, INLET_TRAITS, supplies
from generator.compute.showing import down, exact
from generator.compute.worked import lines, put
from generator.model.sourced import Unknown
from generator.units import Quantity, Rounding


@table(
    "mains-trips",
    group=GROUP,
    title="What trips first",
    all_of=("mains",),
    needs=("van.circuits", "market.mains_voltage", "market.pitch_ratings"),
    optional=INLET_TRAITS,
    head=("Switch", "Trips above", "That is"),
    rounding=Rounding.DOWN,
    method="Amperes of each supply a van may meet and of each breaker in it, in rising order, × the mains voltage.",
    source="definition of electric power; the breakers stand on the build sheet",
)
def mains_trips(given: Inputs) -> Rows:
    """Return a row for each supply and each breaker, the smallest first."""
    voltage = given.positive("market.mains_voltage")
    found = [(f"Supply outside, {exact(rating)}", rating) for rating in supplies(given)]
    found += [
        (circuit.name, circuit.fuse.value)
        for circuit in given.circuits
        if circuit.supply == "mains" and not isinstance(circuit.fuse.value, (int, str, Unknown))
    ]
    trips = [(name, rating, put(rating, "A") * put(voltage, "V")) for name, rating in sorted(found, key=_by_rating)]
    rows = tuple((name, exact(rating), down(power.value, "W")) for name, rating, power in trips)
    # The smaller rating need not trip first: two circuits under their breakers can be too much for the supply.
    note = (
        "The supply outside carries everything that runs in the van, a breaker in the van only its own circuit."
        " Each trips when more runs through it than its row says. A little more may take minutes."
    )
    return Rows(rows=rows, note=note, worked=lines([(name, power) for name, _, power in trips], "W"))


def _by_rating(item: tuple[str, Quantity]) -> tuple[float, str]:
    return float(item[1].to("A").magnitude), item[0]


RECIPES: tuple[Recipe, ...] = (mains_trips,)
