"""Says which safety-critical words nobody has checked, and records that somebody has."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.load import load_records
from generator.model.reviews import Review, SafetyBlock
from generator.pipeline.gathering import Gathering
from generator.pipeline.making import Tick, Van, assemble_all, quiet, read_desk
from generator.publish import prepare_records
from generator.publish.lock import hold
from generator.publish.reviews import check_name, record_reviews


@dataclass(frozen=True, slots=True, kw_only=True)
class Reviewed:
    """Vans with the blocks that waited for review, each variant once; ``register`` is where they were recorded."""

    vans: tuple[Van, ...]
    waiting: tuple[SafetyBlock, ...]
    register: Path | None


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
    gathered = Gathering()
    vans = tuple(assemble_all(read_desk(root, specs, records, gathered), gathered, tick, to_come=0))
    gathered.raise_any()
    waiting = tuple({(block.id, block.digest): block for van in vans for block in van.manual.waiting}.values())
    if name is None or not waiting:
        return Reviewed(vans=vans, waiting=waiting, register=None)
    made = (Review(block=block.id, digest=block.digest, by=name, on=day) for block in waiting)
    prepare_records(records)
    with hold(records):
        register = record_reviews((*load_records(records).reviews, *made), records)
    return Reviewed(vans=vans, waiting=waiting, register=register)
