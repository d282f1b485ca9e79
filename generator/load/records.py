"""The dealer's records as an earlier publication wrote them.

Writing them is left to ``publish``.
"""

import json
import re
from collections.abc import Callable, Mapping
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any, TypeVar

from generator.errors import Fault, PublishError, Source
from generator.load.faults import Faults
from generator.load.reviews import read_reviews
from generator.model.site import PublishedVan, Records

_SECRET = re.compile(r"[0-9a-fA-F]{64}")
_FOLDER = re.compile(r"[2-9A-HJ-NP-Z]{10}")


_T = TypeVar("_T")


class _BrokenError(Exception):
    """One file of the records cannot be read."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.message)
        self.fault = fault


def load_records(records: Path) -> Records:
    """Return what the records hold; a missing folder holds nothing.

    Args:
        records: The records folder.

    Raises:
        PublishError: a file of the records is broken.
    """
    faults: list[Fault] = []
    secret = _read(partial(_secret, records), faults)
    folders = _read(partial(_folders, records), faults) or {}
    vans = {}
    for chassis, folder in sorted(folders.items()):
        van = _read(partial(_van, records, chassis, folder), faults)
        if van is not None:
            vans[chassis] = van
    of_reviews = Faults()
    reviews = read_reviews(records.parent, records / "reviews.yaml", of_reviews)
    faults += of_reviews.in_order()
    if faults:
        raise PublishError(*faults)
    return Records(secret=secret, folders=folders, vans=vans, reviews=reviews)


def _read(reader: Callable[[], _T | None], faults: list[Fault]) -> _T | None:
    try:
        return reader()
    except _BrokenError as broken:
        faults.append(broken.fault)
        return None


def _text(records: Path, path: Path) -> str | None:
    """Return the text of a file of the records, or None where there is none."""
    try:
        return path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return None
    except (OSError, UnicodeDecodeError) as error:
        raise _broken(records, path, f"cannot be read: {error}") from error


def _broken(records: Path, path: Path, what: str, line: int = 1, column: int = 1) -> _BrokenError:
    file = f"{records.name}/{path.relative_to(records).as_posix()}"
    hint = "restore this file from a backup of the records"
    return _BrokenError(Fault(f"this file of the records {what}", Source(file, line, column), hint))


def _secret(records: Path) -> bytes | None:
    text = _text(records, records / "secret")
    if text is None:
        return None
    if not _SECRET.fullmatch(text.strip()):
        raise _broken(records, records / "secret", "does not hold 64 hexadecimal digits")
    return bytes.fromhex(text.strip())


def _json(records: Path, path: Path) -> Mapping[str, Any] | None:
    text = _text(records, path)
    if text is None:
        return None
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        raise _broken(records, path, f"is not JSON: {error.msg}", error.lineno, error.colno) from error
    except (ValueError, RecursionError) as error:
        raise _broken(records, path, "is not JSON") from error
    if not isinstance(data, dict):
        raise _broken(records, path, "holds no JSON object")
    return data


def _folders(records: Path) -> dict[str, str]:
    path = records / "folders.json"
    folders = _json(records, path) or {}
    for chassis, folder in folders.items():
        if not isinstance(folder, str) or not _FOLDER.fullmatch(folder):
            raise _broken(records, path, f'gives chassis "{chassis}" no folder of ten signs')
    if len(set(folders.values())) < len(folders):
        raise _broken(records, path, "gives one folder to two chassis")
    return dict(folders)


def _van(records: Path, chassis: str, folder: str) -> PublishedVan | None:
    """Return the current publication of a chassis, or None where nothing was published yet."""
    path = records / "editions" / folder / "current.json"
    data = _json(records, path)
    if data is None:
        return None
    if (data.get("chassis"), data.get("folder")) != (chassis, folder):
        raise _broken(records, path, "is of another chassis or folder than folders.json says")
    try:
        return PublishedVan(
            chassis=chassis,
            folder=folder,
            edition=_typed(data["edition"], int),
            day=date.fromisoformat(data["day"]),
            digest=_typed(data["digest"], str),
            pages=_texts(data["pages"]),
            places={code: _typed(name, str) for code, name in _typed(data["places"], dict).items()},
            record=_typed(data["record"], dict),
            model=_typed(data.get("model", ""), str),
            address=_typed(data.get("address", ""), str),
            paper=tuple(_typed(name, str) for name in _typed(data.get("paper", []), list)),
        )
    except (KeyError, TypeError, ValueError) as error:
        raise _broken(records, path, f"lacks or garbles {error}") from error


def _texts(value: Any) -> tuple[str, ...]:
    return tuple(_typed(text, str) for text in _typed(value, list))


def _typed(value: Any, wanted: type) -> Any:
    if not isinstance(value, wanted) or isinstance(value, bool):
        raise TypeError(f'"{str(value)[:40]}"')
    return value
