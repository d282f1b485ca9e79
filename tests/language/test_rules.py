"""The rules of content/language.yaml do what their own examples say, and the shipped words keep them."""

import re
import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from generator.errors import ContentError, Fault, Source
from generator.language import asked_for, judge_block, language
from generator.load import load
from generator.load.blocks import read_block
from generator.load.faults import Faults
from generator.model.blocks import Block
from generator.model.content import Content, Workspace
from generator.model.language import LanguageRule

ROOT = Path(__file__).parents[2]
PLAIN = "---\ntopic: hob/gas\ntitle: Light the hob\nform: procedure\nwords: [hob]\n---\n1. {}\n"


@pytest.fixture(scope="module")
def shipped() -> Workspace:
    return load(ROOT, None)


def _examples() -> Iterator[tuple[str, str, str]]:
    rules = load(ROOT, None).content.language
    assert rules is not None
    for rule in rules.rules.values():
        yield from ((rule.id, "bad", text) for text in rule.bad)
        yield from ((rule.id, "good", text) for text in rule.good)


def block_of(text: str, tmp_path: Path) -> Block:
    """Return an example as a block: whole, or as the one step of a procedure."""
    path = tmp_path / "content/blocks/hob/example.md"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text if text.startswith("---") else PLAIN.format(text), encoding="utf-8")
    faults = Faults()
    block = read_block(tmp_path, path, faults)
    assert block is not None and not len(faults), faults.in_order()
    return block


def broken(block: Block, workspace: Workspace) -> dict[str, list[Fault]]:
    """Return the faults of one block by rule."""
    content: Content = replace(workspace.content, blocks=(block,), safety={})
    found: dict[str, list[Fault]] = {}
    for hit in language(content, replace(workspace.catalogue, kinds={})).hits:
        found.setdefault(hit.rule, []).append(hit.fault)
    return found


@pytest.mark.parametrize(("rule", "sort", "text"), list(_examples()))
def test_a_bad_example_breaks_its_rule_and_a_good_one_does_not(
    rule: str, sort: str, text: str, shipped: Workspace, tmp_path: Path
) -> None:
    assert (rule in broken(block_of(text, tmp_path), shipped)) == (sort == "bad")


def test_every_rule_that_the_writers_were_promised_is_there(shipped: Workspace) -> None:
    assert shipped.content.language is not None
    rules = shipped.content.language.rules
    errors = {id_ for id_, rule in rules.items() if rule.level == "error"}
    assert errors >= {
        "licensed-work",
        "opened-up",
        "covered-vent",
        "cooking-for-heat",
        "resetting-again",
        "bigger-fuse",
    }
    assert errors >= {"time-without-source", "flame-without-message", "scald-without-message"}
    assert set(rules) - errors >= {"two-actions", "long-sentence", "vague-step", "passive-step", "unknown-name"}
    assert set(rules) - errors >= {"other-markets-word", "no-words", "hard-to-read"}


def test_the_shipped_words_keep_the_rules(shipped: Workspace) -> None:
    judged = language(shipped.content, shipped.catalogue)
    assert [str(fault) for fault in judged.faults] == []
    assert min(judged.ease.values()) >= 80 and len(judged.ease) > 100


def test_the_fault_points_at_the_words(shipped: Workspace, tmp_path: Path) -> None:
    step = "{gas} Look at **it**, then [shut it](topic:gas/shut) and fit a bigger fuse."
    (fault,) = broken(block_of(step, tmp_path), shipped)["bigger-fuse"]
    line = PLAIN.format(step).split("\n")[6]
    assert str(fault).startswith(f"content/blocks/hob/example.md:7:{line.index('bigger') + 1}: error: this may tell")


@pytest.mark.parametrize(
    "text",
    [
        "Do not wait: tape the floor vent shut.",
        "No flame: repair the gas valve.",
        "Nothing works: fit a bigger fuse.",
        "It is cold: let the oven burn to heat the van.",
        "It drops: push the breaker on again.",
        "{{ term('torch') }} in hand, hold the knob for 20 seconds.",
    ],
)
def test_a_negation_in_another_clause_excuses_nothing(text: str, shipped: Workspace, tmp_path: Path) -> None:
    faults = [fault for found in broken(block_of(text, tmp_path), shipped).values() for fault in found]
    assert any(fault.level.value == "error" for fault in faults)


