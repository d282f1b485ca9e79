"""The shipped workspace: it loads without a fault, and every demo van resolves."""

from pathlib import Path

import pytest

from generator.load import load
from generator.model.content import Workspace
from generator.model.sourced import Origin
from generator.resolve import resolve

ROOT = Path(__file__).parents[2]
# What makes each demo van the one it is: traits that must hold, traits that may not.
VANS = {
    "marram-0417": ({"market-uk", "overrun-brake", "plug-13", "hot-water-gas", "toilet-own-flush"}, {"solar", "mover"}),
    "sorrel-0032": ({"market-uk", "unbraked", "secondary-cable", "hob-gas", "cool-box"}, {"water", "toilet", "mains"}),
    "tansy-0108": ({"market-uk", "hob-induction", "hot-water-mains", "fridge-compressor", "mains"}, {"gas"}),
    "marram-0431-nz": ({"market-nz", "mover", "solar", "bbq-point", "second-lead", "chain"}, {"plug-13"}),
    "samphire-0077": ({"market-nz", "electric-brake", "battery-lithium", "dcdc", "inverter"}, {"fridge-gas"}),
    "banksia-0215": ({"market-au", "twin-axle", "aircon", "two-chains", "breakaway-battery"}, {"single-axle"}),
}


@pytest.fixture(scope="module")
def shipped() -> Workspace:
    return load(ROOT)


def test_every_demo_van_is_told_of_here(shipped: Workspace) -> None:
    assert {Path(path).stem for path in shipped.vans} == set(VANS)


@pytest.mark.parametrize("name", VANS)
def test_a_demo_van_resolves_to_what_it_is(name: str, shipped: Workspace) -> None:
    van = resolve(shipped.vans[f"van_specs/vans/{name}.yaml"], shipped)
    has, lacks = VANS[name]
    assert has <= set(van.traits) and not lacks & set(van.traits)
    codes = {place.code for place in van.places}
    assert {code for item in van.equipment for code in item.at.values()} <= codes
    assert all(fact.source.file for fact in van.facts.values())


def test_gas_inputs_keep_the_unit_of_the_rating_plate(shipped: Workspace) -> None:
    van = resolve(shipped.vans["van_specs/vans/marram-0431-nz.yaml"], shipped)
    assert str(van.facts["room_heater.gas_input"].value) == "12.6 megajoule / hour"
    assert van.facts["room_heater.basis"].value == "gross"


def test_the_weighed_van_says_so(shipped: Workspace) -> None:
    van = resolve(shipped.vans["van_specs/vans/marram-0417.yaml"], shipped)
    assert van.unladen_measured and van.facts["masses.unladen"].origin is Origin.MEASURED


def test_the_tourer_for_new_zealand_has_another_road_plug_than_its_model_was_weighed_with(shipped: Workspace) -> None:
    van = resolve(shipped.vans["van_specs/vans/marram-0431-nz.yaml"], shipped)
    assert [(held.was.key, held.was.kind.id) for held in van.held_in_unladen] == [("road_plug", "thirteen-pin")]
