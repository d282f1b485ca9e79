"""Masses, balance and coupling against published formulas, worked examples and figures.

Beside each value: where it is from, and how sure that is. "Seen" was read in a publication or a page that quotes
it, "memory" was not read again, "computed" was worked out apart from this program.
"""

from pathlib import Path

import pytest

from generator.compute import compute
from generator.compute.coupling import d_value, dc_value, heaviest_partner, v_value
from generator.compute.levelling import rise
from generator.compute.matching import axle_changes
from generator.load import load
from generator.model.content import Workspace
from generator.model.numbers import Numbers
from generator.units import Quantity

from ..compute.vans import Fit, magnitude, place, van

ROOT = Path(__file__).parents[2]


def tonnes(mass: float) -> Quantity:
    return Quantity(mass, "t")


# --- UN R55 -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("car", "trailer", "kilonewtons"),
    [
        (3.5, 2.0, 12.485),  # UN R55 paragraph 2.11, formula seen; a towing page prints 12.50 for it, rounded up
        (2.0, 1.8, 9.294),  # computed
        (2.1, 1.5, 8.584),  # computed
        (3.0, 3.5, 15.847),  # computed
    ],
)
def test_d_value(car: float, trailer: float, kilonewtons: float) -> None:
    assert d_value(tonnes(car), tonnes(trailer)).to("kN").magnitude == pytest.approx(kilonewtons, abs=5e-4)
    turned_round = d_value(tonnes(trailer), tonnes(car)).to("kN").magnitude
    assert turned_round == pytest.approx(kilonewtons, abs=5e-4)


def test_the_published_d_value_is_that_of_the_formula_rounded_up() -> None:
    """12.50 kN for 3.5 t and 2.0 t is printed (seen); whoever prints it rounds up to a quarter."""
    exact = d_value(tonnes(3.5), tonnes(2.0)).to("kN").magnitude
    assert exact < 12.50 < exact * 1.002


def test_d_value_solved_for_the_trailer() -> None:
    """R = D T / (g T - D): 10.5 kN and 2.2 t give 2.0845 t (UN R55, rearranged; computed)."""
    found = heaviest_partner(Quantity(10.5, "kN"), tonnes(2.2))
    assert found is not None
    assert found.to("t").magnitude == pytest.approx(2.0845, abs=5e-5)


def test_dc_value() -> None:
    """Dc = g T C / (T + C), Directive 94/20/EC (formula seen): 3.5 t and 3.4 t give 16.919 kN (computed)."""
    assert dc_value(tonnes(3.5), tonnes(3.4)).to("kN").magnitude == pytest.approx(16.919, abs=5e-4)


@pytest.mark.parametrize(
    ("a", "body", "drawbar", "on_wheels", "kilonewtons"),
    [
        (1.8, 6.0, 5.0, 3.4, 8.813),  # Directive 94/20/EC, formula seen; computed
        (2.4, 7.5, 8.0, 17.0, 40.8),  # X^2 / L^2 below 1 counts as 1; computed
    ],
)
def test_v_value(a: float, body: float, drawbar: float, on_wheels: float, kilonewtons: float) -> None:
    found = v_value(Quantity(body, "m"), Quantity(drawbar, "m"), tonnes(on_wheels), Quantity(a, "m/s**2"))
    assert found.to("kN").magnitude == pytest.approx(kilonewtons, abs=5e-4)


# --- what a ball load does to the car ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("ball", "wheelbase", "overhang", "front", "rear"),
    [
        # "300 kg can add 400 kg to the rear and lift 100 kg off the front" (a towing page, seen)
        (300.0, 3.0, 1.0, -100.0, 400.0),
        (250.0, 2.85, 1.15, -100.88, 350.88),  # statics; computed
    ],
)
def test_load_transfer_to_the_axles_of_the_car(
    ball: float, wheelbase: float, overhang: float, front: float, rear: float
) -> None:
    found = axle_changes(Quantity(ball, "kg"), Quantity(wheelbase, "m"), Quantity(overhang, "m"))
    assert [each.to("kg").magnitude for each in found] == pytest.approx([front, rear], abs=5e-3)
    assert sum(each.to("kg").magnitude for each in found) == pytest.approx(ball)


