"""How long water takes to heat, against the enthalpy of water and worked examples."""

import pytest
from CoolProp.CoolProp import PropsSI

from generator.compute import compute

from .vans import Fit, magnitude, van

GAS = Fit(slot="gas", parameters={"bottles": 1, "bottle": "9 kg", "bottle_tare": "8 kg", "fuel": "propane"})


def heater(litres: float, to_c: float, trait: str, **power: str) -> Fit:
    parameters = {"volume": f"{litres} L", "set_temperature": f"{to_c} degC", **power}
    return Fit(slot="hot_water", parameters=parameters, traits=("hot-water-tank", trait), basis="net")


def heat_j(litres: float, from_c: float, to_c: float) -> float:
    """Return the heat of water from IAPWS-95 (CoolProp), at 101.325 kPa and its density when cold."""
    mass = litres / 1000 * PropsSI("D", "T", from_c + 273.15, "P", 101325, "Water")
    cold, hot = (PropsSI("H", "T", t + 273.15, "P", 101325, "Water") for t in (from_c, to_c))
    return float(mass * (hot - cold))


@pytest.mark.parametrize(
    ("litres", "from_c", "to_c", "watts", "minutes"),
    [(10, 15, 70, 1300, 29.47), (10, 15, 60, 850, 36.86), (22, 15, 60, 1300, 53.03)],  # worked examples (computed)
)
def test_on_mains(litres: float, from_c: float, to_c: float, watts: float, minutes: float) -> None:
    assert heat_j(litres, from_c, to_c) / watts / 60 == pytest.approx(minutes, rel=1e-3)
    tank = heater(litres, to_c, "hot-water-mains", mains_input=f"{watts} W")
    found = compute(van(tank, assume={"cold-water": f"{from_c} degC"}))
    assert magnitude(found, "heat-up-mains", "min") == pytest.approx(minutes, rel=0.004)
    assert int(found.numbers["heat-up-mains"].shown.removesuffix(" min")) >= minutes


def test_on_gas() -> None:
    """14 L from 10 to 60 degC at 1500 W and 80 %: 40.65 min (computed)."""
    assert heat_j(14, 10, 60) / (1500 * 0.8) / 60 == pytest.approx(40.65, rel=1e-3)
    tank = heater(14, 60, "hot-water-gas", gas_input="1500 W")
    found = compute(van(GAS, tank, assume={"cold-water": "10 degC", "gas-water-efficiency": "80 percent"}))
    assert magnitude(found, "heat-up-gas", "min") == pytest.approx(40.65, rel=0.004)
    assert found.numbers["heat-up-gas"].shown == "41 min"


def test_a_gross_input_heats_with_its_net_share() -> None:
    """The same plate read as gross takes 50.43 / 46.35 as long on propane (published heating values)."""
    net = heater(10, 60, "hot-water-gas", gas_input="1.5 kW")
    gross = Fit(slot=net.slot, parameters=net.parameters, traits=net.traits, basis="gross")
    one, other = (magnitude(compute(van(GAS, each)), "heat-up-gas", "min") for each in (net, gross))
    assert other / one == pytest.approx(50.43 / 46.35, rel=1e-6)


def test_water_that_is_warm_already_takes_no_time() -> None:
    tank = heater(10, 30, "hot-water-mains", mains_input="1000 W")
    assert compute(van(tank, assume={"cold-water": "35 degC"})).numbers["heat-up-mains"].shown == "0 min"


@pytest.mark.parametrize("cold", ["5 degC", "15 degC", "25 degC"])
def test_the_planning_value_of_the_heat_capacity_is_within_half_a_per_cent_of_the_water_tables(cold: str) -> None:
    from_c = float(cold.split()[0])
    tank = heater(10, 70, "hot-water-mains", mains_input="1000 W")
    found = compute(van(tank, assume={"cold-water": cold}))
    assert magnitude(found, "heat-up-mains", "s") == pytest.approx(heat_j(10, from_c, 70) / 1000, rel=0.005)


def test_both_ways_together_add_up() -> None:
    """1 / t = 1 / t1 + 1 / t2."""
    tank = Fit(
        slot="hot_water",
        parameters={"volume": "10 L", "set_temperature": "70 degC", "gas_input": "1.5 kW", "mains_input": "850 W"},
        traits=("hot-water-tank", "hot-water-gas", "hot-water-mains"),
        basis="net",
    )
    found = compute(van(GAS, tank))
    gas, mains, both = (magnitude(found, f"heat-up-{way}", "min") for way in ("gas", "mains", "both"))
    assert 1 / both == pytest.approx(1 / gas + 1 / mains)
    assert found.numbers["second-shower"].shown.endswith(" min on mains")
    assert " min on gas, " in found.numbers["second-shower"].shown


def test_no_shower_takes_more_heat_than_the_tank_holds() -> None:
    tank = heater(5, 60, "hot-water-mains", mains_input="1000 W")
    found = compute(van(tank, assume={"shower-water": "100 L"}))
    assert magnitude(found, "second-shower", "min") == pytest.approx(magnitude(found, "heat-up-mains", "min"))


def test_a_shower_no_warmer_than_the_cold_water_is_no_division_by_nothing() -> None:
    tank = heater(10, 70, "hot-water-mains", mains_input="1000 W")
    found = compute(van(tank, assume={"cold-water": "40 degC", "shower-temperature": "40 degC"}))
    assert magnitude(found, "shower-water", "L") == pytest.approx(300)  # as if it were a degree warmer


def test_an_unknown_element_is_read_off_its_plate() -> None:
    tank = heater(10, 70, "hot-water-mains", mains_input="unknown")
    found = compute(van(tank)).numbers["second-shower"]
    assert found.shown == "Not known: read the mains input of the hot water off its rating plate"
