"""A publication stopped at any moment: killed, disk full, Ctrl-C, a rename refused.

Every change to the disk goes through ``generator.publish.disk``; the tests count those steps and stop
at each in turn. A kill is a real one: the step ends its process without a word.
"""

import errno
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from generator.errors import PublishError
from generator.model.release import Release
from generator.publish import disk, journal

from .conftest import Desk

Make = Callable[..., Release]
After = Callable[[Release, str], Release]
Maker = Callable[[], Desk]
Stop = Callable[[str, Path], None]


@pytest.fixture(autouse=True)
def no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """A killed process leaves what it wrote with the system; only a power cut needs the flush."""
    monkeypatch.setattr(os, "fsync", lambda handle: None)


STEPS = ("write", "rename", "remove", "flush")


@contextmanager
def stopped_at(number: int, stop: Stop) -> Iterator[list[str]]:
    """Call ``stop`` in front of the step with this number; yields the names of the steps so far."""
    taken: list[str] = []
    real = {name: getattr(disk, name) for name in STEPS}

    def watched(name: str) -> Callable[..., None]:
        def step(path: Path, *rest: object) -> None:
            taken.append(name)
            if len(taken) - 1 == number:
                stop(name, path)
            real[name](path, *rest)

        return step

    try:
        for name in STEPS:
            setattr(disk, name, watched(name))
        yield taken
    finally:
        for name in STEPS:
            setattr(disk, name, real[name])


def count_steps(new_desk: Maker, first: Release, second: Release) -> int:
    """Return how many steps a next edition takes."""
    desk = new_desk()
    desk.publish(first)
    with stopped_at(-1, lambda *_: None) as taken:
        desk.publish(second)
    return len(taken)


@pytest.fixture
def first(make: Make) -> Release:
    return make("one")


@pytest.fixture
def second(first: Release, next_edition: After) -> Release:
    return next_edition(first, "two")


@pytest.fixture
def steps(new_desk: Maker, first: Release, second: Release) -> range:
    count = count_steps(new_desk, first, second)
    assert count > 20  # the manual has four files, and every record is a step of its own
    return range(count)


@pytest.fixture
def states(new_desk: Maker, first: Release, second: Release) -> tuple[object, object]:
    """Return library and records with the first edition, and with the second."""
    desk = new_desk()
    desk.publish(first)
    old = desk.state()
    desk.publish(second)
    return old, desk.state()


