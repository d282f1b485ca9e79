"""The last look at a manual before it is written: names every system can hold, and nothing private."""

import io
import re
import unicodedata
import zipfile
from collections.abc import Iterator, Mapping
from pathlib import PurePosixPath

from generator.errors import Fault, PublishError

_LONGEST = 150  # characters; Windows counts 260 for the whole path
_BAD = re.compile(r'[<>:"|?*\\\x00-\x1f\x7f]')

# Names that Windows keeps for devices, with any ending.
_DEVICES = frozenset(
    ["con", "prn", "aux", "nul", "conin$", "conout$"]
    + [f"{port}{number}" for port in ("com", "lpt") for number in (*range(10), "¹", "²", "³")]
)


def check_files(files: Mapping[str, bytes], chassis: str) -> None:
    """Refuse files that some system cannot hold or that would make the chassis public.

    Args:
        files: Contents by path from the manual's root, with forward slashes.
        chassis: The whole chassis number, which must not occur in any of them.

    Raises:
        PublishError: with a fault for each file in question.
    """
    faults = [*_name_faults(files), *_clash_faults(files), *_chassis_faults(files, chassis)]
    if "index.html" not in files:
        faults.append(Fault("the manual has no index.html"))
    if faults:
        raise PublishError(*faults)


def _name_faults(files: Mapping[str, bytes]) -> Iterator[Fault]:
    """Yield a fault for each name that is not portable."""
    for path in files:
        for part in path.split("/"):
            if not part or part.startswith(".") or part.endswith((".", " ")) or _BAD.search(part):
                yield Fault(f'"{path}" is no file name on every system', hint="use letters, digits, - and .")
                break
            if part.split(".")[0].strip().casefold() in _DEVICES:
                yield Fault(f'"{path}" has a name that Windows keeps for a device', hint="name the page otherwise")
                break
        if len(path) > _LONGEST:
            yield Fault(f'"{path}" is longer than {_LONGEST} characters')


def _clash_faults(files: Mapping[str, bytes]) -> Iterator[Fault]:
    """Yield a fault for each name that differs from another by case only, or is a file and a folder."""
    seen: dict[str, str] = {}
    for path in files:
        known = seen.setdefault(_folded(path), path)
        if known != path:
            yield Fault(f'"{known}" and "{path}" are one file on Windows and macOS', hint="name one page otherwise")
    folders = {_folded(str(parent)): parent for path in files for parent in PurePosixPath(path).parents}
    for path in files:
        if _folded(path) in folders:
            yield Fault(f'"{path}" is a file and a folder at once', hint="name one page otherwise")
    for folded, parent in folders.items():
        spelled = {
            str(other) for path in files for other in PurePosixPath(path).parents if _folded(str(other)) == folded
        }
        if len(spelled) > 1:
            yield Fault(f'folder "{parent}" is spelled in {len(spelled)} ways', hint="name one place otherwise")


def _folded(path: str) -> str:
    return unicodedata.normalize("NFC", path).casefold()


def _chassis_faults(files: Mapping[str, bytes], chassis: str) -> Iterator[Fault]:
    """Yield a fault for each file that holds the whole chassis number, in names and inside zips too."""
    needle = chassis.lower().encode()
    for path, data in files.items():
        inside = _members(data) if path.endswith(".zip") else ()
        if needle in path.lower().encode() or any(needle in each.lower() for each in (data, *inside)):
            yield Fault(
                f'"{path}" would make the whole chassis number public', hint="show the last six characters only"
            )


def _members(data: bytes) -> Iterator[bytes]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            yield archive.read(name)
