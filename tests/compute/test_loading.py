"""Ball load and axle load of the full van, and through a trip, against moments by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import compute
from generator.errors import Level
from generator.model.numbers import Verdict

from .vans import Fit, magnitude, market, place, van

# Coupling to axle 4 m, ball load 64 kg, payload 220 kg (1400 less 1180).
TWO = (place("A1", "2 m", "40 kg"), place("D1", "6 m", "20 kg"))
TANK = Fit(slot="water_supply", parameters={"volume": "100 L"}, at="D2", traits=("water-tank",))
CASSETTE = Fit(slot="toilet", parameters={"cassette": "18 L", "flush_tank": "15 L"}, at="C1")
STORED = {"volume": "10 L", "set_temperature": "60 degC", "mains_input": "850 W", "mass": "4 kg"}
HEATER = Fit(slot="hot_water", parameters=STORED, at="A1", traits=("hot-water-tank", "hot-water-mains"))
GAS = {"bottles": 2, "bottle": "9 kg", "bottle_tare": "8.6 kg", "fuel": "propane"}


def test_a_full_load_fills_every_place_and_the_rest_lies_over_the_axle() -> None:
    """64 + 40 x 0.5 - 20 x 0.5 = 74 kg; 160 kg more lie over the axle and change nothing."""
    found = compute(van(places=TWO))
    assert magnitude(found, "ball-load-laden", "kg") == pytest.approx(74)
    assert magnitude(found, "axle-load-laden", "kg") == pytest.approx(1400 - 74)


def test_a_payload_smaller_than_the_room_fills_every_place_to_the_same_share() -> None:
    """30 kg of payload in 60 kg of room: half of each place, so 64 + 20 x 0.5 - 10 x 0.5."""
    found = compute(van(places=TWO, plates={"masses.unladen": "1370 kg"}))
    assert magnitude(found, "ball-load-laden", "kg") == pytest.approx(69)


def test_what_is_fitted_in_a_place_takes_room_there() -> None:
    radio = Fit(slot="radio", parameters={"mass": "30 kg"}, at="A1")
    assert magnitude(compute(van(radio, places=TWO)), "ball-load-laden", "kg") == pytest.approx(64 + 10 * 0.5 - 10)


@pytest.mark.parametrize(
    ("plates", "missing"),
    [
        ({}, "the load limit of each place off the label there"),
        ({"masses.ball_load_unladen": "unknown"}, "the ball load of the unladen van off a ball load gauge"),
    ],
)
def test_without_limits_or_a_ball_load_there_is_no_full_load(plates: dict[str, str], missing: str) -> None:
    places = () if not plates else TWO
    found = compute(van(places=places, plates=plates))
    assert found.numbers["ball-load-laden"].missing == (missing,)
    assert found.tables["ball-load-states"].missing == (missing,)


def test_an_unknown_limit_of_a_place_leaves_the_full_load_unknown() -> None:
    found = compute(van(places=(*TWO, place("H1", "3 m", "unknown"))))
    assert found.numbers["ball-load-laden"].value is None


@pytest.mark.parametrize(
    ("where", "ball", "said", "verdict", "warned"),
    [
        ("uk", "64 kg", "Guidance is at least 70 kg.", Verdict.WITHIN, 0),  # 74 kg against 5 % of 1400 kg
        ("uk", "50 kg", "Put more of the load in front", Verdict.WITHIN, 1),  # 60 kg
        ("uk", "85 kg", "Limit 100 kg.", Verdict.CLOSE, 1),  # 95 kg
        ("uk", "89 kg", "99 kg on the towball", Verdict.CLOSE, 1),
        ("nz", "64 kg", "Limit 100 kg.", Verdict.WITHIN, 0),  # 10 % would be 140 kg, over the plate: plate alone
    ],
)
def test_the_full_load_is_judged_against_guidance_and_plate(
    where: str, ball: str, said: str, verdict: Verdict, warned: int
) -> None:
    found = compute(van(places=TWO, plates={"masses.ball_load_unladen": ball}, on=market(where)))
    number = found.numbers["ball-load-laden"]
    assert said in number.sentence and number.verdict is verdict
    assert len(found.warnings) == warned
    assert ("Guidance" in number.sentence) == (where == "uk")


def test_a_full_load_over_the_plate_warns_and_does_not_refuse() -> None:
    """60 kg at 1 m add 45 kg to 64 kg: 109 kg on a towball for 100 kg. Where load lies is up to the owner."""
    found = compute(van(places=(place("A1", "1 m", "60 kg"),)))
    assert found.numbers["ball-load-laden"].verdict is Verdict.OVER
    (fault,) = found.warnings
    assert fault.message == "with a full load the ball load is 109 kg, over the limit of 100 kg"
    assert fault.level is Level.WARNING


# --- axles ------------------------------------------------------------------------------------------


def test_total_mass_may_hold_while_the_axles_are_overloaded() -> None:
    """Twin axles for 2600 kg, 2800 kg in all, 150 kg on the ball: 2650 kg on the wheels."""
    plates = {
        "masses.unladen": "2400 kg",
        "masses.max_laden": "2800 kg",
        "masses.max_axle": "2600 kg",
        "masses.max_ball_load": "300 kg",
        "masses.ball_load_unladen": "150 kg",
    }
    head = Fit(slot="coupling", parameters={"max_ball_load": "300 kg", "d_value": "20 kN"}, at="A0")
    places = (place("H1", "4 m", "100 kg"),)
    found = compute(van(head, places=places, plates=plates, axles=2, traits=("twin-axle",)))
    assert found.numbers["payload"].verdict is Verdict.WITHIN
    wheels = found.numbers["axle-load-laden"]
    assert (wheels.shown, wheels.limit, wheels.verdict) == ("2650 kg", "2600 kg", Verdict.OVER)
    assert wheels.sentence == "2650 kg on both axles, the rest on the towball. Limit 2600 kg."
    assert any("both axles carry 2650 kg, over 2600 kg" in fault.message for fault in found.warnings)
    assert found.numbers["ball-load-floor"].shown == "200 kg"


@pytest.mark.parametrize(("axle", "floor"), [("1340 kg", "60 kg"), ("1390 kg", "25 kg"), ("1400 kg", "25 kg")])
def test_the_full_van_needs_what_its_axle_cannot_carry_on_the_ball(axle: str, floor: str) -> None:
    """1400 kg less the axle's plate, never below the 25 kg that are assumed."""
    assert compute(van(places=TWO, plates={"masses.max_axle": axle})).numbers["ball-load-floor"].shown == floor


