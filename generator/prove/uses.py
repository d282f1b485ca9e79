"""Everything a block pulls in, with the guards that stand over it."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.errors import Source
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
    Text,
    TopicLink,
)


@dataclass(frozen=True, slots=True)
class Use:
    """A link, call or message of a block, printed where all ``guards`` let it through."""

    guards: tuple[Guard, ...]
    thing: TopicLink | Call
    source: Source


@dataclass(frozen=True, slots=True)
class Guarded:
    """A guarded step, line, paragraph, bullet or row: its own guard last."""

    guards: tuple[Guard, ...]
    what: str
    source: Source


def uses(block: Block) -> Iterator[Use]:
    """Yield every link and call in the body of ``block``, in reading order."""
    for guards, content in _contents(block):
        for item in _walk(content):
            yield Use(guards, item, item.source)


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
                    yield from _guarded_part("row", row.guard, ())
            case Standalone(guard):
                yield from _guarded_part("paragraph", guard, ())


def steps(block: Block) -> Iterator[Step]:
    """Yield the steps of ``block`` in order."""
    for node in block.body:
        if isinstance(node, Steps):
            yield from node.items


def _guarded_part(what: str, guard: Guard | None, lines: tuple[Line, ...]) -> Iterator[Guarded]:
    if guard:
        yield Guarded((guard,), what, guard.source)
    for line in lines:
        if line.guard and line.guard != guard:
            yield Guarded((*((guard,) if guard else ()), line.guard), "line", line.guard.source)


def _contents(block: Block) -> Iterator[tuple[tuple[Guard, ...], tuple[Inline, ...]]]:
    for node in block.body:
        match node:
            case Steps(items):
                for step in items:
                    calls = tuple(Call("safety", message.value, message.source) for message in step.safety)
                    yield _guards(step.guard), calls
                    yield from _lines(step.guard, step.lines)
            case Bullets(items):
                for bullet in items:
                    yield from _lines(bullet.guard, bullet.lines)
            case Paragraph(guard, lines):
                yield from _lines(guard, lines)
            case Table(head, rows):
                yield (), tuple(item for cell in head for item in cell)
                for row in rows:
                    yield _guards(row.guard), tuple(item for cell in row.cells for item in cell)
            case Standalone(guard, call):
                yield _guards(guard), (call,)


def _lines(outer: Guard | None, lines: tuple[Line, ...]) -> Iterator[tuple[tuple[Guard, ...], tuple[Inline, ...]]]:
    for line in lines:
        yield _guards(outer, line.guard), line.content


def _guards(*guards: Guard | None) -> tuple[Guard, ...]:
    return tuple(guard for guard in guards if guard)


def _walk(content: tuple[Inline, ...]) -> Iterator[TopicLink | Call]:
    for item in content:
        match item:
            case Text():
                pass
            case Strong(children) | Emphasis(children):
                yield from _walk(children)
            case TopicLink(_, children):
                yield item
                yield from _walk(children)
            case Call():
                yield item
