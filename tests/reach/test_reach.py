"""What ``reach`` says holds: a change made to a source changes the pages it named, and no other."""

import csv
import io
import json
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from generator.assemble import assemble
from generator.compute import DECLARED, compute
from generator.errors import ManualError, Source
from generator.model.blocks import Block, Line, Paragraph, Text
from generator.model.catalogue import Kind
from generator.model.content import Workspace
from generator.model.digests import page_key
from generator.model.manual import Manual
from generator.model.sourced import Given
from generator.pipeline.examining import Surveyed, survey_vans
from generator.reach import Subject, as_csv, as_json, as_text, changed_files, hits, named, of_files, of_words
from generator.reach.asking import _answer
from generator.resolve import resolve

from ..test_cli import command, copied

ROOT = Path(__file__).parents[2]
MARRAM = "van_specs/vans/marram-0431-nz.yaml"
TANSY = "van_specs/vans/tansy-0108.yaml"
SORREL = "van_specs/vans/sorrel-0032.yaml"


@pytest.fixture(scope="module")
def survey() -> Surveyed:
    survey = survey_vans(ROOT)
    assert all(van.manual for van in survey.vans)
    return survey


def found(survey: Surveyed, word: str, where: str) -> dict[str, list[str]]:
    """Return the paths of hits of one sort by build sheet."""
    rows: dict[str, list[str]] = {}
    for subject in of_words([word], survey.workspace, DECLARED):
        for van in survey.vans:
            for hit in hits(subject, van, survey.workspace, DECLARED):
                if hit.where == where:
                    rows.setdefault(hit.van, []).append(hit.path)
    return rows


# --- against a change that is really made -----------------------------------------------------------


def changed_pages(survey: Surveyed, change: Callable[[Workspace], Workspace]) -> dict[str, set[str]]:
    """Return the pages of each van that look otherwise after a change of the sources."""
    workspace = change(survey.workspace)
    found = {}
    for van in survey.vans:
        caravan = resolve(workspace.vans[van.file], workspace)
        after = assemble(caravan, compute(caravan), workspace.content, workspace.catalogue, None)
        assert van.manual is not None
        found[van.file] = set(_differing(van.manual, after))
    return {file: paths for file, paths in found.items() if paths}


def _differing(before: Manual, after: Manual) -> Iterator[str]:
    keys = {page.path: page_key(page) for page in before.pages}
    yield from (page.path for page in after.pages if keys.get(page.path) != page_key(page))


def longer(workspace: Workspace, id_: str) -> Workspace:
    """Add a sentence to the end of a block."""
    here = Source("content/blocks/added.md")
    added = Paragraph(None, (Line(None, (Text("One more sentence."),), here),), here)

    def told(block: Block) -> Block:
        return replace(block, body=(*block.body, added)) if block.id == id_ else block

    return replace(workspace, content=replace(workspace.content, blocks=tuple(map(told, workspace.content.blocks))))


def said(workspace: Workspace, key: tuple[str, str]) -> Workspace:
    """Change every sentence that a kind says."""
    kind: Kind = workspace.catalogue.kinds[key]
    say = {name: Given(f"{one.value} Indeed.", one.source) for name, one in kind.say.items()}
    kinds = {**workspace.catalogue.kinds, key: replace(kind, say=say)}
    return replace(workspace, catalogue=replace(workspace.catalogue, kinds=kinds))


def warned(workspace: Workspace, id_: str) -> Workspace:
    """Change what a safety message says to do."""
    message = workspace.content.safety[id_]
    other = replace(message, avoid=Given("Keep away from it.", message.avoid.source))
    return replace(workspace, content=replace(workspace.content, safety={**workspace.content.safety, id_: other}))


def termed(workspace: Workspace, term: str) -> Workspace:
    """Change a trade word in every market."""
    trade = workspace.content.terms.trade
    words = {**trade, term: dict.fromkeys(trade[term], "thingummy")}
    return replace(workspace, content=replace(workspace.content, terms=replace(workspace.content.terms, trade=words)))


BLOCKS = ("gas/change-bottle-two", "emergency/burn", "water/fill-tank", "fridge/not-cold-absorption", "wheel/nuts")


@pytest.mark.parametrize("id_", BLOCKS)
def test_a_longer_block_changes_the_topic_pages_that_were_named_and_no_other(id_: str, survey: Surveyed) -> None:
    told = found(survey, f"block:{id_}", "page")
    topics = {van: {path for path in paths if "/" not in path} for van, paths in told.items()}
    assert changed_pages(survey, lambda workspace: longer(workspace, id_)) == topics