def test_the_least_ball_load_can_be_set() -> None:
    found = compute(van(places=TWO, assume={"least-ball-load": "70 kg"}))
    assert found.numbers["ball-load-floor"].shown == "70 kg"


# --- through a trip ---------------------------------------------------------------------------------


def states(*fits: Fit, **plates: str) -> dict[str, tuple[str, ...]]:
    every = (*TWO, place("D2", "5 m"), place("C1", "5.6 m"))
    found = compute(van(*fits, places=every, plates=plates, traits=("liquids",)))
    return {row[0]: row[1:] for row in found.tables["ball-load-states"].rows}


def test_a_van_without_tanks_has_two_states() -> None:
    assert states() == {
        "Nothing loaded": ("64 kg", "1116 kg", "Within the limit"),
        "Full load": ("74 kg", "1326 kg", "Close to the limit of the wheels, 1340 kg"),
    }


@pytest.mark.parametrize(
    ("axle", "ball", "judged"),
    [
        ("1475 kg", "64 kg", "Within the limit"),  # 1326 kg is 89.9 % of it
        ("1340 kg", "64 kg", "Close to the limit of the wheels, 1340 kg"),
        ("1475 kg", "85 kg", "Close to the ball load limit of 100 kg"),
        (
            "1340 kg",
            "50 kg",
            "Close to the limit of the wheels, 1340 kg. Less on the towball than guidance, 70 kg",
        ),
    ],
)
def test_a_state_is_judged_by_towball_and_wheels_as_their_own_numbers_are(axle: str, ball: str, judged: str) -> None:
    plates = {"masses.max_axle": axle, "masses.ball_load_unladen": ball}
    found = compute(van(places=TWO, plates=plates))
    assert found.tables["ball-load-states"].rows[1][-1] == judged
    close = [found.numbers[id].verdict is Verdict.CLOSE for id in ("ball-load-laden", "axle-load-laden")]
    assert close == ["ball load limit" in judged, "limit of the wheels" in judged]


