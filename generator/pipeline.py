"""Strings the stages together: build sheets in, published manuals out.

Order and the gathering of faults are decided here, everything else in the stages. Day and secret are arguments.
"""

import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from importlib.metadata import version
from pathlib import Path
from typing import TypeVar

from generator.assemble import assemble
from generator.compute import DECLARED, compute
from generator.errors import Fault, Level, ManualError, PublishError, Source
from generator.fill import fill
from generator.fill.assets import file_stem
from generator.fill.drawing import bare_picture, van_pictures
from generator.language import Judgement, language
from generator.load import load, load_records
from generator.load.written import where_written
from generator.model.caravan import Caravan
from generator.model.content import Workspace
from generator.model.manual import Manual, VanDrawing
from generator.model.numbers import Numbers
from generator.model.paper import LabelChoice, LabelReport, Paper, Whole
from generator.model.release import Release, Shelf, State
from generator.model.reviews import Review, SafetyBlock
from generator.model.site import Edition, Finished, PublishedVan, Records, Rendered
from generator.model.specs import LabelStock, Spec
from generator.paper import paper, some_labels
from generator.paper.glyphs import GlyphError
from generator.publish import check_apart, prepare, prepare_records, publish, put_paper, stands
from generator.publish.folders import folder_name
from generator.publish.journal import recover
from generator.publish.lock import hold
from generator.publish.reviews import check_name, record_reviews
from generator.render import render
from generator.resolve import resolve

TEMPLATE = "site_template"
_STAND_IN = bytes(32)  # names folders where nothing is published; only their length matters then

Tick = Callable[[int, str], None]  # steps still to do after this one, and what it was
_Made = TypeVar("_Made")