@pytest.mark.parametrize("id_", ["scald", "gas-escape", "wheel-loss", "battery-short"])
def test_another_message_changes_the_pages_that_were_named_and_no_other(id_: str, survey: Surveyed) -> None:
    told = {van: set(paths) for van, paths in found(survey, f"message:{id_}", "page").items()}
    assert changed_pages(survey, lambda workspace: warned(workspace, id_)) == told


@pytest.mark.parametrize("term", ["mains-lead", "disposal-point", "gas-fitter"])
def test_another_trade_word_changes_the_pages_that_were_named_and_no_other(term: str, survey: Surveyed) -> None:
    told = {van: set(paths) for van, paths in found(survey, f"term:{term}", "page").items()}
    assert changed_pages(survey, lambda workspace: termed(workspace, term)) == told


@pytest.mark.parametrize("key", [("oven", "gas"), ("hot_water", "gas-mains-storage"), ("gas", "one-small-bottle")])
def test_other_sentences_of_a_kind_change_no_page_that_was_not_named(key: tuple[str, str], survey: Surveyed) -> None:
    told = found(survey, f"kind:{key[0]}/{key[1]}", "page")
    changed = changed_pages(survey, lambda workspace: said(workspace, key))
    assert changed and all(paths <= set(told[van]) for van, paths in changed.items())


# --- what is told -----------------------------------------------------------------------------------


def test_a_block_is_told_with_checklists_labels_and_walk_round(survey: Surveyed) -> None:
    assert found(survey, "block:gas/open", "checklist")[SORREL] == ["arriving.html"]
    assert found(survey, "block:gas/change-bottle-two", "label")[MARRAM] == ["A1/"]
    assert set(found(survey, "block:gas/change-bottle-two", "walk-round")) == {
        MARRAM,
        "van_specs/vans/marram-0417.yaml",
    }


def test_a_number_is_told_where_it_is_worked_out(survey: Surveyed) -> None:
    assert {"load-the-van.html", "numbers.html", "index.html"} <= set(found(survey, "number:payload", "page")[SORREL])


def test_a_trait_is_told_where_its_absence_matters_too(survey: Surveyed) -> None:
    assert "level-the-van.html" in found(survey, "trait:mover", "page")[TANSY]  # leveled without one
    assert "mover.html" in found(survey, "trait:mover", "page")[MARRAM]
    assert "mover.html" not in found(survey, "trait:mover", "page")[TANSY]


def test_a_kind_is_told_in_the_vans_that_have_it_only(survey: Surveyed) -> None:
    assert set(found(survey, "kind:mover/roller-drive", "page")) == {MARRAM}
    assert "D7/" in found(survey, "kind:mover/roller-drive", "label")[MARRAM]


def test_a_market_and_a_model_are_whole_manuals(survey: Surveyed) -> None:
    assert set(found(survey, "market:nz", "manual")) == {MARRAM, "van_specs/vans/samphire-0077.yaml"}
    assert set(found(survey, "model:marram-480", "manual")) == {MARRAM, "van_specs/vans/marram-0417.yaml"}


def test_who_names_it_is_told_with_position(survey: Surveyed) -> None:
    lines = named(Subject("trait", "flue-cover"), survey.workspace, DECLARED)
    at = {str(one.source).rpartition(":")[0]: one.how for one in lines}
    assert at["content/equipment/hot_water/gas-mains-storage.yaml:2"] == "given by hot_water/gas-mains-storage"
    assert any('shows line "Cover on: take the flue cover off."' in how for how in at.values())


def test_one_id_of_several_things_is_told_for_each(survey: Surveyed) -> None:
    assert {one.sort for one in of_words(["gas/open"], survey.workspace, DECLARED)} == {"block", "topic"}
    assert of_words(["trait:gas"], survey.workspace, DECLARED) == (Subject("trait", "gas"),)


def test_an_unknown_name_has_a_hint(survey: Surveyed) -> None:
    with pytest.raises(ManualError) as caught:
        of_words(["gas/opne"], survey.workspace, DECLARED)
    assert str(caught.value.faults[0]) == 'error: nothing is called "gas/opne"\n  hint: did you mean "gas/open"?'


def test_a_van_is_asked_for_by_file_or_by_the_name_of_its_file(survey: Surveyed) -> None:
    van = Subject("van", "van_specs/vans/sorrel-0032.yaml")
    for name in (van.id, "sorrel-0032", "van:sorrel-0032"):
        assert of_words([name], survey.workspace, DECLARED) == (van,)
    with pytest.raises(ManualError, match="sorrel-032") as caught:
        of_words(["sorrel-032"], survey.workspace, DECLARED)
    assert caught.value.faults[0].hint == 'did you mean "sorrel-0032"?'