def test_water_behind_the_axle_lifts_and_its_use_presses() -> None:
    """100 kg at 5 m lift 25 kg off the ball; the load beside it is 120 kg, still 60 kg in the places."""
    told = states(TANK)
    assert told["Nothing loaded, fresh water tank full"][:2] == ("39 kg", "1241 kg")
    assert told["Full load, tank empty"][:2] == ("74 kg", "1326 kg")
    assert told["Full load, fresh water tank full"] == (
        "49 kg",
        "1351 kg",
        "Over the limit of the wheels, 1340 kg",
    )
    assert told["Full load with water, water used up"][:2] == ("74 kg", "1226 kg")


def test_waste_and_gas_are_told_where_they_are() -> None:
    """Cassette 18 kg at 5.6 m, lever -0.4; gas 18 kg at 2 m, lever 0.5."""
    gas = Fit(slot="gas", parameters=GAS, at="A1", in_unladen=False)
    told = states(CASSETTE, gas)
    assert told["Nothing loaded, toilet cassette full"][0] == "75 kg"  # 64 + 35.2 x 0.5 - 7.2
    # The bottles leave 4.8 kg of room at A1: 64 + 17.6 + 4.8 x 0.5 - 20 x 0.5 = 74; less 9 kg with the gas gone.
    assert told["Full load, tanks empty"][0] == "74 kg"
    assert told["Full load, tanks empty, gas used up"][:2] == ("65 kg", "1317 kg")


def test_a_full_load_is_judged_with_the_waste_tanks_full_too() -> None:
    """150 kg at 5.6 m lift 60 kg; beside them 70 kg still fill both places: 64 - 60 + 20 - 10 = 14 kg."""
    waste = Fit(slot="waste", parameters={"volume": "150 L"}, at="C1", traits=("waste-tank",))
    assert states(waste)["Full load, waste tank full"] == (
        "14 kg",
        "1386 kg",
        "Over the limit of the wheels, 1340 kg",
    )


def test_the_worst_state_of_a_trip_has_a_verdict_of_its_own() -> None:
    """As above: 1386 kg on the wheels with the waste full; the most on the towball is 74 kg, with all of it empty."""
    waste = Fit(slot="waste", parameters={"volume": "150 L"}, at="C1", traits=("waste-tank",))
    found = compute(van(waste, places=(*TWO, place("C1", "5.6 m")), traits=("liquids",))).numbers
    wheels, ball = found["axle-load-most"], found["ball-load-most"]
    assert (wheels.shown, wheels.verdict, ball.shown, ball.verdict) == (
        "1386 kg",
        Verdict.OVER,
        "74 kg",
        Verdict.WITHIN,
    )
    assert wheels.sentence.startswith("1386 kg on the wheels in one state: full load, waste tank")
    assert wheels.sentence.endswith("must not go on the road: empty tanks, or load less.")
    told = compute(van(TANK, HEATER, places=(*TWO, place("D2", "5 m")), traits=("liquids",))).numbers["ball-load-most"]
    # Without the row above it, the name of a state has to stand for itself.
    assert told.sentence == "77 kg on the towball in one state: full load with water, water used up. Limit 100 kg."
    assert found["axle-load-laden"].verdict is Verdict.CLOSE  # which the full load with empty tanks alone would say


