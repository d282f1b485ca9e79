"""``lockerleaf prove``: quiet where all vans are whole, else the fault and a build sheet that shows it."""

import shutil
from pathlib import Path

import pytest

from generator.cli import FAULTS, run
from generator.load import load
from generator.resolve import resolve

ROOT = Path(__file__).parents[1]


def test_shipped_catalogue_is_whole(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["prove", "--workspace", str(ROOT)]) == 0
    assert "every statement holds in all" in capsys.readouterr().out


def test_a_hole_is_told_with_a_build_sheet_that_loads(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for folder in ("content", "van_specs"):
        shutil.copytree(ROOT / folder, tmp_path / folder)
    block = tmp_path / "content/blocks/grill/use.md"
    text = block.read_text(encoding="utf-8").replace("topic: grill/use", "topic: grill/use\nallow: {oven: test}", 1)
    text = text.replace("\n1. ", "\n1. Bake it in the [oven](topic:oven/use).\n2. ", 1)
    block.write_text(text, encoding="utf-8")
    assert run(["prove", "--workspace", str(tmp_path)]) == FAULTS
    said = capsys.readouterr()
    assert "content/blocks/grill/use.md:" in said.err and "pulls in topic oven/use" in said.err
    sheet = tmp_path / "van_specs/vans/counter-example.yaml"
    sheet.write_text(said.out.split("\n\n")[0], encoding="utf-8")
    workspace = load(tmp_path, [sheet])
    traits = resolve(workspace.vans["van_specs/vans/counter-example.yaml"], workspace).traits
    assert "grill" in traits and "oven" not in traits
