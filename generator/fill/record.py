"""Writes what is published of a manual as data, and the digest by which an edition is told from the last.

Nothing here names the owner or more of the chassis than its tail.
"""

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import astuple

from generator.model.digests import nodes_key
from generator.model.manual import Manual
from generator.model.numbers import DataTable, Number
from generator.model.pages import Group, Heading, Node, Page
from generator.model.site import Edition

RECORD = "edition.json"
_BY_PLACE = "room-left"  # told of by place
_ROOM = {"limit": "load limit", "left": "room left"}
_TOLD = ("topic", "emergency", "checklist", "lights")
_AROUND = ("related", "dealer")


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
        "titles": {value.id: value.title for value in manual.values.values() if isinstance(value, Number)},
        "rooms": _rooms(manual),
        "tables": {
            value.id: {"title": value.title, "digest": _digest_of(value)}
            for value in manual.values.values()
            if isinstance(value, DataTable) and value.id != _BY_PLACE
        },
        "equipment": dict(manual.equipment),
        "stood": {code: dict(parts) for code, parts in sorted(manual.stood.items())},
        "parts": {id_: part for page in manual.pages for id_, part in _parts(page)},
        "blocks": dict(sorted(manual.blocks.items())),
        **copies,
    }


def _rooms(manual: Manual) -> dict[str, dict[str, str]]:
    """Return load limit and room left by place."""
    found: dict[str, dict[str, str]] = {}
    for name, value in manual.values.items():
        kind, code, what = (*name.split("/"), "", "")[:3]
        if kind == "place" and what in _ROOM and isinstance(value, str):
            found.setdefault(code, {})[_ROOM[what]] = value
    return found


def _digest_of(table: DataTable) -> str:
    return hashlib.sha256(json.dumps(astuple(table)[2:5], ensure_ascii=False).encode()).hexdigest()[:16]


def _parts(page: Page) -> Iterator[tuple[str, dict[str, str]]]:
    """Yield each topic of a page, or the page itself where it has none, with the digest of its words.

    What an owner reads and does is told of; pages that only lead there, or repeat, are not.
    """
    if page.template not in _TOLD:
        return
    starts = {topic: topic.replace("/", "-") for topic in page.topics}
    if len(page.topics) < 2:
        id_ = page.topics[0] if page.topics else page.path
        yield id_, _part(page.title, page.path, "", _own(page.body))
        return
    for topic, anchor in starts.items():
        title, nodes = _from(page, anchor, set(starts.values()))
        yield topic, _part(title, page.path, anchor, nodes)


def _part(title: str, path: str, anchor: str, nodes: tuple[Node, ...]) -> dict[str, str]:
    return {"title": title, "path": path, "anchor": anchor, "digest": nodes_key((Heading(2, title, ""), *nodes))[:16]}


def _own(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    return tuple(node for node in nodes if not (isinstance(node, Group) and node.role in _AROUND))


def _from(page: Page, anchor: str, others: set[str]) -> tuple[str, tuple[Node, ...]]:
    """Return the heading of a topic and what stands under it."""
    title, found, inside = page.title, [], False
    for node in _own(page.body):
        if isinstance(node, Heading) and node.anchor in others:
            inside = node.anchor == anchor
            title = node.text if inside else title
        elif inside:
            found.append(node)
    return title, tuple(found)


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
