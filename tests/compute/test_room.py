"""Room left in each place, against moments by hand and the plates."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import compute
from generator.errors import ComputeError, Level, Source

from .vans import COUPLING, SPEC, Fit, place, van

GAS = {"bottles": 2, "bottle": "9 kg", "bottle_tare": "8.6 kg", "fuel": "propane"}


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
    """Without a limit a place with equipment is not for storage, nor the coupling, nor a door outside."""
    heater = Fit(slot="hot_water", parameters={"mass": "13 kg"}, at="B1")
    places = (place("B1", "2.6 m"), place("A9", "0 m"), place("D1", "3 m"), place("H1", "3 m"))
    assert list(compute(van(heater, places=places)).place_limits) == ["H1"]


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
