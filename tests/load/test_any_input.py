"""Whatever an author types, the answer is a list of faults with positions, never a traceback."""

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.errors import ManualError
from generator.load import load
from generator.load.body import read_body
from generator.load.faults import Faults
from generator.resolve import resolve

from ..conftest import SMALL
from ..strategies import edits

SPEC = (SMALL / "van_specs/models/dune-400.yaml").read_text() + "chassis: X1\nmarket: uk\ndealer: quayside\n"
BLOCK = (SMALL / "content/blocks/coupling/couple.md").read_text()
TABLE = (SMALL / "content/blocks/fridge/run.md").read_text()
KIND = (SMALL / "content/equipment/fridge/absorption.yaml").read_text()
OUTLINE = (SMALL / "content/outline.yaml").read_text()

quickly = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@pytest.fixture(scope="module")
def root() -> Path:
    """Return one workspace for all examples; only the file under test changes."""
    import shutil

    folder = Path(tempfile.mkdtemp(prefix="any-input-")) / "workspace"
    shutil.copytree(SMALL, folder)
    return folder


def run(root: Path, file: str, text: str) -> None:
    """Load and resolve with one file replaced; anything but a ManualError is a bug of ours."""
    path = root / file
    path.parent.mkdir(parents=True, exist_ok=True)
    before = path.read_bytes() if path.exists() else None
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    try:
        workspace = load(root)
        for spec in workspace.vans.values():
            resolve(spec, workspace)
    except ManualError as error:
        assert error.faults
        for fault in error.faults:
            assert fault.message and fault.source and fault.source.line >= 1 and fault.source.column >= 1
    finally:
        path.unlink() if before is None else path.write_bytes(before)


@quickly
@given(text=edits(SPEC))
def test_any_build_sheet(root: Path, text: str) -> None:
    run(root, "van_specs/vans/any.yaml", text)


@quickly
@given(text=edits(BLOCK) | edits(TABLE))
def test_any_block(root: Path, text: str) -> None:
    run(root, "content/blocks/coupling/couple.md", text)


@settings(max_examples=80, deadline=None)
@given(text=edits(KIND))
def test_any_kind(root: Path, text: str) -> None:
    run(root, "content/equipment/fridge/absorption.yaml", text)


@settings(max_examples=60, deadline=None)
@given(text=edits(OUTLINE))
def test_any_outline(root: Path, text: str) -> None:
    run(root, "content/outline.yaml", text)


@settings(max_examples=200, deadline=None)
@given(text=st.text(max_size=200) | edits(BLOCK, most=12))
def test_positions_in_a_block_lie_in_its_text(text: str) -> None:
    faults = Faults()
    text = text.replace("\r", " ").replace("\x0b", " ").replace("\0", " ")
    read_body("b.md", text, 1, faults)
    lines = text.split("\n")
    for fault in faults.in_order():
        assert fault.source is not None
        assert 1 <= fault.source.line <= len(lines)
        assert 1 <= fault.source.column <= len(lines[fault.source.line - 1]) + 1
