"""Publishing, unchanged manuals, records."""

import json
import os
import stat
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from generator.errors import PublishError
from generator.model.release import Release, Shelf
from generator.publish import prepare, publish
from generator.publish.lock import hold

from .conftest import CHASSIS, SECRET, Desk, tree

Make = Callable[..., Release]
After = Callable[[Release, str], Release]


def test_a_first_publication_is_online_and_in_the_records(desk: Desk, make: Make) -> None:
    made = make("one")
    outcome = desk.publish(made)
    assert outcome.state == "new"
    assert tree(desk.shelf.library / made.van.folder) == made.finished.files
    assert desk.records().folders == {CHASSIS: made.van.folder}
    assert desk.records().vans[CHASSIS] == made.van
    assert outcome.records == desk.records()
    paper = desk.shelf.records / "paper" / made.van.folder / "labels.pdf"
    assert paper.read_bytes() == b"%PDF labels"


def test_nothing_is_left_beside(desk: Desk, make: Make, next_edition: After) -> None:
    made = make("one")
    desk.publish(made)
    desk.publish(next_edition(made, "two"))
    assert desk.names() == {
        "index.html", made.van.folder, "secret", "folders.json", "vans.json", "vans.html", "editions", "paper",
    }  # fmt: skip


def test_a_next_edition_replaces_every_file(desk: Desk, make: Make, next_edition: After) -> None:
    first = make("one")
    first = replace(first, finished=replace(first.finished, files={**first.finished.files, "dropped.html": b"old"}))
    desk.publish(first)
    second = next_edition(first, "two")
    assert desk.publish(second).state == "new"
    assert tree(desk.shelf.library / second.van.folder) == second.finished.files


def test_the_history_keeps_every_edition(desk: Desk, make: Make, next_edition: After) -> None:
    first = make("one")
    second = next_edition(first, "two")
    desk.publish(first)
    kept = desk.shelf.records / "editions" / first.van.folder / "1.json"
    before = kept.read_bytes()
    desk.publish(second)
    assert kept.read_bytes() == before
    history = json.loads((kept.parent / "2.json").read_text("utf-8"))
    assert (history["edition"], history["day"], history["digest"]) == (2, "2026-11-22", second.van.digest)
    assert history["made_from"] == {"spec": "van_specs/vans/marram-0417.yaml"}


def test_an_unchanged_manual_rewrites_nothing(desk: Desk, make: Make) -> None:
    desk.publish(make("one"))
    marks = {path: (path.stat().st_mtime_ns, path.stat().st_ino) for path in desk.shelf.library.parent.rglob("*")}
    outcome = desk.publish(make("one"))
    assert outcome.state == "unchanged" and outcome.van.edition == 1
    assert marks == {
        path: (path.stat().st_mtime_ns, path.stat().st_ino) for path in desk.shelf.library.parent.rglob("*")
    }


def test_a_manual_missing_from_the_library_is_put_back_as_the_same_edition(desk: Desk, make: Make) -> None:
    made = make("one")
    desk.publish(made)
    before = desk.state()
    (desk.shelf.library / made.van.folder).rename(desk.shelf.library.parent / "lost")
    assert desk.publish(made).state == "restored"
    assert desk.state() == before


def test_labels_that_changed_alone_are_rewritten_without_an_edition(desk: Desk, make: Make) -> None:
    desk.publish(make("one"))
    library = tree(desk.shelf.library)
    assert desk.publish(make("one", labels=b"%PDF other stock")).state == "paper"
    folder = make("one").van.folder
    assert (desk.shelf.records / "paper" / folder / "labels.pdf").read_bytes() == b"%PDF other stock"
    assert tree(desk.shelf.library) == library
    assert sorted(path.name for path in (desk.shelf.records / "editions" / folder).iterdir()) == [
        "1.json",
        "current.json",
    ]


