"""Facts of a van: where each comes from, and what is refused."""

import pytest

from generator.model.sourced import UNKNOWN, Origin

from .conftest import HEAD, MODEL, ResolveVan, TellFaults


def test_origins(resolve_van: ResolveVan) -> None:
    facts = resolve_van("masses: {max_axle: unknown}\n").facts
    assert {path: fact.origin for path, fact in facts.items()} == {
        **dict.fromkeys(
            [
                *("masses.unladen", "masses.max_laden", "masses.max_axle", "masses.max_ball_load"),
                *("masses.ball_load_unladen", "body.length", "body.width", "body.height", "body.overall_length"),
                *("body.coupling_to_axle", "body.track", "wheels.tyre", "wheels.pressure", "wheels.nut_torque"),
                *("berths", "coupling.d_value", "coupling.max_ball_load", "gas.bottle", "gas.fuel"),
                *("fridge.gas_input", "fridge.basis", "place.A1.max_contents"),
            ],
            Origin.PLATE,
        ),
        **dict.fromkeys(["coupling.mass", "fridge.mass", "gas.bottles", "fridge.usable_share"], Origin.CATALOGUE),
        "axles": Origin.ASSUMPTION,
        "market.mains_voltage": Origin.MARKET,
    }
    assert facts["masses.max_axle"].value is UNKNOWN
    assert facts["gas.bottles"].value == 2


def test_what_was_measured_wins_and_says_so(resolve_van: ResolveVan) -> None:
    van = resolve_van("as_built: {unladen: 911 kg, ball_load_unladen: 61 kg, includes: [coupling, gas, fridge]}\n")
    for name, wanted in (("unladen", 911), ("ball_load_unladen", 61)):
        fact = van.facts[f"masses.{name}"]
        assert fact.value.to("kg").magnitude == wanted and fact.origin is Origin.MEASURED  # type: ignore[union-attr]
    assert van.unladen_measured and van.not_in_unladen == ()


def test_a_measurement_that_is_not_known_leaves_the_plate(resolve_van: ResolveVan) -> None:
    van = resolve_van("as_built: {unladen: unknown, includes: []}\n")
    assert van.facts["masses.unladen"].origin is Origin.PLATE
    assert not van.unladen_measured and van.not_in_unladen == ("gas",)


def test_only_the_ball_load_measured_leaves_the_unladen_mass_of_the_plate(resolve_van: ResolveVan) -> None:
    van = resolve_van("as_built: {ball_load_unladen: 61 kg}\n")
    assert van.facts["masses.ball_load_unladen"].origin is Origin.MEASURED
    assert not van.unladen_measured


def test_what_the_unladen_mass_does_not_hold_is_named_by_key(resolve_van: ResolveVan) -> None:
    lamps = "lamps: [{kind: reading, at: {switch: H1}}, {kind: entry, at: {switch: H1}}]"
    van = resolve_van(f"masses: {{unladen: 905 kg, unladen_includes: [coupling]}}\nfitted: {{{lamps}}}\n")
    assert van.not_in_unladen == ("gas", "fridge", "lamps.reading", "lamps.entry")


def test_a_given_mass_wins_over_the_catalogue(resolve_van: ResolveVan) -> None:
    fact = resolve_van("fitted: {fridge: {mass: 31.5 kg}}\n").facts["fridge.mass"]
    assert (fact.value.to("kg").magnitude, fact.origin) == (31.5, Origin.PLATE)  # type: ignore[union-attr]


def test_a_parameter_may_be_typed_in_any_unit_of_its_dimension(resolve_van: ResolveVan) -> None:
    """1 kWh is 3.6 MJ by definition, so 3.6 MJ/h is 1 kW (SI brochure, 9th edition, table 8)."""
    fact = resolve_van("fitted: {fridge: {gas_input: 3.6 MJ/h, basis: gross}}\n").facts["fridge.gas_input"]
    assert fact.value.to("kW").magnitude == pytest.approx(1)  # type: ignore[union-attr]


def test_an_unknown_gas_input_needs_no_basis(resolve_van: ResolveVan) -> None:
    fitting = "{kind: absorption, at: {control: H1}, gas_input: unknown}"
    van = resolve_van("", HEAD, **{MODEL: model(f"fridge: {fitting}")})
    assert van.facts["fridge.gas_input"].value is UNKNOWN
    assert "fridge.basis" not in van.facts


def test_the_basis_a_kind_declares_is_a_fact_too(resolve_van: ResolveVan) -> None:
    van = resolve_van("fitted: {hot_water: {kind: combined, at: {control: H1}, gas_input: 4 kW}}\n")
    assert (van.facts["hot_water.basis"].value, van.facts["hot_water.basis"].origin) == ("net", Origin.CATALOGUE)
    van = resolve_van("fitted: {hot_water: {kind: combined, at: {control: H1}, gas_input: 4 kW, basis: gross}}\n")
    assert (van.facts["hot_water.basis"].value, van.facts["hot_water.basis"].origin) == ("gross", Origin.PLATE)


