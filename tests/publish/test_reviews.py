"""The dealer's register of reviews: what is written is what is read, and a refused write changes nothing."""

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import PublishError
from generator.load import load_records
from generator.model.reviews import Review
from generator.publish import prepare_records
from generator.publish.journal import recover
from generator.publish.reviews import KEPT, check_name, record_reviews, register_file

DAY = date(2026, 11, 20)


def review(block: str = "gas/open", number: int = 0, by: str = "Robin Vale", on: date = DAY) -> Review:
    return Review(block=block, digest=f"{number:064x}", by=by, on=on)


@pytest.fixture
def records(tmp_path: Path) -> Path:
    prepare_records(tmp_path / "records")
    return tmp_path / "records"


def test_what_is_recorded_is_read(records: Path) -> None:
    made = (review(number=1), review(number=2, on=date(2027, 1, 8)), review("hob/gas", 3, "Ngaio Te Aho"))
    assert record_reviews(made, records) == records / "reviews.yaml"
    assert load_records(records).reviews == made


def test_no_review_is_a_register_too(records: Path) -> None:
    record_reviews((), records)
    assert load_records(records).reviews == ()


@given(name=st.text(st.characters(exclude_categories=("Cs",)), max_size=120))
def test_a_name_is_refused_or_comes_back_as_given(name: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Whatever people are called: no name may leave a register that cannot be read again."""
    try:
        checked = check_name(name)
    except PublishError:
        return
    folder = tmp_path_factory.mktemp("records")
    record_reviews([review(by=checked)], folder)
    (read,) = load_records(folder).reviews
    assert read.by == checked


@pytest.mark.parametrize("name", ["yes", "null", "# 7", 'O\'Brien: "Bo"', "{a}", "- b", "1.10", "Zoë 陳"])
def test_a_name_that_yaml_could_take_for_something_else(name: str, records: Path) -> None:
    record_reviews([review(by=check_name(f" {name} "))], records)
    assert [read.by for read in load_records(records).reviews] == [name]


@pytest.mark.parametrize("name", ["", "  ", "two\nlines", "a" * 101, "\ue000", "\u202eelav"])
def test_what_is_no_name_is_refused(name: str) -> None:
    with pytest.raises(PublishError, match="no name of who has checked"):
        check_name(name)


def test_the_newest_reviews_of_a_block_are_kept(records: Path) -> None:
    made = [review(number=number) for number in range(KEPT + 5)]
    record_reviews([*made, review("hob/gas", 99)], records)
    read = load_records(records).reviews
    assert [one.digest for one in read if one.block == "gas/open"] == [one.digest for one in made[5:]]
    assert [one.block for one in read if one.block != "gas/open"] == ["hob/gas"]


def test_a_line_of_the_register_is_found_by_eye() -> None:
    text = register_file([review("hob/gas", 2), review("gas/open", 1)]).decode()
    assert [line[4:24] for line in text.splitlines() if line.startswith("  - ")] == [
        '{"block": "gas/open"',
        '{"block": "hob/gas",',
    ]


def test_a_refused_write_leaves_the_register_as_it_was(records: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    record_reviews([review(number=1)], records)
    before = (records / "reviews.yaml").read_bytes()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("generator.publish.disk.rename", full)
    with pytest.raises(PublishError, match="no review was recorded: No space left on device"):
        record_reviews([review(number=1), review(number=2)], records)
    assert (records / "reviews.yaml").read_bytes() == before


def test_what_a_crash_left_beside_the_register_is_cleared(records: Path, tmp_path: Path) -> None:
    record_reviews([review()], records)
    (records / ".new-reviews.yaml").write_text("half", "utf-8")
    recover(tmp_path / "library", records)
    assert sorted(path.name for path in records.iterdir()) == ["reviews.yaml"]


def test_a_broken_register_is_a_fault_with_its_position(records: Path) -> None:
    record_reviews([review()], records)
    path = records / "reviews.yaml"
    path.write_text(path.read_text("utf-8").replace('"2026-11-20"', '"20 November"'), "utf-8")
    with pytest.raises(PublishError) as caught:
        load_records(records)
    (fault,) = caught.value.faults
    line = path.read_text("utf-8").splitlines()[2]
    assert str(fault.source) == f"records/reviews.yaml:3:{line.index('20 November')}"
    assert fault.message == '"20 November" is not a day, such as "2026-11-20"'
