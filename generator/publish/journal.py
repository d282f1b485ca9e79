"""The journal of one publication, and how an interrupted one is completed or rolled back.

Everything is written beside its place first. Then the journal is written in one rename: before it,
nothing has changed and what lies beside is thrown away; after it, what is left to do are renames,
each of which can be done again. So a crash at any moment leaves the old manual or the new one.
"""

import json
import re
from dataclasses import asdict, dataclass
from pathlib import Path

from generator.errors import Fault, PublishError
from generator.publish import disk
from generator.publish.folders import ALPHABET, LENGTH

NAME = "journal.json"
_LEFTOVER = re.compile(rf"\.(new|old)-([{ALPHABET}]{{{LENGTH}}}|index\.html|secret|reviews\.yaml|{re.escape(NAME)})")


@dataclass(frozen=True, slots=True, kw_only=True)
class Journal:
    """What is left to do for one van.

    ``site`` says that the manual prepared beside the library's folder takes its place; ``files``
    are paths from the records folder that are prepared beside it.
    """

    library: str
    folder: str
    site: bool
    files: tuple[str, ...]


def new_site(library: Path, folder: str) -> Path:
    """Return where a manual is prepared: on the same file system, and hidden."""
    return library / f".new-{folder}"


def old_site(library: Path, folder: str) -> Path:
    """Return where the manual that is replaced waits for the end."""
    return library / f".old-{folder}"


def new_records(records: Path, folder: str) -> Path:
    """Return where records are prepared."""
    return records / f".new-{folder}"


def commit(journal: Journal, records: Path) -> None:
    """Write the journal: from here on the publication will be completed.

    Raises:
        OSError: the disk is full or refuses; then nothing has changed.
    """
    text = json.dumps(asdict(journal), ensure_ascii=False, indent=1)
    disk.put(records / NAME, f"{text}\n".encode())


def complete(journal: Journal, records: Path) -> None:
    """Do what the journal says, then forget it. Can be done again after any interruption.

    Raises:
        OSError: a rename was refused; the journal stays.
    """
    library = Path(journal.library)
    if journal.site:
        _swap(library, journal.folder)
    for name in journal.files:
        prepared = new_records(records, journal.folder) / name
        if prepared.exists():
            disk.rename(prepared, records / name)
    forget(journal, records)


def _swap(library: Path, folder: str) -> None:
    """Put the prepared manual in place by two renames; only what of them is still to do is done."""
    new, live, old = new_site(library, folder), library / folder, old_site(library, folder)
    if not new.exists():
        return
    if live.exists():
        disk.remove(old)
        disk.rename(live, old)
    disk.rename(new, live)


def undo(journal: Journal, records: Path) -> bool:
    """Take a publication back whose swap was refused; return whether that was still possible.

    Raises:
        OSError: that was refused as well; the journal stays.
    """
    library = Path(journal.library)
    if not journal.site or not new_site(library, journal.folder).exists():
        return False
    live, old = library / journal.folder, old_site(library, journal.folder)
    if old.exists() and not live.exists():
        disk.rename(old, live)
    forget(journal, records)
    return True


def forget(journal: Journal, records: Path) -> None:
    """Remove the journal, then what was prepared and replaced."""
    disk.remove(records / NAME)
    disk.flush(records)
    for leftover in (
        old_site(Path(journal.library), journal.folder),
        new_site(Path(journal.library), journal.folder),
        new_records(records, journal.folder),
    ):
        disk.remove(leftover)


def read(records: Path) -> Journal | None:
    """Return the journal of an interrupted publication, if there is one."""
    path = records / NAME
    if not path.exists():
        return None
    try:
        found = json.loads(path.read_text("utf-8"))
        return Journal(
            library=str(found["library"]),
            folder=str(found["folder"]),
            site=bool(found["site"]),
            files=tuple(map(str, found["files"])),
        )
    except (ValueError, KeyError, TypeError) as error:
        message = f"the journal {path} cannot be read"
        raise PublishError(Fault(message, hint="restore the records from a copy")) from error


def recover(library: Path, records: Path) -> str | None:
    """Complete what an interrupted command began, or throw away what it had only prepared.

    Returns:
        The folder that was completed, None when nothing was pending.

    Raises:
        PublishError: something stands in the way; nothing is lost, and the next command tries again.
    """
    journal = read(records) if records.is_dir() else None
    if journal and journal.site and not Path(journal.library).is_dir():
        message = f"an interrupted publication belongs to the library {journal.library}, which is not there"
        raise PublishError(Fault(message, hint="put the library back where it was and run the command again"))
    try:
        if journal:
            complete(journal, records)
        for folder in (library, records):
            _clear(folder)
    except OSError as error:
        message = f"an interrupted publication could not be completed: {error}"
        raise PublishError(Fault(message, hint="close what has its files open and run the command again")) from error
    return journal.folder if journal else None


def _clear(folder: Path) -> None:
    """Remove what lies beside the manuals of a library or beside records without a journal."""
    leftovers = [path for path in folder.iterdir() if _LEFTOVER.fullmatch(path.name)] if folder.is_dir() else []
    for path in leftovers:
        kind, _, name = path.name[1:].partition("-")
        live = folder / name
        if kind == "old" and not live.exists():
            disk.rename(path, live)  # never seen, but a manual is not thrown away on a guess
        else:
            disk.remove(path)