def test_the_water_in_a_heater_stays_on_board_until_it_is_drained() -> None:
    """10 kg at 2 m press 5 kg; the tank of 100 kg at 5 m lifts 25 kg, and gives them back as it is used.

    The heater leaves 36 kg of room at A1, so that the load adds 18 - 10 kg.
    """
    told = states(TANK, HEATER)
    assert told["Nothing loaded, water tanks full"][0] == "44 kg"
    assert told["Full load, water tanks full"][0] == "52 kg"
    assert told["Full load with water, water used up"][:2] == ("77 kg", "1223 kg")
    alone = states(HEATER)
    assert alone["Full load, water heater full"][0] == "77 kg"
    assert "Full load with water, water used up" not in alone


def test_the_water_in_a_heater_is_taken_off_the_payload() -> None:
    found = compute(van(TANK, HEATER, places=(*TWO, place("D2", "5 m")), traits=("liquids",)))
    assert found.tables["payload-use"].rows[-1] == ("Water heater, full", "10 kg", "110 kg")
    number = found.numbers["payload-with-water"]
    assert number.shown == "110 kg"  # 220 - 100 - 10
    assert number.sentence == "Tank and water heater, full, weigh 110 kg. 110 kg may go in beside them."


def test_a_tank_that_uses_up_the_payload_is_told() -> None:
    full = Fit(slot="water_supply", parameters={"volume": "230 L"}, at="D2", traits=("water-tank",))
    found = compute(van(full, places=(*TWO, place("D2", "4 m")), traits=("liquids",)))
    number = found.numbers["payload-with-water"]
    assert (number.shown, number.verdict) == ("0 kg", Verdict.OVER)
    assert number.sentence == "On the road you may carry 220 L of water at most, and then nothing else."
    row = next(
        row for row in found.tables["ball-load-states"].rows if row[0] == "Nothing loaded, fresh water tank full"
    )
    assert row[-1].endswith("Heavier than the 1400 kg allowed")
    assert {fault.level for fault in found.warnings} == {Level.WARNING}
    assert "a full water tank of 230 kg uses up the whole payload of 220 kg" in {
        fault.message for fault in found.warnings
    }


def test_tanks_weigh_a_kilogram_for_each_litre_and_press_by_their_lever() -> None:
    """Density of water 0.998 kg/L at 20 degC (IAPWS-95), counted as 1."""
    found = compute(van(TANK, CASSETTE, places=(*TWO, place("D2", "5 m"), place("C1", "5.6 m")), traits=("liquids",)))
    assert found.tables["liquids"].rows == (
        ("Fresh water tank at D2 Place D2", "100 kg", "−25 kg"),
        ("Flush tank at C1 Place C1", "15 kg", "−6 kg"),
        ("Toilet cassette at C1 Place C1", "18 kg", "−7.2 kg"),
    )


def test_a_barrel_and_a_caddy_stay_outside() -> None:
    barrel = Fit(slot="water_supply", parameters={"volume": "40 L"}, at="D2", traits=("water-barrel",))
    caddy = Fit(slot="waste", parameters={"volume": "38 L"}, at="C1")
    found = compute(
        van(barrel, caddy, CASSETTE, places=(place("D2", "5 m"), place("C1", "5.6 m")), traits=("liquids",))
    )
    assert [row[0].split(" at ")[0] for row in found.tables["liquids"].rows] == ["Flush tank", "Toilet cassette"]


def test_fuel_is_lighter_than_water() -> None:
    """EN 590: 0.845 kg/L at most (from memory)."""
    heater = Fit(slot="room_heater", parameters={"tank_volume": "10 L"}, at="D2")
    found = compute(van(heater, places=(place("D2", "2 m"),), traits=("liquids",)))
    assert found.tables["liquids"].rows == (("Fuel tank of the heater at D2 Place D2", "8.5 kg", "+4.3 kg"),)


def test_a_tank_without_a_position_says_so_in_its_row() -> None:
    found = compute(van(TANK, places=(place("D2"),), traits=("liquids",)))
    assert found.tables["liquids"].rows[0][2] == (
        "Not known: read the distance of D2 Place D2 behind the coupling off a tape measure"
    )


