"""Writes lines of a page: words, emphasis, links, code plates, telephone links and holes."""

import re
from collections.abc import Iterable

from markupsafe import Markup

from generator.model import pages as p
from generator.model.blocks import Text
from generator.render.element import element, hole, joined, text

BREAK = Markup("<br>\n")


def line(inlines: Iterable[p.Inline], root: str) -> Markup:
    """Return one line; ``root`` leads from the page to the manual's root."""
    return joined([_inline(inline, root) for inline in inlines])


def lines(all_lines: Iterable[p.Line], root: str) -> Markup:
    """Return lines one under the other."""
    return joined([line(inlines, root) for inlines in all_lines], BREAK)


def href(path: str, anchor: str, root: str) -> str:
    """Return the relative address of a page, or of a place on the page itself."""
    return f"{root}{path}#{anchor}" if anchor else f"{root}{path}"


def plate(code: str) -> Markup:
    """Return the code plate."""
    return element("span", code, class_="plate")


def _inline(inline: p.Inline, root: str) -> Markup:
    match inline:
        case Text(words):
            return text(words)
        case p.Strong(children):
            return element("strong", line(children, root))
        case p.Emphasis(children):
            return element("em", line(children, root))
        case p.Ref(path, anchor, children):
            return element("a", line(children, root), href=href(path, anchor, root))
        case p.PlaceRef(code, name):
            return element("a", plate(code), " ", name, class_="place", href=f"{root}{code}/index.html")
        case p.Call(number, children):
            return element("a", line(children, root), class_="call", href="tel:" + re.sub(r"[^0-9+]", "", number))
        case p.TextHole(name):
            return hole("t", name)
        case p.DialHole(name):
            return hole("d", name)