def test_more_warnings_than_the_budget_are_refused(shipped: Workspace) -> None:
    rules = shipped.content.language
    assert rules is not None
    rule: LanguageRule = replace(rules.rules["two-actions"], budget=3)
    tight = replace(shipped.content, language=replace(rules, rules={**rules.rules, rule.id: rule}))
    (fault,) = language(tight, shipped.catalogue).faults
    assert "places break the rule two-actions, its budget is 3" in fault.message
    assert fault.source == rule.source and fault.hint.startswith("lockerleaf language two-actions lists them")


def test_sentences_of_kinds_and_messages_are_judged_too(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "content", tmp_path / "content")
    kind = tmp_path / "content/equipment/oven/gas.yaml"
    kind.write_text(
        kind.read_text("utf-8").replace("say:\n", 'say:\n  odd: "Hold the knob for 20 seconds."\n'), "utf-8"
    )
    message = tmp_path / "content/safety/scald.yaml"
    text = message.read_text("utf-8").replace("avoid: ", "avoid: Ensure it is cold. ", 1)
    message.write_text(text, "utf-8")
    workspace = load(tmp_path, None)
    found = {hit.rule: str(hit.fault.source) for hit in language(workspace.content, workspace.catalogue).hits}
    assert found["time-without-source"].startswith("content/equipment/oven/gas.yaml:")
    assert found["vague-step"].startswith("content/safety/scald.yaml:")


def test_a_workspace_without_rules_has_nothing_to_find(shipped: Workspace) -> None:
    judged = language(replace(shipped.content, language=None), shipped.catalogue)
    assert judged.hits == () and judged.faults == ()


def test_what_is_asked_for_is_told_and_nothing_else(shipped: Workspace) -> None:
    judged = language(shipped.content, shipped.catalogue)
    wanted = ("gas/open", "gas/two-bottles-changeover-valve", "scald")
    asked = asked_for([*wanted, "long-sentence"], shipped.content, shipped.catalogue)
    assert asked.rules == {"long-sentence"} and "content/safety/scald.yaml" in asked.files
    only = judged.only(asked)
    assert list(only.ease) == ["gas/open"] and only.ease["gas/open"] == judged.ease["gas/open"]
    assert {hit.rule for hit in only.hits} <= {"long-sentence"}
    with pytest.raises(ContentError, match='no words are called "gas/opn"') as told:
        asked_for(["gas/opn"], shipped.content, shipped.catalogue)
    assert told.value.faults[0].hint == 'did you mean "gas/open"?'


def test_no_word_is_allowed_that_its_block_does_not_say(shipped: Workspace) -> None:
    tied = {words.id: words.words for words in shipped.content.terms.tied}
    for block in shipped.content.blocks:
        text = re.sub(r"^allow:.*?(?=^\S)", "", (ROOT / block.source.file).read_text("utf-8"), flags=re.M | re.S)
        for group in block.allow:
            assert any(re.search(rf"\b{re.escape(word)}\b", text, re.IGNORECASE) for word in tied[group]), block.id


def test_the_line_that_is_hardest_to_read_is_named(shipped: Workspace, tmp_path: Path) -> None:
    steps = "Shut the tap.\n2. Investigate irregularities in the ventilation immediately.\n3. Open it."
    assert shipped.content.language is not None
    block = block_of(PLAIN.format(steps), tmp_path)
    hits = judge_block(block, shipped.content.terms, shipped.content.language)
    (hard,) = (hit.fault for hit in hits if hit.rule == "hard-to-read")
    assert hard.source == Source("content/blocks/hob/example.md", 8, 4)
    assert 'hardest to read: "Investigate irregularities in the ventilation immediately."' in hard.message
