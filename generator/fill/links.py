"""Checks finished pages: every link leads somewhere in the manual, nothing comes from elsewhere.

Reads the HTML by itself instead of trusting who wrote it.
"""

import posixpath
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import unquote

from generator.errors import Fault
from generator.model.manual import HOLE_CLOSE, HOLE_OPEN

_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")
_TARGETS = {"href", "src", "action", "poster", "data", "srcset", "xlink:href", "formaction", "cite", "ping"}
_SELF_CONTAINED = {"404.html"}


@dataclass(slots=True)
class _Seen:
    """What one page points at, which ids it has, and what must not be in it."""

    targets: list[str] = field(default_factory=list)
    ids: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.seen = _Seen()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if len(given) < len(attrs):
            self.seen.wrong.append(f"<{tag}> gives an attribute twice")
        if (tag == "script" and "src" not in given) or tag == "style":
            self.seen.wrong.append(f"inline <{tag}>")
        for name, value in attrs:
            if name in _TARGETS and value is not None:
                self.seen.targets.append(value)
            elif name == "id":
                self.seen.ids[value or ""] += 1
            elif name == "style" or name.startswith("on"):
                self.seen.wrong.append(f'inline attribute "{name}"')


def check_links(files: Mapping[str, bytes], folder: str) -> list[Fault]:
    """Return what is wrong in the HTML files among ``files``.

    Args:
        files: Every finished file by path.
        folder: The manual's own folder; the page for a missing address may name it from the host's root.
    """
    read = {path: _read(content) for path, content in files.items() if path.endswith(".html")}
    faults = [
        Fault(f"{path}: {wrong}") for path, seen in read.items() for wrong in _wrongs(path, seen, files[path].decode())
    ]
    for path, seen in read.items():
        faults += [Fault(f"{path}: {reason}") for reason in _dead(path, seen, read, files, folder)]
    return faults


def _read(content: bytes) -> _Seen:
    reader = _Reader()
    reader.feed(content.decode("utf-8"))
    reader.close()
    return reader.seen


def _wrongs(path: str, seen: _Seen, html: str) -> Iterator[str]:
    if HOLE_OPEN in html or HOLE_CLOSE in html:
        yield "a value was not filled in"
    for name, count in seen.ids.items():
        if count > 1 or not name or re.search(r"\s", name):
            yield f'id "{name}" stands {count} times' if count > 1 else f'id "{name}" is none'
    # A page that stands alone brings its own style; its policy allows exactly that by hash.
    if not _stands_alone(path, seen):
        yield from seen.wrong


def _stands_alone(path: str, seen: _Seen) -> bool:
    return path in _SELF_CONTAINED or not any(target.endswith(".css") for target in seen.targets)


def _dead(path: str, seen: _Seen, read: Mapping[str, _Seen], files: Mapping[str, bytes], folder: str) -> Iterator[str]:
    for target in seen.targets:
        if _SCHEME.match(target):
            if not target.startswith(("tel:", "mailto:", "data:")):
                yield f'"{target}" is outside the manual'
            continue
        address, _, anchor = target.partition("#")
        found = _inside(address, path, folder)
        if found is None:
            yield f'"{target}" is outside the manual'
        elif found not in files:
            yield f'"{target}" leads nowhere'
        elif anchor and (found not in read or unquote(anchor) not in read[found].ids):
            yield f'"{target}" leads to no place on that page'


def _inside(address: str, path: str, folder: str) -> str | None:
    """Return the file an address names, or None where it leaves the manual."""
    if address.startswith("/"):
        own = f"/{folder}/"
        return address[len(own) :] if path in _SELF_CONTAINED and address.startswith(own) else None
    if not address:
        return path
    found = posixpath.normpath(posixpath.join(posixpath.dirname(path), unquote(address)))
    return None if found.startswith("..") else found
