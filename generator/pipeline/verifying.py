"""Judges what is online: every manual of a library, and what the records say must be there."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.errors import Fault, ManualError, Source
from generator.fill.links import check_links
from generator.load import load_records
from generator.load.library import library_folders, published_files
from generator.model.site import PublishedVan, Records
from generator.pipeline.gathering import in_order
from generator.pipeline.making import Tick, counted, quiet
from generator.publish.folders import is_folder
from generator.verify import verify

_UNFINISHED = "a publication was interrupted here"
_COMPLETE = "the next lockerleaf publish completes it or takes it back"


@dataclass(frozen=True, slots=True)
class Verified:
    """How much was found as it was published; ``by_records`` says that the records were there to compare with."""

    manuals: int
    files: int
    by_records: bool


def verify_library(library: Path, records: Path, tick: Tick = quiet) -> Verified:
    """Judge every manual of a library, and change nothing.

    Args:
        library: The public folder.
        records: The dealer's records; without them manuals are judged by their own lists.
        tick: Told after each manual.

    Raises:
        ManualError: everything that is not as it was published; or library or records cannot be read.
    """
    by_records = records.is_dir()
    known = load_records(records)
    vans = {van.folder: van for van in known.vans.values()}
    folders = library_folders(library)
    faults = [*_unfinished(folders, records), *_not_there(folders, known)]
    files = 0
    manuals = [folder for folder in folders if is_folder(folder)]
    for left, folder in counted(manuals):
        found = published_files(library / folder)
        files += len(found)
        faults += _judged(folder, found, vans.get(folder), by_records)
        tick(left, f"verified {folder}")
    if faults:
        raise ManualError(*in_order(faults))
    return Verified(len(manuals), files, by_records)


def _judged(folder: str, files: Mapping[str, bytes], known: PublishedVan | None, by_records: bool) -> Iterator[Fault]:
    wrong = verify(folder, files, known)
    yield from wrong
    if by_records and known is None:
        hint = "restore the records from a copy, or move this folder out of the library"
        yield Fault("the records know nothing of this manual", Source(folder), hint)
    elif not wrong:  # a file that is missing or changed shows in links as well
        yield from (
            Fault(fault.message, Source(folder), "publish its van again") for fault in check_links(files, folder)
        )


def _unfinished(folders: tuple[str, ...], records: Path) -> Iterator[Fault]:
    """Yield what an interrupted publication has left, and what is no manual at all."""
    if (records / "journal.json").exists():
        yield Fault(_UNFINISHED, Source("journal.json"), _COMPLETE)
    for name in folders:
        if name.startswith((".new-", ".old-")):
            yield Fault(_UNFINISHED, Source(name), _COMPLETE)
        elif not is_folder(name):
            yield Fault("this is no manual", Source(name), "move it out of the library: everything in it is public")


def _not_there(folders: tuple[str, ...], known: Records) -> Iterator[Fault]:
    for van in known.vans.values():
        if van.folder not in folders:
            message = f"the manual of {van.model} is not in the library: edition {van.edition} of {van.day}"
            yield Fault(message, Source(van.folder), "publish its van again: it comes back as it was")
