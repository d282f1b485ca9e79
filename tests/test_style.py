"""Format, lint and types: part of the one test command, so that nothing is checked elsewhere only."""

import subprocess
import sys
from pathlib import Path

import pytest

REPO = Path(__file__).parents[1]
OURS = ["generator", "tests"]


@pytest.mark.parametrize(
    "words",
    [["ruff", "format", "--check", *OURS], ["ruff", "check", *OURS], ["mypy"]],
    ids=["format", "lint", "types"],
)
def test_the_source_is_in_order(words: list[str]) -> None:
    told = subprocess.run([sys.executable, "-m", *words], cwd=REPO, capture_output=True, text=True)
    assert told.returncode == 0, told.stdout + told.stderr
