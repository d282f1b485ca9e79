"""Circuits and vents as a build sheet may give them."""

from generator.model.sourced import UNKNOWN, Origin
from generator.units import Quantity

from .conftest import ResolveVan, TellFaults


def test_the_cable_of_a_circuit_is_passed_on_where_it_is_given(resolve_van: ResolveVan) -> None:
    lines = (
        "circuits:\n"
        "  - {name: Pump, fuse: 10 A, at: H1, run: 4 m, section: 2.5 mm2}\n"
        "  - {name: Lights, fuse: 10 A, at: H1, run: unknown}\n"
    )
    circuits = {circuit.name: circuit for circuit in resolve_van(lines).circuits}
    pump, lights = circuits["Pump"], circuits["Lights"]
    assert pump.run is not None and pump.section is not None and lights.run is not None
    assert (pump.run.value, pump.section.value) == (Quantity(4.0, "m"), Quantity(2.5, "mm2"))
    assert (lights.run.value, lights.section) == (UNKNOWN, None)


def test_vents_are_a_fact_of_the_plate(resolve_van: ResolveVan) -> None:
    fact = resolve_van("body: {ventilation: 16000 mm2}\n").facts["body.ventilation"]
    assert (fact.value, fact.origin) == (Quantity(16000.0, "mm2"), Origin.PLATE)
    assert "body.ventilation" not in resolve_van().facts


def test_the_load_on_a_circuit_is_a_slot_that_may_be_empty(resolve_van: ResolveVan, tell: TellFaults) -> None:
    line = "circuits: [{name: Fridge, fuse: 15 A, at: H1, feeds: %s}]\n"
    circuits = {circuit.name: circuit for circuit in resolve_van(line % "lamps").circuits}
    assert circuits["Fridge"].feeds == "lamps"
    assert [fault.partition(" error: ")[2] for fault in tell(line % "frige")] == ['unknown slot "frige"']
