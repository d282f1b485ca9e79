"""The shipped catalogue and content hold in every van; deliberate holes are found with the van that shows them."""

import shutil
from pathlib import Path

import pytest

from generator.compute import DECLARED
from generator.load import load
from generator.prove import Finding, Proof, prove

ROOT = Path(__file__).parents[2]


def proof_of(root: Path) -> Proof:
    workspace = load(root, [root / "van_specs/vans/sorrel-0032.yaml"])
    return prove(workspace.catalogue, workspace.content, sorted(workspace.markets), DECLARED)


@pytest.fixture
def copied(tmp_path: Path) -> Path:
    """A copy of the shipped content that a test may damage."""
    for folder in ("content", "van_specs"):
        shutil.copytree(ROOT / folder, tmp_path / folder)
    return tmp_path


def test_every_statement_holds_in_every_van() -> None:
    proof = proof_of(ROOT)
    assert proof.vans > 10**12
    assert [f"{finding.source}: {finding.message}" for finding in proof.findings] == []


def test_findings_are_the_same_every_time(copied: Path) -> None:
    (copied / "content/blocks/fuses/replace.md").unlink()
    assert proof_of(copied) == proof_of(copied)


def _found(root: Path, statement: int, words: str) -> Finding:
    findings = proof_of(root).findings
    matching = [finding for finding in findings if finding.statement == statement and words in finding.message]
    assert matching, [(finding.statement, finding.message) for finding in findings]
    return matching[0]


def _change(root: Path, path: str, old: str, new: str) -> None:
    text = (root / path).read_text(encoding="utf-8")
    assert old in text, f"{path} no longer holds {old!r}"
    (root / path).write_text(text.replace(old, new, 1), encoding="utf-8")


# Each hole: what is damaged (file, old text, new text), the statement that breaks, words of the finding, and a
# kind that the smallest van must have (None: the text stands in no van).
HOLES = {
    "wrong trait in applies": (
        "content/blocks/fuses/replace.md",
        "applies: {all: [fuse-box]}",
        "applies: {all: [fuse-box, mains]}",
        3,
        "no block answers fuses/replace where fuse_box is blade-fuses",
        ("fuse_box", "blade-fuses"),
    ),
    "block that applies to no van": (
        "content/blocks/solar/fault.md",
        "applies: {all: [solar]}",
        "applies: {all: [solar], none: [battery]}",
        1,
        "block solar/fault applies to no van",
        None,
    ),
    "guard that is never true": (
        "content/blocks/panel/use-switches.md",
        "5. {water}",
        "5. {panel-display}",
        1,
        "the guard of this step is true in no van",
        None,
    ),
    "link to something optional": (
        "content/blocks/fuses/replace.md",
        "1. Switch off the thing that stopped working.",
        "1. Switch off [the solar](topic:solar/use).",
        2,
        "pulls in topic solar/use",
        ("fuse_box", "blade-fuses"),
    ),
    "hazard without its message": (
        "content/blocks/fuses/replace.md",
        "hazards: [fire-overload]",
        "hazards: [battery-short]",
        5,
        "no block prints fire-overload where fuse_box is blade-fuses",
        ("fuse_box", "blade-fuses"),
    ),
    "two blocks for one topic": (
        "content/blocks/panel/use-display.md",
        "applies: {all: [panel-display]}",
        "applies: {all: [panel]}",
        4,
        "both answer panel/use",
        ("panel", "switch-panel"),
    ),
    "point without a block": (
        "content/blocks/fuses/replace.md",
        "at: [fuse_box.box]",
        "at: []",
        6,
        "no block stands at fuse_box.box",
        ("fuse_box", "blade-fuses"),
    ),
    "number without its input": (
        "content/equipment/battery/lithium.yaml",
        "  usable_share:",
        "  useful_share:",
        7,
        "needs battery.usable_share",
        ("battery", "lithium"),
    ),
    "words that one kind does not say": (
        "content/equipment/mains_inlet/flap-inlet-15a.yaml",
        "  pull:",
        "  pulled:",
        2,
        "pulls in the words mains_inlet.pull",
        ("mains_inlet", "flap-inlet-15a"),
    ),
    "drawing that one kind does not have": (
        "content/equipment/room_heater/mains-convector.yaml",
        "  on_mains:",
        "  on_electric:",
        2,
        "pulls in drawing room_heater.on_mains",
        ("room_heater", "mains-convector"),
    ),
    "point that a kind may lack": (
        "content/equipment/panel/display-panel.yaml",
        "points: {panel: required}",
        "points: {panel: optional}",
        2,
        "pulls in point panel.panel",
        ("panel", "display-panel"),
    ),
    "number where it is not made": (
        "content/blocks/fuses/replace.md",
        "1. Switch off the thing that stopped working.",
        "1. Drink {{ number('water-usable') }}.",
        2,
        "pulls in number water-usable",
        ("fuse_box", "blade-fuses"),
    ),
}


@pytest.mark.parametrize("hole", HOLES)
def test_a_hole_is_found_with_the_van_that_shows_it(hole: str, copied: Path) -> None:
    path, old, new, statement, words, kind = HOLES[hole]
    _change(copied, path, old, new)
    finding = _found(copied, statement, words)
    if kind is None:
        assert finding.van is None
    else:
        assert finding.van is not None and kind in finding.van.kinds


def test_a_removed_block_is_missed(copied: Path) -> None:
    (copied / "content/blocks/solar/fault.md").unlink()
    finding = _found(copied, 3, "no block answers solar/fault")
    assert finding.van is not None and ("solar", "controller-with-display") in finding.van.kinds


def test_a_procedure_without_a_step_is_found(copied: Path) -> None:
    block = copied / "content/blocks/radio/use.md"
    block.write_text(
        "---\ntopic: radio/use\ntitle: Radio\nform: procedure\napplies: {all: [radio]}\nat: [radio.radio]\n---\n"
        "1. {solar} Switch it on.\n",
        encoding="utf-8",
    )
    finding = _found(copied, 1, "procedure radio/use has no step")
    assert finding.van is not None and not any(slot == "solar" for slot, _ in finding.van.kinds)


def test_a_late_action_is_found(copied: Path) -> None:
    block = copied / "content/blocks/radio/use.md"
    block.write_text(
        "---\ntopic: radio/use\ntitle: Radio\nform: procedure\napplies: {all: [radio]}\nat: [radio.radio]\n---\n"
        "1. {mark: second} Do this.\n2. {mark: first} Do that.\n",
        encoding="utf-8",
    )
    (copied / "content/order.yaml").write_text("- {first: first, then: second, why: it is safer}\n", encoding="utf-8")
    finding = _found(copied, 8, '"first" comes after "second"')
    assert str(finding.source).startswith("content/blocks/radio/use.md:8")


def test_an_action_without_the_one_before_it_is_found(copied: Path) -> None:
    block = copied / "content/blocks/radio/use.md"
    block.write_text(
        "---\ntopic: radio/use\ntitle: Radio\nform: procedure\napplies: {all: [radio]}\nat: [radio.radio]\n---\n"
        "1. {mark: first} {solar} Do this.\n2. {mark: second} Do that.\n",
        encoding="utf-8",
    )
    rule = "- {first: first, then: second, why: it is safer, always: true}\n"
    (copied / "content/order.yaml").write_text(rule, encoding="utf-8")
    finding = _found(copied, 8, '"second" without "first" before it')
    assert finding.van is not None and not any(slot == "solar" for slot, _ in finding.van.kinds)
