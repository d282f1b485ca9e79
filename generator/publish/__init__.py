"""Putting one finished manual online and into the dealer's records, as a whole or not at all."""

from collections.abc import Mapping
from pathlib import Path

from generator.errors import Fault, PublishError
from generator.model.release import Outcome, Release, Shelf, State
from generator.model.site import PublishedVan, Records
from generator.publish import disk, journal, record_files
from generator.publish.gate import check_files

# The library's own page: nothing to see, nothing to find.
_ROOT_PAGE = b"""<!DOCTYPE html>
<html lang="en">
<head><meta charset="utf-8"><meta name="robots" content="noindex"><title>Nothing here</title></head>
<body></body>
</html>
"""


def publish(release: Release, records: Records, shelf: Shelf) -> Outcome:
    """Make a release the edition of its van that is online, or leave everything as it was.

    A manual that has not changed makes no edition and rewrites nothing; where its folder is missing
    from this library it is put back, and printed matter that differs is rewritten.

    Args:
        release: The manual, its record and its printed matter.
        records: The dealer's records as read, after ``recover``.
        shelf: Library and records folders; both exist (see ``prepare``).

    Raises:
        PublishError: a file no system or reader may have, a folder the records do not know, or the
            disk refuses. Then library and records are as before, or the next command completes them.
    """
    check_files(release.finished.files, release.van.chassis)
    _check_folder(release.van, records, shelf)
    state = _state(release, records, shelf)
    after = record_files.with_van(records, release.van)
    files = _record_files(state, release, after, shelf)
    if state != "unchanged":
        site = release.finished.files if state in ("new", "restored") else None
        _put_in_place(release.van.folder, site, files, shelf)
    return Outcome(state=state, van=release.van, records=after)


def stands(van: PublishedVan, library: Path) -> bool:
    """Return whether a published manual is in this library."""
    return (library / van.folder / "index.html").is_file()


def prepare(shelf: Shelf, secret: bytes | None = None) -> None:
    """Make library and records ready to publish into.

    Args:
        shelf: Library and records folders, which are made where missing.
        secret: A key for folder names, to be kept; None where the records have one.

    Raises:
        PublishError: the records would be public, or the disk refuses.
    """
    check_apart(shelf)
    try:
        for folder in (shelf.library, shelf.records):
            folder.mkdir(parents=True, exist_ok=True)
        root = shelf.library / "index.html"
        if not root.exists():
            disk.put(root, _ROOT_PAGE)
        if secret is not None:
            disk.put(shelf.records / "secret", f"{secret.hex()}\n".encode(), mode=0o600)
    except OSError as error:
        raise _refused(error) from error


def prepare_records(records: Path) -> None:
    """Make the records folder where it is missing.

    Raises:
        PublishError: the disk refuses.
    """
    try:
        records.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise _refused(error) from error


