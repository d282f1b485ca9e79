"""The command ``paper`` as a dealer's office meets it."""

from pathlib import Path

import pytest

from tests.test_cli import SORREL, change, command, copied, tree

WHOLE = {
    *("labels.pdf", "booklet-a5.pdf", "booklet-a4.pdf", "booklet-staple.pdf"),
    *("walkround.pdf", "card.pdf", "calendar.ics"),
}


@pytest.fixture(scope="module")
def published(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The smallest demo van, published."""
    folder = copied(tmp_path_factory.mktemp("paper") / "desk", SORREL)
    done = command("publish", "--day", "2026-11-25", cwd=folder)
    assert done.returncode == 0, done.stderr
    return folder


def test_all_paper_of_a_published_van_lies_beside_its_labels(published: Path) -> None:
    (folder,) = (published / "records/paper").iterdir()
    before = (folder / "labels.pdf").read_bytes()
    done = command("paper", SORREL, "--day", "2027-01-01", cwd=published)
    assert done.returncode == 0, done.stderr
    assert "edition 1 of 2026-11-25" in done.stdout and "proof" not in done.stdout
    first = tree(folder)
    assert {name for name in first if "/" not in name} == WHOLE
    engraved = {name for name in first if "/" in name}
    assert len(engraved) > 3 and all(name.startswith("labels/") and name.endswith(".svg") for name in engraved)
    assert first["labels.pdf"] == before  # the same sheet that publish made
    assert all(str(folder / name) in done.stdout for name in WHOLE)
    assert command("paper", SORREL, "--day", "2028-02-02", cwd=published).returncode == 0
    assert tree(folder) == first  # same inputs, same bytes, whatever the day
    again = command("publish", "--day", "2026-11-26", cwd=published)
    assert "unchanged, edition 1 stands" in again.stdout


def test_a_van_that_was_never_published_gets_a_proof_without_codes(tmp_path: Path) -> None:
    desk = copied(tmp_path / "desk", SORREL)
    done = command("paper", SORREL, "--out", "print", cwd=desk)
    assert done.returncode == 0, done.stderr
    assert "a proof without labels and codes: the van is not published yet" in done.stdout
    (folder,) = (desk / "print").iterdir()
    assert {path.name for path in folder.iterdir()} == WHOLE - {"labels.pdf"}
    assert not (desk / "records").exists()
    refused = command("paper", SORREL, "--only", "A2", "--out", "print", cwd=desk)
    assert refused.returncode == 1 and "this van is not published yet" in refused.stderr
    assert f"hint: lockerleaf publish {SORREL}" in refused.stderr


def test_a_manual_that_has_changed_since_gets_a_proof(published: Path, tmp_path: Path) -> None:
    desk = copied(tmp_path / "desk", SORREL)
    for path in (published / "records").rglob("*"):
        if path.is_file():
            target = desk / "records" / path.relative_to(published / "records")
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(path.read_bytes())
    change(desk / "van_specs/models/sorrel-2.yaml", "name: Sorrel 2", "name: Sorrel 2 S")
    done = command("paper", SORREL, "--out", "print", cwd=desk)
    assert "a proof: the manual has changed since it was published" in done.stdout


def test_single_labels(published: Path) -> None:
    done = command("paper", SORREL, "--only", "a2", "--from", "5", "--out", "some", cwd=published)
    assert done.returncode == 0, done.stderr
    assert "labels that lead to https://" in done.stdout and "1 label on 1 sheet" in done.stdout
    (folder,) = (published / "some").iterdir()
    assert [path.name for path in folder.iterdir()] == ["labels-some.pdf"]
    wrong = command("paper", SORREL, "--only", "Q9", "--out", "some", cwd=published)
    assert wrong.returncode == 1 and 'no place with a label has the code "Q9"' in wrong.stderr


def test_paper_with_the_whole_chassis_is_not_written_into_the_library(published: Path) -> None:
    done = command("paper", SORREL, "--out", "library/print", cwd=published)
    assert done.returncode == 1 and "inside the public library" in done.stderr
    assert not (published / "library/print").exists()


def test_only_asks_for_one_van(published: Path) -> None:
    done = command("paper", "--only", "A1", cwd=published)
    assert done.returncode == 2 and "--only needs one build sheet" in done.stderr


def test_a_character_that_paper_lacks_is_told_with_its_line(tmp_path: Path) -> None:
    desk = copied(tmp_path / "desk", SORREL)
    sheet = desk / SORREL
    text = sheet.read_text("utf-8")
    change(desk / "van_specs/dealers/quayside.yaml", "name: Quayside", "name: → Quayside")
    done = command("paper", SORREL, "--out", "print", cwd=desk)
    assert done.returncode == 1
    assert 'van_specs/dealers/quayside.yaml:2:7: error: "→" (U+2192, rightwards arrow) cannot be printed' in done.stderr
    assert sheet.read_text("utf-8") == text


def test_help_has_an_example_and_says_what_is_judged(tmp_path: Path) -> None:
    done = command("paper", "--help", cwd=tmp_path)
    assert "Example: lockerleaf paper" in done.stdout and "Judges everything you wrote" in done.stdout
