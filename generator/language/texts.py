"""Everything that is written for an owner, sentence by sentence, each knowing where it stands.

What may be wrong with it is left to ``rules`` and ``checks``.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
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
    Steps,
    Strong,
    Subheading,
    Table,
    Text,
    TopicLink,
)
from generator.model.catalogue import Kind
from generator.model.content import SafetyMessage, Terms
from generator.model.language import Part
from generator.model.pictures import PictureEntry

GAP = "…"  # where a value, place or sentence of a kind goes
TITLE = "⁅"  # opens the words of a link, which are often a title
_END = re.compile(r"(?<=[.!?])[\"')]*\s+")


@dataclass(frozen=True, slots=True)
class Written:
    """A line of text. ``raw`` is how it stands in the file from ``at`` on, where that is known.

    ``typed`` leaves trade words out that are called. ``one_market`` says that a guard shows it in one market only.
    """

    text: str
    part: Part
    at: Source
    raw: str = ""
    typed: str = ""
    one_market: bool = False

    def where(self, words: str) -> Source:
        """Return the position of ``words`` in the file; the start of the line where they are not written as one."""
        piece = max(re.split(f"[{GAP}{TITLE}]", words), key=len).strip()
        found = self.raw.find(piece) if piece else -1
        return Source(self.at.file, self.at.line, self.at.column + max(found, 0))


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence of a line."""

    text: str
    line: Written


def sentences(lines: Iterable[Written]) -> Iterator[Sentence]:
    """Yield every sentence; a line ends one."""
    for line in lines:
        yield from (Sentence(part.strip(), line) for part in _END.split(line.text) if part.strip(f" {GAP}{TITLE}."))


def of_block(block: Block, terms: Terms) -> Iterator[Written]:
    """Yield the lines of a block: its title, lists and body, guards aside."""
    yield Written(block.title.value, "title", block.title.source, block.title.value)
    if block.checklist:
        yield Written(block.checklist.value, "list", block.checklist.source, block.checklist.value)
    if block.walkround:
        yield Written(block.walkround.line, "list", block.source)
    yield from of_body(block, terms)


def of_body(block: Block, terms: Terms) -> Iterator[Written]:
    """Yield the lines of a block's body."""
    for node in block.body:
        match node:
            case Steps(items):
                for step in items:
                    yield from (_line(line, "step", terms, step.guard) for line in step.lines[:1])
                    yield from (_line(line, "more", terms, step.guard) for line in step.lines[1:])
            case Bullets(items):
                yield from (_line(line, "text", terms, bullet.guard) for bullet in items for line in bullet.lines)
            case Paragraph(guard, lines):
                yield from (_line(line, "text", terms, guard) for line in lines)
            case Table(head, rows):
                yield from (_written(cell, "text", node.source, "", terms) for cell in head)
                for row in rows:
                    one = _one_market(row.guard)
                    yield from (_written(cell, "text", row.source, "", terms, one) for cell in row.cells)
            case Subheading(text, at):
                yield Written(text, "text", at, f"## {text}")
            case Standalone():
                pass


def of_kind(kind: Kind) -> Iterator[Written]:
    """Yield a kind's name, what it says, and what its lamps and messages show."""
    yield Written(kind.name, "title", kind.source)
    yield from (Written(said.value, "say", said.source, said.value) for said in kind.say.values())
    yield from (Written(control.shows, "say", control.source) for control in kind.controls.values() if control.shows)


def of_picture(picture: PictureEntry) -> Iterator[Written]:
    """Yield the words of a picture."""
    yield Written(picture.alt.value, "text", picture.alt.source, picture.alt.value)


def of_message(message: SafetyMessage) -> Iterator[Written]:
    """Yield the three sentences of a safety message."""
    for given in (message.hazard, message.consequence, message.avoid):
        yield Written(given.value, "message", given.source, given.value)


def _line(line: Line, part: Part, terms: Terms, outer: Guard | None) -> Written:
    one = _one_market(outer) or _one_market(line.guard)
    return _written(line.content, part, line.source, line.raw, terms, one)


def _written(
    content: tuple[Inline, ...], part: Part, at: Source, raw: str, terms: Terms, one_market: bool = False
) -> Written:
    return Written(plain(content, terms.trade), part, at, raw, plain(content, {}), one_market)


def _one_market(guard: Guard | None) -> bool:
    return guard is not None and any(trait.startswith("market-") for trait in guard.all)


def plain(content: Iterable[Inline], trade: Mapping[str, Mapping[str, str]]) -> str:
    """Return the words of a line: a trade word as its longest, any other call as a gap."""
    return "".join(_plain(item, trade) for item in content)


def _plain(item: Inline, trade: Mapping[str, Mapping[str, str]]) -> str:
    match item:
        case Text(text):
            return text
        case Strong(children) | Emphasis(children):
            return plain(children, trade)
        case TopicLink(_, children):
            return TITLE + plain(children, trade)
        case Call("term", argument):
            return max(trade.get(argument, {"": GAP}).values(), key=len)
        case Call():
            return GAP
