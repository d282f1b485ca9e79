"""The stages strung together, on the smallest demo van."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from generator.errors import ManualError, PublishError
from generator.load import load_records
from generator.model.release import Shelf
from generator.pipeline.checking import Judged, check_vans
from generator.pipeline.finishing import address_of
from generator.pipeline.publishing import Published, publish_vans

REPO = Path(__file__).parents[1]
SORREL = "van_specs/vans/sorrel-0032.yaml"
CHASSIS = "SOR2-2026-0032"
SECRET = bytes(range(32))
DAY = date(2026, 11, 25)


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(library=tmp_path / "library", records=tmp_path / "records")


def publish(shelf: Shelf, day: date = DAY, root: Path = REPO) -> Published:
    """Publish the van and return where it is."""
    judged, published = publish_vans(root, [Path(SORREL)], shelf, day, SECRET)
    assert isinstance(judged, Judged) and isinstance(published, Published)
    return published


def tree(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize(
    ("library", "address"),
    [
        ("https://vans.example", "https://vans.example/7K3QX9F4WM/"),
        ("https://vans.example/", "https://vans.example/7K3QX9F4WM/"),
        ("https://vans.example:8443/M", "https://vans.example:8443/M/7K3QX9F4WM/"),
    ],
)
def test_the_address_of_a_manual(library: str, address: str) -> None:
    assert address_of(library, "7K3QX9F4WM") == address


def test_a_first_publication_keeps_the_secret_it_was_given(shelf: Shelf) -> None:
    publish(shelf)
    assert load_records(shelf.records).secret == SECRET


def test_a_manual_lost_from_the_library_comes_back_byte_for_byte(shelf: Shelf) -> None:
    """On a later day too: edition and day are those that were published."""
    first = publish(shelf)
    before = tree(shelf.library)
    shutil.rmtree(first.index.parent)
    again = publish(shelf, date(2027, 1, 1))
    assert (again.state, again.edition, again.day) == ("restored", 1, DAY)
    assert tree(shelf.library) == before


def test_the_folder_of_the_records_wins_over_a_secret_that_was_lost(shelf: Shelf) -> None:
    first = publish(shelf)
    (shelf.records / "secret").unlink()
    _, published = publish_vans(REPO, [Path(SORREL)], shelf, DAY, bytes(32))
    assert isinstance(published, Published)
    assert (published.state, published.index) == ("unchanged", first.index)


def test_records_that_moved_while_the_vans_were_judged_are_refused(shelf: Shelf, tmp_path: Path) -> None:
    """Two commands at once: the second has judged against records that are no longer true."""
    slower = publish_vans(REPO, [Path(SORREL)], shelf, DAY, SECRET)
    assert isinstance(next(slower), Judged)
    publish(shelf)
    with pytest.raises(PublishError, match="another command has published meanwhile"):
        next(slower)
    assert load_records(shelf.records).vans[CHASSIS].edition == 1


def test_nothing_is_written_before_everything_is_judged(shelf: Shelf) -> None:
    running = publish_vans(REPO, [Path(SORREL)], shelf, DAY, SECRET)
    next(running)
    assert not shelf.library.exists() and not shelf.records.exists()


def test_the_record_holds_pages_and_places(shelf: Shelf) -> None:
    published = publish(shelf)
    van = load_records(shelf.records).vans[CHASSIS]
    online = {name for name in tree(published.index.parent) if name.endswith(".html")}
    copies = {"404.html", "not-yet.html", f"{van.record['single']}"}
    assert set(van.pages) == online - copies
    assert van.places == {place.code: place.name for place in published.van.caravan.places}
    assert van.address == published.address and van.paper == ("labels.pdf",)


def test_ticks_count_down_to_nothing(shelf: Shelf) -> None:
    told: list[tuple[int, str]] = []
    list(publish_vans(REPO, [Path(SORREL)], shelf, DAY, SECRET, lambda left, what: told.append((left, what))))
    assert [left for left, _ in told] == [3, 2, 1, 0]
    assert [what.split()[0] for _, what in told] == ["assembled", "rendered", "filled", "published"]


def test_faults_of_numbers_are_all_told_with_the_rest(tmp_path: Path) -> None:
    """An axle load over its plate in one van does not hide the unknown market of another."""
    for folder in ("content", "van_specs"):
        shutil.copytree(REPO / folder, tmp_path / folder)
    sheet = tmp_path / "van_specs/models/sorrel-2.yaml"
    sheet.write_text(sheet.read_text("utf-8").replace("unladen: 452 kg", "unladen: 700 kg"), "utf-8")
    other = tmp_path / "van_specs/vans/tansy-0108.yaml"
    other.write_text(other.read_text("utf-8").replace("market: uk", "market: atlantis"), "utf-8")
    with pytest.raises(ManualError) as caught:
        check_vans(tmp_path, [], tmp_path / "records", DAY)
    files = {fault.source.file for fault in caught.value.faults if fault.source}
    assert {"van_specs/vans/tansy-0108.yaml"} < files
    assert any("sorrel-2" in file for file in files)
    places = [fault.source for fault in caught.value.faults if fault.source]
    assert places == sorted(places)


def test_a_changed_van_says_what_changed_and_then_stays(tmp_path: Path, shelf: Shelf) -> None:
    """One number more on the sheet makes one edition, however often it is published, and comes back as it was."""
    root = tmp_path / "workspace"
    for folder in ("content", "van_specs", "site_template"):
        shutil.copytree(REPO / folder, root / folder)
    first = publish(shelf, root=root)
    assert "This is the first edition." in (first.index.parent / "what-changed.html").read_text("utf-8")
    assert publish(shelf, root=root).state == "unchanged"
    sheet = root / "van_specs/models/sorrel-2.yaml"
    sheet.write_text(sheet.read_text("utf-8").replace("unladen: 452 kg", "unladen: 455 kg"), "utf-8")
    second = publish(shelf, root=root)
    assert (second.state, second.edition) == ("new", 2)
    said = (second.index.parent / "what-changed.html").read_text("utf-8")
    assert "What is different from edition 1." in said and "What you may still load" in said
    assert publish(shelf, date(2027, 1, 1), root).state == "unchanged"
    before = tree(shelf.library)
    shutil.rmtree(second.index.parent)
    assert publish(shelf, date(2027, 1, 1), root).state == "restored"
    assert tree(shelf.library) == before
