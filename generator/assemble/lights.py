"""Lights and sounds: every lamp, message and sound of this van, by place and name, each to its topic.

Made from the files of the kinds that are fitted.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from generator.assemble.book import Book, own_page
from generator.assemble.choose import why_absent
from generator.assemble.faults import BLOCKS
from generator.assemble.panels import holes_at
from generator.assemble.sitemap import LIGHTS
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.caravan import Equipment, Place
from generator.model.catalogue import Control

TITLE = "Lights and sounds"
_SAME = 5  # letters by which words say the same: "repeated", "repeats"


@dataclass(frozen=True, slots=True)
class _Signal:
    equipment: Equipment
    control: Control
    place: Place


_PARTS: tuple[tuple[str, str, Callable[[Control], str | None]], ...] = (
    ("Lamps", "What lights", lambda control: control.lamp),
    ("Messages", "What shows", lambda control: control.message),
    ("Sounds", "What you hear", lambda control: control.sound),
)


def lights_page(book: Book) -> p.Page | None:
    """Return the page, or nothing where no lamp, message or sound is known.

    Faults: a meaning whose topic this van does not answer.
    """
    signals = tuple(_signals(book))
    body = tuple(node for part in _PARTS for node in _table(signals, *part, book))
    return own_page(book, LIGHTS, TITLE, "lights", (*body, *_drawn(book))) if body else None


def _signals(book: Book) -> Iterator[_Signal]:
    for one in book.van.caravan.equipment:
        for control in one.kind.controls.values():
            place = book.van.by_code.get(one.at.get(control.at.value, ""))
            if place is not None:  # an optional point that this van lacks has no lamp either
                yield _Signal(one, control, place)


def _drawn(book: Book) -> Iterator[p.Node]:
    """Yield the panels with something on them that lights, by place: to be known by their looks."""
    nodes: list[p.Node] = []
    for place in book.van.places:
        if holes := tuple(holes_at(place, book.van, signals=True)):
            nodes.append(p.Paragraph(((p.PlaceRef(place.code, place.name),),)))
            nodes += [p.FragmentHole(hole) for hole in holes]
    if nodes:
        yield p.Group("drawn", (p.Heading(2, "How they look", "drawn"), *nodes))


def _table(
    signals: tuple[_Signal, ...], title: str, head: str, seen: Callable[[Control], str | None], book: Book
) -> Iterator[p.Node]:
    """Yield heading and table of one kind of signal, by place in walking order, then by name."""
    order = {place.code: number for number, place in enumerate(book.van.places)}
    mine = [(seen(signal.control) or "", signal) for signal in signals if seen(signal.control)]
    mine.sort(key=lambda pair: (order[pair[1].place.code], pair[0]))
    if mine:
        yield p.Heading(2, title, title.lower())
        columns = ("Where", head, "What it tells you")  # three, to fit a telephone
        rows = tuple(_row(shown, signal, book) for shown, signal in mine)
        yield p.Table(tuple((Text(column),) for column in columns), rows)


def _row(shown: str, signal: _Signal, book: Book) -> tuple[p.Line, ...]:
    control = signal.control
    name = control.name or signal.equipment.slot.name
    where = p.PlaceRef(signal.place.code, signal.place.name)
    return (where,), _seen(shown, name), (*_tells(control), *_read(control, book))


def _seen(shown: str, name: str) -> p.Line:
    """Return what shows and the part it shows on; the part alone where its name says it: "Green lamp that blinks"."""
    said = {word[:_SAME] for word in name.casefold().split()}
    if all(word[:_SAME] in said for word in shown.casefold().split() if word != "and"):
        return (p.Strong((Text(name),)),)
    return p.Strong((Text(shown[0].upper() + shown[1:].rstrip(".")),)), Text(f": {name}")


def _tells(control: Control) -> Iterator[p.Inline]:
    if control.shows:
        yield Text(f"{control.shows} " if control.means else control.shows)


def _read(control: Control, book: Book) -> Iterator[p.Inline]:
    if control.means is None:
        return
    topic, target = control.means.value, book.site.targets.get(control.means.value)
    if target is None:
        message = f"means {topic}, which this van does not have ({book.van.caravan.model}, {book.van.caravan.tail})"
        hint = why_absent(topic, book.content, book.van)
        book.faults.absent(message, control.means.source, hint, topic, BLOCKS)
    else:
        yield p.Ref(target.path, target.anchor, (Text(target.title),))
