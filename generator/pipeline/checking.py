"""Judges what was written for some vans: every stage but publishing."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.errors import Fault
from generator.language import Judgement, language
from generator.model.site import Records
from generator.pipeline.finishing import Ready, finish_all, folders_of
from generator.pipeline.gathering import Gathering, in_order
from generator.pipeline.making import TEMPLATE, Desk, Tick, assemble_all, quiet, read_desk, render_all

_STAND_IN = bytes(32)  # names folders where nothing is published; only their length matters then


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """Vans without a fault. ``records`` are what they were compared with, ``warnings`` thin margins."""

    vans: tuple[Ready, ...]
    records: Records
    warnings: tuple[Fault, ...]
    words: Judgement


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
    gathered = Gathering()
    desk = read_desk(root, specs, records, gathered)
    words = language(desk.workspace.content, desk.workspace.catalogue)
    gathered.faults.extend(words.faults)
    return judge(desk, words, desk.records.secret or _STAND_IN, day, None, gathered, tick)


def judge(
    desk: Desk,
    words: Judgement,
    secret: bytes,
    day: date,
    library: Path | None,
    gathered: Gathering,
    tick: Tick,
) -> Judged:
    """Make every van ready, or raise all faults of all of them, with those that are gathered already."""
    vans = assemble_all(desk, gathered, tick, to_come=1 + 2 * len(desk.workspace.vans))
    if desk.workspace.spoilt or not vans:
        gathered.raise_any()  # finished pages would only show what they lack
    ready: list[Ready] = []
    with gathered.of():
        rendered = render_all(vans, desk.root / TEMPLATE)
        tick(2 * len(vans), "rendered")
        folders = folders_of(vans, desk.records, secret)
        ready = finish_all(vans, rendered, desk.records, folders, day, library, gathered, tick)
    gathered.raise_any()
    return Judged(vans=tuple(ready), records=desk.records, warnings=in_order(gathered.warnings), words=words)
