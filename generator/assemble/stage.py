"""Puts a van's manual together: choose blocks, write them, lay out pages, check them.

Each part is left to a module of its own; this one only orders them.
"""

from collections.abc import Mapping

from generator.assemble.about import about_page
from generator.assemble.book import Book
from generator.assemble.checklists import checklist_pages
from generator.assemble.choose import choose
from generator.assemble.faults import Faults
from generator.assemble.gone import gone_pages, stood_at
from generator.assemble.handover import check_handover, key_facts, sheet_of, sign_at
from generator.assemble.home import home_page
from generator.assemble.inline import Inliner
from generator.assemble.lights import lights_page
from generator.assemble.links import check_links
from generator.assemble.mentions import check_mentions
from generator.assemble.places import place_pages
from generator.assemble.planners import planner_pages
from generator.assemble.promises import check_plain_texts, check_promises
from generator.assemble.prose import Written, write
from generator.assemble.reference import changed_page, contents_page, number_pages, safety_page, snags_page
from generator.assemble.reviews import notices, safety_blocks
from generator.assemble.search import search_entries, synonyms_of
from generator.assemble.sitemap import Sitemap, lay_out, place_path
from generator.assemble.topics import topic_pages, with_messages
from generator.assemble.values import values_of
from generator.assemble.van import Van
from generator.assemble.walkround import walk_round
from generator.model.caravan import Caravan
from generator.model.catalogue import Catalogue
from generator.model.content import Content
from generator.model.manual import HoleValue, LabelText, Manual, Page
from generator.model.numbers import Numbers
from generator.model.reviews import Review
from generator.model.site import PublishedVan


def assemble(
    caravan: Caravan,
    numbers: Numbers,
    content: Content,
    catalogue: Catalogue,
    previous: PublishedVan | None,
    reviews: tuple[Review, ...] = (),
) -> Manual:
    """Return the manual of one van, with holes where its values go.

    Args:
        caravan: The van.
        numbers: What was computed for it.
        content: Outline, blocks, safety messages and terms.
        catalogue: Everything that can be fitted, for hints.
        previous: Its last edition, whose dropped pages and places keep a stub.
        reviews: Those in the dealer's records.

    Raises:
        ContentError: all that must be put right, by position.
    """
    faults = Faults(content.spoilt)
    van = Van.of(caravan, numbers, content.terms)
    answers, choices = choose(content, van, faults)
    site = lay_out(content, answers)
    book = Book(content, van, site, _written(content, catalogue, van, site, faults), faults)
    pages, own = _pages(book)
    stood = stood_at(previous, book)
    stubs = gone_pages(previous, pages, stood, book)
    pages += stubs
    safety = safety_blocks(book, reviews)
    values = {**values_of(van), **notices(safety), **_pictures(book)}
    stops = walk_round(book)
    check_promises(book)
    check_plain_texts(book)
    check_mentions(book)
    check_handover(book)
    check_links(pages, values, faults)
    faults.raise_any()
    return Manual(
        chassis=caravan.chassis,
        tail=caravan.tail,
        model=caravan.model,
        market=caravan.market.id,
        language=book.language,
        dealer=caravan.dealer.id,
        pages=pages,
        values=values,
        search=search_entries(book, (*own, *(stub for stub in stubs if stub.plate))),
        synonyms=synonyms_of(book),
        labels=_labels(book),
        walkround=stops,
        traits=tuple(sorted(caravan.traits)),
        choices=choices,
        blocks={written.block.id: written.block.digest for written in book.written.values()},
        equipment={one.key: one.kind.name for one in caravan.equipment},
        stood=stood,
        safety=safety,
        sheet=sheet_of(book),
        card=key_facts(book),
        dates=numbers.dates,
        planners=numbers.planners,
    )


def _written(content: Content, catalogue: Catalogue, van: Van, site: Sitemap, faults: Faults) -> Mapping[str, Written]:
    """Return each answered topic's block as it stands in this van, in outline order."""
    inliner = Inliner(content, catalogue, van, site, faults)
    written = {}
    for page in site.pages:
        for block in page.blocks:
            anchor = site.targets[block.topic.value].anchor
            one = write(block, content, inliner, faults, 3 if anchor else 2, anchor)
            written[block.topic.value] = with_messages(one, content, faults)
    return written


def _pages(book: Book) -> tuple[tuple[Page, ...], tuple[Page, ...]]:
    """Return all pages in reading order, and those among them that search takes whole."""
    lights = lights_page(book)
    lists = checklist_pages(book)
    own = (snags_page(book), changed_page(book), about_page(book))
    last = (*number_pages(book), *planner_pages(book), safety_page(book), *own)
    reference = (*((lights,) if lights else ()), *last)
    fixed = (home_page(book, lights is not None), contents_page(book, lights is not None))
    return (*fixed, *topic_pages(book), *place_pages(book), *lists, *reference), (*lists, *reference)


def _labels(book: Book) -> tuple[LabelText, ...]:
    return tuple(
        LabelText(
            code=place.code,
            name=place.name,
            path=place_path(place.code).removesuffix("index.html"),
            sign=sign_at(place, book),
        )
        for place in book.van.places
        if place.label
    )


def _pictures(book: Book) -> dict[str, HoleValue]:
    """Return the pictures that stand in this van's blocks, by hole name."""
    names = dict.fromkeys(name for written in book.written.values() for name in written.pictures)
    return {f"picture/{name}": book.van.caravan.pictures[name] for name in names}
