"""A chassis over its models: what is given changes, all else stays."""

from generator.errors import Source

from .conftest import HEAD, MODEL, VAN, ResolveVan, TellFaults


def codes(van: object) -> list[str]:
    return [place.code for place in van.places]  # type: ignore[attr-defined]


def test_a_chassis_that_adds_nothing_is_its_model(resolve_van: ResolveVan) -> None:
    van = resolve_van()
    assert (van.chassis, van.tail, van.model) == ("ZZ9DN40N8TH000001", "000001", "Dune 400")
    assert codes(van) == ["A0", "A1", "H1", "H2"]
    assert [(item.slot.id, item.kind.id) for item in van.equipment] == [
        ("coupling", "friction-ball"),
        ("gas", "two-bottles"),
        ("fridge", "absorption"),
    ]
    assert [circuit.name for circuit in van.circuits] == ["Lights", "Water pump"]
    assert van.source == Source(VAN, 1, 1)


def test_single_fields_of_masses_body_and_wheels_win(resolve_van: ResolveVan) -> None:
    van = resolve_van("masses: {max_laden: 1300 kg}\nwheels: {pressure: 3.0 bar}\n")
    assert van.facts["masses.max_laden"].value.to("kg").magnitude == 1300  # type: ignore[union-attr]
    assert van.facts["masses.max_laden"].source == Source(VAN, 5, 21)
    assert van.facts["masses.max_axle"].source == Source(MODEL, 7, 13)
    assert van.facts["wheels.tyre"].value == "185/70 R14 88N"


def test_a_known_code_changes_its_place_and_keeps_the_rest(resolve_van: ResolveVan) -> None:
    place = resolve_van("places: [{code: A1, name: Front box, vented: no}]\n").place("A1")
    assert (place.name, place.where, place.vented, place.label) == ("Front box", "outside", False, True)
    assert place.max_contents and place.max_contents.value.to("kg").magnitude == 40  # type: ignore[union-attr]


def test_new_places_come_last_or_after_another(resolve_van: ResolveVan) -> None:
    new = "{code: D1, name: Door, where: outside, after: A1}, {code: D2, name: Step, where: outside}"
    assert codes(resolve_van(f"places: [{new}]\n")) == ["A0", "A1", "D1", "H1", "H2", "D2"]


def test_after_may_name_a_place_that_comes_later_in_the_same_list(resolve_van: ResolveVan) -> None:
    new = "{code: D1, name: Door, where: outside, after: D2}, {code: D2, name: Step, where: outside, after: A0}"
    assert codes(resolve_van(f"places: [{new}]\n")) == ["A0", "D2", "D1", "A1", "H1", "H2"]


def test_of_several_after_one_place_the_first_written_comes_first(resolve_van: ResolveVan) -> None:
    new = "{code: D1, name: Door, where: outside, after: A0}, {code: D2, name: Step, where: outside, after: A0}"
    assert codes(resolve_van(f"places: [{new}]\n")) == ["A0", "D1", "D2", "A1", "H1", "H2"]


def test_places_after_one_another_in_a_circle(tell: TellFaults) -> None:
    assert tell("places: [{code: H1, after: H2}, {code: H2, after: H1}]\n") == [
        "vans/dune-1.yaml:5:28: error: places come after one another in a circle"
    ]


def test_after_moves_a_place_of_the_model(resolve_van: ResolveVan) -> None:
    assert codes(resolve_van("places: [{code: H2, after: A0}]\n")) == ["A0", "H2", "A1", "H1"]


def test_a_place_can_be_removed(resolve_van: ResolveVan) -> None:
    assert codes(resolve_van("places: [{code: H2, remove: true}]\n")) == ["A0", "A1", "H1"]


def test_a_fitting_without_kind_changes_only_what_it_gives(resolve_van: ResolveVan) -> None:
    van = resolve_van("fitted: {gas: {bottle: 12 kg, at: {shut_off: H2}}}\n")
    assert van.equipment[1].at == {"bottles": "A1", "shut_off": "H2"}
    assert van.facts["gas.bottle"].value.to("kg").magnitude == 12  # type: ignore[union-attr]
    assert van.facts["gas.fuel"].value == "propane"


