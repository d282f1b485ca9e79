"""What a manual owes its reader in any van: answers its equipment asks for, and every hazard it brings.

The same is proven over all vans elsewhere; here one van is held to it, so that none is published with a gap.
"""

from collections.abc import Iterator

from generator.assemble.book import Book
from generator.assemble.choose import why_absent
from generator.assemble.faults import BLOCKS
from generator.assemble.words import messages_of
from generator.model.blocks import Block
from generator.model.sourced import Given

_MARKUP = ("{{", "}}", "**", "](", "`")


def check_promises(book: Book) -> None:
    """Add a fault for each topic a kind must have answered, and each hazard no block prints."""
    printed = {message.id for written in book.written.values() for message in messages_of(written.nodes)}
    for one in book.van.caravan.equipment:
        name = f"{one.slot.id}/{one.kind.id}"
        for topic in one.kind.must_answer:
            if topic.value not in book.written:
                message = f"{name} needs topic {topic.value}, which no block answers in this van"
                hint = why_absent(topic.value, book.content, book.van)
                book.faults.absent(message, topic.source, hint, topic.value, BLOCKS)
        for hazard in one.kind.hazards:
            if hazard.value not in printed:
                message = f"{name} brings hazard {hazard.value}, which nothing in this van prints"
                hint = "name it under hazards of a block about this equipment"
                book.faults.absent(
                    message, hazard.source, hint, hazard.value, BLOCKS, f"content/safety/{hazard.value}."
                )


def check_plain_texts(book: Book) -> None:
    """Add a fault for each text, such as a title, that is printed as it is and holds what only a body may."""
    for written in book.written.values():
        for given in _plain_texts(written.block):
            if any(sign in given.value for sign in _MARKUP):
                book.faults.add("a call, link or emphasis cannot stand here", given.source, "write plain words")


def _plain_texts(block: Block) -> Iterator[Given[str]]:
    yield block.title
    if block.checklist:
        yield block.checklist
    if block.walkround:
        yield Given(block.walkround.line, block.source)
    for word in block.words:
        yield Given(word, block.source)
