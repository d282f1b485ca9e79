"""What a manual owes its reader in any van: answers its equipment asks for, and every hazard it brings.

The same is proven over all vans elsewhere; here one van is held to it, so that none is published with a gap.
"""

from collections.abc import Iterator

from generator.assemble.book import Book
from generator.assemble.words import messages_of
from generator.model.blocks import Block
from generator.model.sourced import Given


def check_promises(book: Book) -> None:
    """Add a fault for each topic a kind must have answered, and each hazard no block prints."""
    printed = {message.id for written in book.written.values() for message in messages_of(written.nodes)}
    for one in book.van.caravan.equipment:
        name = f"{one.slot.id}/{one.kind.id}"
        for topic in one.kind.must_answer:
            if topic.value not in book.written:
                message = f"{name} needs topic {topic.value}, which no block answers in this van"
                book.faults.add(message, topic.source, "write a block for it, or widen the applies of one")
        for hazard in one.kind.hazards:
            if hazard.value not in printed:
                message = f"{name} brings hazard {hazard.value}, which nothing in this van prints"
                book.faults.add(message, hazard.source, "name it under hazards of a block about this equipment")


def check_plain_texts(book: Book) -> None:
    """Add a fault for each call in a text that stands where no call is looked for, such as a title."""
    for written in book.written.values():
        for given in _plain_texts(written.block):
            if "{{" in given.value or "}}" in given.value:
                book.faults.add("a call cannot stand here", given.source, "write plain words; calls belong in the body")


def _plain_texts(block: Block) -> Iterator[Given[str]]:
    yield block.title
    if block.checklist:
        yield block.checklist
    if block.walkround:
        yield Given(block.walkround.line, block.source)
    for word in block.words:
        yield Given(word, block.source)
