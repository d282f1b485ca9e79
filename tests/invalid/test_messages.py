"""Wrong input: each case lays files over the small workspace and holds the exact messages their author gets.

Files that are awkward to keep (huge, generated) are written here.
"""

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.load import load_sound
from generator.pipeline.gathering import Gathering, in_order
from generator.resolve import resolve

from ..conftest import BuildWorkspace, CheckGolden

HERE = Path(__file__).parent
CASES = sorted(path.parent.name for path in HERE.glob("*/files"))
VAN = "van_specs/vans/dune-1.yaml"
SPEC = "chassis: ZZ9DN40N8TH000001\nbased_on: dune-400\nmarket: uk\ndealer: quayside\n"


def bomb() -> str:
    """Return nine levels of nine references each: "billion laughs" in YAML."""
    lines = ["a: &a [lol, lol, lol, lol, lol, lol, lol, lol, lol]"]
    for before, name in zip("abcdefgh", "bcdefghi", strict=True):
        lines.append(f"{name}: &{name} [{', '.join([f'*{before}'] * 9)}]")
    return "\n".join(lines) + "\n"


GENERATED: dict[str, Callable[[Path], None]] = {
    "generated-line-of-10-mb": lambda root: write(root, f'{SPEC}name: "{"a" * 10_000_000}"\n'),
    "generated-line-of-30-kb": lambda root: write(root, f'{SPEC}name: "{"a" * 30_000}"\n'),
    "generated-alias-bomb": lambda root: write(root, SPEC + bomb()),
    "generated-deep-nesting": lambda root: write(root, f"{SPEC}assume: {'[' * 900}{']' * 900}\n"),
    "generated-deeper-than-the-parser": lambda root: write(root, f"{SPEC}assume: {'[' * 9_000}\n"),
    "generated-folder-for-a-file": lambda root: swap_for_folder(root),
    "generated-long-name": lambda root: write(root, f"{SPEC}name: {'Marram ' * 20}\n"),
}


def write(root: Path, text: str) -> None:
    (root / VAN).write_text(text, encoding="utf-8")


def swap_for_folder(root: Path) -> None:
    (root / VAN).unlink()
    (root / VAN).mkdir()


def messages(root: Path) -> str:
    """Return what a user is told about a workspace, of all its files at once, as the command line prints it."""
    gathered = Gathering()
    workspace, faults = load_sound(root)
    gathered.faults.extend(faults)
    for spec in workspace.vans.values():
        with gathered.of():
            resolve(spec, workspace)
    return "".join(f"{fault}\n" for fault in in_order(gathered.faults))


@pytest.mark.parametrize("case", CASES)
def test_wrong_input_is_told_with_position_and_hint(
    case: str, build_workspace: BuildWorkspace, check_golden: CheckGolden
) -> None:
    root = build_workspace(over=HERE / case / "files")
    told = messages(root)
    assert told, "the case is wrong input, but nothing was told"
    check_golden(HERE / case / "expected.txt", told)


@pytest.mark.parametrize("case", GENERATED)
def test_generated_wrong_input_is_told_with_position_and_hint(
    case: str, build_workspace: BuildWorkspace, check_golden: CheckGolden
) -> None:
    root = build_workspace()
    GENERATED[case](root)
    told = messages(root)
    assert told, "the case is wrong input, but nothing was told"
    check_golden(HERE / "generated" / f"{case.removeprefix('generated-')}.txt", told)


def test_the_small_workspace_itself_has_no_faults(build_workspace: BuildWorkspace) -> None:
    """Otherwise a case could pass for a fault that is not its own."""
    assert messages(build_workspace()) == ""
