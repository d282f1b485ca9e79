"""Small manuals to publish, and what a library and its records hold."""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from hashlib import sha256
from pathlib import Path

import pytest

from generator.load import load_records
from generator.model.release import Outcome, Release, Shelf
from generator.model.site import Finished, PublishedVan, Records
from generator.publish import prepare, publish
from generator.publish.folders import folder_name
from generator.publish.journal import recover

SECRET = bytes(range(32))
CHASSIS = "ZZ9MR48NZTH000417"


def release(text: str, edition: int = 1, chassis: str = CHASSIS, labels: bytes = b"%PDF labels") -> Release:
    """Return a manual of a few files whose start page holds ``text``."""
    folder = folder_name(chassis, {}, SECRET)
    digest = sha256(text.encode()).hexdigest()
    record = {"edition": edition, "pages": ["index.html"]}
    files = {
        "index.html": f"<h1>{text}</h1><p>Edition {edition}</p>".encode(),
        "A1/index.html": b"<h1>Front gas locker</h1>",
        "assets/style.0123.css": b"body{}",
        "edition.json": json.dumps(record).encode(),
    }
    van = PublishedVan(
        chassis=chassis,
        folder=folder,
        edition=edition,
        day=date(2026, 11, 20 + edition),
        digest=digest,
        pages=("index.html", "A1/index.html"),
        places={"A1": "Front gas locker"},
        record=record,
        model="Marram 480",
        address=f"https://vans.example/{folder}/",
        paper=("labels.pdf",),
    )
    return Release(
        van=van,
        finished=Finished(files=files, digest=digest, record=record),
        paper={"labels.pdf": labels},
        made_from={"spec": "van_specs/vans/marram-0417.yaml"},
    )


def tree(folder: Path) -> dict[str, bytes]:
    """Return every file under a folder by path, hidden ones too; the lock holds nothing."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != ".lock"
    }


@dataclass(frozen=True)
class Desk:
    """A dealer's folders, and the commands used on them."""

    shelf: Shelf

    def prepare(self) -> None:
        """Make both folders and keep a secret."""
        prepare(self.shelf, SECRET)

    def publish(self, made: Release) -> Outcome:
        """Publish as a command does: the records are read from the disk."""
        return publish(made, self.records(), self.shelf)

    def records(self) -> Records:
        """Read the records from the disk."""
        return load_records(self.shelf.records)

    def recover(self) -> str | None:
        """Do what every command does first."""
        return recover(self.shelf.library, self.shelf.records)

    def state(self) -> dict[str, dict[str, bytes]]:
        """Return every file of both folders."""
        return {"library": tree(self.shelf.library), "records": tree(self.shelf.records)}

    def names(self) -> set[str]:
        """Return the names at the top of both folders."""
        return {path.name for folder in (self.shelf.library, self.shelf.records) for path in folder.iterdir()}


@pytest.fixture
def new_desk(tmp_path: Path) -> Iterator[Callable[[], Desk]]:
    """Return a maker of empty desks."""
    count = iter(range(10_000))

    def make() -> Desk:
        root = tmp_path / f"desk{next(count)}"
        desk = Desk(Shelf(library=root / "library", records=root / "records"))
        desk.prepare()
        return desk

    yield make


@pytest.fixture
def desk(new_desk: Callable[[], Desk]) -> Desk:
    return new_desk()


@pytest.fixture
def make() -> Callable[..., Release]:
    return release


@pytest.fixture
def next_edition() -> Callable[[Release, str], Release]:
    """Return the edition after a release, with other text."""

    def after(before: Release, text: str) -> Release:
        return replace(release(text, before.van.edition + 1, before.van.chassis))

    return after
