"""Nothing printed speaks of what is not fitted: words tied to a trait that this van lacks are faults.

A block may state an allowance. Names of places are the build sheet's own and are not looked at.
"""

import re
from collections.abc import Container, Iterable, Iterator
from functools import cache

from generator.assemble.book import Book
from generator.assemble.prose import Said, Written
from generator.assemble.van import Van
from generator.assemble.words import messages_of
from generator.model.blocks import Block, Text
from generator.model.content import Phase, SafetyMessage, TiedWords
from generator.model.quotes import quoted


def speaks_of_missing(text: str, van: Van) -> tuple[tuple[TiedWords, str], ...]:
    """Return the word groups and words in ``text`` that are tied to a trait ``van`` lacks."""
    missing = tuple(group for group in van.terms.tied if group.trait.value not in van.caravan.traits)
    # Most texts hold none of the words: one look for all of them at once.
    if not _first(tuple(word for group in missing for word in group.words), text):
        return ()
    return tuple((group, word) for group in missing if (word := _first(group.words, text)))


def _first(words: tuple[str, ...], text: str) -> str | None:
    match = _pattern(words).search(text) if words else None
    return match.group() if match else None


@cache
def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    """Match any of ``words`` as a whole word or run of words, longest first, upper or lower case."""
    longest_first = sorted(words, key=len, reverse=True)
    either = "|".join(r"\s+".join(re.escape(part) for part in word.split()) for word in longest_first)
    return re.compile(rf"(?<!\w)(?:{either})(?!\w)", re.IGNORECASE)


def check_mentions(book: Book) -> None:
    """Add a fault for every printed text that speaks of what this van does not have."""
    for written in book.written.values():
        allowed = written.block.allow
        for said in _printed(written):
            _judge(said, allowed, book)
    for said in _around(book):
        _judge(said, (), book)


def check_lines(lines: Iterable[Said], book: Book) -> None:
    """Add a fault for every line, printed without a block of its own, that speaks of what this van does not have."""
    for said in lines:
        _judge(said, (), book)


def _judge(said: Said, allowed: Container[str], book: Book) -> None:
    van = book.van
    for group, word in speaks_of_missing(said.text, van):
        if group.id in allowed:
            continue
        trait = group.trait.value
        book.faults.add(
            f'speaks of "{word}", but this van has no trait {trait} ({van.caravan.model}, {van.caravan.tail}): '
            f"{quoted((Text(said.text),))}",
            said.source,
            f'guard it with {{{trait}}}, or state in the block why it may stand: allow: {{{group.id}: "why"}}',
        )


def _printed(written: Written) -> Iterator[Said]:
    """Yield every text of a block that reaches a reader, its safety messages included."""
    block = written.block
    yield Said(block.title.value, block.title.source)
    yield from written.said
    for message in messages_of(written.nodes):
        yield from _of_message(message)
    yield from _of_lists(block)


def _of_lists(block: Block) -> Iterator[Said]:
    if block.checklist:
        yield Said(block.checklist.value, block.checklist.source)
    if block.walkround:
        yield Said(block.walkround.line, block.source)
    for word in block.words:
        yield Said(word, block.source)


def _of_message(message: SafetyMessage) -> Iterator[Said]:
    for given in (message.hazard, message.consequence, message.avoid):
        yield Said(given.value, given.source)


def _around(book: Book) -> Iterator[Said]:
    """Yield what is printed beside the blocks: titles of the outline and the words of lamps and messages."""
    for page in book.site.pages:
        yield Said(page.section.title, book.content.outline.source)
        if len(page.blocks) > 1:
            yield Said(page.title, page.page.id.source)
    for phase in printed_phases(book).values():
        yield Said(phase.title, book.content.outline.source)
    for one in book.van.caravan.equipment:
        for control in one.kind.controls.values():
            yield Said(f"{control.name} {control.message or ''} {control.shows}", control.source)


def printed_phases(book: Book) -> dict[str, Phase]:
    """Return the phases that have a checklist line in this van."""
    return {
        id_: phase
        for id_, phase in book.content.outline.phases.items()
        if any(topic.value in book.written and book.written[topic.value].block.checklist for topic in phase.topics)
    }
