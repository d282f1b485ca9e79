"""Makes vans as far as they go, for those who look inside: ``show``, ``reach``."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.compute import compute
from generator.errors import Fault, ManualError
from generator.load import load_sound
from generator.model.caravan import Caravan
from generator.model.content import Workspace
from generator.model.manual import Manual
from generator.model.numbers import Numbers
from generator.model.site import Records
from generator.pipeline.gathering import Gathering, in_order
from generator.pipeline.making import Tick, counted, manual_of, quiet
from generator.resolve import resolve


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


def examine_van(root: Path, spec: Path) -> Examined:
    """Return one van as far as it can be made.

    Raises:
        ManualError: the workspace or the build sheet itself cannot be read or resolved; every fault of both.
    """
    survey = _surveyed(root, [spec], quiet)
    if not survey.vans:
        raise ManualError(*survey.faults)
    return survey.vans[0]


def survey_vans(root: Path, tick: Tick = quiet) -> Surveyed:
    """Return every van of the workspace as far as it can be made; one with faults does not stop the others.

    Raises:
        ManualError: a file of the workspace cannot be read; every fault of files and vans.
    """
    return _surveyed(root, (), tick)


def _surveyed(root: Path, specs: Sequence[Path], tick: Tick) -> Surveyed:
    workspace, unread = load_sound(root, specs)
    gathered, vans = Gathering(faults=list(unread)), []
    for left, (file, sheet) in counted(list(workspace.vans.items())):
        with gathered.of():
            vans.append(_examined(file, resolve(sheet, workspace), workspace))
        tick(left, f"assembled {file}")
    faults = in_order((*gathered.faults, *(fault for van in vans for fault in van.faults)))
    if unread:
        raise ManualError(*faults)  # what is sound was made to judge it; to be shown, it lacks too much
    return Surveyed(workspace=workspace, vans=tuple(vans), faults=faults)


def _examined(file: str, caravan: Caravan, workspace: Workspace) -> Examined:
    gathered = Gathering()
    numbers = manual = None
    with gathered.of():
        numbers = compute(caravan)
        gathered.warnings.extend(numbers.warnings)
        manual = manual_of(caravan, numbers, workspace, Records(secret=None))
    faults = (*gathered.warnings, *gathered.faults)
    return Examined(file=file, caravan=caravan, numbers=numbers, manual=manual, faults=faults)
