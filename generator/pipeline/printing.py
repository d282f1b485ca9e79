"""Makes everything printed for vans, and says what it is the paper of."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.errors import Fault, PublishError
from generator.fill.assets import file_stem
from generator.fill.drawing import bare_picture
from generator.fill.on_paper import drawings_on_paper
from generator.load.written import where_written
from generator.model.content import Workspace
from generator.model.holes import VanDrawing
from generator.model.manual import Manual
from generator.model.paper import LabelChoice, LabelReport, Paper, Whole
from generator.model.site import Edition, Records, Rendered
from generator.model.specs import LabelStock
from generator.paper import paper, some_labels
from generator.paper.glyphs import GlyphError
from generator.pipeline.finishing import address_of, edition_of
from generator.pipeline.gathering import Gathering
from generator.pipeline.making import TEMPLATE, Tick, Van, assemble_all, counted, quiet, read_desk, render_all
from generator.publish import put_paper


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """The paper of one van: where each file lies, and what it is the paper of.

    Without ``edition`` it is a proof of a manual that is not published as it stands; without ``address`` of one that
    never was, which has no labels yet.
    """

    van: Van
    edition: Edition | None
    address: str
    files: tuple[tuple[Path, str], ...]  # with what the dealer must know of it
    labels: LabelReport | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Print:
    """The paper of one van before it is written."""

    edition: Edition | None
    address: str
    paper: Paper


def paper_vans(
    root: Path,
    specs: Sequence[Path],
    records: Path,
    day: date,
    out: Path | None = None,
    choice: LabelChoice | None = None,
    tick: Tick = quiet,
) -> Iterator[Printed]:
    """Make all paper of each van and write it; yields each van as its files lie there.

    Nothing is set before every van can be made. A van whose manual is not published as it stands gets a proof.

    Args:
        root: The workspace.
        specs: Build sheets; none means every van.
        records: The dealer's records, resolved; they may be missing where ``out`` is given.
        day: Stands in for the day of the edition where there is none.
        out: Where to write, a folder for each van; None is into the records.
        choice: Only labels, and only these; everything without.
        tick: Told after each step.

    Raises:
        ManualError: all faults of all vans, or the disk refuses.
    """
    gathered = Gathering()
    desk = read_desk(root, specs, records, gathered)
    workspace, known = desk.workspace, desk.records
    vans = assemble_all(desk, gathered, tick, to_come=1 + len(workspace.vans))
    gathered.raise_any()
    rendered = render_all(vans, root / TEMPLATE)
    tick(len(vans), "rendered")
    for left, van in counted(vans):
        with gathered.of():
            one = _paper_of(van, rendered, known, day, choice, workspace)
            paths = put_paper(_paper_folder(van.manual, known, records, out), one.paper.files)
            notes = (one.paper.notes.get(name, "") for name in one.paper.files)
            files = tuple(zip(paths, notes, strict=True))
            yield Printed(van=van, edition=one.edition, address=one.address, files=files, labels=one.paper.labels)
        tick(left, f"set the paper of {van.file}")
    gathered.raise_any()


def _paper_of(
    van: Van, rendered: Rendered, records: Records, day: date, choice: LabelChoice | None, workspace: Workspace
) -> _Print:
    """Set the paper of one van; what it is the paper of is looked up in the records."""
    manual, stock = van.manual, van.caravan.dealer.label_stock
    published = records.vans.get(manual.chassis)
    if published is None:
        edition, address = None, ""
    else:
        address = address_of(van.caravan.dealer.library.value, published.folder)
        found, finished = edition_of(manual, rendered, published, published.folder, day, None)
        edition = found if finished.digest == published.digest else None
    if choice is None:
        printed = _whole_paper(manual, address, stock, rendered, edition, day, workspace)
    elif address:
        printed = some_labels(manual, address, stock, rendered.pictures, choice)
    else:
        message = f"{van.file}: a label needs the address of its manual, and this van is not published yet"
        raise PublishError(Fault(message, hint=f"lockerleaf publish {van.file}"))
    return _Print(edition=edition, address=address, paper=printed)


def _whole_paper(
    manual: Manual,
    address: str,
    stock: LabelStock | None,
    rendered: Rendered,
    edition: Edition | None,
    day: date,
    workspace: Workspace,
) -> Paper:
    """Set everything; a text that paper cannot show is told with the line it was written on."""
    outline = manual.values["drawing/van"]
    whole = Whole(
        edition=edition,
        day=edition.day if edition else day,
        cover=bare_picture(outline) if isinstance(outline, VanDrawing) else None,
        drawings=drawings_on_paper(manual.values),
        signs=rendered.pictures,
    )
    try:
        return paper(manual, address, stock, rendered.pictures, whole)
    except GlyphError as error:
        raise PublishError(*(where_written(workspace, error.characters) or error.faults)) from error


def _paper_folder(manual: Manual, known: Records, records: Path, out: Path | None) -> Path:
    """Return where the paper of a van goes: beside its labels in the records, or into a folder by its name."""
    published = known.vans.get(manual.chassis)
    if out is None and published is not None:
        return records / "paper" / published.folder
    return (out or records / "paper") / file_stem(manual)