def test_lists_stay_text_once_each_part_is_right(resolve_van: ResolveVan) -> None:
    fact = resolve_van("fitted: {fridge: {mains_steps: '60 W,0.12 kW'}}\n").facts["fridge.mains_steps"]
    assert fact.value == "60 W, 0.12 kW"


def test_an_optional_parameter_may_be_left_out(resolve_van: ResolveVan) -> None:
    assert "gas.regulator_flow" not in resolve_van().facts


@pytest.mark.parametrize(
    ("sheet", "path"),
    [
        ("masses: {unladen: 49 kg, unladen_includes: [coupling, fridge]}", "masses.unladen"),
        ("masses: {max_laden: 12000 kg}", "masses.max_laden"),
        ("masses: {ball_load_unladen: -1 kg}", "masses.ball_load_unladen"),
        ("body: {width: 4 m}", "body.width"),
        ("body: {height: -2 m}", "body.height"),
        ("wheels: {pressure: 36 bar}", "wheels.pressure"),
        ("wheels: {nut_torque: 9 N*m}", "wheels.nut_torque"),
        ("fitted: {fridge: {mass: 900 kg}}", "mass"),
    ],
)
def test_a_slip_of_unit_or_sign_is_refused(sheet: str, path: str, tell: TellFaults) -> None:
    (fault,) = tell(sheet + "\n")
    assert f"error: {path} of " in fault and fault.endswith("cannot be right")


@pytest.mark.parametrize(
    ("position", "right"),
    [
        ("5.7 m, 0 m", True),
        ("5.71 m, 0 m", False),
        ("-20 cm, 0 m", True),
        ("-21 cm, 0 m", False),
        ("1 m, 1.25 m", True),
        ("1 m, -1.25 m", True),
        ("1 m, 1.26 m", False),
        ("1 m, -1260 mm", False),
    ],
)
def test_a_place_stands_in_or_at_most_20_cm_outside_the_van(
    position: str, right: bool, resolve_van: ResolveVan, tell: TellFaults
) -> None:
    """The small van is 5.50 m long over all and 2.10 m wide."""
    sheet = f"places: [{{code: D1, name: Door, where: outside, position: [{position}]}}]\n"
    if right:
        assert resolve_van(sheet).place("D1").position is not None
    else:
        assert len(tell(sheet)) == 1


def test_a_position_cannot_be_judged_where_the_size_is_not_known(resolve_van: ResolveVan) -> None:
    sheet = "body: {overall_length: unknown, width: unknown}\n"
    sheet += "places: [{code: D1, name: Door, where: outside, position: [9 m, 2 m]}]\n"
    assert resolve_van(sheet).place("D1")


def test_an_axle_rating_above_the_laden_mass_is_no_fault(resolve_van: ResolveVan) -> None:
    assert resolve_van("masses: {max_axle: 1300 kg}\n")


def test_limits_are_left_to_the_numbers(resolve_van: ResolveVan) -> None:
    """Over a plate is a verdict, which says by how much; here only nonsense is refused."""
    assert resolve_van("masses: {ball_load_unladen: 140 kg}\n")


def test_all_faults_of_a_van_are_told_at_once_and_in_order(tell: TellFaults) -> None:
    faults = tell(
        "masses: {max_laden: 9 kg}\nfitted:\n  fridge: {basis: x}\n  gas: {bottle: 1 m}\n"
        "places: [{code: D1, name: X}]\ncircuits: [{name: Y, fuse: 1 A, at: Z9}]\n"
    )
    assert [fault.split(" error")[0] for fault in faults] == [
        "vans/dune-1.yaml:5:21:",
        "vans/dune-1.yaml:7:19:",
        "vans/dune-1.yaml:8:17:",
        "vans/dune-1.yaml:9:17:",
        "vans/dune-1.yaml:10:37:",
    ]


def test_positions_are_those_of_the_file_that_gives_the_value(tell: TellFaults) -> None:
    broken = model("fridge: {kind: absorption, at: {control: H1}, gas_input: 1 L, basis: net}")
    assert tell("", HEAD, **{MODEL: broken}) == [
        'models/dune-400.yaml:20:60: error: gas_input: "1 L" is of the wrong kind: a quantity in kW is needed'
    ]


def model(fridge: str) -> str:
    """Return the small model with another line for its fridge."""
    from ..conftest import SMALL

    lines = (SMALL / MODEL).read_text().split("\n")
    return "\n".join(f"  {fridge}" if line.startswith("  fridge:") else line for line in lines)