# --- moments ----------------------------------------------------------------------------------------

STRONG = Fit(slot="coupling", parameters={"max_ball_load": "500 kg", "d_value": "24 kN"}, at="A0")
STURDY = {"masses.max_laden": "4500 kg", "masses.max_ball_load": "500 kg", "masses.max_axle": "4400 kg"}
TYRE = {"wheels.tyre": "225/75 R16C 126N"}


def balanced(unladen: float, ball: float, axle: float, items: list[tuple[float, float]]) -> Numbers:
    """Return the numbers of a van with items of a mass at a distance behind the coupling."""
    fits = [
        Fit(slot=f"item_{n}", parameters={"mass": f"{mass} kg"}, at=f"D{n}", in_unladen=False)
        for n, (mass, _) in enumerate(items)
    ]
    plates = {
        **STURDY,
        **TYRE,
        "masses.unladen": f"{unladen} kg",
        "masses.ball_load_unladen": f"{ball} kg",
        "body.coupling_to_axle": f"{axle} m",
    }
    places = tuple(place(f"D{n}", f"{behind} m") for n, (_, behind) in enumerate(items))
    return compute(van(STRONG, *fits, places=places, plates=plates, axles=2, traits=("twin-axle",)))


BAGS = [(40.0, 1.0), (60.0, 3.0), (40.0, 4.2), (20.0, 5.8), (27.0, 0.6)]


@pytest.mark.parametrize(
    ("items", "ball", "weight", "wheels"),
    [
        (BAGS, 126.95, 1437.0, 1310.05),  # statics about the axle; computed
        ([*BAGS, (80.0, 3.8)], 130.95, 1517.0, 1386.05),  # the same with 80 kg of water; computed
    ],
)
def test_moment_balance(items: list[tuple[float, float]], ball: float, weight: float, wheels: float) -> None:
    found = balanced(1250.0, 70.0, 4.0, items)
    pressed = magnitude(found, "ball-load-empty", "kg")
    mass = 4500.0 - magnitude(found, "payload", "kg")
    assert (pressed, mass, mass - pressed) == pytest.approx((ball, weight, wheels), abs=5e-3)


@pytest.mark.parametrize(
    ("tongue_lb", "wheels_lb", "length_in", "inches"),
    [
        (1025.0, 7200.0, 264.0, 6.50),  # a page on placing axles, X = (tongue - 10 % of all) / all x D (seen)
        (300.0, 8200.0, 264.0, -17.08),  # the same page prints 17 inches towards the rear (seen)
    ],
)
def test_moving_the_mass_by_the_published_distance_gives_ten_percent(
    tongue_lb: float, wheels_lb: float, length_in: float, inches: float
) -> None:
    """The page moves the axle under the mass; moving the mass over the axle by as much is the same moment."""
    all_kg, length = (tongue_lb + wheels_lb) * 0.45359237, length_in * 0.0254  # pound and inch by definition
    at = length * (1 - tongue_lb / (tongue_lb + wheels_lb))
    found = balanced(100.0, 0.0, round(length, 6), [(all_kg, round(at + inches * 0.0254, 6))])
    assert magnitude(found, "ball-load-empty", "kg") == pytest.approx(all_kg * 0.10, rel=3e-3)


# --- masses -----------------------------------------------------------------------------------------


def weighed(unladen: str, laden: str, axle: str) -> Numbers:
    plates = {**STURDY, **TYRE, "masses.unladen": unladen, "masses.max_laden": laden, "masses.max_axle": axle}
    head = Fit(slot="coupling", parameters={"max_ball_load": "350 kg", "d_value": "24 kN"}, at="A0")
    return compute(van(head, plates={**plates, "masses.max_ball_load": "350 kg"}))


