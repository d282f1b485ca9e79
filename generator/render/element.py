"""Writes HTML elements and holes; every text and attribute value passes the escape here.

Which elements make up a page is left to the writers.
"""

import re

from markupsafe import Markup, escape

from generator.errors import Fault, RenderError
from generator.model.holes import HOLE_CLOSE, HOLE_OPEN

_VOID = frozenset({"br", "input"})
_HOLE_NAME = re.compile(r"[A-Za-z0-9_.-]+(?:/[A-Za-z0-9_.-]+)*")
_NOT_IN_TEXT = re.compile(f"[{HOLE_OPEN}{HOLE_CLOSE}\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")

NOTHING = Markup("")


def element(name: str, /, *children: str, **attributes: str | bool) -> Markup:
    """Return an element. Plain strings are escaped, ``Markup`` is taken as it is.

    Args:
        name: The element's name, written by us.
        children: What it holds.
        attributes: ``class_`` is ``class``, ``aria_label`` is ``aria-label``; True stands without a
            value, False is left out.
    """
    shown = "".join(_attribute(key, value) for key, value in attributes.items())
    if name in _VOID:
        return Markup(f"<{name}{shown}>")
    return Markup(f"<{name}{shown}>{''.join(map(text, children))}</{name}>")


def text(words: str) -> Markup:
    """Return ``words`` escaped, unless they are ``Markup``.

    Raises:
        RenderError: a plain string holds a control character or one that marks holes.
    """
    if isinstance(words, Markup):
        return words
    if _NOT_IN_TEXT.search(words):
        raise RenderError(Fault(f"a page holds a character that cannot be printed: {words[:60]!r}"))
    return escape(words)


def _attribute(key: str, value: str | bool) -> str:
    name = key.rstrip("_").replace("_", "-")
    if isinstance(value, bool):
        return f" {name}" if value else ""
    return f' {name}="{text(value)}"'


def hole(kind: str, name: str) -> Markup:
    """Return a hole: ``t`` text, ``f`` fragment, ``d`` dial, ``n`` name of a file."""
    if not _HOLE_NAME.fullmatch(name):
        raise RenderError(Fault(f"a page names a value that cannot be: {name[:60]!r}"))
    return Markup(f"{HOLE_OPEN}{kind}:{name}{HOLE_CLOSE}")


def joined(parts: "list[Markup] | tuple[Markup, ...]", between: Markup = NOTHING) -> Markup:
    """Return the parts one after the other."""
    return between.join(parts)
