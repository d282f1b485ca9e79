"""Cables: which are listed, what is lost, and what is said of a fuse."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import compute
from generator.compute.wiring import resistance
from generator.errors import Level
from generator.model.caravan import Circuit
from generator.model.numbers import DataTable, Verdict
from generator.units import Quantity

from .vans import Fit, fact, market, place, van

BATTERY = Fit(slot="battery", parameters={"capacity": "95 Ah", "voltage": "12 V", "usable_share": "50 percent"})


def cables(*circuits: Circuit) -> DataTable:
    return compute(van(BATTERY, places=(place("H1"),), circuits=circuits)).tables["volt-drop"]


def circuit(
    name: str, fuse: str = "10 A", supply: str = "12 V", run: str = "", section: str = "", feeds: str = ""
) -> Circuit:
    return Circuit(
        name=name,
        fuse=fact(fuse),
        at="H1",
        supply="mains" if supply == "mains" else "12 V",
        run=fact(run) if run else None,
        section=fact(section) if section else None,
        feeds=feeds,
    )


def test_a_circuit_whose_cable_is_given_has_a_row() -> None:
    """2 x 6 m x 10 A x 7.98 ohm/km x 1.157 (60 degC) = 1.108 V, 9.24 % of 12 V: rounded up."""
    table = cables(
        circuit("Pump", run="6 m", section="2.5 mm2"),
        circuit("Lights", section="1.5 mm2"),
        circuit("Fridge", fuse="unknown", run="4 m", section="4 mm2"),
        circuit("Sockets", supply="mains", run="4 m", section="1.5 mm2"),
    )
    said = "1.11 V (10 %) at 10 A, the most its fuse lets through"
    assert table.rows == (("Pump", "6 m of 2.5 mm²", "10 A, within the usual 21.75 A of such a cable", said),)


def test_a_fuse_above_what_its_cable_usually_carries_is_told() -> None:
    row = cables(circuit("Pump", fuse="20 A", run="2 m", section="2.0 mm2")).rows[0]
    assert row[2] == "20 A, more than the usual 17.5 A of such a cable: ask your dealer"


def test_the_large_load_of_a_circuit_counts_with_what_it_draws() -> None:
    """2 x 4 m x 60 W / 12 V x 13.3 ohm/km x 1.157 = 0.616 V, 5.13 %; the mover says amperes."""
    pump = Fit(slot="water_supply", parameters={"draw": "60 W"})
    mover = Fit(slot="mover", parameters={"current": "50 A"})
    circuits = (
        circuit("Pump", run="4 m", section="1.5 mm2", feeds="water_supply"),
        circuit("Mover", fuse="150 A", run="1 m", section="25 mm2", feeds="mover"),
        circuit("Fridge", run="4 m", section="1.5 mm2", feeds="fridge"),
    )
    found = compute(van(BATTERY, pump, mover, places=(place("H1"),), circuits=circuits)).tables["volt-drop"]
    assert [row[3].partition(" V")[0] for row in found.rows] == ["0.62", "0.1", "1.24"]
    assert [row[3].partition(" at ")[2] for row in found.rows] == [
        "5 A, what it draws",
        "50 A, what it draws",
        "10 A, the most its fuse lets through",
    ]


def test_no_row_where_no_cable_is_given() -> None:
    table = cables(circuit("Pump"))
    assert (table.rows, table.note) == ((), "The cables of this van are not listed. Ask your dealer.")


def test_a_section_without_a_source_sends_to_the_dealer() -> None:
    assert cables(circuit("Inverter", fuse="150 A", run="1 m", section="50 mm2")).rows[0][2] == (
        "150 A; ask your dealer what such a cable carries"
    )


@given(st.floats(0.1, 100), st.floats(0.1, 100))
def test_thicker_copper_never_loses_more(one: float, other: float) -> None:
    thin, thick = sorted((one, other))
    cold = Quantity(20.0, "degC")
    assert resistance(Quantity(thick, "mm2"), cold).value <= resistance(Quantity(thin, "mm2"), cold).value


def lead(length: str, section: str = "2.5 mm2", trait: str = "inlet-16a") -> Fit:
    return Fit(slot="mains_inlet", parameters={"lead": length, "lead_section": section}, traits=("mains", trait))


@pytest.mark.parametrize(
    ("length", "section", "verdict", "warned"),
    [
        ("25 m", "2.5 mm2", Verdict.WITHIN, False),  # 7.4 of 11.5 V
        ("25 m", "1.5 mm2", Verdict.OVER, True),  # 12.3 V
        ("36 m", "2.5 mm2", Verdict.CLOSE, True),  # 10.6 V
    ],
)
def test_a_long_thin_lead_is_a_warning(length: str, section: str, verdict: Verdict, warned: bool) -> None:
    found = compute(van(lead(length, section)))
    assert found.numbers["lead-drop"].verdict is verdict
    told = [fault for fault in found.warnings if "the mains lead" in fault.message]
    assert bool(told) is warned
    assert all(fault.level is Level.WARNING and "11.5 V" in fault.message for fault in told)


def test_the_lead_is_loaded_as_its_inlet_allows() -> None:
    """15 A instead of 16 A: 15/16 of the volts."""
    at = {
        trait: compute(van(lead("25 m", trait=trait), on=market("au"))).numbers["lead-drop"].value
        for trait in ("inlet-15a", "inlet-16a")
    }
    fifteen, sixteen = at["inlet-15a"], at["inlet-16a"]
    assert fifteen is not None and sixteen is not None
    assert float((fifteen / sixteen).to("dimensionless").magnitude) == pytest.approx(15 / 16)


def test_the_supply_may_trip_before_a_smaller_breaker() -> None:
    """2200 W on 10 A and 1600 W on 16 A: neither breaker is over its rating, the 16 A supply is, at 16.5 A."""
    assert 2200 / 230 < 10 and 1600 / 230 < 16 < (2200 + 1600) / 230
    note = compute(van(lead("10 m"), places=(place("H1"),))).tables["mains-trips"].note
    assert "The supply outside carries everything" in note and "the smaller" not in note


def test_what_trips_first_stands_first() -> None:
    circuits = (
        circuit("Heaters", "16 A", "mains"),
        circuit("Sockets", "10 A", "mains"),
        circuit("Odd", "unknown", "mains"),
        circuit("Pump", "5 A"),
    )
    rows = compute(van(lead("10 m"), places=(place("H1"),), circuits=circuits)).tables["mains-trips"].rows
    assert rows == (
        ("Supply outside, 6 A", "6 A", "1380 W"),
        ("Sockets", "10 A", "2300 W"),
        ("Supply outside, 10 A", "10 A", "2300 W"),
        ("Heaters", "16 A", "3680 W"),
        ("Supply outside, 16 A", "16 A", "3680 W"),
    )
