"""Every change to library and records: whole files, whole renames, flushed to the disk.

The only module that writes. What is written where, and in which order, is left to its callers.
"""

import os
import shutil
from pathlib import Path


def write(path: Path, data: bytes, mode: int = 0o666) -> None:
    """Write a new file and flush it; folders above it are made."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_BINARY", 0), mode)
    with os.fdopen(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def put(path: Path, data: bytes, mode: int = 0o666) -> None:
    """Replace a file as a whole: after a crash it holds the old bytes or the new ones."""
    beside = path.with_name(f".new-{path.name}")
    write(beside, data, mode)
    rename(beside, path)


def rename(source: Path, target: Path) -> None:
    """Rename a file or folder, flushed; a file may replace a file, a folder must not exist."""
    target.parent.mkdir(parents=True, exist_ok=True)
    source.replace(target)
    flush(target.parent)


def remove(path: Path) -> None:
    """Remove a file or a folder with all in it, where it exists."""
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)


def flush(folder: Path) -> None:
    """Flush the entries of a folder; Windows has no such thing."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
