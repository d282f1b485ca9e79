"""Checks finished pages: every link leads somewhere in the manual, nothing comes from elsewhere.

Reads the HTML by itself instead of trusting who wrote it.
"""

import posixpath
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from html import unescape
from urllib.parse import unquote

from generator.errors import Fault
from generator.model.holes import HOLE_CLOSE, HOLE_OPEN

_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")
_TARGETS = {"href", "src", "action", "poster", "data", "srcset", "xlink:href", "formaction", "cite", "ping"}
_LOOKED_AT = {*_TARGETS, "id", "style"}
_SELF_CONTAINED = {"404.html", "not-yet.html"}
_OWN = {"inline <script>", "inline <style>"}


# Stricter than a browser: every value in double quotes, no bare "<". What is not of that form is refused.
_TAG = re.compile(
    r"""<(?:/[A-Za-z][A-Za-z0-9]*|([A-Za-z][A-Za-z0-9]*)((?:\s+[^\s=<>"'/]+(?:="[^"<]*")?)*)\s*/?|!doctype\ html)>""",
    re.IGNORECASE,
)
_ATTRIBUTE = re.compile(r"""\s([^\s=<>"'/]+)(?:="([^"]*)")?""")
_RAW = re.compile(r"<(script|style)([^>]*)>(.*?)</\1>", re.DOTALL)


@dataclass(slots=True)
class _Seen:
    """What one page points at, which ids it has, and what must not be in it."""

    targets: list[str] = field(default_factory=list)
    ids: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)

    def tag(self, name: str, attributes: str) -> None:
        """Take in one start tag."""
        given, twice = _attributes(attributes)
        if twice:
            self.wrong.append(f"<{name}> gives an attribute twice")
        for key, value in given:
            if key in _TARGETS:
                self.targets.append(unescape(value))
            elif key == "id":
                self.ids[value] += 1
            elif key == "style" or key.startswith("on"):
                self.wrong.append(f'inline attribute "{key}"')


@lru_cache(maxsize=10_000)  # pages are much alike
def _attributes(text: str) -> tuple[tuple[tuple[str, str], ...], bool]:
    """Return the attributes that are looked at, and whether any is given twice."""
    given = _ATTRIBUTE.findall(text)
    looked_at = (pair for pair in given if pair[0] in _LOOKED_AT or pair[0].startswith("on"))
    return tuple(looked_at), len({key for key, _ in given}) < len(given)


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
    seen = _Seen()
    html = content.decode("utf-8")
    for name, attributes, inner in _RAW.findall(html):
        if inner or name == "style":
            seen.wrong.append(f"inline <{name}>")
        elif "src=" not in attributes:
            seen.wrong.append(f"<{name}> without a file")
    html = _RAW.sub(r"<\1\2></\1>", html)
    tags = _TAG.findall(html)
    for name, attributes in tags:
        if attributes:
            seen.tag(name, attributes)
    if len(tags) != html.count("<"):
        rest = _TAG.sub("", html)
        seen.wrong.append(f"no tag: {rest[rest.find('<') :][:40]!r}")
    return seen


def _wrongs(path: str, seen: _Seen, html: str) -> Iterator[str]:
    if HOLE_OPEN in html or HOLE_CLOSE in html:
        yield "a value was not filled in"
    for name, count in seen.ids.items():
        if count > 1 or not name or re.search(r"\s", name):
            yield f'id "{name}" stands {count} times' if count > 1 else f'id "{name}" is none'
    # A page that stands alone brings its own style; its policy allows exactly that by hash.
    alone = _stands_alone(path, seen)
    yield from (wrong for wrong in seen.wrong if not (alone and wrong in _OWN))


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
