"""Reviewing as a dealer does it: list, read, record, publish; and what an edit does to it."""

import json
import re
import shutil
from pathlib import Path

import pytest

from generator import cli
from generator.load import load_records
from generator.model.holes import Notice
from generator.model.release import Shelf
from generator.model.reviews import Review
from generator.pipeline.checking import Judged
from generator.pipeline.publishing import Published, publish_vans
from generator.pipeline.reviewing import Reviewed, review_vans

from .test_cli import REPO, SORREL, change, command, copied, tree
from .test_pipeline import DAY, SECRET

NOTICE = "Draft: not yet checked by the dealer."
FIRE = "content/blocks/emergency/fire.md"


@pytest.fixture(scope="module")
def drafted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A workspace with one van, published as it comes."""
    desk = copied(tmp_path_factory.mktemp("drafted") / "desk", SORREL)
    done = command("publish", "--day", "2026-11-25", cwd=desk)
    assert done.returncode == 0, done.stderr
    assert re.search(r"^  draft    (\d+) of \1 safety-critical blocks wait for review", done.stdout, re.MULTILINE)
    return desk


@pytest.fixture(scope="module")
def reviewed(tmp_path_factory: pytest.TempPathFactory, drafted: Path) -> Path:
    """The same workspace, reviewed and published again."""
    desk = tmp_path_factory.mktemp("reviewed") / "desk"
    shutil.copytree(drafted, desk)
    done = command("review", SORREL, "--by", "Robin Vale", "--day", "2026-11-26", cwd=desk)
    assert done.returncode == 0, done.stderr
    done = command("publish", "--day", "2026-11-27", cwd=desk)
    assert done.returncode == 0, done.stderr
    assert "edition 2 of 2026-11-27" in done.stdout and "wait for review" not in done.stdout
    return desk


@pytest.fixture
def desk(tmp_path: Path, reviewed: Path) -> Path:
    """A reviewed workspace to change."""
    shutil.copytree(reviewed, tmp_path / "desk")
    return tmp_path / "desk"


def online(desk: Path) -> Path:
    (folder,) = json.loads((desk / "records/folders.json").read_text("utf-8")).values()
    return desk / "library" / str(folder)


def record(desk: Path) -> dict[str, object]:
    found: dict[str, object] = json.loads((online(desk) / "edition.json").read_text("utf-8"))
    return found


def pages(desk: Path) -> dict[str, str]:
    """Every page that is online, the copy in one file and the page for a missing address included."""
    found = {name: data.decode() for name, data in tree(online(desk)).items() if name.endswith(".html")}
    assert len(found) > 30 and {"404.html", record(desk)["single"]} < set(found)
    return found


def without_style(page: str) -> str:
    """Return a page in small letters, its style left out."""
    return re.sub(r"<style>.*?</style>", "", page, flags=re.S).lower()


# --- the notice -------------------------------------------------------------------------------------


def test_every_page_of_an_unreviewed_manual_says_so(drafted: Path) -> None:
    assert not [name for name, page in pages(drafted).items() if f'<p class="draft">{NOTICE}</p>' not in page]
    assert record(drafted)["draft"] is True
    assert "Draft: the dealer has not yet checked" in pages(drafted)["about.html"]


def test_a_recorded_review_takes_the_notice_off_every_page(reviewed: Path) -> None:
    assert not [name for name, page in pages(reviewed).items() if NOTICE in page or 'class="draft"' in page]
    said = {name for name, page in pages(reviewed).items() if "draft" in without_style(page)}
    assert said <= {"what-changed.html", record(reviewed)["single"]}  # which say that it was one
    assert record(reviewed)["draft"] is False and record(reviewed)["edition"] == 2
    assert "The dealer has had every text about things that can hurt somebody checked." in pages(reviewed)["about.html"]


def test_the_notice_is_all_that_a_review_changes_on_a_page(drafted: Path, reviewed: Path) -> None:
    before, after = pages(drafted), pages(reviewed)
    assert set(before) == set(after)
    for name in set(before) - {"about.html", "what-changed.html", record(drafted)["single"]}:
        plain = before[name].replace(f'<p class="draft">{NOTICE}</p>', "")
        for first, second in (("Edition 1", "Edition 2"), ("edition 1", "edition 2"), ("25 Nov", "27 Nov")):
            plain = plain.replace(first, second)
        assert plain.replace('data-edition="1"', 'data-edition="2"') == after[name], name


def test_the_name_of_who_reviewed_stays_in_the_records(reviewed: Path) -> None:
    assert not [name for name, data in tree(reviewed / "library").items() if b"Robin Vale" in data]
    history = json.loads((reviewed / "records/editions" / online(reviewed).name / "2.json").read_text("utf-8"))
    assert history["made_from"]["reviews"]["emergency/fire"] == "Robin Vale, 2026-11-26"


def test_publishing_a_reviewed_manual_again_changes_nothing(desk: Path) -> None:
    assert "unchanged, edition 2 stands" in command("publish", "--day", "2026-12-01", cwd=desk).stdout


# --- edits ------------------------------------------------------------------------------------------


def test_editing_a_block_voids_its_review_and_no_other(desk: Path) -> None:
    change(desk / FIRE, "title: Fire", "title: Fire in the van")
    listed = command("review", SORREL, cwd=desk)
    assert listed.returncode == 0, listed.stderr
    assert [line for line in listed.stdout.splitlines() if ".md: " in line] == [f"{FIRE}: Fire in the van (emergency)"]
    assert re.search(r"1 of \d+ safety-critical blocks waits for review$", listed.stdout)
    done = command("publish", "--day", "2026-12-01", cwd=desk)
    assert "edition 3 of 2026-12-01" in done.stdout
    assert not [name for name, page in pages(desk).items() if NOTICE not in page]
    history = json.loads((desk / "records/editions" / online(desk).name / "3.json").read_text("utf-8"))
    assert "emergency/fire" not in history["made_from"]["reviews"]


def test_putting_the_old_words_back_needs_no_new_review(desk: Path) -> None:
    before = (desk / FIRE).read_bytes()
    (desk / FIRE).write_bytes(before + b"\n")
    assert FIRE in command("review", SORREL, cwd=desk).stdout
    (desk / FIRE).write_bytes(before)
    assert "nothing waits for review" in command("review", SORREL, cwd=desk).stdout


# --- the command ------------------------------------------------------------------------------------


def test_without_a_name_it_lists_and_writes_nothing(drafted: Path) -> None:
    before = tree(drafted)
    told = command("review", cwd=drafted)
    assert told.returncode == 0, told.stderr
    assert f"{FIRE}: Fire (emergency)" in told.stdout
    couple = r"Hitch up \(hazards crush-coupling; warns before a step: runaway, crush-hand"
    assert re.search(rf"^content/blocks/coupling/couple-ball\.md: {couple}", told.stdout, re.MULTILINE)
    assert re.search(rf"^{SORREL}: Sorrel 2 6-0032, (\d+) of \1 safety-critical blocks wait", told.stdout, re.MULTILINE)
    assert tree(drafted) == before


def test_check_says_how_many_blocks_wait(drafted: Path) -> None:
    told = command("check", SORREL, cwd=drafted)
    assert re.search(
        r"pages, \d+ labels, a draft: (\d+) of \1 safety-critical blocks wait for review$", told.stdout, re.MULTILINE
    )


def test_what_is_recorded_is_what_was_listed(drafted: Path, reviewed: Path) -> None:
    told = command("review", SORREL, cwd=drafted)
    listed = re.findall(r"^content/blocks/(\S+)\.md: ", told.stdout, re.MULTILINE)
    kept = load_records(reviewed / "records").reviews
    assert sorted(listed) == [review.block for review in kept] and len(listed) > 20
    assert {(review.by, review.on.isoformat()) for review in kept} == {("Robin Vale", "2026-11-26")}


def test_recording_twice_changes_nothing(desk: Path) -> None:
    before = tree(desk)
    told = command("review", SORREL, "--by", "Kit Moor", cwd=desk)
    assert told.returncode == 0 and "nothing waits for review" in told.stdout
    assert tree(desk) == before


def test_a_name_without_vans_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    """Signing for every van there is should not be what a forgotten word does."""
    assert cli.run(["review", "--by", "Robin Vale"]) == 2
    assert "--by needs the build sheets of the vans that were checked" in capsys.readouterr().err


def test_no_name_is_refused_before_anything_is_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.run(["review", SORREL, "--by", " ", "--records", str(tmp_path / "records")]) == 1
    assert "error: this is no name of who has checked" in capsys.readouterr().err
    assert not (tmp_path / "records").exists()


def test_help_has_an_example_and_says_what_is_judged(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.run(["review", "--help"]) == 0
    told = capsys.readouterr().out
    assert "Example: lockerleaf review van_specs/vans/" in told and re.search(r"^  Judges ", told, re.MULTILINE)


@pytest.mark.parametrize("file", ["content/reviews.yaml", "records/reviews.yaml"])
def test_a_broken_register_is_told_with_its_position(desk: Path, file: str) -> None:
    (desk / file).write_text("reviews:\n  - {block: gas/open, digest: 12, by: Robin Vale, on: 2026-11-20}\n", "utf-8")
    told = command("publish", cwd=desk)
    assert told.returncode == 1
    assert told.stderr.splitlines()[0] == f'{file}:2:31: error: "12" is no digest of a review'


def test_a_line_of_the_records_counts_in_the_content_too(desk: Path) -> None:
    """Both registers have one shape."""
    shutil.move(desk / "records/reviews.yaml", desk / "content/reviews.yaml")
    assert "nothing waits for review" in command("review", SORREL, cwd=desk).stdout


# --- as shipped -------------------------------------------------------------------------------------


def test_nothing_that_is_shipped_has_been_reviewed(tmp_path: Path) -> None:
    assert "\nreviews: []\n" in (REPO / "content/reviews.yaml").read_text("utf-8")
    done = review_vans(REPO, [], tmp_path / "records", None, DAY)
    assert len(done.vans) > 1 and done.register is None
    for van in done.vans:
        manual = van.manual
        assert manual.waiting == manual.safety and manual.safety, van.file
        assert manual.values["draft/notice"] == Notice(text=NOTICE)
    assert not (tmp_path / "records").exists()


def test_a_review_recorded_while_a_van_is_judged_waits_for_the_next_publication(tmp_path: Path) -> None:
    """What was judged as a draft goes out as a draft; the reviews stay in the records."""
    shelf = Shelf(library=tmp_path / "library", records=tmp_path / "records")
    running = publish_vans(REPO, [Path(SORREL)], shelf, DAY, SECRET)
    judged = next(running)
    assert isinstance(judged, Judged)
    done = review_vans(REPO, [Path(SORREL)], shelf.records, "Robin Vale", DAY)
    assert isinstance(next(running), Published)
    kept = load_records(shelf.records)
    assert kept.reviews == tuple(sorted(_made(done), key=lambda review: review.block))
    assert [van.record["draft"] for van in kept.vans.values()] == [True]


def _made(done: Reviewed) -> list[Review]:
    return [Review(block=one.id, digest=one.digest, by="Robin Vale", on=DAY) for one in done.waiting]
