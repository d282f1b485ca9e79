"""The command line as the people who use it meet it: a dealer's office, a writer, a script."""

import io
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp

from generator import cli
from generator.commands.progress import Progress
from generator.errors import Fault, Level, ManualError, Source

REPO = Path(__file__).parents[1]
SORREL = "van_specs/vans/sorrel-0032.yaml"
TANSY = "van_specs/vans/tansy-0108.yaml"
COMMANDS = ("publish", "check", "show")

Run = Callable[..., subprocess.CompletedProcess[str]]


def copied(to: Path, *vans: str) -> Path:
    """Return a workspace with the repo's content and these build sheets."""
    for folder in ("content", "site_template", "van_specs/models", "van_specs/dealers"):
        shutil.copytree(REPO / folder, to / folder)
    (to / "van_specs/vans").mkdir()
    for van in vans:
        shutil.copy(REPO / van, to / van)
    return to


def command(*words: str, cwd: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run lockerleaf in a process of its own, as a person does in a folder."""
    return subprocess.run(
        [sys.executable, "-m", "generator", *words],
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": str(REPO), **environment},
        capture_output=True,
        text=True,
    )


def tree(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def change(path: Path, old: str, new: str) -> None:
    """Edit a file as a dealer does; the old text has to be there."""
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    """A workspace with the smallest demo van."""
    return copied(tmp_path / "desk", SORREL)


@pytest.fixture(scope="module")
def published(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """Two vans published once, and what was printed."""
    folder = copied(tmp_path_factory.mktemp("published") / "desk", SORREL, TANSY)
    done = command("publish", "--day", "2026-11-25", cwd=folder)
    assert done.returncode == 0, done.stderr
    return folder, done.stdout


# --- words and exit codes ---------------------------------------------------------------------------


@pytest.mark.parametrize("name", COMMANDS)
def test_help_has_an_example_and_says_what_is_judged(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.run([name, "--help"]) == 0
    told = capsys.readouterr().out
    assert f"Example: lockerleaf {name} van_specs/vans/" in told
    assert re.search(r"^  Judges ", told, re.MULTILINE)


@pytest.mark.parametrize("name", sorted(cli.cli.commands))
def test_every_command_has_an_example_and_says_what_it_judges(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.run([name, "--help"]) == 0
    told = capsys.readouterr().out
    assert f"Example: lockerleaf {name}" in told and re.search(r"\bJudges\b", told)


def test_help_loads_nothing_heavy() -> None:
    heavy = ("pint", "yaml", "mkdocs", "typst", "generator.pipeline")
    script = (
        "import sys; from generator.cli import run; run(['--help']); run(['publish', '--help']);"
        f"print([name for name in {heavy} if name in sys.modules])"
    )
    told = subprocess.run([sys.executable, "-c", script], cwd=REPO, capture_output=True, text=True, check=True)
    assert told.stdout.splitlines()[-1] == "[]"


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["frobnicate"],
        ["check", "--frobnicate"],
        ["publish", "--day", "25.11.2026"],
        ["show"],
        ["publish", "--library"],
    ],
)
def test_a_wrong_command_line_is_2(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.run(words) == 2
    told = capsys.readouterr()
    assert ("Usage: lockerleaf" in told.err or "Error: " in told.err) and not told.out


def stopping(error: BaseException) -> Callable[..., None]:
    def stop(*_: object, **__: object) -> None:
        raise error

    return stop


def test_faults_are_1_and_go_to_stderr(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    from generator.pipeline import checking

    faults = (
        Fault('unknown fridge "absorbtion"', Source("van_specs/vans/x.yaml", 31, 7), 'the catalogue has "absorption"'),
        Fault("no dealer", None),
        Fault("a thin margin", Source("van_specs/vans/x.yaml", 2), level=Level.WARNING),
    )
    monkeypatch.setattr(checking, "check_vans", stopping(ManualError(*faults)))
    assert cli.run(["check"]) == 1
    told = capsys.readouterr()
    assert told.err.splitlines() == [
        'van_specs/vans/x.yaml:31:7: error: unknown fridge "absorbtion"',
        '  hint: the catalogue has "absorption"',
        "error: no dealer",
        "van_specs/vans/x.yaml:2:1: warning: a thin margin",
    ]
    assert not told.out


def test_a_bug_of_ours_is_70_and_one_line(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    from generator.pipeline import checking

    monkeypatch.setattr(checking, "check_vans", stopping(KeyError("place")))
    assert cli.run(["check"]) == 70
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "this is a bug of ours (KeyError: 'place'). Please report it" in told and "--debug" in told


@pytest.mark.parametrize("words", [["--debug", "check"], ["check", "--debug"]])
def test_debug_shows_where(
    words: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from generator.pipeline import checking

    monkeypatch.setattr(checking, "check_vans", stopping(KeyError("place")))
    assert cli.run(words) == 70
    told = capsys.readouterr().err
    assert "Traceback" in told and told.rstrip().splitlines()[-1].startswith("lockerleaf: this is a bug of ours")


def test_ctrl_c_is_130(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    from generator.pipeline import checking

    monkeypatch.setattr(checking, "check_vans", stopping(KeyboardInterrupt()))
    assert cli.run(["check"]) == 130
    assert capsys.readouterr().err == "Stopped. Nothing is half-written.\n"


# --- publish ----------------------------------------------------------------------------------------


def test_publish_says_where_to_look(published: tuple[Path, str]) -> None:
    desk, told = published
    folders = json.loads((desk / "records/folders.json").read_text("utf-8"))
    folder = folders["SOR2-2026-0032"]
    assert f"Sorrel 2 6-0032 ({SORREL}): edition 1 of 2026-11-25" in told
    assert f"  open     {desk / 'library' / folder / 'index.html'}" in told
    assert f"  address  https://vans.example/{folder}/" in told
    assert f"  print    {desk / 'records/paper' / folder / 'labels.pdf'}" in told
    assert "version 3-H, module 1.00 mm" in told
    assert f"List of everything published: {desk / 'records/vans.html'}" in told
    for path in re.findall(r"(?:open|print) +(/\S+)", told):
        assert Path(path).is_file()


def test_nothing_public_holds_a_whole_chassis_number(published: tuple[Path, str]) -> None:
    """Searched in the bytes of every file, and of every file in every zip."""
    desk, _ = published
    searched = 0
    for name, data in tree(desk / "library").items():
        parts = [name.encode(), data]
        if name.endswith(".zip"):
            with zipfile.ZipFile(io.BytesIO(data)) as archive:
                parts += [archive.read(member) for member in archive.namelist()]
        for chassis in (b"SOR2-2026-0032", b"ZZ9TN50E8TH000108"):
            assert not any(chassis.lower() in part.lower() for part in parts), name
            searched += 1
    assert searched > 100
    chassis = re.search(r"^chassis: (\S+)", (desk / TANSY).read_text("utf-8"), re.MULTILINE)
    assert chassis and chassis[1] == "ZZ9TN50E8TH000108"


def test_a_scanned_label_opens_the_page_of_its_place(published: tuple[Path, str]) -> None:
    """From the printed sheet to the file a web server hands out: folder, code and page are one chain."""
    desk, _ = published
    scanned = 0
    for sheet in (desk / "records/paper").glob("*/labels.pdf"):
        picture = pypdfium2.PdfDocument(sheet)[0].render(scale=200 / 72).to_numpy()
        for symbol in zxingcpp.read_barcodes(picture):
            host, path = symbol.text.removeprefix("HTTPS://").split("/", 1)
            assert host == "VANS.EXAMPLE" and path.endswith("/")
            page = (desk / "library" / path / "index.html").read_text("utf-8")
            assert f">{path.split('/')[1]}<" in page  # its code plate
            scanned += 1
    assert scanned > 15


def test_every_html_page_of_the_library_says_noindex(published: tuple[Path, str]) -> None:
    desk, _ = published
    pages = list((desk / "library").rglob("*.html"))
    assert len(pages) > 50
    assert not [page for page in pages if not re.search(rb'<meta name="robots" content="noindex', page.read_bytes())]


def test_publishing_again_unchanged_makes_no_edition_and_rewrites_nothing(published: tuple[Path, str]) -> None:
    desk, _ = published
    kept = [*(desk / "library").rglob("*"), *(desk / "records").rglob("*")]
    marks = {path: path.stat().st_mtime_ns for path in kept if path.name != ".lock"}
    again = command("publish", "--day", "2026-12-24", cwd=desk)
    assert again.returncode == 0, again.stderr
    assert again.stdout.count("unchanged, edition 1 stands") == 2
    assert {path: path.stat().st_mtime_ns for path in marks} == marks


def test_what_changed_makes_an_edition_of_that_van_only(tmp_path: Path, published: tuple[Path, str]) -> None:
    """A dropped place keeps an answer at its label's address; a further run changes nothing any more."""
    desk = tmp_path / "desk"
    shutil.copytree(published[0], desk)
    folders = json.loads((desk / "records/folders.json").read_text("utf-8"))
    change(desk / "van_specs/models/sorrel-2.yaml", "max_laden: 650 kg", "max_laden: 645 kg")
    changed = command("publish", "--day", "2026-12-01", cwd=desk)
    assert changed.returncode == 0, changed.stderr
    assert "edition 2 of 2026-12-01" in changed.stdout
    assert changed.stdout.count("unchanged, edition 1 stands") == 1
    history = sorted(path.name for path in (desk / "records/editions" / folders["SOR2-2026-0032"]).iterdir())
    assert history == ["1.json", "2.json", "current.json"]
    again = command("publish", SORREL, "--day", "2026-12-02", cwd=desk)
    assert "unchanged, edition 2 stands" in again.stdout
    listed = json.loads((desk / "records/vans.json").read_text("utf-8"))
    assert {van["chassis"]: van["edition"] for van in listed} == {"SOR2-2026-0032": 2, "ZZ9TN50E8TH000108": 1}


def test_a_place_that_is_taken_out_keeps_its_address(tmp_path: Path, published: tuple[Path, str]) -> None:
    desk = tmp_path / "desk"
    shutil.copytree(published[0], desk)
    folder = json.loads((desk / "records/folders.json").read_text("utf-8"))["SOR2-2026-0032"]
    sheet = desk / SORREL
    sheet.write_text(
        sheet.read_text("utf-8")
        + "places:\n  - {code: H9, name: Shelf, where: inside, max_contents: 5 kg, label: true}\n",
        "utf-8",
    )
    added = command("publish", SORREL, "--day", "2026-12-01", cwd=desk)
    assert added.returncode == 0, added.stderr
    assert "Shelf" in (desk / "library" / folder / "H9/index.html").read_text("utf-8")
    shutil.copy(REPO / SORREL, sheet)
    assert "edition 3" in command("publish", SORREL, "--day", "2026-12-02", cwd=desk).stdout
    assert "Taken out of the van" in (desk / "library" / folder / "H9/index.html").read_text("utf-8")
    assert "unchanged, edition 3 stands" in command("publish", SORREL, "--day", "2026-12-03", cwd=desk).stdout


def test_faults_of_all_vans_come_together_and_nothing_is_written(desk: Path) -> None:
    shutil.copy(REPO / TANSY, desk / TANSY)
    change(desk / SORREL, "market: uk", "market: atlantis")
    change(desk / TANSY, "dealer: quayside", "dealer: nobody")
    told = command("publish", cwd=desk)
    assert told.returncode == 1 and not told.stdout
    assert re.search(rf'^{SORREL}:\d+:\d+: error: unknown market "atlantis"$', told.stderr, re.MULTILINE)
    assert re.search(rf'^{TANSY}:\d+:\d+: error: unknown dealer "nobody"$', told.stderr, re.MULTILINE)
    assert "  hint: " in told.stderr
    assert not (desk / "library").exists() and not (desk / "records").exists()


@pytest.mark.parametrize(("library", "records"), [("web", "web"), ("web", "web/records"), (".", "records")])
def test_records_the_web_server_would_hand_out_are_refused_first(desk: Path, library: str, records: str) -> None:
    before = tree(desk)
    told = command("publish", "--library", library, "--records", records, cwd=desk)
    assert told.returncode == 1
    assert "would lie inside the public library" in told.stderr and "hint: keep the records beside" in told.stderr
    assert tree(desk) == before


def test_the_same_inputs_give_the_same_bytes(tmp_path: Path) -> None:
    """Records, secret and day are inputs; folder, time zone, hash seed and language of the system are not."""
    results = []
    for number, (zone, seed, language) in enumerate(
        (("Pacific/Auckland", "1", "C"), ("America/Lima", "2", "de_DE.UTF-8"))
    ):
        desk = copied(tmp_path / f"{number}" / "desk", SORREL)
        (desk / "records").mkdir()
        (desk / "records/secret").write_text("00" * 32 + "\n", "utf-8")
        told = command("publish", "--day", "2026-11-25", cwd=desk, TZ=zone, PYTHONHASHSEED=seed, LC_ALL=language)
        assert told.returncode == 0, told.stderr
        results.append((tree(desk / "library"), tree(desk / "records")))
    assert results[0] == results[1]


def test_an_interrupted_publication_is_completed_though_the_next_has_faults(desk: Path) -> None:
    """What is half way must not wait until a build sheet is right."""
    done = command("publish", "--day", "2026-11-25", cwd=desk)
    assert done.returncode == 0, done.stderr
    (folder,) = json.loads((desk / "records/folders.json").read_text("utf-8")).values()
    live = desk / "library" / folder
    before = tree(desk / "library")
    live.rename(live.with_name(f".new-{folder}"))  # as killed between the two renames, the old one being set aside
    shutil.copytree(live.with_name(f".new-{folder}"), live.with_name(f".old-{folder}"))
    plan = {"library": str(desk / "library"), "folder": folder, "site": True, "files": []}
    (desk / "records/journal.json").write_text(json.dumps(plan), "utf-8")
    change(desk / SORREL, "market: uk", "market: atlantis")
    assert command("publish", cwd=desk).returncode == 1
    assert tree(desk / "library") == before
    assert not (desk / "records/journal.json").exists()


@pytest.mark.skipif(os.name == "nt", reason="Ctrl-C reaches a process in another way there")
def test_ctrl_c_in_the_middle_of_a_real_run(desk: Path, tmp_path: Path) -> None:
    """Interrupted while pages are rendered: exit 130, no output, nothing left in the scratch folder."""
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    running = subprocess.Popen(
        [sys.executable, "-m", "generator", "publish"],
        cwd=desk,
        env={**os.environ, "PYTHONPATH": str(REPO), "TMPDIR": str(scratch)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    until = time.monotonic() + 60
    while not list(scratch.glob("*/*")) and time.monotonic() < until:  # at work in it, and past making it
        time.sleep(0.005)
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=60)
    assert (running.returncode, out, err) == (130, "", "Stopped. Nothing is half-written.\n")
    assert not list(scratch.iterdir()) and not (desk / "library").exists()


# --- check and show ---------------------------------------------------------------------------------


def test_check_writes_nothing_and_says_what_it_judged(desk: Path) -> None:
    before = tree(desk)
    told = command("check", cwd=desk)
    assert told.returncode == 0, told.stderr
    assert re.search(rf"^{SORREL}: Sorrel 2 6-0032, \d+ pages.*, \d+ labels", told.stdout, re.MULTILINE)
    assert "1 van without faults" in told.stdout
    assert tree(desk) == before


def test_check_names_the_line(desk: Path) -> None:
    change(desk / SORREL, "built: 2026-03-02", "built: 2026-13-02")
    told = command("check", SORREL, cwd=desk)
    assert told.returncode == 1
    line = (desk / SORREL).read_text("utf-8").splitlines().index("built: 2026-13-02") + 1
    assert told.stderr.startswith(f"{SORREL}:{line}:8: error: ")


def test_a_workspace_can_be_elsewhere(desk: Path, tmp_path: Path) -> None:
    told = command("check", SORREL, "--workspace", str(desk), cwd=tmp_path)
    assert told.returncode == 0, told.stderr


def test_a_build_sheet_that_is_not_there_is_a_fault(desk: Path) -> None:
    told = command("show", "van_specs/vans/nosuch.yaml", cwd=desk)
    assert told.returncode == 1
    assert "nosuch.yaml" in told.stderr and "Traceback" not in told.stderr


def test_show_says_what_is_in_and_why(desk: Path) -> None:
    told = command("show", SORREL, cwd=desk)
    assert told.returncode == 0, told.stderr
    assert "chassis SOR2-2026-0032: 14 signs, no check digit to compare" in told.stdout
    assert re.search(r"^Traits \(\d+\)\n(  .*\n)*  one-bottle: ", told.stdout, re.MULTILINE)
    assert re.search(
        r"^Facts \(\d+\)\n(  .*\n)*  masses.max_laden: 650 kg  \[plate, van_specs/", told.stdout, re.MULTILINE
    )
    assert re.search(r"^Topics in \(\d+\)\n(  .*\n)*  gas/open \(gas/open\): ", told.stdout, re.MULTILINE)
    assert re.search(r"^Topics out \(\d+\)\n(  .*\n)*  toilet/use: ", told.stdout, re.MULTILINE)


def test_show_into_a_pipe_that_closes_is_quiet(desk: Path) -> None:
    running = subprocess.Popen(
        [sys.executable, "-m", "generator", "show", SORREL],
        cwd=desk,
        env={**os.environ, "PYTHONPATH": str(REPO), "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert running.stdout and running.stderr
    running.stdout.close()
    assert running.stderr.read() == b""
    assert running.wait(timeout=60) == 0


# --- progress ---------------------------------------------------------------------------------------


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Say so."""
        return True


@pytest.fixture
def slow(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[float]]:
    """A clock that the test sets."""
    now = [0.0]
    monkeypatch.setattr("generator.commands.progress.time.monotonic", lambda: now[0])
    yield now


def test_a_bar_is_shown_after_a_second_on_a_terminal(slow: list[float]) -> None:
    stream = Terminal()
    with Progress(stream) as progress:
        progress.tick(9, "assembled one")
        assert stream.getvalue() == ""
        slow[0] = 1.5
        progress.tick(8, "assembled two")
    assert "assembled two" in stream.getvalue() and "20%" in stream.getvalue()


def test_quick_work_has_no_bar(slow: list[float]) -> None:
    stream = Terminal()
    with Progress(stream) as progress:
        progress.tick(1, "one")
        progress.tick(0, "two")
    assert stream.getvalue() == ""


def test_there_is_no_bar_in_a_file_or_pipe(slow: list[float]) -> None:
    stream = io.StringIO()
    with Progress(stream) as progress:
        slow[0] = 9.0
        progress.tick(1, "one")
    assert stream.getvalue() == ""
