"""Started files read without a fault, and say what is left to write until it is written."""

import re
from pathlib import Path

import pytest

from generator.editor import FORMS
from generator.language import language
from generator.load import load
from generator.pipeline.examining import examine_van
from generator.pipeline.proving import prove_workspace

from ..test_cli import SORREL, change, command, copied


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    return copied(tmp_path / "desk", SORREL)


def new(desk: Path, *words: str) -> str:
    done = command("new", *words, cwd=desk)
    assert done.returncode == 0, done.stderr
    return done.stdout


def left(desk: Path, file: str) -> int:
    """Return how many places of a file are still to be written; the workspace reads without a fault."""
    workspace = load(desk, None)
    hits = language(workspace.content, workspace.catalogue).hits
    return sum(hit.rule == "left-to-write" and hit.fault.source.file == file for hit in hits if hit.fault.source)


def errors(desk: Path) -> list[str]:
    """Return what stops publication, of the words."""
    workspace = load(desk, None)
    return [str(fault) for fault in language(workspace.content, workspace.catalogue).faults]


def fill(path: Path) -> None:
    """Write something where TODO stands: what is asked for there."""
    text = path.read_text("utf-8").replace("[TODO]", "[frost on the fins]")
    path.write_text(re.sub(r"TODO[:,]? ?(?:as [\w-]+ says: )?", "", text), encoding="utf-8")


@pytest.mark.parametrize("form", FORMS)
def test_a_block_of_each_form_stands_on_a_page_and_is_left_to_write(form: str, desk: Path) -> None:
    told = new(desk, "block", form, "fridge/defrost")
    assert told.startswith("content/blocks/fridge/defrost.md\n")
    assert ("under hazards" in told) == (form != "emergency")
    assert left(desk, "content/blocks/fridge/defrost.md") >= 3
    assert prove_workspace(desk).broken == ()
    manual = examine_van(desk, desk / SORREL).manual
    assert manual is not None and "fridge-defrost.html" in {page.path for page in manual.pages}
    fill(desk / "content/blocks/fridge/defrost.md")
    checked = command("check", SORREL, cwd=desk)
    assert checked.returncode == 0, checked.stderr
    assert errors(desk) == []


def test_a_second_block_of_a_topic_gets_a_name_of_its_own(desk: Path) -> None:
    said = new(desk, "block", "procedure", "gas/open")
    assert said.startswith("content/blocks/gas/open-2.md\n") and "answered already by gas/open" in said
    assert "both answer gas/open" in command("prove", cwd=desk).stderr


def test_a_kind_starts_as_a_copy_whose_name_and_sentences_are_left_to_write(desk: Path) -> None:
    new(desk, "kind", "oven/electric")
    kinds = load(desk, None).catalogue.kinds
    was, now = kinds["oven", "gas"], kinds["oven", "electric"]
    for field in ("traits", "hazards", "must_answer"):
        assert [one.value for one in getattr(now, field)] == [one.value for one in getattr(was, field)]
    assert (list(now.controls), list(now.parameters)) == (list(was.controls), list(was.parameters))
    assert left(desk, "content/equipment/oven/electric.yaml") >= 2
    assert prove_workspace(desk).broken == ()
    fill(desk / "content/equipment/oven/electric.yaml")
    assert errors(desk) == []


def test_a_page_can_be_started_that_a_kind_names_already(desk: Path) -> None:
    change(desk / "content/equipment/oven/gas.yaml", "must_answer: [", "must_answer: [oven/door, ")
    refused = command("language", cwd=desk)
    assert 'unknown topic "oven/door"\n  hint: if it is new: lockerleaf new block FORM oven/door' in refused.stderr
    new(desk, "block", "procedure", "oven/door")
    assert prove_workspace(desk).broken == ()


@pytest.mark.parametrize("slot", ["hot_water", "gas", "battery", "steadies", "solar", "toilet", "room_heater"])
def test_a_kind_of_any_slot_can_be_started(slot: str, desk: Path) -> None:
    new(desk, "kind", f"{slot}/another")
    assert (slot, "another") in load(desk, None).catalogue.kinds


def test_a_van_of_a_model_can_be_shown(desk: Path) -> None:
    said = new(desk, "van", "sorrel-2", "SOR2-2026-0999")
    file = said.splitlines()[0]
    assert file == "van_specs/vans/sorrel-6-0999.yaml"
    change(desk / file, "market: au", "market: uk")
    assert command("show", file, cwd=desk).returncode == 0


def test_fragments_and_messages_can_be_started(desk: Path) -> None:
    new(desk, "fragment", "look-first")
    new(desk, "message", "hot-ash")
    content = load(desk, None).content
    assert "look-first" in content.fragments and "hot-ash" in content.safety
    assert left(desk, "content/safety/hot-ash.yaml") == 3
    fill(desk / "content/safety/hot-ash.yaml")
    assert errors(desk) == []


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("block", "prose", "a/b"), '"prose" is no form of a block'),
        (("block", "fault", "nothing"), '"nothing" is no topic'),
        (("block", "fault"), "block wants 2 words, not 1\n  hint: lockerleaf new block FORM TOPIC"),
        (("kind", "ovn/x"), 'unknown slot "ovn"\n  hint: did you mean "oven"?'),
        (("kind", "oven/../../x"), "is no name for a kind"),
        (("van", "marran-480", "X1"), 'unknown model "marran-480"'),
        (("van", "sorrel-2", "x{y"), "is no chassis number"),
        (("fragment", "Look"), "is no name for a fragment"),
        (("message", "../x"), "is no name for a message"),
    ],
)
def test_what_cannot_be_started_is_told(words: tuple[str, ...], told: str, desk: Path) -> None:
    done = command("new", *words, cwd=desk)
    assert done.returncode == 1 and told in done.stderr


def test_nothing_is_written_over(desk: Path) -> None:
    new(desk, "kind", "oven/electric")
    again = command("new", "kind", "oven/electric", cwd=desk)
    assert again.returncode == 1
    assert again.stderr.startswith("content/equipment/oven/electric.yaml:1:1: error: this file is there already")
