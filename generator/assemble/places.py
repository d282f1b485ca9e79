"""Place pages: what you can do, and what to read, standing in front of a locker, valve or switch.

The label and the drawing of a place are left to later stages.
"""

from collections.abc import Iterator

from generator.assemble.book import Book, link_to, own_page
from generator.assemble.faults import BLOCKS
from generator.assemble.panels import holes_at, part_of
from generator.assemble.planners import LOADING, planner_links
from generator.assemble.safety import gravest_first
from generator.assemble.sitemap import START, place_path
from generator.assemble.words import messages_of
from generator.model import pages as p
from generator.model.blocks import Block, Text
from generator.model.caravan import Place

_FORMS = {
    "do": ("Do here", ("procedure",)),
    "wrong": ("If it goes wrong here", ("emergency", "fault")),
    "read": ("Read about it", ("description", "reference")),
}


def place_pages(book: Book) -> tuple[p.Page, ...]:
    """Return the page of every place, in walking order.

    Faults: a place with a label and nothing to read on its page.
    """
    return tuple(_page(place, book) for place in book.van.places)


def _page(place: Place, book: Book) -> p.Page:
    blocks = blocks_at(place, book)
    if place.label and not blocks and place.max_contents is None and not _may_have_block(place, book):
        hint = "put a point of some equipment here, give it max_contents, or set label: false"
        book.faults.add(f'place {place.code} "{place.name}" has a label and nothing on its page', place.source, hint)
    body = [*_where(place), *_limit(place, book), *_here(place, book)]
    body += [*_do(place, blocks, book), *_group("wrong", blocks, book), *_cautions(blocks, book)]
    body += _group("read", blocks, book)
    if len(body) == 1:  # where it is, and no more
        body.append(p.Paragraph(((Text("No equipment of this van is here, and nothing is kept here."),),)))
    return own_page(
        book,
        place_path(place.code),
        place.name,
        "place",
        (*body, *_drawn(place, book), *_near(place, book)),
        crumbs=(START, ("The van", "index.html#van")),
        plate=place.code,
        page_id=place.code,
    )


def _may_have_block(place: Place, book: Book) -> bool:
    """Return whether a block that could not be read may stand at a point of this place."""
    points = (
        f"{one.slot.id}.{point}"
        for one in book.van.caravan.equipment
        for point in one.at
        if one.at[point] == place.code
    )
    return any(book.content.spoilt.may_hold(point, BLOCKS) for point in points)


def blocks_at(place: Place, book: Book) -> tuple[Block, ...]:
    """Return the blocks with a point at ``place``, in outline order."""
    blocks = (written.block for written in book.written.values())
    return tuple(block for block in blocks if place in book.van.places_of(block))


def _where(place: Place) -> Iterator[p.Node]:
    """Yield the drawing, which says the place in words too; in words alone where no position is known."""
    if place.position is None:
        words = "Outside the van." if place.where == "outside" else "Inside the van."
        yield p.Group("where", (p.Paragraph(((Text(words),),)),))
    else:
        yield p.Group("where", (p.FragmentHole(f"drawing/place/{place.code}"),))


def _limit(place: Place, book: Book) -> Iterator[p.Node]:
    lines: list[p.Line] = []
    if place.max_contents is not None:
        lines.append((Text("Load limit here: "), p.TextHole(f"place/{place.code}/limit"), Text(".")))
    if place.code in book.van.numbers.place_limits:
        lines.append((Text("Room left: "), p.TextHole(f"place/{place.code}/left"), Text(".")))
    if lines:
        yield p.Group("limit", (p.Paragraph(tuple(lines)),))


def _here(place: Place, book: Book) -> Iterator[p.Node]:
    if names := fitted_at(place, book):
        items = tuple(((Text(name),),) for name in names)
        yield p.Group("here", (p.Heading(2, "What is here", "here"), p.Bullets(items)))


def _drawn(place: Place, book: Book) -> Iterator[p.Node]:
    """Yield the panels of what is here, below what is done with them: a page opens with what it leads to."""
    if panels := tuple(p.FragmentHole(hole) for hole in holes_at(place, book.van)):
        yield p.Group("drawn", (p.Heading(2, "How it looks", "drawn"), *panels))


def fitted_at(place: Place, book: Book) -> tuple[str, ...]:
    """Return the parts of equipment at ``place`` in words: "Water heater: drain", "Hob"."""
    found = (
        part_of(one, point)
        for one in book.van.caravan.equipment
        for point, code in one.at.items()
        if code == place.code
    )
    return tuple(dict.fromkeys(found))


def _do(place: Place, blocks: tuple[Block, ...], book: Book) -> Iterator[p.Group]:
    """Yield what is done here; where things are kept, planning the load is the least of it."""
    load = [item for item in planner_links(book) if item.path == LOADING]
    yield from _group("do", blocks, book, tuple(load) if place.code in book.van.numbers.place_limits else ())


def _group(role: str, blocks: tuple[Block, ...], book: Book, more: tuple[p.LinkItem, ...] = ()) -> Iterator[p.Group]:
    title, forms = _FORMS[role]
    chosen = sorted((block for block in blocks if block.form in forms), key=lambda block: forms.index(block.form))
    items = (*(link_to(book, block.topic.value, _warning(block, book)) for block in chosen), *more)
    if items:
        yield p.Group(role, (p.Heading(2, title, role), p.Links(items)))


def _cautions(blocks: tuple[Block, ...], book: Book) -> Iterator[p.Group]:
    """Yield what can hurt here, each hazard once; what to do about it stands before the steps it belongs to."""
    found = (message for block in blocks for message in messages_of(book.written[block.topic.value].nodes))
    messages = gravest_first({message.id: message for message in found}.values())
    if messages:
        hazards = tuple(((p.Strong((Text(one.signal),)), Text(f" {one.hazard.value}")),) for one in messages)
        told = p.Paragraph(((Text("What to do about each stands before the steps it belongs to."),),))
        yield p.Group("cautions", (p.Heading(2, "Cautions here", "cautions"), told, p.Bullets(hazards)))


def _warning(block: Block, book: Book) -> str:
    """Say which signal word stands before the steps; the messages themselves are read there, in full."""
    messages = gravest_first(messages_of(book.written[block.topic.value].nodes))
    return f"Read its {messages[0].signal} first." if messages else ""


def _near(place: Place, book: Book) -> Iterator[p.Node]:
    """Yield the places before and after this one in walking order."""
    places = book.van.places
    here = places.index(place)
    neighbours = places[max(here - 1, 0) : here] + places[here + 1 : here + 2]
    if neighbours:
        items = tuple(place_link(one) for one in neighbours)
        yield p.Group("near", (p.Heading(2, "Next to it", "near"), p.Links(items)))


def place_link(place: Place) -> p.LinkItem:
    """Return a link row to a place, with its plate."""
    return p.LinkItem(place_path(place.code), "", place.name, plate=place.code)