def test_payload_and_least_ball_load_of_an_australian_example() -> None:
    """Tare 2500, GTM 3250, ATM 3500 kg: payload 1000 kg, 250 kg on the ball at full ATM (a mass guide, seen)."""
    found = weighed("2500 kg", "3500 kg", "3250 kg")
    assert magnitude(found, "payload", "kg") == pytest.approx(1000)
    assert magnitude(found, "ball-load-floor", "kg") == pytest.approx(250)


def test_user_payload_by_definition() -> None:
    """MTPLM 1500, MIRO 1350 kg: 150 kg (Regulation (EU) 1230/2012 article 2, definition seen; computed)."""
    found = weighed("1350 kg", "1500 kg", "1450 kg")
    assert magnitude(found, "payload", "kg") == pytest.approx(150)


@pytest.mark.parametrize(("berths", "length", "advised"), [(4, "5.5 m", 125), (2, "4.3 m", 93)])
def test_least_payload_by_en_1645_2(berths: int, length: str, advised: float) -> None:
    """10 (n + L) + 30 kg: EN 1645-2 (memory: not read again; only advice is made of it)."""
    found = compute(van(plates={"body.length": length}, berths=berths, traits=("payload-advice",)))
    assert magnitude(found, "payload-advice", "kg") == pytest.approx(advised)


# --- what the files of the markets say --------------------------------------------------------------


@pytest.fixture(scope="module")
def shipped() -> Workspace:
    return load(ROOT)


@pytest.mark.parametrize(
    ("market", "low", "high"),
    [
        ("uk", 5, 7),  # UK towing guides (seen)
        ("au", 8, 10),  # an Australian magazine (seen)
        ("nz", 10, 10),  # common practice, no source
        ("eu", 4, 7),  # 4 %: EU type approval (memory)
    ],
)
def test_guidance_for_the_ball_load(shipped: Workspace, market: str, low: float, high: float) -> None:
    share = shipped.markets[market].ball_load_share.value
    assert [each.to("percent").magnitude for each in share] == [low, high]


@pytest.mark.parametrize(
    ("market", "mass", "of"),
    [
        ("uk", 750, "laden"),  # towing rules for Great Britain (seen)
        ("nz", 2000, "laden"),  # summaries of the light-vehicle brakes rule (seen)
        ("au", 750, "wheels"),  # GTM, a Queensland page on towing (seen)
        ("eu", 750, "laden"),  # Regulation (EU) 2018/858, category O1 (memory)
    ],
)
def test_limit_of_a_van_without_brakes(shipped: Workspace, market: str, mass: float, of: str) -> None:
    limit = shipped.markets[market].unbraked_limit
    assert limit is not None
    assert (limit.mass.value.to("kg").magnitude, limit.of) == (mass, of)


@pytest.mark.parametrize(
    ("market", "braked", "unbraked"),
    [
        ("uk", 85, 50),  # 85 %: UK guides (seen), advice; 50 %: Construction and Use Regulations (memory)
        ("nz", None, 75),  # New Zealand towing text (seen), a guide for a van without brakes
        ("au", None, None),
        ("eu", None, None),
    ],
)
def test_share_of_the_kerb_mass(shipped: Workspace, market: str, braked: float | None, unbraked: float | None) -> None:
    of = shipped.markets[market]
    shares = [each and each.share.value.to("percent").magnitude for each in (of.kerb_braked, of.kerb_unbraked)]
    assert shares == [braked, unbraked]


# --- levelling --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("degrees", "sine"), [(1.0, 0.0175), (2.0, 0.0349), (3.0, 0.0523), (5.0, 0.0872)])
def test_heights_follow_a_four_figure_table_of_sines(degrees: float, sine: float) -> None:
    """Four-figure tables of sines, as printed in school books (memory; the digits are computed)."""
    assert rise(Quantity(1.0, "m"), degrees).value.to("m").magnitude == pytest.approx(sine, abs=5e-5)
