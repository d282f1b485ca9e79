"""Makes vans up to their rendered pages: the steps that several commands share.

What a command wants of them is in the module of that command.
"""

import tempfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from generator.assemble import assemble
from generator.compute import compute
from generator.errors import ContentError
from generator.load import load_records, load_sound
from generator.model.caravan import Caravan
from generator.model.content import Workspace
from generator.model.manual import Manual
from generator.model.numbers import Numbers
from generator.model.site import Records, Rendered
from generator.model.specs import Spec
from generator.pipeline.gathering import Gathering
from generator.render import render
from generator.resolve import resolve

TEMPLATE = "site_template"
_PLAN = ("content/outline.yaml", "content/terms.yaml")  # what no page can be written without

Tick = Callable[[int, str], None]  # steps still to do after this one, and what it was
_Made = TypeVar("_Made")


@dataclass(frozen=True, slots=True, kw_only=True)
class Van:
    """One van as far as it is made without being published."""

    file: str  # its build sheet, relative to the workspace
    caravan: Caravan
    numbers: Numbers
    manual: Manual


@dataclass(frozen=True, slots=True)
class Desk:
    """What a command works on: workspace and records, as far as they could be read."""

    root: Path
    workspace: Workspace
    records: Records


def read_desk(root: Path, specs: Sequence[Path], records: Path, gathered: Gathering) -> Desk:
    """Read workspace and records; what is wrong with them is gathered, what is sound can be judged.

    Args:
        root: The workspace.
        specs: Build sheets; none means every van.
        records: The dealer's records; they may be missing.
        gathered: Takes the faults.
    """
    workspace, faults = load_sound(root, specs)
    gathered.faults.extend(faults)
    known = Records(secret=None)
    with gathered.of():
        known = load_records(records)
    return Desk(root, workspace, known)


def quiet(left: int, what: str) -> None:
    """Take a tick of the progress and say nothing."""


def counted(things: Sequence[_Made]) -> Iterator[tuple[int, _Made]]:
    """Yield each thing with how many come after it."""
    return zip(range(len(things) - 1, -1, -1), things, strict=True)


def assemble_all(desk: Desk, gathered: Gathering, tick: Tick, to_come: int) -> list[Van]:
    """Resolve, compute and assemble each van, before so many further steps."""
    vans = []
    for left, (file, spec) in counted(list(desk.workspace.vans.items())):
        with gathered.of():
            vans.append(_assemble_one(file, spec, desk, gathered))
        tick(left + to_come, f"assembled {file}")
    return vans


def _assemble_one(file: str, spec: Spec, desk: Desk, gathered: Gathering) -> Van:
    caravan = resolve(spec, desk.workspace)
    numbers = compute(caravan)
    gathered.warnings.extend(numbers.warnings)
    manual = manual_of(caravan, numbers, desk.workspace, desk.records)
    return Van(file=file, caravan=caravan, numbers=numbers, manual=manual)


def manual_of(caravan: Caravan, numbers: Numbers, workspace: Workspace, records: Records) -> Manual:
    """Return the manual of a van from what could be read of a workspace.

    Raises:
        ContentError: the content has faults; none of its own where what every page hangs on could not be read, which
            was told then.
    """
    if workspace.spoilt.any_of(_PLAN):
        raise ContentError()
    previous = records.vans.get(caravan.chassis)
    return assemble(caravan, numbers, workspace.content, workspace.catalogue, previous, records.reviews)


def render_all(vans: Sequence[Van], template: Path) -> Rendered:
    """Render the distinct pages of all vans in one build."""
    with tempfile.TemporaryDirectory(prefix="lockerleaf-") as scratch:
        return render((page for van in vans for page in van.manual.pages), template, Path(scratch))
