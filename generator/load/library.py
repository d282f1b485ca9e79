"""A library as it lies on the disk: its manuals, each with all its files.

Whether they are as published is left to ``verify``.
"""

from collections.abc import Iterator, Mapping
from pathlib import Path

from generator.errors import Fault, PublishError

_OF_ITSELF = ("index.html",)  # the page at the library's own address


def library_folders(library: Path) -> tuple[str, ...]:
    """Return the names of what lies in a library beside its own page, hidden ones too.

    Raises:
        PublishError: there is no such folder, or it cannot be read.
    """
    try:
        return tuple(sorted(path.name for path in library.iterdir() if path.name not in _OF_ITSELF))
    except OSError as error:
        raise PublishError(Fault(f"the library {library} cannot be read: {error.strerror}")) from error


def published_files(manual: Path) -> Mapping[str, bytes]:
    """Return every file of one manual by path from its folder; nothing where there is no such folder.

    Raises:
        PublishError: a file cannot be read.
    """
    try:
        return dict(_files(manual))
    except OSError as error:
        raise PublishError(Fault(f"{error.filename} cannot be read: {error.strerror}")) from error


def _files(manual: Path) -> Iterator[tuple[str, bytes]]:
    for path in sorted(manual.rglob("*")):
        if path.is_file():
            yield path.relative_to(manual).as_posix(), path.read_bytes()
