"""Fuses and breakers, where they are and what they carry.

What may run together on a pitch is worked out in ``mains``.
"""

from generator.compute.declare import Recipe, Rows, table
from generator.compute.inputs import Inputs
from generator.compute.sheet import place_title
from generator.compute.showing import exact
from generator.model.caravan import Circuit
from generator.model.sourced import Fact, Unknown
from generator.units import Rounding


@table(
    "circuits",
    group="Fuses and breakers",
    title="Fuses and breakers",
    all_of=("electrics",),
    needs=("van.circuits", "van.places"),
    head=("Circuit", "Fuse or breaker", "Supply", "Where"),
    rounding=Rounding.NEAREST,
    method="As the van was wired.",
    source="the build sheet",
)
def circuits(given: Inputs) -> Rows:
    """Return a row for each circuit, 12 V first, in the order of the build sheet."""
    listed = sorted(given.circuits, key=lambda circuit: circuit.supply != "12 V")
    if not listed:
        return Rows(rows=(), note="The circuits of this van are not listed. Ask your dealer.")
    note = "A new fuse has the same number of amperes, never more. One that blows again: call your dealer."
    return Rows(rows=tuple(_row(given, circuit) for circuit in listed), note=note)


def _row(given: Inputs, circuit: Circuit) -> tuple[str, ...]:
    return circuit.name, _rating(circuit.fuse), circuit.supply, place_title(given.place(circuit.at))


def _rating(fuse: Fact) -> str:
    if isinstance(fuse.value, (int, str, Unknown)):
        return "Not known: read it off the fuse or breaker"
    return exact(fuse.value)


RECIPES: tuple[Recipe, ...] = (circuits,)
