"""A published manual that was damaged, and what its dealer is told."""

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from generator.model.site import PublishedVan
from generator.verify import verify

from ..finished import finished_fixture
from ..fixture_manual import FOLDER

Files = dict[str, bytes]
ZIP = next(path for path in finished_fixture().files if path.endswith(".zip"))
PACK = next(path for path in finished_fixture().files if path.endswith(".bin"))
SINGLE = ZIP.replace(".zip", ".html")
KNOWN = PublishedVan(
    chassis="ZZ9MR48NZTH000417",
    folder=FOLDER,
    edition=1,
    day=date(2026, 11, 20),
    digest=finished_fixture().digest,
    pages=("index.html",),
    places={"A1": "Front gas locker"},
    record=json.loads(finished_fixture().files["edition.json"]),
)


def told(files: Files, known: PublishedVan | None = None) -> list[tuple[str, str]]:
    faults = verify(FOLDER, files, known)
    assert all(fault.hint for fault in faults)
    return [(fault.source.file.removeprefix(f"{FOLDER}/"), fault.message) for fault in faults if fault.source]


def flipped(path: str) -> Files:
    """Return the fixture with one bit of one file turned, in its middle."""
    files = dict(finished_fixture().files)
    data = bytearray(files[path])
    data[len(data) // 2] ^= 1
    return {**files, path: bytes(data)}


def without(path: str) -> Files:
    return {name: data for name, data in finished_fixture().files.items() if name != path}


def test_a_manual_as_it_was_published_has_no_fault() -> None:
    assert told(dict(finished_fixture().files), KNOWN) == []


@pytest.mark.parametrize("path", sorted(finished_fixture().files))
def test_one_bit_of_any_file_is_found_there(path: str) -> None:
    assert path in [name for name, _ in told(flipped(path), KNOWN)]


@pytest.mark.parametrize("path", ["index.html", "A1/index.html", SINGLE, ZIP, PACK, "sw.js", "edition.json"])
def test_a_missing_file_is_named(path: str) -> None:
    assert path in [name for name, _ in told(without(path))]


def test_a_file_that_does_not_belong_is_named() -> None:
    files = {**finished_fixture().files, "notes/owner.txt": b"private"}
    assert told(files, KNOWN) == [("notes/owner.txt", "this file is no part of the manual")]


def test_a_label_that_leads_nowhere_is_named_with_its_code() -> None:
    faults = told(dict(finished_fixture().files), replace(KNOWN, places={"A1": "Locker", "D9": "Spare hook"}))
    assert faults == [("D9/index.html", "the label D9 leads here, and the page is missing")]


@pytest.mark.parametrize(
    "change", [lambda record: {**record, "edition": 99}, lambda record: {}], ids=["edition", "none"]
)
def test_another_edition_than_the_records_hold_is_told(change: Callable[[object], dict[str, object]]) -> None:
    (fault,) = told(dict(finished_fixture().files), replace(KNOWN, record=change(KNOWN.record)))
    assert fault == ("edition.json", "the records hold edition 1 of 2026-11-20, and this is not its record")
