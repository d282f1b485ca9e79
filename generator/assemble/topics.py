"""Topic pages: the blocks of a page in outline order, each with its safety messages before its first step.

An emergency page starts with its first action instead; calls and shut-offs follow it.
"""

from collections.abc import Iterator
from dataclasses import replace

from generator.assemble.book import Book, closing, related_to
from generator.assemble.faults import Faults
from generator.assemble.mentions import speaks_of_missing
from generator.assemble.prose import Written
from generator.assemble.safety import gravest_first, look_up
from generator.assemble.sitemap import CONTENTS, START, TopicPage, anchor_of
from generator.assemble.words import all_inlines, slug
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.content import Content

# What can be cut off, most urgent first. Only those outside are printed: nobody is sent back into the van.
_GAS_OFF = "emergency/gas-off"
_SHUT_OFFS = {
    "gas": {"gas.bottles": "Gas bottles", "gas.shut_off": "Gas shut-off"},
    "electricity": {"mains_inlet.inlet": "Mains inlet", "consumer_unit.unit": "Mains switch", "battery.box": "Battery"},
}


def topic_pages(book: Book) -> tuple[p.Page, ...]:
    """Return the page of every outline page that stands in this van, in reading order."""
    return tuple(_page(page, book) for page in book.site.pages)


def _page(page: TopicPage, book: Book) -> p.Page:
    written = tuple(book.written[block.topic.value] for block in page.blocks)
    body = tuple(node for one in written for node in _part(one, len(written) > 1, book))
    # On an emergency page a plate beside the title could be read as where to go.
    place = None if page.is_emergency else book.van.first_place(page.blocks[0])
    extra = (*_call(book), *_shut_offs(body, book)) if page.is_emergency else ()
    return p.Page(
        id=page.page.id.value,
        path=page.path,
        title=page.title,
        template="emergency" if page.is_emergency else "topic",
        section=page.section.title,
        crumbs=(START, (page.section.title, f"{CONTENTS}#{slug(page.section.title)}")),
        plate=place.code if place else "",
        language=book.language,
        topics=tuple(block.topic.value for block in page.blocks),
        blocks=tuple(block.id for block in page.blocks),
        body=(*body, *extra, *closing(related_to(page, body, book))),
    )


def _part(written: Written, among_others: bool, book: Book) -> Iterator[p.Node]:
    if among_others:
        yield p.Heading(2, written.block.title.value, anchor_of(written.block.topic.value))
    yield from written.nodes


def with_messages(written: Written, content: Content, faults: Faults) -> Written:
    """Return a block with its safety messages in place, gravest first, all before step 1.

    They stand first of all; only what a fault page says an owner sees may come before them. Faults: an
    unknown message; an emergency that does not start with its first action; a procedure without a step.
    """
    block, nodes = written.block, written.nodes
    found = (look_up(given, content, faults) for given in block.hazards)
    boxes = tuple(p.SafetyBox(message) for message in gravest_first(one for one in found if one))
    if block.form in ("procedure", "emergency") and not any(isinstance(node, p.Steps) for node in nodes):
        faults.add(f'"{block.title.value}" has no step left in this van', block.source, "guard fewer steps")
    if block.form == "emergency":
        _starts_with_action(written, bool(boxes), faults)
        return replace(written, nodes=nodes)
    before = 0
    if block.form == "fault":
        nodes, before = tuple(_checks(node) for node in nodes), _seen(nodes)
    return replace(written, nodes=nodes[:before] + boxes + nodes[before:])


def _checks(node: p.Node) -> p.Node:
    return replace(node, role="fault") if isinstance(node, p.Steps) else node


def _seen(nodes: tuple[p.Node, ...]) -> int:
    """Return how many nodes open a fault page with what the owner sees."""
    count = 0
    for node in nodes:
        if not isinstance(node, p.Paragraph) or node.role != "lead":
            break
        count += 1
    return count


def _starts_with_action(written: Written, has_boxes: bool, faults: Faults) -> None:
    first = written.nodes[0] if written.nodes else None
    if first is not None and not isinstance(first, p.Steps):
        source = written.block.body[0].source if written.block.body else written.block.source
        faults.add("an emergency starts with its first action", source, "move the words under the steps")
    if has_boxes or (isinstance(first, p.Steps) and first.items[0].safety):
        hint = "say the caution as the action itself"
        faults.add("an emergency has no safety message before its first action", written.block.source, hint)


def _call(book: Book) -> Iterator[p.Node]:
    """Yield who to ring; a line for what is not fitted does not concern this van."""
    numbers = [one for one in book.van.caravan.market.emergency if not speaks_of_missing(one.name, book.van)]
    if numbers:
        lines = tuple((Text(f"{one.name}: "), p.Call(one.number, (Text(one.number),))) for one in numbers)
        yield p.Group("call", (p.Heading(2, "Ring for help", "call"), p.Paragraph(lines)))


def _shut_offs(body: tuple[p.Node, ...], book: Book) -> Iterator[p.Node]:
    """Yield where gas and electricity are shut off, each on a page that speaks of it.

    A van that sways needs neither, and who smells gas is to touch nothing electric.
    """
    gas_off = book.site.targets.get(_GAS_OFF)
    named = {inline.code for inline in all_inlines(body) if isinstance(inline, p.PlaceRef)}
    linked = {inline.path for inline in all_inlines(body) if isinstance(inline, p.Ref)}
    items = []
    for what, points in _SHUT_OFFS.items():
        found = [(words, place) for point, words in points.items() for place in book.van.where(point)]
        is_linked = what == "gas" and gas_off is not None and gas_off.path in linked
        if is_linked or any(place.code in named for _, place in found):
            items += [(words, place) for words, place in found if place.where == "outside"]
    if items:
        lines = tuple(((Text(f"{words}: "), p.PlaceRef(place.code, place.name)),) for words, place in items)
        yield p.Group("shut-offs", (p.Heading(2, "Shut-offs outside the van", "shut-offs"), p.Bullets(lines)))
