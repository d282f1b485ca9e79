"""What the car must allow, and the limit for a van without brakes."""

import pytest

from generator.compute import compute
from generator.errors import ComputeError, Level
from generator.model.content import KerbShare, UnbrakedLimit
from generator.model.numbers import Verdict
from generator.model.sourced import Given

from .vans import AT, Fit, market, place, quantity, van

ADVICE = KerbShare(share=Given(quantity("85 percent"), AT), text="Advice.", source="guides", read_on="2026-11")
LAW = KerbShare(share=Given(quantity("50 percent"), AT), text="Law.", source="rules (from memory)", read_on="2026-11")
STATIC = {"masses.unladen": "500 kg", "masses.ball_load_unladen": "40 kg"}


def limit(mass: str = "750 kg", of: str = "laden") -> UnbrakedLimit:
    return UnbrakedLimit(mass=Given(quantity(mass), AT), of=of, source="towing rules", read_on="2026-11")  # type: ignore[arg-type]


def rows(*traits: str, where: str = "uk", plates: dict[str, str] | None = None, **changes: object):
    found = compute(van(plates=plates, traits=traits, on=market(where, **changes)))
    return {row[0]: row[1:] for row in found.tables["car-must-allow"].rows}


def test_every_row_says_what_this_van_asks() -> None:
    """1400 kg; 5 % of it are 70 kg, its axle for 1340 kg needs 60; D-values by 9.81 T R / (T + R), rounded up."""
    assert rows() == {
        "Greatest trailer mass, with brakes": ("1400 kg", "The most this van may weigh"),
        "Greatest mass of both together": ("the loaded car and 1400 kg", "Both are weighed loaded"),
        "Greatest load on the towbar": ("70 kg", "The least this van needs there when full"),
        "D-value of the towbar, car up to 1500 kg": ("7.2 kN", "Pull between car and van"),  # 7.1038
        "D-value of the towbar, car up to 2000 kg": ("8.1 kN", "Pull between car and van"),  # 8.0788
        "D-value of the towbar, car up to 2500 kg": ("8.9 kN", "Pull between car and van"),  # 8.8038
        "D-value of the towbar, car up to 3500 kg": ("9.9 kN", "Pull between car and van"),  # 9.81
    }


@pytest.mark.parametrize(
    ("where", "axle", "needed"),
    [
        ("uk", "1310 kg", "90 kg"),  # the axle asks for more than guidance
        ("nz", "1340 kg", "100 kg"),  # 10 % would be 140 kg: the plate wins
        ("uk", "unknown", "Not known: read the maximum axle mass off the maker's plate of the van"),
    ],
)
def test_the_load_on_the_towbar_is_what_guidance_and_axle_ask_within_the_plates(
    where: str, axle: str, needed: str
) -> None:
    assert rows(where=where, plates={"masses.max_axle": axle})["Greatest load on the towbar"][0] == needed


def test_kerb_mass_stands_only_where_the_market_has_a_share() -> None:
    assert "Kerb mass of the car" not in rows(kerb_unbraked=LAW)
    asked, why = rows(kerb_braked=ADVICE)["Kerb mass of the car"]
    assert asked == "1648 kg"  # 1400 / 0.85 = 1647.06
    assert why == "Advice. Van at most 85 % of it. Source: guides; read 2026-11"
    asked, why = rows("unbraked", kerb_braked=ADVICE, kerb_unbraked=LAW)["Kerb mass of the car"]
    assert (asked, why) == ("2800 kg", "Law. Van at most 50 % of it. Source: rules (not looked up again)")


def test_above_three_and_a_half_tonnes_dc_and_v_are_asked_too() -> None:
    """C = 3.4 t, T = 3.5 t: Dc 16.919 kN. V = 2.4 x (6/5)^2 x 3.4 = 11.7504 kN."""
    plates = {
        "masses.max_laden": "3600 kg",
        "masses.max_axle": "3400 kg",
        "masses.max_ball_load": "300 kg",
        "masses.unladen": "2500 kg",
        "masses.ball_load_unladen": "200 kg",
        "body.length": "6 m",
        "body.coupling_to_axle": "5 m",
    }
    head = Fit(slot="coupling", parameters={"max_ball_load": "300 kg", "d_value": "24 kN"}, at="A0")
    found = compute(van(head, plates=plates, axles=2, traits=("twin-axle",)))
    told = {row[0]: row[1] for row in found.tables["car-must-allow"].rows}
    assert told["Dc-value of the towbar, car up to 3500 kg"] == "17 kN"
    assert told["V-value of the towbar"] == "11.8 kN"
    assert "V-value of the towbar" not in rows()


# --- without brakes ---------------------------------------------------------------------------------


def unbraked(laden: str, on: UnbrakedLimit | None, axle: str = "700 kg"):
    plates = {**STATIC, "masses.max_laden": laden, "masses.max_axle": axle}
    changes = {"unbraked_limit": on} if on else {}
    return compute(
        van(plates=plates, traits=("unbraked",), on=market(**changes), places=(place("H1", "4 m", "50 kg"),))
    )


@pytest.mark.parametrize(
    ("laden", "verdict", "warned"),
    [("650 kg", Verdict.WITHIN, 0), ("700 kg", Verdict.CLOSE, 1), ("750 kg", Verdict.CLOSE, 1)],
)
def test_a_van_without_brakes_is_held_to_the_local_limit(laden: str, verdict: Verdict, warned: int) -> None:
    found = unbraked(laden, limit())
    number = found.numbers["unbraked-limit"]
    assert (number.shown, number.verdict, number.source) == ("750 kg", verdict, "towing rules; read 2026-11")
    assert sum("without brakes" in fault.message for fault in found.warnings) == warned
    assert {fault.level for fault in found.warnings} <= {Level.WARNING}


def test_over_the_limit_it_is_refused() -> None:
    with pytest.raises(ComputeError) as raised:
        unbraked("760 kg", limit())
    assert "a van without brakes may weigh 750 kg with its load here, and this one 760 kg" in str(raised.value)


def test_where_the_wheels_count_the_ball_load_is_left_out() -> None:
    found = unbraked("790 kg", limit(of="wheels")).numbers["unbraked-limit"]
    assert found.sentence == "This van may weigh 700 kg on its wheels. 750 kg is allowed without brakes."


def test_without_a_local_limit_the_number_says_what_to_read() -> None:
    assert unbraked("650 kg", None).numbers["unbraked-limit"].missing == (
        "the most a van without brakes may weigh off your local rules",
    )
