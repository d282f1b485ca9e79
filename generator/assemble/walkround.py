"""The technician's walk-round: what is shown, read and handed over at each place, in walking order.

Fitting it into the hour, and printing the sheet, is left to ``paper``.
"""

from generator import units
from generator.assemble.book import Book
from generator.assemble.handover import handed_at, plates_at
from generator.assemble.words import all_inlines
from generator.model import pages as p
from generator.model.blocks import Block
from generator.model.manual import WalkLine, WalkStop

BEFORE = "Before you start"


def walk_round(book: Book) -> tuple[WalkStop, ...]:
    """Return the stops in walking order; what belongs to no place is shown before the start.

    Faults: a time that is no time.
    """
    lines: dict[str, list[WalkLine]] = {}
    for topic, written in book.written.items():
        place = book.van.first_place(written.block)
        if line := _line(written.block, _numbers(topic, book), book):
            lines.setdefault(place.code if place else "", []).append(line)
    handed, plates = handed_at(book), plates_at(book)
    stops = [WalkStop(code="", name=BEFORE, where="outside", lines=tuple(lines[""]))] if "" in lines else []
    for place in book.van.places:
        stop = WalkStop(
            code=place.code,
            name=place.name,
            where=place.where,
            lines=tuple(lines.get(place.code, ())),
            plates=plates.get(place.code, ()),
            hand_over=handed.get(place.code, ()),
        )
        if stop.lines or stop.plates or stop.hand_over:
            stops.append(stop)
    return tuple(stops)


def _line(block: Block, numbers: tuple[str, ...], book: Book) -> WalkLine | None:
    if block.walkround is None:
        return None
    try:
        time = units.parse(block.walkround.time, "min")
        minutes = int(units.rounded(time, "min", units.Rounding.UP))
    except units.UnitError as error:
        book.faults.add(str(error), block.source, error.hint)
        return None
    walk = block.walkround
    return WalkLine(
        line=walk.line,
        minutes=minutes,
        must=walk.must,
        topic=block.topic.value,
        title=block.title.value,
        numbers=numbers,
    )


def _numbers(topic: str, book: Book) -> tuple[str, ...]:
    """Return the numbers that a topic names, are known, and are said aloud where it is shown."""
    handover = book.content.handover
    aloud = {given.value for given in handover.say} if handover else set()
    holes = (one.name for one in all_inlines(book.written[topic].nodes) if isinstance(one, p.TextHole))
    named = dict.fromkeys(hole.removeprefix("number/") for hole in holes if hole.startswith("number/"))
    return tuple(id_ for id_ in named if id_ in aloud and book.van.numbers.numbers[id_].value is not None)
