"""The writing guide of DEVELOPERS.md, followed word by word: what it says to type is typed, and ends as it says."""

import re
import shlex
from dataclasses import dataclass
from pathlib import Path

import pytest

from .test_cli import REPO, TANSY, command, copied

_FENCE = re.compile(r"^```(\w+) ?([^\n]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@dataclass(frozen=True)
class Piece:
    """A fenced piece of the guide: commands, or a file to write."""

    language: str
    file: str
    text: str


def pieces() -> list[Piece]:
    guide = (REPO / "DEVELOPERS.md").read_text("utf-8").split("## From a new heater")[1].split("\n## ")[0]
    return [Piece(*found) for found in _FENCE.findall(guide)]


@pytest.fixture(scope="module")
def followed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[tuple[str, int, str, str]]]:
    """The workspace after the whole guide, and each command with exit code, output and complaints."""
    root = copied(tmp_path_factory.mktemp("guide") / "desk", TANSY)
    said = []
    for piece in pieces():
        if piece.language != "sh":
            assert piece.file == "content/blocks/heating/set-timer.md" or (root / piece.file).exists(), piece.file
            (root / piece.file).write_text(piece.text, encoding="utf-8")
        elif piece.file != "preview":
            for line in piece.text.splitlines():
                name, *words = shlex.split(line)
                assert name == "lockerleaf"
                done = command(*words, cwd=root)
                said.append((line, done.returncode, done.stdout, done.stderr))
    return root, said


def test_every_command_of_the_guide_succeeds(followed: tuple[Path, list[tuple[str, int, str, str]]]) -> None:
    _, said = followed
    assert [(line, err) for line, code, _, err in said if code] == []
    assert len(said) == 8


def test_the_guide_ends_in_a_proved_page(followed: tuple[Path, list[tuple[str, int, str, str]]]) -> None:
    _, said = followed
    told = {line: (out, err) for line, _, out, err in said}
    assert "every statement holds in all" in told["lockerleaf prove"][0]
    checked = told["lockerleaf check van_specs/vans/tansy-000109.yaml"][0]
    assert "1 van without faults" in checked
    reach = told["lockerleaf reach heating/set-timer"][0]
    assert "Set the heater timer" in reach and "in 1 of 2 vans" in reach and "walk-round" in reach


def test_its_words_keep_the_rules(followed: tuple[Path, list[tuple[str, int, str, str]]]) -> None:
    _, said = followed
    (out, err) = next((out, err) for line, _, out, err in said if line.startswith("lockerleaf language"))
    assert err == "" and re.search(r"^ +\d+  heating/set-timer$", out, re.MULTILINE)