def half(path: Path) -> None:
    """Leave a half-written file, as a crash in the middle of writing does."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(b"half")


# --- killed -----------------------------------------------------------------------------------------


def killed(work: Callable[[], object], number: int) -> bool:
    """Do work in a process of its own that dies at a step; return whether it died."""
    child = os.fork()
    if child == 0:

        def die(name: str, path: Path) -> None:
            if name == "write":
                half(path)
            os._exit(9)

        try:
            with stopped_at(number, die):
                work()
            os._exit(0)
        finally:
            os._exit(1)
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert status in (0, 9)
    return status == 9


needs_fork = pytest.mark.skipif(not hasattr(os, "fork"), reason="a process is killed after fork")


@needs_fork
def test_killed_at_any_step_the_next_command_finds_one_whole_edition(
    new_desk: Maker, first: Release, second: Release, steps: range, states: tuple[object, object]
) -> None:
    """Before the journal the old edition stands, after it the new one; records and library agree."""
    seen = []
    for number in steps:
        desk = new_desk()
        desk.publish(first)
        assert killed(lambda desk=desk: desk.publish(second), number)
        whole(desk, first, second)
        completed = desk.recover()
        assert desk.state() in states
        seen.append(desk.state() == states[1])
        assert (completed == second.van.folder) <= seen[-1]
        assert desk.publish(second).state in ("new", "unchanged")
        assert desk.state() == states[1]
    assert seen == sorted(seen) and set(seen) == {False, True}  # one point of no return, old before and new after


def whole(desk: Desk, first: Release, second: Release) -> None:
    """Before anything is put right: what the web server hands out is one edition or nothing, never a mixture."""
    live = desk.shelf.library / first.van.folder
    if live.exists():
        found = {path.relative_to(live).as_posix(): path.read_bytes() for path in live.rglob("*") if path.is_file()}
        assert found in (first.finished.files, second.finished.files)
    else:  # between the two renames both are whole, beside the place
        assert journal.read(desk.shelf.records) is not None


@needs_fork
def test_a_first_publication_killed_at_any_step_is_done_or_undone(new_desk: Maker, first: Release) -> None:
    empty = new_desk().state()
    done = new_desk()
    done.publish(first)
    number = 0
    while True:
        desk = new_desk()
        if not killed(lambda desk=desk: desk.publish(first), number):
            break
        desk.recover()
        assert desk.state() in (empty, done.state())
        assert desk.publish(first).state in ("new", "unchanged")
        assert desk.state() == done.state()
        number += 1
    assert number > 10


@needs_fork
def test_putting_right_may_be_killed_too(
    new_desk: Maker, first: Release, second: Release, steps: range, states: tuple[object, object]
) -> None:
    """Killed between the two renames, then killed again at every step of the recovery."""
    at = swap_step(new_desk, first, second)
    number = 0
    while True:
        desk = new_desk()
        desk.publish(first)
        assert killed(lambda desk=desk: desk.publish(second), at)
        assert not (desk.shelf.library / first.van.folder).exists()  # the moment between the two renames
        if not killed(desk.recover, number):
            break
        desk.recover()
        assert desk.state() == states[1]
        number += 1
    assert number > 5


def swap_step(new_desk: Maker, first: Release, second: Release) -> int:
    """Return the step of the second rename of the swap."""
    desk = new_desk()
    desk.publish(first)
    found: list[int] = []
    real = disk.rename
    with stopped_at(-1, lambda *_: None) as taken:
        watched = disk.rename

        def rename(source: Path, target: Path) -> None:
            if target == desk.shelf.library / first.van.folder:
                found.append(len(taken))
            watched(source, target)

        disk.rename = rename
        desk.publish(second)
    disk.rename = real
    return found[0]


# --- the disk refuses -------------------------------------------------------------------------------


def full(name: str, path: Path) -> None:
    """Fail as a full disk does: writing stops half way, and what needs no room still works."""
    if name == "write":
        half(path)
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))


def test_a_disk_full_at_any_write_leaves_everything_as_it_was(
    new_desk: Maker, first: Release, second: Release, steps: range, states: tuple[object, object]
) -> None:
    refused = 0
    for number in steps:
        desk = new_desk()
        desk.publish(first)
        with stopped_at(number, full) as taken:
            try:
                desk.publish(second)
            except PublishError as error:
                refused += 1
                assert "nothing was published: No space left on device" in error.faults[0].message
                assert taken[number] == "write"
                assert desk.state() == states[0]
            else:
                assert desk.state() == states[1]
        assert journal.read(desk.shelf.records) is None
    assert refused == len(second.finished.files) + 6  # every file, four records, one history, and the journal


def test_a_refused_rename_is_taken_back_or_completed_by_the_next_command(
    new_desk: Maker, first: Release, second: Release, steps: range, states: tuple[object, object]
) -> None:
    """As Windows refuses to rename a folder whose files a program holds open."""

    def held(name: str, path: Path) -> None:
        if name == "rename":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    told = set()
    for number in steps:
        desk = new_desk()
        desk.publish(first)
        with stopped_at(number, held):
            try:
                desk.publish(second)
            except PublishError as error:
                told.add(error.faults[0].message.split(":")[0].replace(first.van.folder, "FOLDER"))
        if journal.read(desk.shelf.records) is None:
            assert desk.state() in states
        desk.recover()
        assert desk.state() in states
        assert desk.publish(second).state in ("new", "unchanged")
        assert desk.state() == states[1]
    assert told == {"nothing was published", "the manual FOLDER is online, but not all records could be written"}


# --- Ctrl-C -----------------------------------------------------------------------------------------


def test_ctrl_c_at_any_step_leaves_one_whole_edition_and_nothing_beside(
    new_desk: Maker, first: Release, second: Release, steps: range, states: tuple[object, object]
) -> None:
    """The command itself puts it right before it ends; no next command is needed."""

    def interrupt(name: str, path: Path) -> None:
        if name == "write":
            half(path)
        raise KeyboardInterrupt

    for number in steps:
        desk = new_desk()
        desk.publish(first)
        with stopped_at(number, interrupt), pytest.raises(KeyboardInterrupt):
            desk.publish(second)
        assert desk.state() in states
        assert not {name for name in desk.names() if name.startswith(".new") or name.startswith(".old")}
        assert journal.read(desk.shelf.records) is None


# --- recovery ---------------------------------------------------------------------------------------


def test_recovery_has_nothing_to_do_on_a_quiet_day(desk: Desk, first: Release) -> None:
    desk.publish(first)
    before = desk.state()
    assert desk.recover() is None
    assert desk.state() == before


def test_only_our_own_leftovers_are_removed(desk: Desk) -> None:
    for name in (".new-QJDKG4MKW6", ".old-notes", ".htaccess", "robots.txt"):
        (desk.shelf.library / name).mkdir()
    desk.recover()
    assert {".old-notes", ".htaccess", "robots.txt"} <= desk.names()
    assert ".new-QJDKG4MKW6" not in desk.names()


def test_a_manual_that_waits_without_a_place_is_put_back(desk: Desk, first: Release) -> None:
    desk.publish(first)
    before = desk.state()
    live = desk.shelf.library / first.van.folder
    live.rename(live.with_name(f".old-{first.van.folder}"))
    desk.recover()
    assert desk.state() == before


def test_a_journal_of_a_library_that_is_gone_is_kept(desk: Desk, first: Release, tmp_path: Path) -> None:
    """For example a network folder that is not mounted today."""
    plan = journal.Journal(library=str(tmp_path / "elsewhere"), folder=first.van.folder, site=True, files=())
    journal.commit(plan, desk.shelf.records)
    with pytest.raises(PublishError, match="which is not there"):
        desk.recover()
    assert journal.read(desk.shelf.records) == plan


def test_a_garbled_journal_is_a_fault_and_not_a_crash(desk: Desk) -> None:
    (desk.shelf.records / journal.NAME).write_text("{", "utf-8")
    with pytest.raises(PublishError, match="cannot be read"):
        desk.recover()