@dataclass(frozen=True, slots=True, kw_only=True)
class Van:
    """One van as far as it is made without being published."""

    file: str  # its build sheet, relative to the workspace
    caravan: Caravan
    numbers: Numbers
    manual: Manual


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A van with every file it will have, and what the dealer must know of its labels."""

    van: Van
    release: Release
    labels: LabelReport | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """Vans without a fault. ``records`` are what they were compared with, ``warnings`` thin margins."""

    vans: tuple[Ready, ...]
    records: Records
    warnings: tuple[Fault, ...]
    words: Judgement


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """Where to look for one van."""

    van: Van
    state: State
    edition: int
    day: date
    index: Path
    address: str
    paper: tuple[Path, ...]
    labels: LabelReport | None


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
class Examined:
    """One van as far as it could be made, for ``show``; ``faults`` say what stopped it."""

    file: str
    caravan: Caravan
    numbers: Numbers | None
    manual: Manual | None
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Surveyed:
    """All vans of a workspace as far as they could be made, and what stopped some of them."""

    workspace: Workspace
    vans: tuple[Examined, ...]
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """A statement that does not hold, with the build sheet of a smallest van that shows it, if any does."""

    fault: Fault
    spec: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Proved:
    """Over how many different vans the proof was asked, and what it found."""

    vans: int
    broken: tuple[Broken, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reviewed:
    """Vans with the blocks that waited for review, each variant once; ``register`` is where they were recorded."""

    vans: tuple[Van, ...]
    waiting: tuple[SafetyBlock, ...]
    register: Path | None


def quiet(left: int, what: str) -> None:
    """Take a tick of the progress and say nothing."""


# --- commands ---------------------------------------------------------------------------------------


def check_vans(root: Path, specs: Sequence[Path], records: Path, day: date, tick: Tick = quiet) -> Judged:
    """Do everything but publish, and write nothing.

    Args:
        root: The workspace.
        specs: Build sheets; none means every van.
        records: The dealer's records; they may be missing.
        day: Day of publication, printed on the pages.
        tick: Told after each step.

    Raises:
        ManualError: all faults of all vans.
    """
    workspace = load(root, specs)
    known = load_records(records)
    words = language(workspace.content, workspace.catalogue)
    return _judge(root, workspace, known, known.secret or _STAND_IN, day, None, words, words.faults, tick)


def publish_vans(
    root: Path, specs: Sequence[Path], shelf: Shelf, day: date, new_secret: bytes, tick: Tick = quiet
) -> Iterator[Judged | Published]:
    """Make an edition of each van that has changed and put it online; yields the judgement, then each van.

    Nothing is written before every van is without fault. What an interrupted command left behind is
    put right first.

    Args:
        root: The workspace.
        specs: Build sheets; none means every van.
        shelf: Library and records, resolved.
        day: Day of publication.
        new_secret: Key for folder names, kept where the records have none yet.
        tick: Told after each step.

    Raises:
        ManualError: all faults of all vans; or the disk refuses one of them.
    """
    check_apart(shelf)
    if shelf.records.is_dir():
        with hold(shelf.records):
            recover(shelf.library, shelf.records)
    workspace = load(root, specs)
    known = load_records(shelf.records)
    words = language(workspace.content, workspace.catalogue)
    secret = known.secret or new_secret
    # A budget of style overspent keeps nobody from a manual; what is unsafe does.
    judged = _judge(root, workspace, known, secret, day, shelf.library, words, words.errors, tick)
    yield judged
    prepare(shelf)
    with hold(shelf.records):
        records = _unmoved(known, load_records(shelf.records))
        if records.secret is None:
            prepare(shelf, new_secret)
        for left, ready in _counted(judged.vans):
            outcome = publish(ready.release, records, shelf)
            records = outcome.records
            tick(left, f"published {ready.van.manual.model} {ready.van.manual.tail}")
            yield _published(ready, outcome.state, shelf)


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
    workspace, known, gathered = load(root, specs), load_records(records), _Faults()
    vans = _assemble_all(workspace, known, gathered, tick, to_come=1 + len(workspace.vans))
    gathered.raise_any()
    rendered = _render_all(vans, root / TEMPLATE)
    tick(len(vans), "rendered")
    for left, van in _counted(vans):
        with gathered.of():
            one = _paper_of(van, rendered, known, day, choice, workspace)
            paths = put_paper(_paper_folder(van.manual, known, records, out), one.paper.files)
            notes = (one.paper.notes.get(name, "") for name in one.paper.files)
            files = tuple(zip(paths, notes, strict=True))
            yield Printed(van=van, edition=one.edition, address=one.address, files=files, labels=one.paper.labels)
        tick(left, f"set the paper of {van.file}")
    gathered.raise_any()


def examine_van(root: Path, spec: Path) -> Examined:
    """Return one van as far as it can be made.

    Raises:
        ManualError: the workspace or the build sheet itself cannot be read or resolved.
    """
    workspace = load(root, [spec])
    ((file, sheet),) = workspace.vans.items()
    return _examined(file, resolve(sheet, workspace), workspace)


def _examined(file: str, caravan: Caravan, workspace: Workspace) -> Examined:
    gathered = _Faults()
    numbers = manual = None
    with gathered.of():
        numbers = compute(caravan)
        gathered.warnings.extend(numbers.warnings)
        manual = assemble(caravan, numbers, workspace.content, workspace.catalogue, None)
    faults = (*gathered.warnings, *gathered.faults)
    return Examined(file=file, caravan=caravan, numbers=numbers, manual=manual, faults=faults)


def survey_vans(root: Path, tick: Tick = quiet) -> Surveyed:
    """Return every van of the workspace as far as it can be made; one with faults does not stop the others.

    Raises:
        ManualError: the workspace itself cannot be read.
    """
    workspace, gathered = load(root), _Faults()
    vans = []
    for left, (file, sheet) in _counted(list(workspace.vans.items())):
        with gathered.of():
            vans.append(_examined(file, resolve(sheet, workspace), workspace))
        tick(left, f"assembled {file}")
    faults = in_order((*gathered.faults, *(fault for van in vans for fault in van.faults)))
    return Surveyed(workspace=workspace, vans=tuple(vans), faults=faults)


def read_workspace(root: Path) -> Workspace:
    """Return what a workspace holds, build sheets of vans left out.

    Raises:
        ManualError: all its faults.
    """
    return load(root, None)


def judge_words(root: Path) -> Judgement:
    """Hold every word of content and catalogue to the rules of language and safety; build sheets are not read.

    Raises:
        ManualError: catalogue or content cannot be read.
    """
    workspace = load(root, None)
    return language(workspace.content, workspace.catalogue)


def prove_workspace(root: Path) -> Proved:
    """Put every statement of the proof to all vans that can be ordered; build sheets are not read.

    Raises:
        ManualError: catalogue or content cannot be read.
    """
    from generator.prove import prove, spec_text  # its libraries are an extra

    workspace = load(root, None)
    proof = prove(workspace.catalogue, workspace.content, sorted(workspace.markets), DECLARED)
    dealer = next(iter(sorted(workspace.dealers)), "dealer")
    broken = tuple(
        Broken(
            fault=Fault(f"{finding.message} (statement {finding.statement})", finding.source, finding.hint),
            spec=spec_text(finding.van, workspace.catalogue, dealer) if finding.van else "",
        )
        for finding in proof.findings
    )
    return Proved(vans=proof.vans, broken=broken)


def review_vans(
    root: Path, specs: Sequence[Path], records: Path, by: str | None, day: date, tick: Tick = quiet
) -> Reviewed:
    """Say which safety-critical blocks of these vans nobody has checked; with ``by``, record that they now are.

    Args:
        root: The workspace.
        specs: Build sheets; none means every van.
        records: The dealer's records; made where missing, when something is recorded.
        by: Who has checked the words as they stand now; None records nothing.
        day: When.
        tick: Told after each van.

    Raises:
        ManualError: all faults of all vans, or the records refuse.
    """
    name = None if by is None else check_name(by)
    workspace, known, gathered = load(root, specs), load_records(records), _Faults()
    vans = tuple(_assemble_all(workspace, known, gathered, tick, to_come=0))
    gathered.raise_any()
    waiting = tuple({(block.id, block.digest): block for van in vans for block in van.manual.waiting}.values())
    if name is None or not waiting:
        return Reviewed(vans=vans, waiting=waiting, register=None)
    made = (Review(block=block.id, digest=block.digest, by=name, on=day) for block in waiting)
    prepare_records(records)
    with hold(records):
        register = record_reviews((*load_records(records).reviews, *made), records)
    return Reviewed(vans=vans, waiting=waiting, register=register)


# --- steps ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Faults:
    """Faults of all vans, gathered before any is raised."""

    faults: list[Fault] = field(default_factory=list)
    warnings: list[Fault] = field(default_factory=list)

    @contextmanager
    def of(self) -> Iterator[None]:
        """Take the faults of one van's step and go on with the next van."""
        try:
            yield
        except ManualError as error:
            self.faults.extend(error.faults)

    def raise_any(self) -> None:
        """Raise every fault once, by file, line and column; warnings go along."""
        if any(fault.level is Level.ERROR for fault in self.faults):
            raise ManualError(*in_order((*self.faults, *self.warnings)))


