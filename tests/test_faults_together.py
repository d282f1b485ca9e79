"""All faults of a run are told at once, and none that only follows from another."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from generator.errors import Fault, Level, ManualError
from generator.load import load_sound
from generator.load.faults import Memo
from generator.model.site import Records
from generator.pipeline.checking import check_vans
from generator.pipeline.examining import examine_van, survey_vans
from generator.pipeline.gathering import Gathering, in_order
from generator.pipeline.making import Desk, assemble_all, quiet

from .test_cli import copied

SORREL, TANSY, MARRAM = (f"van_specs/vans/{van}.yaml" for van in ("sorrel-0032", "tansy-0108", "marram-0417"))
DAY = date(2026, 11, 25)


def edit(path: Path, before: str, after: str) -> None:
    text = path.read_text("utf-8")
    assert before in text, f"{path} has no {before!r}"
    path.write_text(text.replace(before, after, 1), "utf-8")


def told(faults: tuple[Fault, ...]) -> list[str]:
    errors = (fault for fault in faults if fault.level is Level.ERROR)
    return [f"{fault.source.file if fault.source else ''}: {fault.message}" for fault in errors]


def checked(root: Path) -> object:
    return check_vans(root, [], root.parent / "records", DAY)


@pytest.mark.parametrize("of_all", [checked, survey_vans], ids=["check", "reach"])
def test_mistakes_in_many_files_are_told_in_one_run(of_all: Callable[[Path], object], tmp_path: Path) -> None:
    """Build sheets, models, dealers, blocks and messages; found when read, resolved, computed and assembled."""
    root = copied(tmp_path / "desk", SORREL, TANSY, MARRAM)
    (root / "van_specs/vans/broken.yaml").write_text("chassis: [\n")
    with (root / TANSY).open("a") as sheet:
        sheet.write("as_built: {unladen: 1250, includes: [battery]}\n")
        sheet.write("circuits:\n  - {name: Hook light, fuse: 5 A, at: D88}\n")
    edit(root / "van_specs/models/tansy-500.yaml", "kind: compressor", "kind: compresor")
    edit(root / "van_specs/models/sorrel-2.yaml", "ball_load_unladen: 32 kg", "ball_load_unladen: 72 kg")
    with (root / MARRAM).open("a") as sheet:
        sheet.write("places:\n  - {code: D99, name: Spare hook, where: outside, label: true}\n")
    edit(root / "van_specs/dealers/quayside.yaml", "phone:", "email: nobody\nphone:")
    edit(root / "content/blocks/gas/change-bottle-two.md", "(topic:fridge/", "(topic:frigde/")
    edit(root / "content/blocks/emergency/fire.md", "topic:", "topics:")
    (root / "content/safety/scald.yaml").write_text("signal: WARNING\n")
    with pytest.raises(ManualError) as caught:
        of_all(root)
    assert told(caught.value.faults) == [
        'content/blocks/emergency/fire.md: "topic" is missing',
        'content/blocks/emergency/fire.md: unknown key "topics"',
        'content/blocks/gas/change-bottle-two.md: unknown topic "frigde/travel"',
        'content/safety/scald.yaml: "avoid" is missing',
        'content/safety/scald.yaml: "consequence" is missing',
        'content/safety/scald.yaml: "hazard" is missing',
        'van_specs/dealers/quayside.yaml: "nobody" is no e-mail address',
        "van_specs/models/sorrel-2.yaml: the ball load as fitted is 76.2 kg, over the limit of 60 kg",
        'van_specs/models/tansy-500.yaml: unknown fridge "compresor"',
        "van_specs/vans/broken.yaml: this is not YAML: did not find expected node content",
        'van_specs/vans/marram-0417.yaml: place D99 "Spare hook" has a label and nothing on its page',
        'van_specs/vans/tansy-0108.yaml: "1250" has no unit',
        'van_specs/vans/tansy-0108.yaml: there is no place "D88"',
    ]
    assert not (tmp_path / "records").exists()


def test_one_van_is_told_the_faults_of_files_beside_its_own(tmp_path: Path) -> None:
    """As ``show`` asks for it; the outline, without which no page can be written, is among the broken files."""
    root = copied(tmp_path / "desk", SORREL, TANSY)
    (root / "content/outline.yaml").write_text("")
    edit(root / "content/blocks/emergency/fire.md", "topic:", "topics:")
    edit(root / "van_specs/models/sorrel-2.yaml", "ball_load_unladen: 32 kg", "ball_load_unladen: 72 kg")
    edit(root / "van_specs/models/tansy-500.yaml", "kind: compressor", "kind: compresor")
    files = [
        'content/blocks/emergency/fire.md: "topic" is missing',
        'content/blocks/emergency/fire.md: unknown key "topics"',
        "content/outline.yaml: nothing is written here",
    ]
    sorrel = "van_specs/models/sorrel-2.yaml: the ball load as fitted is 76.2 kg, over the limit of 60 kg"
    tansy = 'van_specs/models/tansy-500.yaml: unknown fridge "compresor"'
    for sheet, own in ((SORREL, sorrel), (TANSY, tansy)):
        with pytest.raises(ManualError) as caught:
            examine_van(root, root / sheet)
        assert told(caught.value.faults) == [*files, own]


def unreadable(text: str) -> str:
    return put_first("}{: [", text)


def unknown_key(text: str) -> str:
    return put_first("zzz: 1", text)


def emptied(text: str) -> str:
    return ""


def put_first(line: str, text: str) -> str:
    """Return a file with a line more, in the front matter where it has one."""
    start = "---\n" if text.startswith("---\n") else ""
    return f"{start}{line}\n{text.removeprefix(start)}"


BROKEN = [
    ("content/blocks/gas/open.md", unreadable),
    ("content/blocks/gas/open.md", emptied),
    ("content/blocks/fridge/run-on-gas.md", unknown_key),
    ("content/equipment/gas/two-bottles-one-connection.yaml", unreadable),
    ("content/equipment/hot_water/gas-mains-storage.yaml", emptied),
    ("content/equipment/fridge/absorption-three-way.yaml", unknown_key),
    ("content/equipment/slots.yaml", unreadable),
    ("content/equipment/rules.yaml", emptied),
    ("content/safety/gas-ignition.yaml", emptied),
    ("content/fragments/smell-gas.md", emptied),
    ("content/markets/uk.yaml", unreadable),
    ("content/outline.yaml", emptied),
    ("content/terms.yaml", unreadable),
    ("content/traits.yaml", unreadable),
    ("van_specs/models/marram-480.yaml", emptied),
    ("van_specs/models/marram-480.yaml", unknown_key),
    ("van_specs/dealers/quayside.yaml", unreadable),
]


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Memo]:
    return copied(tmp_path_factory.mktemp("faults") / "desk", MARRAM), {}


@pytest.mark.parametrize(("file", "how"), BROKEN, ids=[f"{file}-{how.__name__}" for file, how in BROKEN])
def test_a_broken_file_is_the_only_one_blamed(file: str, how: Callable[[str], str], desk: tuple[Path, Memo]) -> None:
    root, memo = desk
    before = (root / file).read_text("utf-8")
    (root / file).write_text(how(before), "utf-8")
    try:
        faults = judged(root, memo)
    finally:
        (root / file).write_text(before, "utf-8")
    assert faults and {fault.source.file for fault in faults if fault.source} == {file}, told(faults)


def judged(root: Path, memo: Memo) -> tuple[Fault, ...]:
    """Return the faults of all vans of a workspace, up to their manuals."""
    gathered = Gathering()
    workspace, faults = load_sound(root, (), memo)
    gathered.faults.extend(faults)
    assemble_all(Desk(root, workspace, Records(secret=None)), gathered, quiet, to_come=0)
    return in_order(gathered.faults)