def put_paper(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write printed matter into a folder of its own and return where each file lies.

    Args:
        folder: Where to; it is made where missing. Other files in it stay.
        files: Bytes by path from the folder.

    Raises:
        PublishError: the folder lies in a public library, or the disk refuses.
    """
    _check_not_public(folder)
    try:
        for name, data in files.items():
            disk.put(folder / name, data)
    except OSError as error:
        raise _refused(error) from error
    return tuple(folder / name for name in files)


def _check_not_public(folder: Path) -> None:
    """Refuse to write paper, which holds the whole chassis number, where a web server hands it out."""
    for above in (folder, *folder.parents):
        root = above / "index.html"
        if root.is_file() and root.read_bytes() == _ROOT_PAGE:
            message = f"the paper would lie in {folder}, inside the public library {above}"
            raise PublishError(Fault(message, hint="write it elsewhere: --out DIR"))


def check_apart(shelf: Shelf) -> None:
    """Refuse records that the web server of the library would hand out.

    Raises:
        PublishError: the records are the library or lie in it, by whatever name.
    """
    for folder in (shelf.records, *shelf.records.parents):
        if folder == shelf.library or (folder.exists() and shelf.library.exists() and folder.samefile(shelf.library)):
            message = f"the records {shelf.records} would lie inside the public library {shelf.library}"
            raise PublishError(Fault(message, hint="keep the records beside the library: --records DIR"))


def _check_folder(van: PublishedVan, records: Records, shelf: Shelf) -> None:
    """Refuse to take over a folder whose editions the records do not know."""
    if van.chassis not in records.vans and (shelf.library / van.folder).exists():
        message = f"the library holds {van.folder} already, but the records know nothing of it"
        hint = "restore the records from a copy, or move that folder out of the library"
        raise PublishError(Fault(message, hint=hint))


def _state(release: Release, records: Records, shelf: Shelf) -> State:
    """Return what there is to do."""
    known = records.vans.get(release.van.chassis)
    if known is None or known.digest != release.van.digest:
        return "new"
    if not stands(known, shelf.library):
        return "restored"
    listed = (known.model, known.address, known.paper) == (release.van.model, release.van.address, release.van.paper)
    return "unchanged" if listed and not _new_paper(release, shelf) else "paper"


def _new_paper(release: Release, shelf: Shelf) -> dict[str, bytes]:
    """Return the printed matter that differs from what the records hold, by path from their folder."""
    paper = {f"paper/{release.van.folder}/{name}": data for name, data in release.paper.items()}
    return {name: data for name, data in paper.items() if not _holds(shelf.records / name, data)}


def _holds(path: Path, data: bytes) -> bool:
    return path.is_file() and path.read_bytes() == data


def _record_files(state: State, release: Release, after: Records, shelf: Shelf) -> dict[str, bytes]:
    """Return what is written into the records, by path from their folder; history only for a new edition."""
    files = {**record_files.van_files(release.van, after), **_new_paper(release, shelf)}
    return {**record_files.history_file(release), **files} if state == "new" else files


def _put_in_place(folder: str, site: Mapping[str, bytes] | None, files: Mapping[str, bytes], shelf: Shelf) -> None:
    """Write everything beside its place, then the journal, then rename: see ``journal``.

    Ctrl-C on the way completes or rolls back before it goes on its way.
    """
    plan = journal.Journal(library=str(shelf.library), folder=folder, site=site is not None, files=tuple(files))
    try:
        _write_beside(folder, site, files, shelf)
        journal.commit(plan, shelf.records)
        _complete(plan, shelf)
    except OSError as error:
        journal.recover(shelf.library, shelf.records)
        raise _refused(error) from error
    except PublishError:
        raise
    except BaseException:
        journal.recover(shelf.library, shelf.records)
        raise


def _write_beside(folder: str, site: Mapping[str, bytes] | None, files: Mapping[str, bytes], shelf: Shelf) -> None:
    for beside, contents in (
        (journal.new_site(shelf.library, folder), site),
        (journal.new_records(shelf.records, folder), files),
    ):
        if contents is not None:
            disk.remove(beside)
            for name, data in contents.items():
                disk.write(beside / name, data)


def _complete(plan: journal.Journal, shelf: Shelf) -> None:
    """Do the renames; where the first ones are refused, take the publication back at once."""
    try:
        journal.complete(plan, shelf.records)
    except OSError as error:
        if journal.undo(plan, shelf.records):
            raise _refused(error) from error
        message = f"the manual {plan.folder} is online, but not all records could be written: {error}"
        raise PublishError(Fault(message, hint="free the records folder; the next command completes them")) from error


def _refused(error: OSError) -> PublishError:
    """Return what a dealer reads when the disk refuses."""
    where = f" at {error.filename}" if error.filename else ""
    message = f"nothing was published: {error.strerror or error}{where}"
    return PublishError(Fault(message, hint="make room or allow writing there, then run the command again"))
