"""What runs together on a pitch, against power = voltage x current and a search of its own."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import compute
from generator.compute.combinations import Chosen, Load, fitting, most
from generator.model.caravan import Caravan
from generator.model.numbers import DataTable

from .vans import Fit, market, van

LEAD = {"lead": "25 m", "lead_section": "2.5 mm2"}
MAINS = Fit(slot="mains_inlet", parameters=LEAD, traits=("mains", "electrics", "inlet-16a"))


def appliance(slot: str, power: str = "", steps: str = "") -> Fit:
    return Fit(slot=slot, parameters={"mains_steps": steps} if steps else {"mains_input": power})


def together(caravan: Caravan) -> DataTable:
    return compute(caravan).tables["mains-combinations"]


def on(caravan: Caravan, supply: str) -> list[str]:
    return [row[1] for row in together(caravan).rows if row[0] == supply]


@pytest.mark.parametrize(
    ("where", "supply", "watts"),
    [
        ("uk", "16 A", 3680),  # 230 V x 16 A, campsite sockets of UK and EU (published, seen)
        ("nz", "16 A", 3680),  # the same in New Zealand (published, seen)
        ("au", "15 A", 3450),  # 230 V x 15 A, AS/NZS 3112 park outlets (published, seen)
        ("au", "10 A", 2300),  # definition of power
    ],
)
def test_a_supply_carries_exactly_its_watts(where: str, supply: str, watts: int) -> None:
    for power, fits in ((watts, True), (watts + 1, False)):
        caravan = van(MAINS, appliance("hob", f"{power} W"), on=market(where))
        assert on(caravan, supply) == ([f"Hob {power} W"] if fits else ["None of them"])


def test_the_voltage_is_that_of_the_market() -> None:
    assert compute(van(MAINS)).numbers["mains-voltage"].shown == "230 V"


def test_each_load_and_each_step_has_its_current_rounded_up() -> None:
    caravan = van(MAINS, appliance("hot_water", "850 W"), appliance("room_heater", steps="500 W, 1000 W, 2000 W"))
    assert compute(caravan).tables["mains-loads"].rows == (
        ("Hot water", "850 W", "3.7 A"),  # 3.696
        ("Room heater", "500 W", "2.2 A"),
        ("Room heater", "1000 W", "4.4 A"),
        ("Room heater", "2000 W", "8.7 A"),
    )


def test_what_fits_ten_amperes() -> None:
    """2300 W by hand: water 850 with heat 1000 (not 2000), or heat 2000 alone; the fridge goes with either."""
    caravan = van(
        MAINS,
        appliance("hot_water", "850 W"),
        appliance("room_heater", steps="1000 W, 2000 W"),
        appliance("fridge", "135 W"),
    )
    assert on(caravan, "10 A") == [
        "Hot water 850 W + Room heater 1000 W + Fridge 135 W",
        "Room heater 2000 W + Fridge 135 W",
    ]
    assert on(caravan, "16 A") == ["Hot water 850 W + Room heater 2000 W + Fridge 135 W"]
    note = together(caravan).note
    assert note.startswith("Choose one row of your supply, and run nothing else with it. On 16 A everything")
    assert "On 16 A everything fitted may run at once." in note


def test_what_a_supply_can_never_feed_is_named() -> None:
    caravan = van(MAINS, appliance("hob", "2000 W"), appliance("fridge", "100 W"))
    assert on(caravan, "6 A") == ["Fridge 100 W"]
    assert "6 A is too little for the hob." in together(caravan).note


def test_no_supply_counts_above_what_the_inlet_is_made_for() -> None:
    inlet = Fit(slot="mains_inlet", parameters=LEAD, traits=("mains", "inlet-15a"))
    assert [row[0] for row in together(van(inlet, on=market("uk"))).rows] == ["6 A", "10 A", "15 A"]


def test_an_unknown_power_is_told_in_its_row_and_leaves_the_sets_unknown() -> None:
    caravan = van(MAINS, appliance("hob", "unknown"), appliance("fridge", "100 W"))
    read = "the mains input of the hob off its rating plate"
    assert compute(caravan).tables["mains-loads"].rows[0] == ("Hob", "Not known", f"Read {read}.")
    assert (together(caravan).rows, together(caravan).missing) == ((), (read,))


LOADS = st.lists(
    st.lists(st.integers(1, 40), min_size=1, max_size=3, unique=True).map(
        lambda steps: tuple(float(50 * w) for w in sorted(steps))
    ),
    max_size=5,
).map(lambda all: tuple(Load(f"Load {n}", steps) for n, steps in enumerate(all)))


@given(LOADS, st.integers(0, 80))
@settings(max_examples=120, deadline=None)
def test_every_way_that_fits_is_within_a_listed_one_and_every_listed_one_fits(
    loads: tuple[Load, ...], limit: int
) -> None:
    limit_w = 50.0 * limit
    sets = [{load.name: power for load, power in each.parts} for each in fitting(loads, limit_w)]
    assert all(sum(each.values()) <= limit_w for each in sets)
    for ways in product(*((0.0, *load.steps_w) for load in loads)):
        if sum(ways) <= limit_w:
            named = {load.name: power for load, power in zip(loads, ways, strict=True)}
            assert any(all(each.get(name, 0.0) >= power for name, power in named.items()) for each in sets)


def test_the_order_of_the_sets_does_not_depend_on_anything_but_them() -> None:
    loads = tuple(Load(name, (100.0,)) for name in "edcba")
    shown = [each.shown() for each in fitting(loads, 200.0)]
    assert shown == sorted(shown)
    assert len(shown) == 10


def test_a_reader_gets_at_most_a_dozen_sets_of_a_supply_and_is_told() -> None:
    caravan = van(MAINS, *(appliance(f"heater_{n}", "1000 W") for n in range(6)))
    assert len(on(caravan, "16 A")) == 12
    assert "For 16 A the table shows 12 of 20 sets." in together(caravan).note


def test_thirty_appliances_are_counted_in_a_moment_and_the_small_ones_together() -> None:
    loads = tuple(Load(f"L{n:02}", (10.0 * (n + 1),)) for n in range(30))
    sets = fitting(loads, 3680.0)
    assert 0 < len(most(sets)) <= 12
    named = {load.name for each in sets for load, _ in each.parts}
    assert any(name.startswith("All of l00, l01, l02") for name in named)
    assert all(each.power_w <= 3680.0 for each in sets)


def test_full_means_every_load_at_its_highest_step() -> None:
    load = Load("Heater", (500.0, 1000.0))
    assert Chosen(((load, 1000.0),)).full((load,))
    assert not Chosen(((load, 500.0),)).full((load,))
