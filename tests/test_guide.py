"""The writing guide of DEVELOPERS.md, followed word by word: what it says to type is typed, and ends as it says."""

import re
import shlex
from dataclasses import dataclass
from pathlib import Path

import pytest

from .test_cli import REPO, TANSY, command, copied

_FENCE = re.compile(r"^```(\w+) ?([^\n]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


_ELSEWHERE = ("setup", "preview")  # commands that are run by other tests, or by the README's
_REFUSED = "lockerleaf language heating/set-timer"  # the guide says that it ends with exit code 1


@dataclass(frozen=True)
class Piece:
    """A fenced piece of the guide: commands, or a file to write."""

    language: str
    file: str
    text: str
    before: str  # the words in front of it


def pieces() -> list[Piece]:
    guide = (REPO / "DEVELOPERS.md").read_text("utf-8").split("## From a new heater")[1].split("\n## ")[0]
    words, *found = re.split(_FENCE, guide)[::4], *_FENCE.findall(guide)
    return [Piece(*piece, before) for piece, before in zip(found, words, strict=False)]


@pytest.fixture(scope="module")
def followed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[tuple[str, int, str, str]]]:
    """The workspace after the whole guide, and each command with exit code, output and complaints."""
    root = copied(tmp_path_factory.mktemp("guide") / "desk", TANSY)
    said = []
    for piece in pieces():
        if piece.language != "sh":
            assert (root / piece.file).exists(), piece.file
            (root / piece.file).write_text(piece.text, encoding="utf-8")
        elif piece.file not in _ELSEWHERE:
            for line in piece.text.splitlines():
                name, *words = shlex.split(line)
                assert name == "lockerleaf"
                done = command(*words, cwd=root)
                said.append((line, done.returncode, done.stdout, done.stderr))
    return root, said


def test_every_command_of_the_guide_succeeds(followed: tuple[Path, list[tuple[str, int, str, str]]]) -> None:
    _, said = followed
    assert [(line, err) for line, code, _, err in said if code != (line == _REFUSED)] == []
    assert len(said) == 9


def test_a_file_to_write_is_named_in_the_words_before_it() -> None:
    """What stands behind the fence is not seen on a page made of the guide."""
    files = [piece for piece in pieces() if piece.language != "sh"]
    assert len(files) == 3
    assert all(f"`{piece.file}`" in piece.before for piece in files)


def test_each_part_left_to_write_is_told(followed: tuple[Path, list[tuple[str, int, str, str]]]) -> None:
    _, said = followed
    (err,) = (err for line, _, _, err in said if line == _REFUSED)
    assert err.count("content/blocks/heating/set-timer.md:") == err.count("still to be written") == 7


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
    (out, err) = next((out, err) for line, _, out, err in said if line.endswith("--scores"))
    assert err == "" and out.startswith("  97  heating/set-timer\nwords: nothing to mend")
