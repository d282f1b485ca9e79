"""Reading one text file of the workspace: bounded in size, UTF-8, and free of characters that no text needs.

What the text says is left to ``nodes`` and ``blocks``.
"""

import hashlib
import re
import unicodedata
from dataclasses import dataclass
from pathlib import Path

from generator.errors import Source
from generator.load.faults import Faults

LARGEST_FILE = 1_000_000  # bytes
LONGEST_LINE = 20_000  # characters

# Control characters, lone surrogates, private use (finished pages mark holes with it), characters that turn the
# direction of text or cannot be seen, and line ends that only some programs know.
_UNWANTED = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060\u2066-\u2069"
    "\ud800-\udfff\ue000-\uf8ff\ufdd0-\ufdef\ufeff\ufffe\uffff\U000f0000-\U0010ffff]"
)


@dataclass(frozen=True, slots=True)
class Document:
    """A file as read: its name relative to the workspace, text with plain line feeds, sha256 of its bytes."""

    file: str
    text: str
    digest: str


def unwanted(text: str) -> tuple[int, str] | None:
    """Return where ``text`` holds a character that no text may hold, and its name."""
    found = _UNWANTED.search(text)
    if found is None:
        return None
    code = ord(found[0])
    name = unicodedata.name(found[0], "private use" if unicodedata.category(found[0]) == "Co" else "control character")
    return found.start(), f"U+{code:04X} ({name.lower()})"


def file_name(root: Path, path: Path) -> str:
    """Return ``path`` as faults and keys show it: relative to the workspace where it lies in it."""
    if path.is_relative_to(root) and ".." not in path.parts:  # the common case, without asking the disk
        return path.relative_to(root).as_posix()
    try:
        return path.resolve().relative_to(root.resolve()).as_posix()
    except ValueError:
        return path.as_posix()


def read_document(root: Path, path: Path, faults: Faults) -> Document | None:
    """Read a file, or add the fault that keeps it from being read.

    Args:
        root: The workspace.
        path: The file.
        faults: Takes what is wrong with it.
    """
    file = file_name(root, path)
    data = _bytes(file, path, faults)
    if data is None:
        return None
    text = _decoded(file, data, faults)
    if text is None:
        return None
    faults.keep_text(file, text)
    if not _clean(file, text, faults):
        return None
    return Document(file, text, hashlib.sha256(data).hexdigest())


def _bytes(file: str, path: Path, faults: Faults) -> bytes | None:
    at = Source(file)
    try:
        if path.is_dir():
            faults.add("a folder stands where a file belongs", at)
        elif not path.exists():
            faults.add("this file is missing", at)
        elif not path.is_file():
            faults.add("this is no regular file", at)
        elif path.stat().st_size > LARGEST_FILE:
            faults.add(f"this file holds {path.stat().st_size / 1e6:.1f} MB, at most 1 MB is read", at)
        else:
            return path.read_bytes()
    except (OSError, ValueError) as error:
        faults.add(f"this file cannot be read: {getattr(error, 'strerror', None) or error}", at)
    return None


def _decoded(file: str, data: bytes, faults: Faults) -> str | None:
    """Return the text without byte order mark and with one sort of line end."""
    try:
        return data.decode("utf-8").removeprefix("\ufeff").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8").replace("\r\n", "\n")
        at = position(file, before, len(before))
        faults.add(f"the byte 0x{data[error.start]:02X} is not UTF-8", at, "save the file as UTF-8")
        return None


def _clean(file: str, text: str, faults: Faults) -> bool:
    """Return whether the text holds no unwanted character and no overlong line."""
    before = len(faults)
    bad = unwanted(text)
    if bad:
        faults.add(f"the character {bad[1]} may not stand in a text", position(file, text, bad[0]), "delete it")
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            faults.add(f"this line holds {len(line)} characters, at most {LONGEST_LINE} are read", Source(file, number))
    return len(faults) == before


def position(file: str, text: str, offset: int) -> Source:
    """Return line and column of the character at ``offset``."""
    start = text.rfind("\n", 0, offset) + 1
    return Source(file, text.count("\n", 0, offset) + 1, offset - start + 1)
