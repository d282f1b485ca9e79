"""Gas, against published heating values and worked examples."""

import pytest

from generator.compute import compute
from generator.compute.gas import _HEATING_VALUE
from generator.errors import ComputeError
from generator.model.caravan import Caravan
from generator.model.numbers import Verdict

from .vans import Fit, magnitude, van


def bottle(contents: str = "9 kg", fuel: str = "propane", **more: str | int) -> Fit:
    parameters = {"bottles": 1, "bottle": contents, "bottle_tare": "8 kg", "fuel": fuel, **more}
    return Fit(slot="gas", parameters=parameters)


def burner(slot: str, basis: str = "net", traits: tuple[str, ...] = (), **parameters: str) -> Fit:
    return Fit(slot=slot, parameters=parameters, basis=basis, traits=traits)


def hours(caravan: Caravan) -> dict[str, tuple[str, ...]]:
    return {row[0]: row[1:] for row in compute(caravan).tables["gas-hours"].rows}


@pytest.mark.parametrize(
    ("key", "computed", "iso"),
    [
        # Computed at 25 degC from enthalpies of formation; ISO 6976:1995 at 15 degC (published, from memory).
        (("propane", "net"), 46.338, 46.34),
        (("propane", "gross"), 50.330, 50.37),
        (("butane", "net"), 45.716, None),
        (("butane", "gross"), 49.502, 49.55),
    ],
)
def test_heating_values_agree_with_other_sources(key: tuple[str, str], computed: float, iso: float | None) -> None:
    used = _HEATING_VALUE[key].to("MJ/kg").magnitude
    assert used == pytest.approx(computed, rel=0.003)
    assert iso is None or used == pytest.approx(iso, rel=0.003)


@pytest.mark.parametrize(
    ("fuel", "gas_input", "basis", "grams_an_hour"),
    [
        ("propane", "1 kW", "net", 77.67),  # 3600 / 46.35 (computed from published heating values), and so on
        ("butane", "1 kW", "net", 78.71),
        ("propane", "1 kW", "gross", 71.39),
        ("propane", "1 MJ/h", "gross", 19.83),
        ("lpg-mix", "1 kW", "net", 3600 / (0.6 * 46.35 + 0.4 * 45.74)),
    ],
)
def test_the_rate_of_an_appliance_follows_from_its_input_on_its_own_basis(
    fuel: str, gas_input: str, basis: str, grams_an_hour: float
) -> None:
    """One kilogram lasts 1000 / rate hours, one hour a day."""
    caravan = van(bottle("1 kg", fuel), burner("hob", basis, gas_input=gas_input), assume={"gas-hours-hob": "1 h"})
    assert magnitude(compute(caravan), "gas-days-typical", "day") == pytest.approx(1000 / grams_an_hour, rel=1e-4)


def test_the_rate_on_the_plate_wins_over_the_input() -> None:
    caravan = van(bottle(), burner("hob", gas_input="5 kW", gas_rate="300 g/h"), burner("grill", gas_input="1 kW"))
    assert hours(caravan) == {"Hob": ("300 g/h", "30 h"), "Grill": ("78 g/h", "115 h")}


def test_hours_of_a_bottle_flat_out() -> None:
    """6 kg at 1175 g/h last 5.106 h (computed)."""
    assert hours(van(bottle("6 kg"), burner("hob", gas_input="9 kW", gas_rate="1175 g/h"))) == {
        "Hob": ("1175 g/h", "5 h")
    }


def test_typical_days_of_a_worked_example() -> None:
    """9 kg of propane, hob 2 kW for 1 h and heater 3 kW for 2 h a day: 14.484 days (computed)."""
    caravan = van(
        bottle(),
        burner("hob", gas_input="2 kW"),
        burner("room_heater", gas_input="3 kW"),
        assume={"gas-hours-hob": "1 h", "gas-hours-heating-cold": "2 h", "gas-hours-heating-mild": "0 h"},
    )
    found = compute(caravan)
    assert magnitude(found, "gas-days-typical", "day") == pytest.approx(14.484, abs=0.001)
    assert found.numbers["gas-days-typical"].shown == "14 days in cold weather, 57 days in mild weather"


def test_a_fridge_round_the_clock() -> None:
    """9 kg at 15 g/h all day last 25 days (computed)."""
    caravan = van(bottle(), burner("fridge", gas_input="1 kW", gas_rate="15 g/h"), assume={"gas-hours-fridge": "24 h"})
    found = compute(caravan)
    assert magnitude(found, "gas-days-typical", "day") == pytest.approx(25.0)
    assert found.numbers["gas-days-typical"].shown == "25 days"


