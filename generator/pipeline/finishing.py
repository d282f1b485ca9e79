"""Makes vans ready: their pages filled, their edition known, their labels set.

Putting them into the library is left to ``publishing``.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from importlib.metadata import version
from pathlib import Path

from generator.fill import fill
from generator.model.manual import Manual
from generator.model.paper import LabelReport
from generator.model.release import Release
from generator.model.site import Edition, Finished, PublishedVan, Records, Rendered
from generator.paper import paper
from generator.pipeline.gathering import Gathering
from generator.pipeline.making import Tick, Van, counted
from generator.publish import stands
from generator.publish.folders import folder_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A van with every file it will have, and what the dealer must know of its labels."""

    van: Van
    release: Release
    labels: LabelReport | None


def finish_all(
    vans: Sequence[Van],
    rendered: Rendered,
    records: Records,
    folders: Mapping[str, str],
    day: date,
    library: Path | None,
    gathered: Gathering,
    tick: Tick,
) -> list[Ready]:
    """Fill each van's pages and set its paper."""
    ready = []
    for left, van in counted(vans):
        with gathered.of():
            ready.append(_finish_one(van, rendered, records, folders[van.manual.chassis], day, library))
        tick(left + len(vans), f"filled {van.file}")
    return ready


def _finish_one(van: Van, rendered: Rendered, records: Records, folder: str, day: date, library: Path | None) -> Ready:
    manual, address = van.manual, address_of(van.caravan.dealer.library.value, folder)
    edition, finished = edition_of(manual, rendered, records.vans.get(manual.chassis), folder, day, library)
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


def edition_of(
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


def folders_of(vans: Sequence[Van], records: Records, secret: bytes) -> Mapping[str, str]:
    """Return the folder of every chassis, recorded or new."""
    folders = dict(records.folders)
    for van in vans:
        folders[van.manual.chassis] = folder_name(van.manual.chassis, folders, secret)
    return folders


def _reviews(manual: Manual) -> dict[str, str]:
    """Return who has checked each safety-critical block and when; an unreviewed one has no entry."""
    return {block.id: f"{block.review.by}, {block.review.on}" for block in manual.safety if block.review}


def address_of(library: str, folder: str) -> str:
    """Return the address of a manual, ending in a slash."""
    return f"{library.rstrip('/')}/{folder}/"
