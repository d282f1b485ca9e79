"""Puts values into holes; every text is escaped here on its way into a page.

How a fragment looks is left to the modules that draw them.
"""

import re
from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import TypeVar

from markupsafe import Markup, escape

from generator.errors import Fault, RenderError
from generator.model.holes import EDITION_HOLES, HOLE_CLOSE, HOLE_OPEN, HoleValue

_HOLE = re.compile(f"{HOLE_OPEN}([tfdn]):([^{HOLE_OPEN}{HOLE_CLOSE}]+){HOLE_CLOSE}")
_UNPRINTABLE = re.compile(f"[{HOLE_OPEN}{HOLE_CLOSE}\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")

T = TypeVar("T")
Draw = Callable[[HoleValue, str], Markup]


@lru_cache(maxsize=2048)
def _cut(html: str) -> tuple[str, ...]:
    """Return text, kind, name, text, kind, name, ..., text; pages are shared by many vans, so cut once."""
    return tuple(_HOLE.split(html))


def settle(
    html: str, values: Mapping[str, HoleValue], names: Mapping[str, str], root: str, draw: Draw, page: str
) -> str:
    """Return ``html`` with every hole filled but those of the edition.

    Args:
        html: Rendered HTML with holes.
        values: Values by name.
        names: Paths of files from the manual's root by name ("asset/style.css").
        root: Way from the page to the manual's root.
        draw: Writes a fragment from a value and ``root``.
        page: Path of the page, for faults.

    Raises:
        RenderError: a value is missing, of the wrong kind, or cannot be printed.
    """
    parts = list(_cut(html))
    faults: list[Fault] = []
    for index in range(1, len(parts), 3):
        kind, name = parts[index], parts[index + 1]
        try:
            parts[index + 1] = _filled(kind, name, values, names, root, draw)
        except _NoValue as missing:
            faults.append(Fault(f"{page}: {missing}"))
        parts[index] = ""
    if faults:
        raise RenderError(*faults)
    return "".join(parts)


def finish(html: str, edition: Mapping[str, str]) -> str:
    """Return settled ``html`` with the holes of the edition filled; what is markup already stays so."""
    parts = _HOLE.split(html)
    for index in range(1, len(parts), 3):
        parts[index], parts[index + 1] = "", str(escape(edition[parts[index + 1]]))
    return "".join(parts)


class _NoValue(Exception):
    """What is wrong with a hole."""


def _filled(
    kind: str, name: str, values: Mapping[str, HoleValue], names: Mapping[str, str], root: str, draw: Draw
) -> str:
    if name in EDITION_HOLES:
        return f"{HOLE_OPEN}{kind}:{name}{HOLE_CLOSE}"
    if kind == "n":
        return str(escape(_known(name, names)))
    value = _known(name, values)
    if kind == "f":
        if isinstance(value, str):
            raise _NoValue(f'"{name}" is text, where a table, number or drawing goes')
        return str(draw(value, root))
    if not isinstance(value, str):
        raise _NoValue(f'"{name}" is no text')
    return str(dial(value) if kind == "d" else printable(value))


def _known(name: str, known: Mapping[str, T]) -> T:
    if name not in known:
        raise _NoValue(f'no value for "{name}"')
    return known[name]


def printable(words: str) -> Markup:
    """Return ``words`` escaped."""
    if _UNPRINTABLE.search(words):
        raise _NoValue(f"a value holds a character that cannot be printed: {words[:60]!r}")
    return escape(words)


def dial(number: str) -> Markup:
    """Return a telephone link; a number without a digit stays text."""
    digits = re.sub(r"[^0-9+]", "", number)
    if not digits:
        return printable(number)
    return Markup('<a class="call" href="tel:{}">{}</a>').format(digits, printable(number))
