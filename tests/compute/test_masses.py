"""Payload, against definitions and a published example."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import compute
from generator.errors import ComputeError
from generator.model.numbers import Verdict

from .vans import Fit, magnitude, place, van

GAS = {"bottles": 2, "bottle": "9 kg", "bottle_tare": "8.6 kg", "fuel": "propane"}


def test_payload_of_a_published_example() -> None:
    """ATM 3500 kg, tare 2500 kg: payload 1000 kg (an Australian mass guide; published, seen)."""
    plates = {
        "masses.unladen": "2500 kg",
        "masses.max_laden": "3500 kg",
        "masses.max_axle": "3250 kg",
        "masses.max_ball_load": "350 kg",
        "masses.ball_load_unladen": "200 kg",
    }
    head = Fit(slot="coupling", parameters={"max_ball_load": "350 kg"}, at="A0")
    assert magnitude(compute(van(head, plates=plates)), "payload", "kg") == pytest.approx(1000)


def test_payload_is_counted_from_what_axle_and_towball_carry_where_that_is_less() -> None:
    """W = A + N for any van: 1250 kg on the axle and 100 kg on the ball are 1350 kg, whatever the plate of 1400 kg."""
    found = compute(van(plates={"masses.max_axle": "1250 kg"}))
    assert magnitude(found, "payload", "kg") == pytest.approx(1350 - 1180)
    assert found.numbers["payload"].limit == "1350 kg"
    assert "all that axle and towball may carry" in found.numbers["payload"].sentence
    assert [fault.message for fault in found.warnings] == [
        "the plates of axle and towball carry 1350 kg together, less than the maximum laden mass of 1400 kg:"
        " payload is counted from 1350 kg"
    ]


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


# --- what the van was weighed with ------------------------------------------------------------------


def changed(now_kg: float, was_kg: float, now_at: str = "D1", was_at: str = "D1"):
    now = Fit(slot="radio", parameters={"mass": f"{now_kg} kg"}, at=now_at)
    was = Fit(slot="radio", parameters={"mass": f"{was_kg} kg"}, at=was_at)
    return van(now, places=(place("D1", "2 m"), place("D2", "6 m")), was=(was,))


@pytest.mark.parametrize(("now", "was", "payload"), [(30, 22, 212), (22, 22, 220), (10, 22, 220), (22, 0, 198)])
def test_heavier_than_weighed_lowers_payload_and_lighter_raises_nothing(now: float, was: float, payload: float) -> None:
    assert magnitude(compute(changed(now, was)), "payload", "kg") == pytest.approx(payload)


def test_the_working_names_what_the_van_was_weighed_with() -> None:
    read = {each.name: each.shown for each in compute(changed(30, 22)).numbers["payload"].inputs}
    assert (read["Radio: mass"], read["Radio weighed with the van: mass"]) == ("30 kg", "22 kg")


def test_a_mass_weighed_with_the_van_that_is_not_known_leaves_no_payload() -> None:
    now = Fit(slot="radio", parameters={"mass": "30 kg"}, at="D1")
    was = Fit(slot="radio", parameters={"mass": "unknown"}, at="D1")
    found = compute(van(now, places=(place("D1", "2 m"),), was=(was,))).numbers
    assert found["payload"].missing == ("the mass of the test kind of the model",)
    assert found["ball-load-empty"].value is None


def test_bigger_bottles_than_weighed_count_with_their_difference() -> None:
    now = Fit(slot="gas", parameters=GAS, at="A1")
    was = Fit(slot="gas", parameters={**GAS, "bottle": "6 kg", "bottle_tare": "8.2 kg"}, at="A1")
    found = compute(van(now, places=(place("A1", "1.75 m"),), was=(was,)))
    assert magnitude(found, "payload", "kg") == pytest.approx(220 - 2 * (17.6 - 14.2))


@given(st.floats(0.0, 70.0), st.floats(0.0, 70.0))
@settings(max_examples=30, deadline=None)
def test_no_exchange_ever_raises_payload(now: float, was: float) -> None:
    assert magnitude(compute(changed(round(now, 4), round(was, 4))), "payload", "kg") <= 220 + 1e-9


@pytest.mark.parametrize(
    ("now", "was", "now_at", "was_at", "ball"),
    [
        (30, 22, "D1", "D1", 64 + 8 * 0.5),  # 8 kg more, half of it on the ball
        (10, 22, "D1", "D1", 64 - 12 * 0.5),  # lighter in front: less on the ball
        (10, 22, "D2", "D2", 64 + 12 * 0.5),  # lighter behind the axle: more on the ball
        (22, 22, "D2", "D1", 64 - 22 * 0.5 - 22 * 0.5),  # moved from before the axle to behind it
        (22, 22, "D1", "D1", 64),
    ],
)
def test_the_ball_load_follows_mass_and_place(now: float, was: float, now_at: str, was_at: str, ball: float) -> None:
    """Moments about the axle by hand: coupling to axle 4 m, places at 2 m and 6 m."""
    found = compute(changed(now, was, now_at, was_at))
    assert magnitude(found, "ball-load-empty", "kg") == pytest.approx(ball)


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
