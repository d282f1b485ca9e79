"""What must hold for any build sheet of the small catalogue."""

import shutil
from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.load import load
from generator.model.caravan import Caravan
from generator.resolve import resolve

from ..conftest import SMALL
from ..strategies import quantity_texts
from .conftest import HEAD, VAN

FITTINGS = (
    "coupling: {kind: plain-ball, at: {head: A0}, d_value: 9 kN, max_ball_load: 90 kg}",
    "gas: {bottle: 5 kg}",
    "fridge: {kind: absorption, at: {control: H2}, mass: 28 kg}",
    "hot_water: {kind: combined, at: {control: H1}, gas_input: 4 kW}",
    "lamps: [{kind: entry, at: {switch: H1}}, {kind: reading, at: {switch: H2}}]",
)


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(SMALL, tmp_path_factory.mktemp("small") / "workspace"))


def resolved(root: Path, tail: str) -> Caravan:
    (root / VAN).write_text(HEAD + tail)
    workspace = load(root)
    return resolve(workspace.vans[VAN], workspace)


def told(van: Caravan) -> object:
    """Return everything of a van but positions."""
    facts = {path: (str(fact.value), fact.origin) for path, fact in van.facts.items()}
    traits = {name: trait.reason for name, trait in van.traits.items()}
    return facts, traits, [(item.key, item.kind.id, dict(item.at)) for item in van.equipment], van.not_in_unladen


@settings(max_examples=25, deadline=None)
@given(order=st.permutations(FITTINGS))
def test_the_order_of_equipment_in_the_file_does_not_matter(root: Path, order: Sequence[str]) -> None:
    assert told(resolved(root, "fitted:\n" + "".join(f"  {line}\n" for line in order))) == told(
        resolved(root, "fitted:\n" + "".join(f"  {line}\n" for line in FITTINGS))
    )


@settings(max_examples=40, deadline=None)
@given(mass=quantity_texts("kg", 901, 5000))
def test_a_quantity_arrives_as_it_was_typed(root: Path, mass: str) -> None:
    value = resolved(root, f"masses: {{max_laden: {mass}}}\n").facts["masses.max_laden"].value
    assert f"{value.magnitude:.2f} kg" == mass  # type: ignore[union-attr]


@settings(max_examples=25, deadline=None)
@given(left_out=st.sets(st.sampled_from(["coupling", "gas", "fridge", "hot_water", "lamps"])))
def test_equipment_is_in_the_unladen_mass_or_named_as_not_in_it(root: Path, left_out: set[str]) -> None:
    slots = {"coupling", "gas", "fridge", "hot_water", "lamps"} - left_out
    sheet = f"masses: {{unladen: 900 kg, unladen_includes: [{', '.join(sorted(slots))}]}}\nfitted:\n"
    van = resolved(root, sheet + "".join(f"  {line}\n" for line in FITTINGS))
    assert {item.slot.id for item in van.equipment if item.key in van.not_in_unladen} == left_out
