"""Publishes vans: judged whole, then put into library and records one by one."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.errors import Fault, PublishError
from generator.language import language
from generator.load import load_records
from generator.model.paper import LabelReport
from generator.model.release import Shelf, State
from generator.model.site import Records
from generator.pipeline.checking import Judged, judge
from generator.pipeline.finishing import Ready
from generator.pipeline.gathering import Gathering
from generator.pipeline.making import Tick, Van, counted, quiet, read_desk
from generator.publish import check_apart, prepare, publish
from generator.publish.journal import recover
from generator.publish.lock import hold


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
    gathered = Gathering()
    desk = read_desk(root, specs, shelf.records, gathered)
    words = language(desk.workspace.content, desk.workspace.catalogue)
    gathered.faults.extend(words.errors)  # a budget of style overspent keeps nobody from a manual; what is unsafe does
    judged = judge(desk, words, desk.records.secret or new_secret, day, shelf.library, gathered, tick)
    yield judged
    prepare(shelf)
    with hold(shelf.records):
        records = _unmoved(judged.records, load_records(shelf.records))
        if records.secret is None:
            prepare(shelf, new_secret)
        for left, ready in counted(judged.vans):
            outcome = publish(ready.release, records, shelf)
            records = outcome.records
            tick(left, f"published {ready.van.manual.model} {ready.van.manual.tail}")
            yield _published(ready, outcome.state, shelf)


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
