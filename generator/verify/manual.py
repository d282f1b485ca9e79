"""The public function of the stage: one manual against its own lists, and against the dealer's records.

Links inside it are left to ``fill``, which checks them when it is made.
"""

import base64
import hashlib
import io
import json
import re
import zipfile
import zlib
from collections.abc import Iterator, Mapping

from generator.errors import Fault, Source
from generator.model.site import PublishedVan

_WORKER, _RECORD, _ZIP = "sw.js", "edition.json", "manual.zip"
_LIST = re.compile(r"^const FILES = (\[.*?\]);", re.MULTILINE)
_PACK = re.compile(r"assets/pages-[0-9]+\.([0-9a-f]{10})\.bin")
_MISSING, _DIFFERS = "this file is missing", "this file is not as it was published"
_EXTRA = "this file is no part of the manual"
# What reading a damaged zip may end in.
_DAMAGED = (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, NotImplementedError)


def verify(folder: str, files: Mapping[str, bytes], known: PublishedVan | None) -> tuple[Fault, ...]:
    """Return what of a manual is not as it was published, by file.

    Args:
        folder: The manual's folder in the library.
        files: Every file in it, by path.
        known: What the records hold of it; None where there are none to compare with.
    """
    wrong = {**dict(_against_lists(files)), **dict(_against_records(files, known))}
    again = f"move the folder {folder} out of the library and publish its van again, or restore it from a copy"
    hints = {_EXTRA: "move it out of the library: everything in it is public"}
    return tuple(
        Fault(what, Source(f"{folder}/{path}"), hints.get(what, again)) for path, what in sorted(wrong.items())
    )


def _against_lists(files: Mapping[str, bytes]) -> Iterator[tuple[str, str]]:
    """Yield each file that is missing, changed or of no list, with what is wrong."""
    listed, (copies, packed) = _listed(files), _copies(files)
    if listed is None:
        yield _WORKER, "the list of the manual's files cannot be read"
    if copies is None:
        yield packed, "the zip cannot be read" if packed in files else "the zip of the manual is missing"
    yield from _by_digest(files, listed or {})
    yield from _by_copy(files, copies or {}, listed or {}, packed)
    yield from _packs(files)
    if listed is not None and copies is not None:
        named = {*listed, *copies, packed}
        yield from ((path, _EXTRA) for path in files if path not in named and not _PACK.fullmatch(path))


def _by_digest(files: Mapping[str, bytes], listed: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    for path, digest in listed.items():
        if path not in files:
            yield path, _MISSING
        elif not _digest(files[path]).startswith(digest):
            yield path, _DIFFERS


def _by_copy(
    files: Mapping[str, bytes], copies: Mapping[str, bytes], listed: Mapping[str, str], packed: str
) -> Iterator[tuple[str, str]]:
    """Yield what differs from its copy in the zip; where a digest is listed, it says which of the two is wrong."""
    for path, content in copies.items():
        if path not in files:
            yield path, _MISSING
        elif path in listed and not _digest(content).startswith(listed[path]):
            yield packed, f"its copy of {path} is not as it was published"
        elif path not in listed and files[path] != content:
            yield path, f"{_DIFFERS}: the zip has another"


def _packs(files: Mapping[str, bytes]) -> Iterator[tuple[str, str]]:
    """Yield the packs of pages whose content is not what their name says, or that the worker asks for in vain."""
    for path, content in files.items():
        named = _PACK.fullmatch(path)
        if named and hashlib.sha256(content).hexdigest()[: len(named[1])] != named[1]:
            yield path, _DIFFERS
    for named in _PACK.finditer(files.get(_WORKER, b"").decode("utf-8", "replace")):
        if named[0] not in files:
            yield named[0], _MISSING


def _against_records(files: Mapping[str, bytes], known: PublishedVan | None) -> Iterator[tuple[str, str]]:
    """Yield what the records say otherwise: the edition, and pages and labels that lead nowhere."""
    if known is None:
        return
    if _record(files) != known.record:
        yield _RECORD, f"the records hold edition {known.edition} of {known.day}, and this is not its record"
    for path in known.pages:
        if path not in files:
            yield path, "this page is missing"
    for code in known.places:
        if f"{code}/index.html" not in files:
            yield f"{code}/index.html", f"the label {code} leads here, and the page is missing"


def _record(files: Mapping[str, bytes]) -> dict[str, object]:
    """Return what the manual says of itself; nothing where that is missing or damaged."""
    try:
        record = json.loads(files.get(_RECORD, b""))
    except ValueError:
        return {}
    return record if isinstance(record, dict) else {}


def _listed(files: Mapping[str, bytes]) -> dict[str, str] | None:
    """Return the digest of each file in the worker's list, or None where there is no such list."""
    found = _LIST.search(files.get(_WORKER, b"").decode("utf-8", "replace"))
    try:
        return {str(path): str(digest) for path, digest, *_ in json.loads(found[1])} if found else None
    except (ValueError, TypeError):
        return None


def _copies(files: Mapping[str, bytes]) -> tuple[dict[str, bytes] | None, str]:
    """Return what the manual's zip holds, or None where it is missing or damaged; and its name."""
    name = str(_record(files).get("zip") or next((path for path in sorted(files) if path.endswith(".zip")), _ZIP))
    try:
        with zipfile.ZipFile(io.BytesIO(files.get(name, b""))) as packed:
            return {entry.partition("/")[2]: packed.read(entry) for entry in packed.namelist()}, name
    except _DAMAGED:
        return None, name


def _digest(content: bytes) -> str:
    """Return what the worker compares, whole: it lists the first digits."""
    return base64.b64encode(hashlib.sha256(content).digest()).decode()
