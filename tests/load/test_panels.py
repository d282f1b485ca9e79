"""Panels and states of a kind: what cannot be drawn is told where it is written; calls are checked by name."""

from pathlib import Path

import pytest

from generator.errors import ManualError
from generator.load import load

from ..conftest import BuildWorkspace

KIND = "content/equipment/coupling/friction-ball.yaml"
BLOCK = "content/blocks/coupling/couple.md"
HEAD = "---\ntopic: coupling/couple\ntitle: Hitch up\nform: procedure\nat: [coupling.head]\n---\n"
CONTROLS = (
    "controls:\n"
    "  lever: {name: Lever, at: head, positions: [up, down]}\n"
    "  locked: {name: Pin, at: head, message: green band}\n"
    "  click: {name: Pin, at: head, sound: a click}\n"
    "  nameless: {at: head, lamp: red}\n"
)
PANELS = "panels: {head: [[lever, locked]]}\nstates: {hitched: {lever: down, locked: shown}}\n"


def workspace(build: BuildWorkspace, panels: str = PANELS, step: str = "") -> Path:
    root = build({BLOCK: HEAD + "1. Look at it.\n" + step})
    kind = root / KIND
    kind.write_text(kind.read_text("utf-8") + CONTROLS + panels, "utf-8")
    return root


def told(root: Path) -> list[str]:
    with pytest.raises(ManualError) as caught:
        load(root)
    return [str(fault) for fault in caught.value.faults]


def test_panels_and_states_are_read(build_workspace: BuildWorkspace) -> None:
    kind = load(workspace(build_workspace)).catalogue.kinds["coupling", "friction-ball"]
    assert kind.drawings == {"locked": "head", "hitched": "head", "head": "head"}
    assert {name: control.form for name, control in kind.controls.items() if name != "click"} == {
        "lever": "switch",
        "locked": "display",
        "nameless": "lamp",
    }


@pytest.mark.parametrize(
    ("panels", "message"),
    [
        ("panels: {tail: [[lever]]}\n", 'friction-ball has no point "tail"'),
        ("panels: {head: [[leever]]}\n", 'unknown control "leever"'),
        ("panels: {head: [[click]]}\n", '"click" cannot be drawn: it has no name, or only sounds'),
        ("panels: {head: [[nameless]]}\n", '"nameless" cannot be drawn: it has no name, or only sounds'),
        (
            "panels: {head: [[lever, lever, lever, lever, lever]]}\n",
            "5 things stand in one row of a panel, at most 4 fit",
        ),
        (PANELS.replace("lever: down", "lever: sideways"), '"Lever" cannot be "sideways"'),
        (PANELS.replace("locked: shown", "locked: lit"), '"Pin" cannot be "lit"'),
        (PANELS.replace("lever: down", "leever: down"), 'unknown control "leever"'),
        (PANELS.replace("hitched", "locked"), 'state "locked" has the name of a control or point'),
        (PANELS.replace("lever, locked", "locked"), '"Lever" stands on no panel'),
    ],
)
def test_what_cannot_be_drawn_is_told(panels: str, message: str, build_workspace: BuildWorkspace) -> None:
    found = told(workspace(build_workspace, panels))
    assert any(message in fault and fault.startswith(f"{KIND}:") for fault in found), found


def test_a_lamp_is_no_dial(build_workspace: BuildWorkspace) -> None:
    root = workspace(build_workspace)
    kind = root / KIND
    kind.write_text(kind.read_text("utf-8").replace("green band}", "green band, drawn: dial}"), "utf-8")
    assert any('"locked" has no positions to draw as a dial' in fault for fault in told(root))


@pytest.mark.parametrize("name", ["head", "locked", "hitched"])
def test_a_drawing_stands_on_a_line_under_a_step(name: str, build_workspace: BuildWorkspace) -> None:
    load(workspace(build_workspace, step=f"   {{{{ drawing('coupling.{name}') }}}}\n"))


@pytest.mark.parametrize(
    ("step", "message"),
    [
        ("   {{ drawing('coupling.hitchd') }}\n", 'no kind has a drawing "coupling.hitchd"'),
        ("   Turn it {{ drawing('coupling.hitched') }} now.\n", "drawing stands in a paragraph of its own"),
        ("2. {{ drawing('coupling.hitched') }}\n", "a step begins with words"),
    ],
)
def test_a_wrong_call_is_told(step: str, message: str, build_workspace: BuildWorkspace) -> None:
    found = told(workspace(build_workspace, step=step))
    assert any(message in fault and fault.startswith(f"{BLOCK}:") for fault in found), found
