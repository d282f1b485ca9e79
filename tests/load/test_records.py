import json
from datetime import date
from pathlib import Path

import pytest

from generator.errors import PublishError
from generator.load import load_records

FOLDER, CHASSIS = "7K3QX9F4WM", "ZZ9DN40N8TH000001"
CURRENT = {
    "chassis": CHASSIS,
    "folder": FOLDER,
    "edition": 2,
    "day": "2026-11-20",
    "digest": "ab",
    "pages": ["index.html"],
    "places": {"A1": "Front locker"},
    "record": {"edition": 2},
    "model": "Dune 400",
    "address": "https://vans.example/7K3QX9F4WM/",
    "paper": ["labels.pdf"],
}


def records(folder: Path, current: object = CURRENT, folders: object = None, secret: str = "0f" * 32) -> Path:
    path = folder / "records"
    (path / "editions" / FOLDER).mkdir(parents=True)
    (path / "secret").write_text(f"{secret}\n")
    (path / "folders.json").write_text(json.dumps({CHASSIS: FOLDER} if folders is None else folders))
    (path / "editions" / FOLDER / "current.json").write_text(json.dumps(current))
    return path


def told(path: Path) -> list[str]:
    with pytest.raises(PublishError) as caught:
        load_records(path)
    return [str(fault).split("\n")[0] for fault in caught.value.faults]


def test_no_folder_holds_nothing(tmp_path: Path) -> None:
    read = load_records(tmp_path / "records")
    assert (read.secret, dict(read.folders), dict(read.vans)) == (None, {}, {})


def test_what_was_published_is_read(tmp_path: Path) -> None:
    read = load_records(records(tmp_path))
    assert read.secret == b"\x0f" * 32
    assert read.folders == {CHASSIS: FOLDER}
    van = read.vans[CHASSIS]
    assert (van.edition, van.day, van.pages, van.paper) == (2, date(2026, 11, 20), ("index.html",), ("labels.pdf",))
    assert van.places == {"A1": "Front locker"} and van.record == {"edition": 2}


def test_a_folder_may_be_kept_before_anything_is_published(tmp_path: Path) -> None:
    path = records(tmp_path)
    (path / "editions" / FOLDER / "current.json").unlink()
    assert load_records(path).vans == {}


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"edition": "2"}, 'lacks or garbles "2"'),
        ({"edition": True}, 'lacks or garbles "True"'),
        ({"day": "20.11.2026"}, "lacks or garbles Invalid isoformat string: '20.11.2026'"),
        ({"pages": "index.html"}, 'lacks or garbles "index.html"'),
        ({"places": {"A1": 1}}, 'lacks or garbles "1"'),
        ({"chassis": "other"}, "is of another chassis or folder than folders.json says"),
        ({"folder": "../../../etc"}, "is of another chassis or folder than folders.json says"),
    ],
)
def test_a_garbled_record_is_told(change: dict[str, object], fault: str, tmp_path: Path) -> None:
    where = f"records/editions/{FOLDER}/current.json:1:1: error: this file of the records"
    assert told(records(tmp_path, {**CURRENT, **change})) == [f"{where} {fault}"]


def test_a_missing_field_is_told(tmp_path: Path) -> None:
    current = {key: value for key, value in CURRENT.items() if key != "digest"}
    assert "lacks or garbles 'digest'" in told(records(tmp_path, current))[0]


@pytest.mark.parametrize(
    "folders", [{CHASSIS: "../up"}, {CHASSIS: "7K3QX9F4W1"}, {CHASSIS: 7}, {"a": FOLDER, "b": FOLDER}, []]
)
def test_folders_are_names_of_ten_signs_each_used_once(folders: object, tmp_path: Path) -> None:
    assert len(told(records(tmp_path, folders=folders))) == 1


@pytest.mark.parametrize("secret", ["", "0f", "zz" * 32, "0f" * 33])
def test_a_broken_secret_is_never_replaced_in_silence(secret: str, tmp_path: Path) -> None:
    """A new secret would name new folders, and every label in the field would be dead."""
    assert "does not hold 64 hexadecimal digits" in told(records(tmp_path, secret=secret))[0]


@pytest.mark.parametrize("text", ["", "{", "[" * 100_000, '{"a": NaN', "\ud800".encode("utf-8", "surrogatepass")])
def test_json_that_cannot_be_read_is_told(text: str | bytes, tmp_path: Path) -> None:
    path = records(tmp_path)
    (path / "folders.json").write_bytes(text if isinstance(text, bytes) else text.encode())
    assert len(told(path)) == 1


def test_all_faults_are_told_together(tmp_path: Path) -> None:
    assert len(told(records(tmp_path, [], secret="x"))) == 2
