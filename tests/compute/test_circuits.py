"""Fuses and breakers as they were wired."""

from generator.compute import compute
from generator.model.caravan import Circuit

from .vans import fact, place, van


def test_fuses_come_first_and_each_says_where_it_is() -> None:
    circuits = (
        Circuit(name="Sockets", fuse=fact("10 A"), at="H1", supply="mains"),
        Circuit(name="Pump", fuse=fact("7.5 A"), at="H2", supply="12 V"),
        Circuit(name="Lights", fuse=fact("unknown"), at="H2", supply="12 V"),
    )
    found = compute(van(places=(place("H1"), place("H2")), circuits=circuits, traits=("electrics",)))
    assert found.tables["circuits"].rows == (
        ("Pump", "7.5 A", "12 V", "H2 Place H2"),
        ("Lights", "Not known: read it off the fuse or breaker", "12 V", "H2 Place H2"),
        ("Sockets", "10 A", "mains", "H1 Place H1"),
    )


def test_a_van_without_a_list_says_so() -> None:
    found = compute(van(traits=("electrics",))).tables["circuits"]
    assert (found.rows, found.note) == ((), "The circuits of this van are not listed. Ask your dealer.")