@pytest.mark.parametrize(
    ("traits", "assumption"), [((), "gas-hours-water-tank"), (("hot-water-instant",), "gas-hours-water-instant")]
)
def test_only_the_assumptions_of_what_is_fitted_are_used(traits: tuple[str, ...], assumption: str) -> None:
    caravan = van(
        bottle(), burner("hot_water", gas_input="1 kW", gas_rate="100 g/h", traits=traits), assume={assumption: "9 h"}
    )
    found = compute(caravan)
    assert magnitude(found, "gas-days-typical", "day") == pytest.approx(10.0)
    assert not any("Hob" in each.name for each in found.numbers["gas-days-typical"].inputs)


def test_less_than_a_day_is_said_so() -> None:
    caravan = van(bottle("1 kg"), burner("hob", gas_input="9 kW", gas_rate="500 g/h"), assume={"gas-hours-hob": "3 h"})
    assert compute(caravan).numbers["gas-days-typical"].shown == "less than 1 day"


def test_without_a_burner_days_depend_on_what_is_connected() -> None:
    found = compute(van(bottle(), traits=("bbq-point",)))
    assert found.numbers["gas-days-typical"].value is None
    assert found.tables["gas-hours"].rows == ()
    assert found.numbers["gas-per-bottle"].shown == "9 kg"
    assert compute(van(bottle("2.75 kg"))).numbers["gas-per-bottle"].shown == "2.75 kg"  # as the bottle is marked


RATES = {"hob": "465 g/h", "room_heater": "500 g/h", "fridge": "35 g/h", "oven": "175 g/h"}
BURNERS = [burner(slot, gas_input="1 kW", gas_rate=rate) for slot, rate in RATES.items()]


@pytest.mark.parametrize(
    ("flow", "verdict", "told"),
    [
        ("1.5 kg/h", Verdict.WITHIN, []),  # hob 465, heater 500, fridge 35, oven 175 g/h: it passes (published, seen)
        (
            "1.2 kg/h",
            Verdict.CLOSE,
            ["thin margin: all gas appliances together burn 1175 g/h, the regulator passes 1.2 kg/h"],
        ),
    ],
)
def test_the_regulator_must_pass_what_all_appliances_burn(flow: str, verdict: Verdict, told: list[str]) -> None:
    found = compute(van(bottle(regulator_flow=flow), *BURNERS))
    demand = found.numbers["gas-demand"]
    assert (demand.shown, demand.verdict) == ("1175 g/h", verdict)
    assert demand.sentence == f"1175 g/h with everything flat out. The regulator passes {flow}."
    assert [fault.message for fault in found.warnings] == told


def test_a_barbecue_is_said_to_burn_more() -> None:
    said = compute(van(bottle(regulator_flow="1.5 kg/h"), *BURNERS, traits=("bbq-point",))).numbers["gas-demand"]
    assert said.sentence.endswith("A barbecue on its outlet burns more: add what its label says.")


def test_more_than_the_plate_of_the_regulator_is_refused() -> None:
    with pytest.raises(ComputeError) as raised:
        compute(van(bottle(regulator_flow="1.1 kg/h"), *BURNERS))
    (fault,) = raised.value.faults
    assert fault.message.startswith("all gas appliances together burn 1175 g/h, more than the 1.1 kg/h that the reg")


def test_without_the_plate_of_the_regulator_there_is_no_verdict() -> None:
    for more in ({}, {"regulator_flow": "unknown"}):
        demand = compute(van(bottle(**more), *BURNERS)).numbers["gas-demand"]
        assert (demand.verdict, demand.limit) == (None, "")
        assert demand.sentence == "Read the plate of the regulator: it must pass as much or more."


def test_an_unknown_input_is_told_in_its_row_and_leaves_the_days_unknown() -> None:
    caravan = van(bottle(), burner("hob", gas_input="unknown"), burner("grill", gas_input="1 kW"))
    read = "read the gas input of the hob off its rating plate"
    assert hours(caravan) == {"Hob": ("Not known", f"{read.capitalize()}."), "Grill": ("78 g/h", "115 h")}
    assert compute(caravan).numbers["gas-days-typical"].shown == f"Not known: {read}"


def test_an_input_that_does_not_say_net_or_gross_is_refused() -> None:
    with pytest.raises(ComputeError) as raised:
        compute(van(bottle(), burner("hob", basis="", gas_input="2 kW")))
    (fault,) = raised.value.faults
    assert fault.message == "the gas input of hob does not say its basis"
    assert fault.hint == "write basis: net or basis: gross"