def test_two_vans_of_one_run_are_both_in_the_records(desk: Desk, make: Make) -> None:
    """The records are read once; each outcome hands them on."""
    records = desk.records()
    for chassis in ("SOR2-2026-0032", CHASSIS):
        records = publish(make("one", chassis=chassis), records, desk.shelf).records
    assert desk.records() == records
    listed = json.loads((desk.shelf.records / "vans.json").read_text("utf-8"))
    assert [van["chassis"] for van in listed] == ["SOR2-2026-0032", CHASSIS]


def test_the_list_of_vans_names_what_is_online(desk: Desk, make: Make) -> None:
    made = make("one")
    desk.publish(replace(made, van=replace(made.van, model="Marram <480>")))
    page = (desk.shelf.records / "vans.html").read_text("utf-8")
    assert CHASSIS in page and "Marram &lt;480&gt;" in page and "noindex" in page
    assert f'href="{made.van.address}"' in page
    assert f'href="paper/{made.van.folder}/labels.pdf"' in page


def test_the_root_page_of_the_library_is_empty_and_not_indexed(desk: Desk) -> None:
    page = (desk.shelf.library / "index.html").read_text("utf-8")
    assert 'name="robots" content="noindex"' in page and "<body></body>" in page


def test_the_secret_is_kept_for_the_owner_only(desk: Desk) -> None:
    path = desk.shelf.records / "secret"
    assert desk.records().secret == SECRET
    if os.name != "nt":
        assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_a_folder_the_records_do_not_know_is_not_taken_over(desk: Desk, make: Make) -> None:
    made = make("one")
    (desk.shelf.library / made.van.folder).mkdir()
    with pytest.raises(PublishError, match="the records know nothing of it"):
        desk.publish(made)


@pytest.mark.parametrize(
    ("library", "records"), [("web", "web"), ("web", "web/records"), ("web", "web/a/b"), (".", "records")]
)
def test_records_inside_the_public_library_are_refused(tmp_path: Path, library: str, records: str) -> None:
    shelf = Shelf(library=(tmp_path / library).resolve(), records=(tmp_path / records).resolve())
    with pytest.raises(PublishError, match="would lie inside the public library"):
        prepare(shelf, SECRET)
    assert not list(tmp_path.iterdir())


@pytest.mark.skipif(sys.platform == "win32", reason="links need a right of their own there")
def test_records_inside_the_library_by_another_name_are_refused(tmp_path: Path) -> None:
    (tmp_path / "web").mkdir()
    (tmp_path / "alias").symlink_to(tmp_path / "web")
    with pytest.raises(PublishError, match="would lie inside the public library"):
        prepare(Shelf(library=tmp_path / "web", records=tmp_path / "alias" / "records"), SECRET)


def test_a_library_inside_the_records_is_no_danger(tmp_path: Path) -> None:
    prepare(Shelf(library=tmp_path / "records" / "web", records=tmp_path / "records"), SECRET)


def test_a_manual_the_gate_refuses_changes_nothing(desk: Desk, make: Make) -> None:
    made = make("one")
    before = desk.state()
    files = {**made.finished.files, "gas.html": CHASSIS.encode()}
    with pytest.raises(PublishError, match="whole chassis number public"):
        desk.publish(replace(made, finished=replace(made.finished, files=files)))
    assert desk.state() == before


def test_two_commands_at_once_are_refused(desk: Desk) -> None:
    with hold(desk.shelf.records), pytest.raises(PublishError, match="another lockerleaf"), hold(desk.shelf.records):
        raise AssertionError("both got in")
    with hold(desk.shelf.records):  # and afterwards it is free
        assert (desk.shelf.records / ".lock").exists()


def test_the_same_publications_give_the_same_bytes(
    new_desk: Callable[[], Desk], make: Make, next_edition: After
) -> None:
    states = []
    for _ in range(2):
        desk = new_desk()
        desk.publish(make("one"))
        desk.publish(next_edition(make("one"), "two"))
        states.append(desk.state())
    assert states[0] == states[1]
