"""``lockerleaf verify`` over a library: whole, damaged, half-swapped, with and without records."""

import shutil
from pathlib import Path

import pytest

from .test_cli import SORREL, command, copied


@pytest.fixture(scope="module")
def online(tmp_path_factory: pytest.TempPathFactory) -> Path:
    desk = copied(tmp_path_factory.mktemp("verify") / "desk", SORREL)
    assert command("publish", "--day", "2026-11-25", cwd=desk).returncode == 0
    return desk


@pytest.fixture
def desk(online: Path, tmp_path: Path) -> Path:
    """A copy of library and records, to be damaged."""
    for part in ("library", "records"):
        shutil.copytree(online / part, tmp_path / part)
    return tmp_path


def manual(desk: Path) -> Path:
    (folder,) = (path for path in (desk / "library").iterdir() if path.is_dir())
    return folder


def test_what_is_online_as_published_is_0(online: Path) -> None:
    done = command("verify", cwd=online)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("1 manual, ") and done.stdout.endswith("files: all as published\n")


def test_without_records_a_manual_is_judged_by_its_own_lists(desk: Path) -> None:
    shutil.rmtree(desk / "records")
    done = command("verify", cwd=desk)
    assert done.returncode == 0 and "there are no records here" in done.stdout
    (manual(desk) / "index.html").write_bytes(b"<!doctype html>")
    done = command("verify", cwd=desk)
    assert done.returncode == 1
    assert f"{manual(desk).name}/index.html:1:1: error: this file is not as it was published" in done.stderr


def test_a_lost_manual_a_strange_folder_and_an_interrupted_publication_are_told(desk: Path) -> None:
    folder = manual(desk)
    folder.rename(desk / "library/23456789AB")
    (desk / f"library/.new-{folder.name}").mkdir()
    (desk / "library/backup").mkdir()
    (desk / "records/journal.json").write_text("{}")
    done = command("verify", cwd=desk)
    assert done.returncode == 1
    assert [line for line in done.stderr.splitlines() if "error" in line] == [
        f".new-{folder.name}:1:1: error: a publication was interrupted here",
        "23456789AB:1:1: error: the records know nothing of this manual",
        f"{folder.name}:1:1: error: the manual of Sorrel 2 is not in the library: edition 1 of 2026-11-25",
        "backup:1:1: error: this is no manual",
        "journal.json:1:1: error: a publication was interrupted here",
    ]


def test_what_the_hint_says_puts_a_damaged_manual_back(online: Path, tmp_path: Path) -> None:
    desk = tmp_path / "desk"
    shutil.copytree(online, desk)
    (manual(desk) / "A1/index.html").unlink()
    assert command("verify", cwd=desk).returncode == 1
    shutil.rmtree(manual(desk))
    assert command("publish", "--day", "2027-01-01", cwd=desk).returncode == 0
    assert command("verify", cwd=desk).returncode == 0


def test_a_library_that_is_not_there_is_a_fault(tmp_path: Path) -> None:
    done = command("verify", cwd=tmp_path)
    assert done.returncode == 1 and "cannot be read: No such file or directory" in done.stderr
