"""Traits with their reasons, and the rules between them."""

from .conftest import ResolveVan, TellFaults


def test_every_trait_has_its_reason(resolve_van: ResolveVan) -> None:
    assert {trait.id: trait.reason for trait in resolve_van().traits.values()} == {
        "coupling": "coupling: friction-ball",
        "ball-coupling": "coupling: friction-ball",
        "friction-lever": "coupling: friction-ball",
        "gas": "gas: two-bottles",
        "two-bottles": "gas: two-bottles",
        "fridge": "fridge: absorption",
        "fridge-gas": "fridge: absorption",
        "market-uk": "market: uk",
        "single-axle": "axles: 1",
        "flame": "flame: fridge-gas",
    }


def test_a_van_without_any_of_them_has_the_trait_that_says_so(resolve_van: ResolveVan) -> None:
    van = resolve_van("fitted: {fridge: {kind: compressor, at: {control: H1}}, gas: none}\n")
    assert van.traits["no-flame"].reason == "no-flame: no flame"
    assert van.has(("no-flame", "fridge"), ("gas",)) and not van.has(("flame",))


def test_a_slot_gives_its_name_in_kebab_case_and_a_kind_may_fill_two(resolve_van: ResolveVan) -> None:
    van = resolve_van("fitted: {hot_water: {kind: combined, at: {control: H1}, gas_input: 4 kW}}\n")
    assert van.has(("hot-water", "room-heater", "hot-water-gas"))
    assert van.traits["room-heater"].reason == "hot_water: combined"


def test_two_axles(resolve_van: ResolveVan) -> None:
    van = resolve_van("axles: 2\n")
    assert van.has(("twin-axle",), ("single-axle",))


def test_a_rule_is_broken_at_the_equipment_that_comes_under_it(tell: TellFaults) -> None:
    sheet = "fitted:\n  gas: none\n  hot_water: {kind: combined, at: {control: H1}, gas_input: 4 kW}\n"
    assert tell(sheet + "  fridge: none\nmasses: {unladen_includes: [coupling]}\n") == [
        "vans/dune-1.yaml:7:14: error: flame needs gas"
    ]


def test_all_of_when_must_hold(resolve_van: ResolveVan) -> None:
    rules = "- {when: [gas, twin-axle], exclude: [fridge], why: a test}\n"
    assert resolve_van(**{"content/equipment/rules.yaml": rules})


def test_a_rule_of_the_market_points_at_the_market(tell: TellFaults) -> None:
    rules = "- {when: [market-uk], need: [lamps], why: a van in this market has a lamp}\n"
    assert tell("", **{"content/equipment/rules.yaml": rules}) == [
        "vans/dune-1.yaml:3:9: error: a van in this market has a lamp"
    ]
