"""Judges what was written for some vans: every stage but publishing."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.errors import Fault
from generator.language import Judgement, language
from generator.load import load, load_records
from generator.model.content import Workspace
from generator.model.site import Records
from generator.pipeline.finishing import Ready, finish_all, folders_of
from generator.pipeline.gathering import Gathering, in_order
from generator.pipeline.making import TEMPLATE, Tick, assemble_all, quiet, render_all

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
    workspace = load(root, specs)
    known = load_records(records)
    words = language(workspace.content, workspace.catalogue)
    return judge(root, workspace, known, known.secret or _STAND_IN, day, None, words, words.faults, tick)


def judge(
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
    gathered = Gathering(faults=list(refused))
    vans = assemble_all(workspace, records, gathered, tick, to_come=1 + 2 * len(workspace.vans))
    gathered.raise_any()
    rendered = render_all(vans, root / TEMPLATE)
    tick(2 * len(vans), "rendered")
    ready = finish_all(vans, rendered, records, folders_of(vans, records, secret), day, library, gathered, tick)
    gathered.raise_any()
    return Judged(vans=tuple(ready), records=records, warnings=in_order(gathered.warnings), words=words)