def test_the_same_kind_changes_only_what_it_gives(resolve_van: ResolveVan) -> None:
    van = resolve_van("fitted: {fridge: {kind: absorption, basis: gross}}\n")
    assert van.facts["fridge.basis"].value == "gross"
    assert van.facts["fridge.gas_input"].value.to("kW").magnitude == 0.2  # type: ignore[union-attr]


def test_another_kind_replaces_the_whole_fitting(tell: TellFaults) -> None:
    assert tell("fitted: {coupling: {kind: plain-ball}}\n") == [
        'vans/dune-1.yaml:5:20: error: coupling does not say where its "head" is',
        'vans/dune-1.yaml:5:20: error: coupling has no "d_value"',
        'vans/dune-1.yaml:5:20: error: coupling has no "max_ball_load"',
    ]


def test_none_takes_a_fitting_or_an_optional_point_away(resolve_van: ResolveVan) -> None:
    van = resolve_van("masses: {unladen_includes: []}\nfitted: {fridge: none, gas: {at: {shut_off: none}}}\n")
    assert [item.slot.id for item in van.equipment] == ["coupling", "gas"]
    assert van.equipment[1].at == {"bottles": "A1"}
    assert "fridge" not in van.traits and "fridge.mass" not in van.facts


def test_a_list_in_a_slot_that_takes_many_is_the_whole_list(resolve_van: ResolveVan) -> None:
    model = (
        "name: D\nbased_on: dune-400\nfitted: {lamps: [{kind: reading, at: {switch: H1}, draw: 4 W}, {kind: entry}]}\n"
    )
    van = resolve_van(
        "fitted: {lamps: [{kind: reading, at: {switch: H2}}]}\n",
        HEAD.replace("dune-400", "d"),
        **{"van_specs/models/d.yaml": model},
    )
    (lamp,) = [item for item in van.equipment if item.slot.id == "lamps"]
    assert (lamp.key, lamp.at) == ("lamps.reading", {"switch": "H2"})
    assert van.facts["lamps.reading.draw"].value.to("W").magnitude == 4  # type: ignore[union-attr]
    assert van.facts["lamps.reading.mass"].value.to("kg").magnitude == 0.2  # type: ignore[union-attr]


def test_circuits_are_replaced_by_name_or_added(resolve_van: ResolveVan) -> None:
    van = resolve_van(
        "circuits: [{name: Lights, fuse: 7.5 A, at: H2}, {name: Inlet, fuse: 16 A, at: A1, supply: mains}]\n"
    )
    assert [(circuit.name, circuit.at, circuit.supply) for circuit in van.circuits] == [
        ("Lights", "H2", "12 V"),
        ("Water pump", "H1", "12 V"),
        ("Inlet", "A1", "mains"),
    ]
    assert van.circuits[0].fuse.value.to("A").magnitude == 7.5  # type: ignore[union-attr]


def test_assumptions_are_passed_on_with_those_of_the_model(resolve_van: ResolveVan) -> None:
    assume = resolve_van("assume: {people: '3', latitude: -45.9 deg}\n").assume
    assert {name: given.value for name, given in assume.items()} == {  # type: ignore[attr-defined]
        "latitude": "-45.9 deg",
        "people": "3",
    }


def test_a_model_based_on_a_model(resolve_van: ResolveVan) -> None:
    files = {f"van_specs/models/m{i}.yaml": f"name: M{i}\nbased_on: m{i - 1}\nberths: {i}\n" for i in (2, 3)}
    files["van_specs/models/m1.yaml"] = "name: M1\nbased_on: dune-400\nberths: 1\n"
    van = resolve_van("", HEAD.replace("dune-400", "m3"), **files)
    assert (van.model, van.facts["berths"].value) == ("M3", 3)


def test_models_based_on_one_another_in_a_circle(tell: TellFaults) -> None:
    files = {f"van_specs/models/{a}.yaml": f"name: X\nbased_on: {b}\n" for a, b in ("ab", "bc", "ca")}
    assert tell("", HEAD.replace("dune-400", "a"), **files) == [
        'models/c.yaml:2:11: error: model "a" is based on itself'
    ]


def test_a_build_sheet_may_stand_without_a_model(resolve_van: ResolveVan) -> None:
    from ..conftest import SMALL

    whole = (SMALL / MODEL).read_text() + "chassis: '7'\nmarket: nz\ndealer: quayside\n"
    van = resolve_van("", whole)
    assert (van.chassis, van.market.id) == ("7", "nz")