def test_files_stand_for_what_they_hold(survey: Surveyed) -> None:
    files = ["content/blocks/gas/open.md", "content/safety/scald.yaml", "content/equipment/oven/gas.yaml", "README.md"]
    assert of_files(files, survey.workspace) == (
        Subject("block", "gas/open"),
        Subject("message", "scald"),
        Subject("kind", "oven/gas"),
    )


def test_json_and_csv_hold_the_same_hits(survey: Surveyed) -> None:
    answers = [
        _answer(subject, survey) for subject in of_words(["block:oven/use", "scald"], survey.workspace, DECLARED)
    ]
    rows = list(csv.DictReader(io.StringIO(as_csv(answers))))
    things = [
        (one["id"], van["van"], thing["where"], thing["path"], thing["title"])
        for one in json.loads(as_json(answers))
        for van in one["vans"]
        for thing in van["touches"]
    ]
    assert things == [(row["id"], row["van"], row["where"], row["path"], row["title"]) for row in rows]
    assert len(things) == sum(len(answer.hits) for answer in answers) > 10
    assert 'block oven/use "Use the oven" content/blocks/oven/use.md\n  in 3 of 6 vans' in as_text(answers)
    twin = replace(answers[0], subject=Subject("topic", "oven/use"), file="", title="")
    assert "topic oven/use\n  in 3 of 6 vans, the same as block oven/use above" in as_text([*answers, twin])


# --- git --------------------------------------------------------------------------------------------


def git(folder: Path, *words: str) -> None:
    subprocess.run(
        ["git", "-C", str(folder), "-c", "user.name=T", "-c", "user.email=t@example.org", *words], check=True
    )


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    """A workspace under git, in a folder of its repository."""
    folder = copied(tmp_path / "repo" / "desk", SORREL)
    git(tmp_path / "repo", "init", "-q")
    git(tmp_path / "repo", "add", ".")
    git(tmp_path / "repo", "commit", "-q", "-m", "start")
    return folder


def test_changed_asks_git_for_edited_and_new_files(desk: Path) -> None:
    block = desk / "content/blocks/gas/open.md"
    block.write_text(block.read_text("utf-8") + "\nOne more line.\n", "utf-8")
    (desk / "content/blocks/gas/a new one.md").write_text("new", "utf-8")
    assert changed_files(desk) == ("content/blocks/gas/a new one.md", "content/blocks/gas/open.md")
    assert changed_files(desk, "HEAD") == changed_files(desk)


def test_the_command_tells_what_a_change_touches(desk: Path) -> None:
    assert command("reach", "--changed", cwd=desk).stdout == "nothing that a manual is made from\n"
    block = desk / "content/blocks/gas/open.md"
    block.write_text(block.read_text("utf-8") + "\nOne more line.\n", "utf-8")
    done = command("reach", "--changed", cwd=desk)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("block gas/open ") and "in 1 of 1 vans" in done.stdout
    assert "open-the-gas.html" in done.stdout


def test_without_git_the_command_says_so(tmp_path: Path) -> None:
    done = command("reach", "--changed", cwd=copied(tmp_path / "desk", SORREL), GIT_CEILING_DIRECTORIES=str(tmp_path))
    assert done.returncode == 1 and "hint: name what you changed instead" in done.stderr


def test_an_option_is_no_commit(desk: Path) -> None:
    with pytest.raises(ManualError, match="is no commit"):
        changed_files(desk, "--output=x")


def test_a_fragment_is_told_where_its_lines_show(survey: Surveyed) -> None:
    """Its gas line does not show in the van without gas, whose blocks include it too."""
    told = found(survey, "fragment:smell-gas", "page")
    assert TANSY not in told and "no-12-v.html" in told[SORREL]
    assert of_files(["content/fragments/smell-gas.md"], survey.workspace) == (Subject("fragment", "smell-gas"),)


def test_a_picture_is_told_by_the_names_that_kinds_give_it(survey: Surveyed) -> None:
    told = found(survey, "picture:coupling-locked", "page")
    assert told[SORREL] == ["couple-up.html"] and "van_specs/vans/samphire-0077.yaml" not in told
    assert of_files(["content/pictures/blade.svg"], survey.workspace) == (Subject("picture", "blade"),)
    lines = named(Subject("picture", "coupling-locked"), survey.workspace, DECLARED)
    assert any("of coupling/couple-ball" in one.how for one in lines)


def test_a_kind_is_told_where_its_panel_is_drawn(survey: Surveyed) -> None:
    lines = named(Subject("kind", "fridge/compressor"), survey.workspace, DECLARED)
    assert any("drawing in" in one.how and one.how.endswith("of fridge/run-compressor") for one in lines)