def in_order(faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """Return each fault once, by file, line and column."""
    return tuple(sorted(dict.fromkeys(faults), key=lambda fault: (fault.source or Source(""), fault.message)))


def _counted(things: Sequence[_Made]) -> Iterator[tuple[int, _Made]]:
    """Yield each thing with how many come after it."""
    return zip(range(len(things) - 1, -1, -1), things, strict=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Print:
    """The paper of one van before it is written."""

    edition: Edition | None
    address: str
    paper: Paper


def _judge(
    root: Path,
    workspace: Workspace,
    records: Records,
    secret: bytes,
    day: date,
    library: Path | None,
    words: Judgement,
    refused: Sequence[Fault],
    tick: Tick,
) -> Judged:
    """Make every van ready, or raise all faults of all of them; ``refused`` are those of the words."""
    gathered = _Faults(faults=list(refused))
    vans = _assemble_all(workspace, records, gathered, tick, to_come=1 + 2 * len(workspace.vans))
    gathered.raise_any()
    rendered = _render_all(vans, root / TEMPLATE)
    tick(2 * len(vans), "rendered")
    ready = _finish_all(vans, rendered, records, _folders(vans, records, secret), day, library, gathered, tick)
    gathered.raise_any()
    return Judged(vans=tuple(ready), records=records, warnings=in_order(gathered.warnings), words=words)


def _assemble_all(workspace: Workspace, records: Records, gathered: _Faults, tick: Tick, to_come: int) -> list[Van]:
    """Resolve, compute and assemble each van, before so many further steps."""
    vans = []
    for left, (file, spec) in _counted(list(workspace.vans.items())):
        with gathered.of():
            vans.append(_assemble_one(file, spec, workspace, records, gathered))
        tick(left + to_come, f"assembled {file}")
    return vans


def _assemble_one(file: str, spec: Spec, workspace: Workspace, records: Records, gathered: _Faults) -> Van:
    caravan = resolve(spec, workspace)
    numbers = compute(caravan)
    gathered.warnings.extend(numbers.warnings)
    previous = records.vans.get(caravan.chassis)
    manual = assemble(caravan, numbers, workspace.content, workspace.catalogue, previous, records.reviews)
    return Van(file=file, caravan=caravan, numbers=numbers, manual=manual)


def _render_all(vans: Sequence[Van], template: Path) -> Rendered:
    """Render the distinct pages of all vans in one build."""
    with tempfile.TemporaryDirectory(prefix="lockerleaf-") as scratch:
        return render((page for van in vans for page in van.manual.pages), template, Path(scratch))


def _folders(vans: Sequence[Van], records: Records, secret: bytes) -> Mapping[str, str]:
    """Return the folder of every chassis, recorded or new."""
    folders = dict(records.folders)
    for van in vans:
        folders[van.manual.chassis] = folder_name(van.manual.chassis, folders, secret)
    return folders


def _finish_all(
    vans: Sequence[Van],
    rendered: Rendered,
    records: Records,
    folders: Mapping[str, str],
    day: date,
    library: Path | None,
    gathered: _Faults,
    tick: Tick,
) -> list[Ready]:
    """Fill each van's pages and set its paper."""
    ready = []
    for left, van in _counted(vans):
        with gathered.of():
            ready.append(_finish_one(van, rendered, records, folders[van.manual.chassis], day, library))
        tick(left + len(vans), f"filled {van.file}")
    return ready


def _finish_one(van: Van, rendered: Rendered, records: Records, folder: str, day: date, library: Path | None) -> Ready:
    manual, address = van.manual, address_of(van.caravan.dealer.library.value, folder)
    edition, finished = _edition(manual, rendered, records.vans.get(manual.chassis), folder, day, library)
    printed = paper(manual, address, van.caravan.dealer.label_stock, rendered.pictures)
    record = PublishedVan(
        chassis=manual.chassis,
        folder=folder,
        edition=edition.number,
        day=edition.day,
        digest=finished.digest,
        pages=tuple(page.path for page in manual.pages),
        places={place.code: place.name for place in van.caravan.places},
        record=finished.record,
        model=manual.model,
        address=address,
        paper=tuple(sorted(printed.files)),
    )
    made_from = {
        "spec": van.file,
        "blocks": dict(manual.blocks),
        "reviews": _reviews(manual),
        "lockerleaf": version("lockerleaf"),
    }
    release = Release(van=record, finished=finished, paper=printed.files, made_from=made_from)
    return Ready(van=van, release=release, labels=printed.labels)


def _edition(
    manual: Manual, rendered: Rendered, previous: PublishedVan | None, folder: str, day: date, library: Path | None
) -> tuple[Edition, Finished]:
    """Return the next edition, or the standing one where nothing but number and day would change."""
    following = Edition(number=previous.edition + 1 if previous else 1, day=day)
    finished = fill(manual, rendered, following, folder, previous)
    if previous is None or finished.digest != previous.digest:
        return following, finished
    standing = Edition(number=previous.edition, day=previous.day)
    if library is None or stands(previous, library):
        return standing, replace(finished, record=previous.record)  # its files are not written
    return standing, fill(manual, rendered, standing, folder, previous)


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
        found, finished = _edition(manual, rendered, published, published.folder, day, None)
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
        drawings={name: van_pictures(one) for name, one in manual.values.items() if isinstance(one, VanDrawing)},
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


def _reviews(manual: Manual) -> dict[str, str]:
    """Return who has checked each safety-critical block and when; an unreviewed one has no entry."""
    return {block.id: f"{block.review.by}, {block.review.on}" for block in manual.safety if block.review}


def address_of(library: str, folder: str) -> str:
    """Return the address of a manual, ending in a slash."""
    return f"{library.rstrip('/')}/{folder}/"


def _unmoved(judged: Records, now: Records) -> Records:
    """Return the records, refusing those that another command changed since they were judged."""
    if (judged.folders, judged.vans) != (now.folders, now.vans):
        raise PublishError(Fault("another command has published meanwhile", hint="run the command again"))
    return now


def _published(ready: Ready, state: State, shelf: Shelf) -> Published:
    record = ready.release.van
    return Published(
        van=ready.van,
        state=state,
        edition=record.edition,
        day=record.day,
        index=shelf.library / record.folder / "index.html",
        address=record.address,
        paper=tuple(shelf.records / "paper" / record.folder / name for name in record.paper),
        labels=ready.labels,
    )
