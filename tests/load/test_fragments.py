"""Fragments: shared steps and paragraphs are part of each block that includes them, at their own file and line."""

from pathlib import Path

import pytest

from generator.errors import ManualError
from generator.load import load
from generator.model.blocks import Block, Paragraph, Steps
from generator.model.content import Workspace

from ..conftest import BuildWorkspace

BLOCK = "content/blocks/coupling/couple.md"
HEAD = "---\ntopic: coupling/couple\ntitle: Hitch up\nform: procedure\nat: [coupling.head]\n---\n"
TWO = "1. {gas} Smell gas? Stop.\n   You smell: none.\n2. Look around.\n"


def block(workspace: Workspace) -> Block:
    return next(block for block in workspace.content.blocks if block.id == "coupling/couple")


def made(build: BuildWorkspace, body: str, **fragments: str) -> Block:
    files = {f"content/fragments/{name.replace('_', '-')}.md": text for name, text in fragments.items()}
    return block(load(build({BLOCK: HEAD + body, **files})))


def told(build: BuildWorkspace, body: str, **fragments: str) -> list[str]:
    with pytest.raises(ManualError) as caught:
        made(build, body, **fragments)
    return [str(fault) for fault in caught.value.faults]


def test_steps_are_put_in_where_a_step_stands_and_counted_through(build_workspace: BuildWorkspace) -> None:
    one = made(build_workspace, "1. Begin.\n2. {{ include('look') }}\n3. End.\n", look=TWO)
    (steps,) = one.body
    assert isinstance(steps, Steps)
    places = [f"{step.source.file}:{step.source.line}" for step in steps.items]
    assert places == [f"{BLOCK}:7", "content/fragments/look.md:1", "content/fragments/look.md:3", f"{BLOCK}:9"]
    assert steps.items[1].guard and steps.items[1].guard.all == ("gas",)
    assert [given.value for given in one.fragments] == ["look"]
    assert str(one.fragments[0].source) == f"{BLOCK}:8:4"


def test_paragraphs_are_put_in_where_a_paragraph_stands(build_workspace: BuildWorkspace) -> None:
    one = made(build_workspace, "1. Begin.\n\n{{ include('after') }}\n\nLast.\n", after="First.\n\nSecond.\n")
    texts = [node.lines[0].raw for node in one.body if isinstance(node, Paragraph)]
    assert texts == ["First.", "Second.", "Last."]


def test_steps_of_a_paragraph_join_the_list_they_touch(build_workspace: BuildWorkspace) -> None:
    one = made(build_workspace, "{{ include('look') }}\n\n1. Begin.\n\n{{ include('look') }}\n", look=TWO)
    (steps,) = one.body
    assert isinstance(steps, Steps) and len(steps.items) == 5


def test_editing_a_fragment_changes_the_digest_of_the_block(build_workspace: BuildWorkspace) -> None:
    body = "1. {{ include('look') }}\n"
    before = made(build_workspace, body, look=TWO).digest
    assert made(build_workspace, body, look=TWO).digest == before
    assert made(build_workspace, body, look=TWO.replace("Look", "Peer")).digest != before
    assert made(build_workspace, "1. Begin.\n", look=TWO).digest == made(build_workspace, "1. Begin.\n").digest


def test_a_fault_in_a_fragment_is_told_once_at_its_own_line(build_workspace: BuildWorkspace) -> None:
    bad = "1. {gass} Smell [gas](topic:gas/opne).\n"
    assert told(build_workspace, "1. {{ include('bad') }}\n2. {{ include('bad') }}\n", bad=bad) == [
        'content/fragments/bad.md:1:4: error: unknown trait "gass"\n  hint: did you mean "gas"?',
        'content/fragments/bad.md:1:17: error: unknown topic "gas/opne"\n  hint: did you mean "gas/open"?',
    ]


@pytest.mark.parametrize(
    ("body", "message", "hint"),
    [
        ("1. {{ include('lok') }}\n", 'unknown fragment "lok"', 'did you mean "look"?'),
        ("1. {gas} {{ include('look') }}\n", "an include has no guard, mark or message of its own", "look.md"),
        ("{gas} {{ include('look') }}\n", "an include has no guard, mark or message of its own", "look.md"),
        ("1. Then {{ include('look') }}\n", "include stands in a paragraph of its own", "behind the number of a step"),
        ("1. A.\n   {{ include('look') }}\n", "include stands in a paragraph of its own", "behind the number"),
        ("- {{ include('look') }}\n", "include stands in a paragraph of its own", "between blank lines"),
        ("1. {{ include('words') }}\n", "a step can include steps only", "include it between blank lines"),
        ("1. {{ include('a.b') }}\n", "include cannot take 'a.b'", "an id"),
    ],
)
def test_a_wrong_include_is_told(body: str, message: str, hint: str, build_workspace: BuildWorkspace) -> None:
    faults = told(build_workspace, body, look=TWO, words="Words.\n")
    assert any(fault.startswith(f"{BLOCK}:") and message in fault and hint in fault for fault in faults), faults


@pytest.mark.parametrize(
    ("name", "text", "message"),
    [
        ("nested", "1. {{ include('look') }}\n", "a fragment includes no other"),
        ("empty", "\n", "this fragment has no text"),
        ("Upper", TWO, '"Upper" is no name for a fragment'),
    ],
)
def test_a_wrong_fragment_is_told(name: str, text: str, message: str, build_workspace: BuildWorkspace) -> None:
    faults = told(build_workspace, "1. {{ include('look') }}\n", look=TWO, **{name: text})
    assert any(fault.startswith(f"content/fragments/{name}.md:1:") and message in fault for fault in faults)


def test_a_file_with_another_ending_is_told(build_workspace: BuildWorkspace) -> None:
    root = build_workspace({BLOCK: HEAD + "1. Begin.\n", "content/fragments/look.txt": "1. x\n"})
    with pytest.raises(ManualError, match="this file is not read"):
        load(root)


def test_shipped_safety_steps_exist_once() -> None:
    """The words of a shared step stand in no block."""
    root = Path(__file__).parents[2]
    workspace = load(root, None)
    uses = [given.value for block in workspace.content.blocks for given in block.fragments]
    assert uses.count("smell-gas") >= 10
    first = (root / "content/fragments/smell-gas.md").read_text("utf-8").split("} ")[-1].split("?")[0]
    assert first == "Smell gas"
    assert not [p for p in (root / "content/blocks").rglob("*.md") if "Smell gas? Touch" in p.read_text("utf-8")]