def test_the_payload_is_used_up_step_by_step() -> None:
    mover = Fit(slot="mover", parameters={"mass": "32.5 kg"}, at="D2", in_unladen=False)
    places = (*TWO, place("D2", "5 m"))
    strong = {"masses.max_axle": "1390 kg"}
    found = compute(van(mover, TANK, places=places, plates=strong, traits=("liquids",)))
    assert found.tables["payload-use"].rows == (
        ("The van without load", "1180 kg", "220 kg"),
        ("Mover", "32.5 kg", "187.5 kg"),
        ("Fresh water tank, full", "100 kg", "87.5 kg"),
    )
    assert found.numbers["payload-with-water"].shown == "87 kg"


# --- properties -------------------------------------------------------------------------------------


@given(st.floats(0.3, 6.2), st.floats(0.0, 2.0))
@settings(max_examples=40, deadline=None)
def test_mass_moved_rearward_never_raises_the_ball_load(behind: float, further: float) -> None:
    def ball(at: float) -> float:
        item = Fit(slot="radio", parameters={"mass": "20 kg"}, at="D1", in_unladen=False)
        return magnitude(compute(van(item, places=(place("D1", f"{at:.4f} m"),))), "ball-load-empty", "kg")

    assert ball(behind + further) <= ball(behind) + 1e-9


@given(st.lists(st.tuples(st.floats(0.5, 6.0), st.floats(1.0, 60.0)), min_size=1, max_size=5), st.randoms())
@settings(max_examples=25, deadline=None)
def test_the_full_load_does_not_depend_on_the_order_of_places(rooms: list[tuple[float, float]], random) -> None:
    places = [place(f"D{n}", f"{at:.3f} m", f"{limit:.3f} kg") for n, (at, limit) in enumerate(rooms)]
    shuffled = list(places)
    random.shuffle(shuffled)
    one, other = (magnitude(compute(van(places=tuple(order))), "ball-load-laden", "kg") for order in (places, shuffled))
    assert one == pytest.approx(other, rel=1e-12)


@given(st.floats(1000.0, 1240.0), st.floats(1.0, 90.0), st.floats(0.0, 200.0))
@settings(max_examples=60, deadline=None)
def test_no_shown_number_crosses_to_the_unsafe_side(unladen: float, ball: float, water: float) -> None:
    """What weighs is never shown lighter, what is left never more."""
    plates = {"masses.unladen": f"{unladen:.4f} kg", "masses.ball_load_unladen": f"{ball:.4f} kg"}
    tank = Fit(slot="water_supply", parameters={"volume": f"{water + 1:.4f} L"}, at="D2", traits=("water-tank",))
    more = {**plates, "masses.max_axle": "1400 kg"}
    found = compute(van(tank, places=(*TWO, place("D2", "4 m")), plates=more, traits=("liquids",)))

    def shown(id: str) -> float:
        return float(found.numbers[id].shown.removesuffix(" kg"))

    for id in ("payload", "payload-with-water", "max-laden", "max-ball-load"):
        assert shown(id) <= magnitude(found, id, "kg") + 1e-6
    most = ("ball-load-most", "axle-load-most")
    for id in ("ball-load-empty", "ball-load-laden", "axle-load-laden", "ball-load-floor", *most):
        assert shown(id) >= magnitude(found, id, "kg") - 1e-6


@pytest.mark.parametrize(
    ("berths", "length", "advised", "enough"),
    [
        (4, "5.5 m", "125 kg", True),
        (2, "4.3 m", "93 kg", True),
        (6, "12.5 m", "215 kg", True),
        (12, "9 m", "240 kg", False),
    ],
)
def test_the_advised_payload(berths: int, length: str, advised: str, enough: bool) -> None:
    """10 (n + L) + 30: EN 1645-2 (from memory); 125 and 93 kg are worked out apart from this program."""
    plates = {"body.length": length, "body.overall_length": "15 m"}
    found = compute(van(places=TWO, plates=plates, berths=berths, traits=("payload-advice",)))
    number = found.numbers["payload-advice"]
    assert number.shown == advised and "from memory" in number.source
    assert ("less than is advised" in number.sentence) == (not enough)
    told = [fault.message for fault in found.warnings if "EN 1645-2" in fault.message]
    assert len(told) == (not enough)
