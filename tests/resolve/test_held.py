"""What the unladen mass still holds where a chassis fits another kind than its model was weighed with."""

from generator.model.sourced import Origin

from .conftest import HEAD, MODEL, ResolveVan

PLAIN = "fitted: {coupling: {kind: plain-ball, at: {head: A0}, d_value: 12 kN, max_ball_load: 100 kg}}\n"
LAMPS = "lamps: [{kind: reading, at: {switch: H1}}]"


def held(van: object) -> list[tuple[str, str]]:
    return [(each.was.key, each.was.kind.id) for each in van.held_in_unladen]  # type: ignore[attr-defined]


def test_another_kind_in_a_slot_of_the_inherited_list_is_handed_over(resolve_van: ResolveVan) -> None:
    van = resolve_van(PLAIN)
    assert held(van) == [("coupling", "friction-ball")]
    (friction,) = van.held_in_unladen
    mass = friction.facts["coupling.mass"]
    assert (mass.value.to("kg").magnitude, mass.origin) == (5.4, Origin.CATALOGUE)  # type: ignore[union-attr]
    assert friction.behind["A0"].to("m").magnitude == 0
    assert van.held_in_ball_load == van.held_in_unladen
    assert "coupling" not in van.not_in_unladen


def test_the_same_kind_with_other_parameters_weighs_the_same(resolve_van: ResolveVan) -> None:
    assert held(resolve_van("fitted: {fridge: {gas_input: 0.3 kW, basis: gross}}\n")) == []


def test_the_same_kind_with_another_mass_or_place_is_handed_over(resolve_van: ResolveVan) -> None:
    assert held(resolve_van("fitted: {fridge: {mass: 31 kg}}\n")) == [("fridge", "absorption")]
    moved = resolve_van("fitted: {fridge: {at: {control: H2}}}\n")
    assert held(moved) == [("fridge", "absorption")]
    assert moved.held_in_unladen[0].behind["H1"].to("m").magnitude == 3.0


def test_what_the_list_leaves_out_is_not_held(resolve_van: ResolveVan) -> None:
    assert held(resolve_van("fitted: {gas: {bottle: 9 kg}}\n")) == []


def test_a_mass_stated_for_this_chassis_holds_what_is_fitted(resolve_van: ResolveVan) -> None:
    assert held(resolve_van(f"masses: {{unladen: 905 kg, unladen_includes: [coupling, fridge]}}\n{PLAIN}")) == []


def test_a_list_alone_leaves_the_mass_with_its_model(resolve_van: ResolveVan) -> None:
    van = resolve_van(f"masses: {{unladen_includes: [coupling]}}\n{PLAIN}")
    assert held(van) == [("coupling", "friction-ball")]
    assert van.not_in_unladen == ("gas", "fridge")


def test_a_van_weighed_as_built_holds_what_is_fitted(resolve_van: ResolveVan) -> None:
    van = resolve_van(f"as_built: {{unladen: 911 kg, includes: [coupling, gas, fridge]}}\n{PLAIN}")
    assert held(van) == []
    # Its ball load was not measured: that of the model still holds the coupling and lacks the gas.
    assert [each.was.kind.id for each in van.held_in_ball_load] == ["friction-ball"]
    assert (van.not_in_unladen, van.not_in_ball_load) == ((), ("gas",))


def test_a_ball_load_measured_alone_holds_what_is_fitted_and_what_the_plate_lists(resolve_van: ResolveVan) -> None:
    van = resolve_van(f"as_built: {{ball_load_unladen: 61 kg}}\n{PLAIN}")
    assert held(van) == [("coupling", "friction-ball")]
    assert (van.held_in_ball_load, van.not_in_ball_load) == ((), ("gas",))


def test_a_measured_ball_load_may_hold_more_than_the_plate_lists(resolve_van: ResolveVan) -> None:
    van = resolve_van("as_built: {ball_load_unladen: 66 kg, includes: [coupling, gas, fridge]}\n")
    assert (van.not_in_unladen, van.not_in_ball_load) == (("gas",), ())


def test_one_more_kind_in_a_slot_of_many_is_not_in_the_mass(resolve_van: ResolveVan) -> None:
    model = (MODEL_TEXT + f"  {LAMPS}\n").replace("[coupling, fridge]", "[coupling, fridge, lamps]")
    two = "fitted: {lamps: [{kind: reading, at: {switch: H1}}, {kind: entry, at: {switch: H1}}]}\n"
    van = resolve_van(two, HEAD, **{MODEL: model})
    assert van.not_in_unladen == ("gas", "lamps.entry")
    assert held(van) == [("lamps.reading", "reading")]  # the same lamp: no difference in mass follows
    one = resolve_van("fitted: {lamps: [{kind: entry, at: {switch: H1}}]}\n", HEAD, **{MODEL: model})
    assert (one.not_in_unladen, held(one)) == (("gas", "lamps.entry"), [])


MODEL_TEXT = """\
name: Dune 400
berths: 2
masses: {unladen: 900 kg, unladen_includes: [coupling, fridge], max_laden: 1200 kg, max_axle: 1150 kg,
  max_ball_load: 100 kg, ball_load_unladen: 60 kg}
body: {length: 4.00 m, width: 2.10 m, overall_length: 5.50 m, coupling_to_axle: 3.40 m}
wheels: {tyre: "185/70 R14 88N", pressure: 2.8 bar, nut_torque: 90 N*m}
places:
  - {code: A0, name: Coupling, where: outside, position: [0 m, 0 m]}
  - {code: A1, name: Front locker, where: outside, position: [1.3 m, 0 m]}
  - {code: H1, name: Kitchen, where: inside, position: [3.0 m, 0.8 m]}
fitted:
  coupling: {kind: friction-ball, at: {head: A0}, d_value: 12 kN, max_ball_load: 100 kg}
  gas: {kind: two-bottles, at: {bottles: A1}, bottle: 6 kg, fuel: propane}
  fridge: {kind: absorption, at: {control: H1}, gas_input: 0.2 kW, basis: net}
"""
