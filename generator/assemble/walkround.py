"""The technician's walk-round: what is shown at each place, in walking order.

Printing the sheet is left to ``paper``.
"""

from generator import units
from generator.assemble.book import Book
from generator.model.blocks import Block
from generator.model.manual import WalkLine, WalkStop

BEFORE = "Before you start"


def walk_round(book: Book) -> tuple[WalkStop, ...]:
    """Return the stops in walking order; what belongs to no place is shown before the start.

    Faults: a time that is no time.
    """
    lines: dict[str, list[WalkLine]] = {}
    for written in book.written.values():
        place = book.van.first_place(written.block)
        if line := _line(written.block, book):
            lines.setdefault(place.code if place else "", []).append(line)
    stops = [WalkStop(code="", name=BEFORE, where="outside", lines=tuple(lines[""]))] if "" in lines else []
    for place in book.van.places:
        if place.code in lines:
            stops.append(WalkStop(code=place.code, name=place.name, where=place.where, lines=tuple(lines[place.code])))
    return tuple(stops)


def _line(block: Block, book: Book) -> WalkLine | None:
    if block.walkround is None:
        return None
    try:
        time = units.parse(block.walkround.time, "min")
        minutes = int(units.rounded(time, "min", units.Rounding.UP))
    except units.UnitError as error:
        book.faults.add(str(error), block.source, error.hint)
        return None
    return WalkLine(line=block.walkround.line, minutes=minutes, must=block.walkround.must, topic=block.topic.value)
