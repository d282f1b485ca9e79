"""Which blocks of a van somebody can be hurt by, who has checked their words, and what pages say of it.

A block is safety-critical when it names hazards, has a message in front of a step, or is an emergency.
"""

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping

from generator.assemble.book import Book
from generator.assemble.panels import asked
from generator.assemble.van import Van
from generator.model import blocks as b
from generator.model.content import Content, SafetyMessage
from generator.model.holes import HoleValue, Notice
from generator.model.reviews import Review, SafetyBlock

_Part = b.Call | b.Step
_DRAFT = "Draft: not yet checked by the dealer."


def safety_blocks(book: Book, reviews: Iterable[Review]) -> tuple[SafetyBlock, ...]:
    """Return the safety-critical blocks that stand in this van, in reading order.

    Args:
        book: The van's book.
        reviews: What the dealer's records hold; those that come with the content count as well.
    """
    known = {(one.block, one.digest): one for one in (*book.content.reviews, *reviews)}
    parts = {written.block.id: tuple(_parts(written.block.body)) for written in book.written.values()}
    blocks = (written.block for written in book.written.values())
    critical = ((block, why) for block in blocks if (why := tuple(_why(block, parts[block.id]))))
    return tuple(_safety_block(block, why, parts[block.id], book, known) for block, why in critical)


def _safety_block(
    block: b.Block,
    why: tuple[str, ...],
    parts: tuple[_Part, ...],
    book: Book,
    known: Mapping[tuple[str, str], Review],
) -> SafetyBlock:
    shared = (book.content.fragments[given.value].source.file for given in block.fragments)
    spoken = (file for part in parts for file, _ in _sentences(part, book.van))
    digest = _digest(block, parts, book.content, book.van)
    return SafetyBlock(
        id=block.id,
        file=block.source.file,
        title=block.title.value,
        why=why,
        sentences=tuple(dict.fromkeys((*shared, *spoken))),
        digest=digest,
        review=known.get((block.id, digest)),
    )


def _why(block: b.Block, parts: tuple[_Part, ...]) -> Iterator[str]:
    """Yield why a block is safety-critical, in words; the same in every van."""
    if block.hazards:
        yield f"hazards {', '.join(given.value for given in block.hazards)}"
    if called := dict.fromkeys(given.value for step in parts if isinstance(step, b.Step) for given in step.safety):
        yield f"warns before a step: {', '.join(called)}"
    if block.form == "emergency":
        yield "emergency"


def _digest(block: b.Block, parts: tuple[_Part, ...], content: Content, van: Van) -> str:
    """Return the sha256 of all words of a block in this van: its file and what it prints from other files.

    Values are left out: they are worked out, not written. So is what guards leave out of this van: the file as a
    whole is what is read.
    """
    called = [given.value for step in parts if isinstance(step, b.Step) for given in step.safety]
    words: dict[str, object] = {
        "block": block.digest,
        "messages": {
            name: _message(content.safety[name])
            for name in (*(given.value for given in block.hazards), *called)
            if name in content.safety
        },
        "sentences": [text for part in parts for _, text in _sentences(part, van)],
        "terms": [van.term(part.argument) for part in parts if isinstance(part, b.Call) and part.name == "term"],
    }
    shown = [part.argument for part in parts if isinstance(part, b.Call) and part.name == "picture"]
    pictures = [van.caravan.pictures[name] for name in shown if name in van.caravan.pictures]
    if pictures:  # a block without pictures keeps the digest it was reviewed with
        words["pictures"] = [[picture.alt.value, picture.file.digest] for picture in pictures]
    called = [part.argument for part in parts if isinstance(part, b.Call) and part.name == "drawing"]
    if drawn := [panel.in_words for name in called for panel in asked(name, van).values()]:
        words["drawings"] = drawn
    return hashlib.sha256(json.dumps(words, ensure_ascii=False, sort_keys=True).encode()).hexdigest()


def _message(message: SafetyMessage) -> list[str | None]:
    return [message.signal, message.hazard.value, message.consequence.value, message.avoid.value, message.sign]


def _sentences(part: _Part, van: Van) -> Iterator[tuple[str, str]]:
    """Yield what the fitted kinds say at this call, each with its file."""
    if isinstance(part, b.Call) and part.name == "say":
        yield from ((said.source.file, said.value) for said in van.say(part.argument))


def _parts(of: object) -> Iterator[_Part]:
    """Yield every step, and every call but ``safety``, which ``load`` has put on its step, in reading order."""
    match of:
        case tuple():
            for one in of:
                yield from _parts(one)
        case b.Call():
            yield of
        case b.Steps(items) | b.Bullets(items):
            yield from _parts(items)
        case b.Step(lines=lines):
            yield of
            yield from _parts(lines)
        case b.Paragraph(lines=lines) | b.Bullet(lines=lines):
            yield from _parts(lines)
        case b.Line(content=inner) | b.Strong(inner) | b.Emphasis(inner) | b.TopicLink(children=inner):
            yield from _parts(inner)
        case b.Table(head, rows):
            yield from _parts((head, tuple(row.cells for row in rows)))
        case b.Standalone(call=call):
            yield call


def notices(blocks: tuple[SafetyBlock, ...]) -> dict[str, HoleValue]:
    """Return what the pages say of the state of review: the notice of every page, and a sentence about it."""
    waiting = sum(block.review is None for block in blocks)
    return {"draft/notice": Notice(text=_DRAFT if waiting else ""), "draft/state": _state(waiting, len(blocks))}


def _state(waiting: int, count: int) -> str:
    if waiting:
        many = f"{waiting} of the {count} texts" if count > 1 else "the only text"
        return f"Draft: the dealer has not yet checked {many} about things that can hurt somebody."
    return "The dealer has had every text about things that can hurt somebody checked."
