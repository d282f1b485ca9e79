"""Turns a block's body into finished nodes: guards applied, lines resolved, empty lists dropped.

The order of safety messages and steps is left to ``topics``.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from generator.assemble.faults import Faults
from generator.assemble.inline import Inliner
from generator.assemble.safety import look_up
from generator.assemble.words import plain, slug
from generator.errors import Source, nearest
from generator.model import blocks as b
from generator.model import pages as p
from generator.model.content import Content, SafetyMessage

_FRAME_ANCHORS = ("call", "shut-offs", "related", "dealer")  # headings that the frame puts on topic pages


@dataclass(frozen=True, slots=True)
class Said:
    """A text that is printed, with where it was written, for the checks of words."""

    text: str
    source: Source | None


@dataclass(frozen=True, slots=True)
class Written:
    """A block as it stands in one van: its nodes, its lines with their positions, the names of its pictures."""

    block: b.Block
    nodes: tuple[p.Node, ...]
    said: tuple[Said, ...]
    pictures: tuple[str, ...] = ()


def write(
    block: b.Block, content: Content, inliner: Inliner, faults: Faults, level: Literal[2, 3], prefix: str
) -> Written:
    """Return ``block`` as it stands in the inliner's van.

    Args:
        block: A block that applies to the van.
        content: Where safety messages are looked up.
        inliner: Resolves lines for the van.
        faults: Takes what the van does not have.
        level: 2 or 3, of the block's own subheadings.
        prefix: Put before their anchors, so that two blocks of a page do not clash.
    """
    pen = _Pen(content, inliner, faults, level, prefix)
    nodes = tuple(node for part in block.body for node in pen.node(part))
    return Written(block, _without_bare_headings(nodes), tuple(pen.said), tuple(pen.pictures))


def _without_bare_headings(nodes: tuple[p.Node, ...]) -> tuple[p.Node, ...]:
    """Drop a heading under which the guards left nothing."""
    following = (*nodes[1:], None)
    pairs = zip(nodes, following, strict=True) if nodes else ()
    return tuple(
        node for node, after in pairs if not (isinstance(node, p.Heading) and isinstance(after, p.Heading | None))
    )


def _picture_of(line: b.Line) -> b.Call | None:
    """Return the call of a line that is nothing but a picture or drawing."""
    only = line.content[0] if len(line.content) == 1 else None
    return only if isinstance(only, b.Call) and only.name in ("picture", "drawing") else None


class _Pen:
    """Writes the nodes of one block; keeps what it wrote for the checks of words."""

    def __init__(self, content: Content, inliner: Inliner, faults: Faults, level: Literal[2, 3], prefix: str) -> None:
        self._content, self._inliner, self._faults = content, inliner, faults
        self._level, self._prefix = level, prefix
        self._anchors = set(_FRAME_ANCHORS)
        self.said: list[Said] = []
        self.pictures: list[str] = []

    def node(self, node: b.Node) -> Iterator[p.Node]:
        """Yield ``node`` finished, or nothing where guards leave nothing of it."""
        match node:
            case b.Paragraph(guard, lines):
                if kept := self._lines(guard, lines):
                    yield p.Paragraph(kept, role_of(kept))
            case b.Steps(items):
                if steps := tuple(done for step in items for done in self._step(step)):
                    yield p.Steps(steps)
            case b.Bullets(items):
                if bullets := tuple(kept for item in items if (kept := self._lines(item.guard, item.lines))):
                    yield p.Bullets(bullets)
            case b.Table():
                yield from self._table(node)
            case b.Subheading(text, source):
                self.said.append(Said(text, source))
                yield p.Heading(self._level, text, self._anchor(text))
            case b.Standalone(guard, call):
                if self._inliner.van.keeps(guard):
                    yield from self._standalone(call)

    def _lines(self, guard: b.Guard | None, lines: tuple[b.Line, ...]) -> tuple[p.Line, ...]:
        """Return the lines that stand; a guard on the first line is a guard on all of them."""
        if not lines or not self._keeps(guard or lines[0].guard):
            return ()
        kept = ((line.source, self._inliner.line(line.content)) for line in lines if self._keeps(line.guard))
        done = tuple((source, line) for source, line in kept if plain(line))
        self.said += [Said(plain(line), source) for source, line in done]
        return tuple(line for _, line in done)

    def _keeps(self, guard: b.Guard | None) -> bool:
        return self._inliner.van.keeps(guard)

    def _step(self, step: b.Step) -> Iterator[p.Step]:
        words = tuple(line for line in step.lines if _picture_of(line) is None)
        lines = self._lines(step.guard, words)
        if lines:
            called = ((line, _picture_of(line)) for line in step.lines if self._keeps(line.guard))
            pictures = (one for _, call in called if call for one in self._shown(call))
            yield p.Step(tuple(self._messages(step)), lines, tuple(pictures))

    def _messages(self, step: b.Step) -> Iterator[SafetyMessage]:
        for given in step.safety:
            if message := look_up(given, self._content, self._faults):
                yield message

    def _table(self, table: b.Table) -> Iterator[p.Table]:
        rows = []
        for row in table.rows:
            if self._keeps(row.guard):
                rows.append(self._cells(row.cells, row.source))
        if rows:
            yield p.Table(self._cells(table.head, table.source), tuple(rows))

    def _cells(self, cells: tuple[tuple[b.Inline, ...], ...], source: Source) -> tuple[p.Line, ...]:
        done = tuple(self._inliner.line(cell) for cell in cells)
        self.said += [Said(plain(cell), source) for cell in done]
        return done

    def _shown(self, call: b.Call) -> Iterator[p.Picture | p.FragmentHole]:
        if call.name == "picture":
            yield from self._picture(call)
        else:
            yield from (p.FragmentHole(hole) for hole in self._inliner.drawings(call))

    def _picture(self, call: b.Call) -> Iterator[p.Picture]:
        """Yield the picture this van has at a name; a kind without one leaves nothing."""
        picture = self._inliner.van.caravan.pictures.get(call.argument)
        if picture is not None:
            self.said.append(Said(picture.alt.value, picture.alt.source))
            self.pictures.append(call.argument)
            yield p.Picture(call.argument, picture.alt.value, picture.file.width, picture.file.height)

    def _standalone(self, call: b.Call) -> Iterator[p.FragmentHole | p.Picture]:
        known = self._inliner.van.numbers.tables
        if call.name in ("picture", "drawing"):
            yield from self._shown(call)
        elif call.name != "table":
            self._faults.add(f"{call.name} is no paragraph of its own", call.source, "put it inside a sentence")
        elif call.argument not in known:
            hint = nearest(call.argument, known) or "this van has: " + (", ".join(known) or "none")
            self._faults.add(f"no {call.name} {call.argument} for this van", call.source, hint)
        else:
            yield p.FragmentHole(f"{call.name}/{call.argument}")

    def _anchor(self, text: str) -> str:
        base = anchor = "-".join(part for part in (self._prefix, slug(text)) if part)
        number = 2
        while anchor in self._anchors:
            anchor, number = f"{base}-{number}", number + 1
        self._anchors.add(anchor)
        return anchor


def role_of(lines: tuple[p.Line, ...]) -> p.Role:
    """Return what a paragraph is for, from the strong words it opens with."""
    first = lines[0][0] if lines[0] else None
    opening = plain(first.children).lower() if isinstance(first, p.Strong) else ""
    roles: dict[str, p.Role] = {
        "at the end": "lead",
        "you need": "lead",
        "you see": "lead",
        "you hear": "lead",
        "put it back": "undo",
        "tell": "note",
        "stop": "stop",
    }
    return next((role for words, role in roles.items() if opening.startswith(words)), "")
