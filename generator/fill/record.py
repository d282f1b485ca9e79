"""Writes what is published of a manual as data, and the digest by which an edition is told from the last.

Nothing here names the owner or more of the chassis than its tail.
"""

import hashlib
import json
from collections.abc import Mapping

from generator.model.manual import Manual
from generator.model.site import Edition

RECORD = "edition.json"


def edition_record(manual: Manual, edition: Edition, copies: Mapping[str, str]) -> dict[str, object]:
    """Return the content of ``edition.json``; ``copies`` are the paths of single-file copy and zip."""
    return {
        "edition": edition.number,
        "day": edition.day.isoformat(),
        "model": manual.model,
        "tail": manual.tail,
        "market": manual.market,
        "draft": bool(manual.waiting),
        "traits": sorted(manual.traits),
        "pages": [
            {"path": page.path, "title": page.title, "topics": list(page.topics)}
            for page in manual.pages
            if page.template != "gone"
        ],
        "places": {page.plate or page.id: page.title for page in manual.pages if page.template == "place"},
        "numbers": {
            name.removeprefix("number/"): value
            for name, value in sorted(manual.values.items())
            if name.startswith("number/") and isinstance(value, str)
        },
        "blocks": dict(sorted(manual.blocks.items())),
        **copies,
    }


def as_json(record: Mapping[str, object]) -> bytes:
    """Return a record as it is written."""
    return (json.dumps(record, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()


def digest(settled: Mapping[str, bytes]) -> str:
    """Return the sha256 over files in which the edition's number and day are still holes."""
    total = hashlib.sha256()
    for path in sorted(settled):
        total.update(f"{path}\0{len(settled[path])}\0".encode())
        total.update(settled[path])
    return total.hexdigest()
