"""Everything a block pulls in, with the guards that stand over it."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.errors import Source
from generator.model import quotes
from generator.model.blocks import (
    Block,
    Bullets,
    Call,
    Emphasis,
    Guard,
    Inline,
    Line,
    Paragraph,
    Standalone,
    Step,
    Steps,
    Strong,
    Table,
    TopicLink,
)


@dataclass(frozen=True, slots=True)
class Use:
    """A link, call or message of a block, printed where all ``guards`` let it through; ``part`` quotes its line."""

    guards: tuple[Guard, ...]
    thing: TopicLink | Call
    source: Source
    part: str = ""


@dataclass(frozen=True, slots=True)
class Guarded:
    """A guarded step, line, paragraph, bullet or row: its own guard last; ``part`` quotes its words."""

    guards: tuple[Guard, ...]
    what: str
    source: Source
    part: str = ""


def uses(block: Block) -> Iterator[Use]:
    """Yield every link and call in the body of ``block``, in reading order."""
    for guards, content, part in _contents(block):
        for item in _walk(content):
            yield Use(guards, item, item.source, part)


def guarded(block: Block) -> Iterator[Guarded]:
    """Yield every place of ``block`` that has a guard of its own."""
    for node in block.body:
        match node:
            case Steps(items):
                for step in items:
                    yield from _guarded_part("step", step.guard, step.lines)
            case Bullets(items):
                for bullet in items:
                    yield from _guarded_part("line", bullet.guard, bullet.lines)
            case Paragraph(guard, lines):
                yield from _guarded_part("paragraph", guard, lines)
            case Table(_, rows):
                for row in rows:
                    yield from _guarded_part("row", row.guard, (), quoted("row", row.cells[0] if row.cells else ()))
            case Standalone(guard, call):
                yield from _guarded_part("paragraph", guard, (), quoted("paragraph", (call,)))


def lines(block: Block) -> Iterator[Guarded]:
    """Yield every line of ``block`` with the guards over it, guarded or not."""
    for node in block.body:
        match node:
            case Steps(items) | Bullets(items):
                for item in items:
                    yield from (Guarded(_guards(item.guard, one.guard), "line", one.source) for one in item.lines)
            case Paragraph(guard, all_lines):
                yield from (Guarded(_guards(guard, one.guard), "line", one.source) for one in all_lines)
            case Table(_, rows):
                yield from (Guarded(_guards(row.guard), "row", row.source) for row in rows)
            case Standalone(guard, call):
                yield Guarded(_guards(guard), "paragraph", call.source)


def steps(block: Block) -> Iterator[Step]:
    """Yield the steps of ``block`` in order."""
    for node in block.body:
        if isinstance(node, Steps):
            yield from node.items


def quoted(what: str, content: tuple[Inline, ...]) -> str:
    """Return what a line is and its words: ``step "Open the tap."``."""
    return f"{what} {quotes.quoted(content)}".rstrip()


def _guarded_part(what: str, guard: Guard | None, lines: tuple[Line, ...], part: str = "") -> Iterator[Guarded]:
    if guard:
        yield Guarded((guard,), what, guard.source, part or _first(what, lines))
    for line in lines:
        if line.guard and line.guard != guard:
            guards = (*((guard,) if guard else ()), line.guard)
            yield Guarded(guards, "line", line.guard.source, quoted("line", line.content))


def _first(what: str, lines: tuple[Line, ...]) -> str:
    return quoted(what, lines[0].content) if lines else what


_Content = tuple[tuple[Guard, ...], tuple[Inline, ...], str]


def _contents(block: Block) -> Iterator[_Content]:
    for node in block.body:
        match node:
            case Steps(items):
                for step in items:
                    calls = tuple(Call("safety", message.value, message.source) for message in step.safety)
                    yield _guards(step.guard), calls, _first("step", step.lines)
                    yield from _lines(step.guard, step.lines, "step")
            case Bullets(items):
                for bullet in items:
                    yield from _lines(bullet.guard, bullet.lines, "bullet")
            case Paragraph(guard, lines):
                yield from _lines(guard, lines, "paragraph")
            case Table(head, rows):
                yield (), tuple(item for cell in head for item in cell), "head of a table"
                for row in rows:
                    cells = tuple(item for cell in row.cells for item in cell)
                    yield _guards(row.guard), cells, quoted("row", row.cells[0] if row.cells else ())
            case Standalone(guard, call):
                yield _guards(guard), (call,), "paragraph"


def _lines(outer: Guard | None, lines: tuple[Line, ...], what: str) -> Iterator[_Content]:
    for number, line in enumerate(lines):
        yield _guards(outer, line.guard), line.content, quoted("line" if number else what, line.content)


def _guards(*guards: Guard | None) -> tuple[Guard, ...]:
    return tuple(guard for guard in guards if guard)


def _walk(content: tuple[Inline, ...]) -> Iterator[TopicLink | Call]:
    for item in content:
        match item:
            case Strong(children) | Emphasis(children):
                yield from _walk(children)
            case TopicLink(_, children):
                yield item
                yield from _walk(children)
            case Call():
                yield item
