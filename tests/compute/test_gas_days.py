"""Typical days of gas: by weather, one bottle and all."""

from dataclasses import replace

from generator.compute import compute

from .test_gas import bottle, burner
from .vans import van

HOURS = {"gas-hours-hob": "1 h", "gas-hours-heating-cold": "6 h", "gas-hours-heating-mild": "1 h"}


def test_a_van_heated_by_gas_has_a_row_for_each_weather() -> None:
    """Hob 100 g, heating 600 g in the cold and 100 g when it is mild, none when it is warm, by hand."""
    gas = bottle("3 kg", bottles=2)
    fits = (
        burner("room_heater", gas_input="1 kW", gas_rate="100 g/h"),
        burner("hob", gas_input="1 kW", gas_rate="100 g/h"),
    )
    found = compute(van(gas, *fits, assume=HOURS))
    assert found.tables["gas-day"].rows == (
        ("Warm", "100 g", "30 days", "60 days"),
        ("Mild", "200 g", "15 days", "30 days"),
        ("Cold", "700 g", "4 days", "8 days"),
    )
    assert found.numbers["gas-days-typical"].shown == "4 days in cold weather, 15 days in mild weather"
    assert found.numbers["gas-days-all"].shown == "8 days in cold weather, 30 days in mild weather"
    assert found.tables["gas-day-appliances"].rows == (
        ("Room heater, cold weather", "6 h", "600 g"),
        ("Room heater, mild weather", "1 h", "100 g"),
        ("Hob", "1 h", "100 g"),
    )


def test_without_gas_heating_the_weather_makes_no_row() -> None:
    found = compute(van(bottle("3 kg"), burner("hob", gas_input="1 kW", gas_rate="100 g/h"), assume=HOURS))
    assert found.tables["gas-day"].rows == (("Any", "100 g", "30 days"),)
    assert found.numbers["gas-days-all"].shown == "30 days"


def test_a_van_with_one_bottle_is_told_nothing_of_all_bottles() -> None:
    one = replace(bottle("3 kg"), traits=("one-bottle",))
    found = compute(van(one, burner("room_heater", gas_input="1 kW"), assume=HOURS))
    assert "gas-days-all" not in found.numbers
    table = found.tables["gas-day"]
    assert table.head == ("Weather", "Gas each day", "One bottle lasts")
    assert {len(row) for row in table.rows} == {3}
    assert "all" not in " ".join((table.method, table.chart.title if table.chart else "")).split()


def test_heating_that_is_assumed_off_leaves_a_finite_number_of_days() -> None:
    off = {"gas-hours-heating-mild": "0 h", "gas-hours-heating-cold": "0 h"}
    found = compute(van(bottle("3 kg"), burner("room_heater", gas_input="1 kW"), assume=off))
    assert found.numbers["gas-days-typical"].value is not None


def test_an_unknown_input_leaves_the_days_unknown_and_the_other_rows_alone() -> None:
    fits = (burner("hob", gas_input="unknown"), burner("grill", gas_input="1 kW", gas_rate="100 g/h"))
    found = compute(van(bottle(), *fits))
    read = "read the gas input of the hob off its rating plate"
    assert found.numbers["gas-days-all"].shown == f"Not known: {read}"
    assert (found.tables["gas-day"].rows, found.tables["gas-day"].note) == ((), f"Not known: {read}")
    assert found.tables["gas-day-appliances"].rows == (
        ("Hob", "1 h", f"Not known: {read}."),
        ("Grill", "0.25 h", "25 g"),
    )


def test_a_full_bottle_weighs_its_gas_and_its_tare() -> None:
    found = compute(van(bottle("2.75 kg", bottle_tare="3.41 kg"))).numbers
    assert found["gas-bottle-mass"].shown == "6.2 kg"
    found = compute(van(bottle(bottle_tare="unknown"))).numbers
    assert found["gas-bottle-mass"].shown == "Not known: read the bottle tare of the gas off its rating plate"
