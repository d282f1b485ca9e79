"""Payload and room left, against definitions and plates."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import compute
from generator.errors import ComputeError, Level, Source
from generator.model.numbers import Verdict

from .vans import COUPLING, SPEC, Fit, magnitude, place, van

GAS = {"bottles": 2, "bottle": "9 kg", "bottle_tare": "8.6 kg", "fuel": "propane"}


def test_payload_of_a_published_example() -> None:
    """ATM 3500 kg, tare 2500 kg: payload 1000 kg (an Australian mass guide; published, seen)."""
    plates = {"masses.unladen": "2500 kg", "masses.max_laden": "3500 kg", "masses.max_axle": "3250 kg"}
    assert magnitude(compute(van(plates=plates)), "payload", "kg") == pytest.approx(1000)


def test_payload_by_definition() -> None:
    """MTPLM 1500 kg, MIRO 1350 kg: user payload 150 kg (Regulation (EU) 1230/2012 article 2; computed)."""
    plates = {"masses.unladen": "1350 kg", "masses.max_laden": "1500 kg", "masses.max_axle": "1450 kg"}
    found = compute(van(plates=plates)).numbers["payload"]
    assert found.shown == "150 kg"
    assert found.limit == "1500 kg"


def test_only_what_the_unladen_mass_leaves_out_is_subtracted() -> None:
    held = Fit(slot="radio", parameters={"mass": "22 kg"}, at="D1")
    beside = Fit(slot="mover", parameters={"mass": "32.5 kg"}, at="D1", in_unladen=False)
    found = compute(van(held, beside, places=(place("D1", "4 m"),)))
    assert magnitude(found, "payload", "kg") == pytest.approx(1400 - 1180 - 32.5)
    assert found.numbers["payload"].shown == "187 kg"
    assert "Mover: mass" in {each.name for each in found.numbers["payload"].inputs}
    assert "Radio: mass" not in {each.name for each in found.numbers["payload"].inputs}


def test_gas_counts_with_its_full_bottles() -> None:
    gas = Fit(slot="gas", parameters=GAS, at="A1", in_unladen=False)
    found = compute(van(gas, places=(place("A1", "1.75 m"),)))
    assert magnitude(found, "payload", "kg") == pytest.approx(220 - 2 * 17.6)


def test_a_mass_the_catalogue_does_not_give_is_not_taken_for_nothing() -> None:
    found = compute(van(Fit(slot="mover", at="D1", in_unladen=False), places=(place("D1", "4 m"),)))
    assert found.numbers["payload"].shown == "Not known: read the mass of the mover off a scale"
    assert found.numbers["ball-load-empty"].value is None


@given(st.lists(st.floats(0.0, 30.0), min_size=1, max_size=6), st.integers(0, 5), st.floats(0.0, 10.0))
@settings(max_examples=25, deadline=None)
def test_a_heavier_item_never_raises_payload(masses: list[float], index: int, more: float) -> None:
    heavier = list(masses)
    heavier[index % len(masses)] += more
    assert payload_with(heavier) <= payload_with(masses) + 1e-9


@given(st.permutations([3.3, 7.1, 0.2, 12.9]))
@settings(max_examples=24, deadline=None)
def test_totals_do_not_depend_on_order(masses: list[float]) -> None:
    assert payload_with(masses) == pytest.approx(220 - 23.5)


def payload_with(masses: list[float]) -> float:
    fits = tuple(
        Fit(slot=f"item_{number}", parameters={"mass": f"{mass:.6f} kg"}, at="D1", in_unladen=False)
        for number, mass in enumerate(masses)
    )
    plates = {"masses.max_ball_load": "300 kg", "masses.unladen": "1180 kg"}
    coupling = Fit(slot="coupling", parameters={"max_ball_load": "300 kg"}, at="A0")
    return magnitude(compute(van(coupling, *fits, places=(place("D1", "4 m"),), plates=plates)), "payload", "kg")


@pytest.mark.parametrize(
    ("unladen", "verdict", "warned"), [("1260 kg", Verdict.WITHIN, False), ("1261 kg", Verdict.CLOSE, True)]
)
def test_payload_under_a_tenth_of_the_laden_mass_is_a_thin_margin(unladen: str, verdict: Verdict, warned: bool) -> None:
    found = compute(van(plates={"masses.unladen": unladen}))
    assert found.numbers["payload"].verdict is verdict
    told = [fault.message for fault in found.warnings]
    assert told == (
        ["thin margin: the payload of 139 kg is less than 10% of the maximum laden mass of 1400 kg"] if warned else []
    )


@pytest.mark.parametrize(
    ("unladen", "message"),
    [
        ("1401 kg", "the unladen mass of 1401 kg is over the maximum laden mass of 1400 kg"),
        (
            "1390 kg",
            "no payload is left: 1390 kg unladen and 10 kg of fitted equipment reach the maximum laden mass of 1400 kg",
        ),
    ],
)
def test_no_payload_is_refused(unladen: str, message: str) -> None:
    mover = Fit(slot="mover", parameters={"mass": "10 kg"}, at="D1", in_unladen=False)
    plates = {"masses.unladen": unladen, "masses.max_axle": "1500 kg"}
    with pytest.raises(ComputeError) as raised:
        compute(van(mover, places=(place("D1", "4 m"),), plates=plates))
    assert [fault.message for fault in raised.value.faults] == [message]


# --- room left --------------------------------------------------------------------------------------


def test_each_room_names_what_sets_it() -> None:
    """Coupling to axle 4 m, ball load 64 of 100 kg, payload 220 kg, axle 1116 of 1340 kg; moments by hand."""
    places = (
        place("A1", "1 m", "60 kg"),  # ahead: (100 - 64) / 0.75
        place("D1", "4 m", "30 kg"),  # own limit
        place("D2", "6 m", "300 kg"),  # behind: (64 - 25) / 0.5
        place("H1", "4 m"),  # payload: nothing else binds on the axle line
        place("H2", "4.4 m"),  # axle: (1340 - 1116) / 1.1
        place("H3"),  # neither limit nor position: no room is named
    )
    found = compute(van(places=places))
    rooms = [(code, room.shown, room.sentence) for code, room in found.place_limits.items()]
    assert rooms == [
        ("A1", "48 kg", "The ball load limit is 100 kg."),
        ("D1", "30 kg", "Its own limit is 30 kg."),
        ("D2", "78 kg", "The towball must keep 25 kg."),
        ("H1", "220 kg, and no limit of its own is stated", "The whole van may still carry 220 kg."),
        ("H2", "203 kg, and no limit of its own is stated", "The axle limit is 1340 kg."),
    ]
    assert found.tables["room-left"].rows == tuple((f"{code} Place {code}", *rest) for code, *rest in rooms)
    assert found.place_limits["A1"].limit == "60 kg"


def test_a_limit_covers_what_is_fitted_there_whether_the_unladen_mass_holds_it_or_not() -> None:
    gas = Fit(slot="gas", parameters=GAS, at="A1", in_unladen=False)
    held = Fit(slot="radio", parameters={"mass": "12 kg"}, at="A1")
    room = compute(van(gas, held, places=(place("A1", "3.9 m", "60 kg"),))).place_limits["A1"]
    assert room.value is not None and room.value.to("kg").magnitude == pytest.approx(60 - 35.2 - 12)
    assert room.sentence == "Its own limit is 60 kg, with 47.2 kg fitted in it."


def test_no_room_is_promised_at_a_flue() -> None:
    """A place with equipment and without a limit is not for storage; so is the coupling."""
    heater = Fit(slot="hot_water", parameters={"mass": "13 kg"}, at="B1")
    found = compute(van(heater, places=(place("B1", "2.6 m"), place("A9", "0 m"), place("D1", "3 m"))))
    assert list(found.place_limits) == ["D1"]


def test_a_place_without_a_position_counts_by_its_limit_and_the_payload() -> None:
    found = compute(van(places=(place("H1", None, "300 kg"),)))
    assert found.place_limits["H1"].sentence == "The whole van may still carry 220 kg."


def test_more_fitted_than_a_place_may_hold_is_refused_with_its_position() -> None:
    gas = Fit(slot="gas", parameters=GAS, at="A1", in_unladen=False)
    with pytest.raises(ComputeError) as raised:
        compute(van(gas, places=(place("A1", "3 m", "35 kg", line=17),)))
    (fault,) = raised.value.faults
    assert fault.message == "A1 Place A1 may hold 35 kg, but 35.2 kg is fitted there: gas 35.2 kg"
    assert (fault.source, fault.level) == (Source(SPEC, 17), Level.ERROR)


def test_an_unknown_limit_leaves_the_other_places_alone() -> None:
    found = compute(van(places=(place("D1", "3 m", "unknown"), place("D2", "4 m", "10 kg"))))
    assert found.place_limits["D1"].shown == "Not known: read the load limit of D1 Place D1 off the label at that place"
    assert found.place_limits["D2"].shown == "10 kg"
    assert found.tables["room-left"].rows[0] == (
        "D1 Place D1",
        "Not known",
        "Read the load limit of D1 Place D1 off the label at that place.",
    )


def test_without_a_known_plate_no_room_is_promised() -> None:
    places = (place("D1", "3 m", "20 kg"), place("B1", "3 m"))
    mover = Fit(slot="mover", parameters={"mass": "1 kg"}, at="B1")
    found = compute(
        van(mover, places=places, plates={"masses.max_axle": "unknown", "masses.ball_load_unladen": "unknown"})
    )
    assert list(found.place_limits) == ["D1"]
    assert set(found.place_limits["D1"].missing) == {
        "the maximum axle mass off the maker's plate of the van",
        "the ball load of the unladen van off a ball load gauge",
    }


@given(
    behind=st.floats(0.3, 6.2),
    limit=st.floats(20.0, 300.0),
    fitted=st.floats(0.0, 19.0),
    ball=st.floats(20.0, 80.0),
    axle=st.floats(1180.0, 1400.0),
)
@settings(max_examples=80, deadline=None)
def test_what_is_promised_breaks_no_plate(behind: float, limit: float, fitted: float, ball: float, axle: float) -> None:
    """Load the promised mass alone and judge by moments in plain numbers: every plate holds, none is below zero."""
    plates = {"masses.ball_load_unladen": f"{ball:.3f} kg", "masses.max_axle": f"{axle:.3f} kg"}
    item = Fit(slot="radio", parameters={"mass": f"{fitted:.3f} kg"}, at="D1")
    found = compute(van(COUPLING, item, places=(place("D1", f"{behind:.3f} m", f"{limit:.3f} kg"),), plates=plates))
    room = found.place_limits["D1"]
    assert room.value is not None
    exact_kg, shown_kg = float(room.value.to("kg").magnitude), int(room.shown.removesuffix(" kg"))
    assert 0 <= shown_kg <= exact_kg + 1e-6
    unladen, laden, length = 1180.0, 1400.0, 4.0
    x, noise = round(behind, 3), 1e-6
    pressed = round(ball, 3) + shown_kg * (length - x) / length
    assert shown_kg + round(fitted, 3) <= round(limit, 3) + noise
    assert unladen + shown_kg <= laden + noise
    if shown_kg:
        assert pressed <= 100 + noise
        assert unladen + shown_kg - pressed <= round(axle, 3) + noise
        if x > length:
            assert pressed >= 25 - noise
