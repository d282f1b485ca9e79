"""What ``prove`` says to a writer: the step's words, the van that shows it, and a guard that would cure it."""

import re
import shutil
from pathlib import Path

import pytest

from generator.compute import DECLARED
from generator.load import load
from generator.prove import Finding, prove

ROOT = Path(__file__).parents[2]
FUSES = "content/blocks/fuses/replace.md"
STEP = "1. Switch off the thing that stopped working."


@pytest.fixture
def copied(tmp_path: Path) -> Path:
    for folder in ("content", "van_specs"):
        shutil.copytree(ROOT / folder, tmp_path / folder)
    return tmp_path


def findings(root: Path, path: str, old: str, new: str) -> list[Finding]:
    """Damage one file and return what the proof finds."""
    text = (root / path).read_text(encoding="utf-8")
    assert old in text, f"{path} no longer holds {old!r}"
    (root / path).write_text(text.replace(old, new, 1), encoding="utf-8")
    workspace = load(root, None)
    return list(prove(workspace.catalogue, workspace.content, sorted(workspace.markets), DECLARED).findings)


def only(found: list[Finding]) -> Finding:
    assert len(found) == 1, [one.message for one in found]
    return found[0]


def test_a_step_is_quoted_with_the_van_and_the_guard(copied: Path) -> None:
    one = only(findings(copied, FUSES, STEP, "1. Switch off [the solar](topic:solar/use)."))
    assert one.message.startswith(
        'step "Switch off the solar." of fuses/replace pulls in topic solar/use, which a van '
    )
    assert "fuse_box/blade-fuses" in one.message and one.message.endswith("does not have")
    assert one.hint == "guard it with {solar}"


@pytest.mark.parametrize(
    "words",
    [
        "Switch off [the solar](topic:solar/use).",
        "Drink {{ number('water-usable') }}.",
        "Look at {{ place('mains_inlet.inlet') }}.",
        "See {{ place('gas.shut_off') }}.",
    ],
)
def test_the_guard_of_the_hint_cures(words: str, copied: Path) -> None:
    hint = only(findings(copied, FUSES, STEP, f"1. {words}")).hint
    guard = re.fullmatch(r"guard it with (\{[^}]+\})", hint)
    assert guard, hint
    more = [f for f in findings(copied, FUSES, f"1. {words}", f"1. {guard[1]} {words}") if "pulls in" in f.message]
    assert more == []


def test_a_guard_that_never_holds_names_the_traits_that_never_meet(copied: Path) -> None:
    one = only(findings(copied, "content/blocks/panel/use-switches.md", "5. {water}", "5. {panel-display}"))
    assert 'true in no van of the block: step "Switch the pump on' in one.message
    assert one.hint == "panel-switches and panel-display never meet"


def test_a_block_that_is_not_there_says_what_it_asks_for(copied: Path) -> None:
    found = findings(copied, FUSES, "applies: {all: [fuse-box]}", "applies: {all: [fuse-box, mains]}")
    assert {one.hint for one in found if "no block answers fuses/replace" in one.message} == {
        "fuses/replace needs mains: let it apply there too, or write another block for it"
    }


def test_a_topic_nobody_wrote_says_how_to_start_a_block(copied: Path) -> None:
    (copied / "content/blocks/oven/use.md").unlink()
    found = findings(copied, FUSES, STEP, STEP)
    assert "write one: lockerleaf new block procedure oven/use" in {one.hint for one in found}


def test_words_that_a_kind_does_not_say_name_the_kind(copied: Path) -> None:
    found = findings(copied, "content/equipment/mains_inlet/flap-inlet-15a.yaml", "  pull:", "  pulled:")
    assert only(found).hint == 'give mains_inlet/flap-inlet-15a the sentence "pull" or guard it with {inlet-16a}'


def test_a_drawing_that_a_kind_does_not_have_names_the_kind_and_the_state_nobody_draws(copied: Path) -> None:
    found = findings(copied, "content/equipment/room_heater/mains-convector.yaml", "  on_mains:", "  on_power:")
    unused, missing = sorted(found, key=lambda one: one.statement)
    assert unused.message == 'no block draws the state "on_power"'
    assert str(missing.source).startswith("content/blocks/heating/run-on-mains.md:")
    assert missing.hint.startswith('give room_heater/mains-convector the state "on_mains" or guard it with')


def test_a_fragment_nobody_includes_is_found(copied: Path) -> None:
    (copied / "content/fragments/lonely.md").write_text("1. Look.\n", encoding="utf-8")
    assert only(findings(copied, FUSES, STEP, STEP)).message == "no block includes the fragment lonely"


def test_a_guard_of_a_fragment_has_to_hold_in_some_block(copied: Path) -> None:
    path = copied / "content/fragments/leak-check.md"
    path.write_text(path.read_text("utf-8").replace("{one-bottle}", "{fridge-compressor, not fridge}"), "utf-8")
    one = only(findings(copied, FUSES, STEP, STEP))
    assert one.message.startswith("this guard of the fragment leak-check is true in no van")
    assert str(one.source) == "content/fragments/leak-check.md:4:4"


def test_the_proof_follows_an_include(copied: Path) -> None:
    """What a fragment pulls in is asked of every block that includes it."""
    found = findings(copied, FUSES, STEP, f"1. {{{{ include('live-appliance') }}}}\n{STEP}")
    assert "pulls in point consumer_unit.unit, which a van with" in only(found).message
    assert only(found).source.file == "content/fragments/live-appliance.md"


def test_a_picture_nobody_shows_is_found(copied: Path) -> None:
    (copied / "content/pictures.yaml").open("a", encoding="utf-8").write("lonely: {file: blade.svg, alt: A blade.}\n")
    assert only(findings(copied, FUSES, STEP, STEP)).message == "no block shows the picture lonely"
