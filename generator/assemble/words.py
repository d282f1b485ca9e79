"""Finished nodes as plain text, and the walks over them that checks and search share.

Values stay out: a hole becomes an ellipsis.
"""

import re
from collections.abc import Iterable, Iterator

from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.content import SafetyMessage

HOLE_TEXT = "…"


def slug(words: str) -> str:
    """Return ``words`` as an anchor: lower case letters, digits and single dashes."""
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")


def plain(line: Iterable[p.Inline]) -> str:
    """Return a line as text, with an ellipsis where a value goes."""
    return re.sub(r"\s+", " ", "".join(_plain(inline) for inline in line)).strip()


def _plain(inline: p.Inline) -> str:
    match inline:
        case Text(text):
            return text
        case p.PlaceRef(code, name):
            return f"{code} {name}"
        case p.TextHole() | p.DialHole():
            return HOLE_TEXT
        case _:
            return "".join(_plain(child) for child in inline.children)


def all_nodes(nodes: Iterable[p.Node]) -> Iterator[p.Node]:
    """Yield every node, groups before what they hold."""
    for node in nodes:
        yield node
        if isinstance(node, p.Group):
            yield from all_nodes(node.children)


def lines_of(node: p.Node) -> tuple[p.Line, ...]:
    """Return the lines a node itself holds; those inside a group belong to its children."""
    match node:
        case p.Paragraph(lines):
            return lines
        case p.Steps(items):
            return tuple(line for step in items for line in step.lines)
        case p.Bullets(items):
            return tuple(line for lines in items for line in lines)
        case p.Table(head, rows):
            return head + tuple(cell for row in rows for cell in row)
        case p.Checks(_, items):
            return tuple(check.line for check in items)
        case _:
            return ()


def all_inlines(nodes: Iterable[p.Node]) -> Iterator[p.Inline]:
    """Yield every inline of every line, outer before inner."""
    for node in all_nodes(nodes):
        for line in lines_of(node):
            yield from _deep(line)


def _deep(line: Iterable[p.Inline]) -> Iterator[p.Inline]:
    for inline in line:
        yield inline
        if isinstance(inline, p.Strong | p.Emphasis | p.Ref | p.Call):
            yield from _deep(inline.children)


def messages_of(nodes: Iterable[p.Node]) -> tuple[SafetyMessage, ...]:
    """Return the safety messages among ``nodes``, each once, in reading order."""
    found: dict[str, SafetyMessage] = {}
    for node in all_nodes(nodes):
        if isinstance(node, p.SafetyBox):
            found.setdefault(node.message.id, node.message)
        elif isinstance(node, p.Steps):
            for step in node.items:
                found |= {message.id: message for message in step.safety if message.id not in found}
    return tuple(found.values())


def text_of(nodes: Iterable[p.Node]) -> str:
    """Return the running text of ``nodes`` for search: headings, lines and link rows, no safety messages.

    Messages are left out because search must not cut them short.
    """
    parts: list[str] = []
    for node in all_nodes(nodes):
        if isinstance(node, p.Heading):
            parts.append(node.text)
        elif isinstance(node, p.Links):
            parts.extend(f"{item.plate} {item.title}".strip() for item in node.items)
        parts.extend(plain(line) for line in lines_of(node))
    return " ".join(part for part in parts if part)
