"""Puts a van's manual together: choose blocks, write them, lay out pages, check them.

Each part is left to a module of its own; this one only orders them.
"""

from collections.abc import Mapping
from dataclasses import dataclass

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
from generator.model.holes import HoleValue
from generator.model.manual import LabelText, Manual, SearchEntry, Stood, TopicChoice, WalkStop
from generator.model.numbers import Numbers
from generator.model.pages import Page
from generator.model.reviews import Review, SafetyBlock
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
    book, choices = _book(caravan, numbers, content, catalogue, faults)
    stood = stood_at(previous, book)
    pages, searched = _pages(book, previous, stood)
    safety = safety_blocks(book, reviews)
    values = {**values_of(book.van), **notices(safety), **_pictures(book)}
    stops = walk_round(book)
    _check(book, pages, values)
    parts = _Parts(pages, values, search_entries(book, searched), stops, choices, stood, safety)
    return _manual(book, parts)


def _book(
    caravan: Caravan, numbers: Numbers, content: Content, catalogue: Catalogue, faults: Faults
) -> tuple[Book, tuple[TopicChoice, ...]]:
    """Return a van with its blocks as written for it and where they stand, and why each topic is in or out."""
    van = Van.of(caravan, numbers, content.terms)
    answers, choices = choose(content, van, faults)
    site = lay_out(content, answers)
    return Book(content, van, site, _written(content, catalogue, van, site, faults), faults), choices


def _check(book: Book, pages: tuple[Page, ...], values: Mapping[str, HoleValue]) -> None:
    """Raise everything that is wrong with the manual, by position."""
    check_promises(book)
    check_plain_texts(book)
    check_mentions(book)
    check_handover(book)
    check_links(pages, values, book.faults)
    book.faults.raise_any()


@dataclass(frozen=True, slots=True)
class _Parts:
    """What a manual is put together from, beside its book."""

    pages: tuple[Page, ...]
    values: Mapping[str, HoleValue]
    search: tuple[SearchEntry, ...]
    stops: tuple[WalkStop, ...]
    choices: tuple[TopicChoice, ...]
    stood: Stood
    safety: tuple[SafetyBlock, ...]


def _manual(book: Book, parts: _Parts) -> Manual:
    caravan, numbers = book.van.caravan, book.van.numbers
    return Manual(
        chassis=caravan.chassis,
        tail=caravan.tail,
        model=caravan.model,
        market=caravan.market.id,
        language=book.language,
        dealer=caravan.dealer.id,
        pages=parts.pages,
        values=parts.values,
        search=parts.search,
        synonyms=synonyms_of(book),
        labels=_labels(book),
        walkround=parts.stops,
        traits=tuple(sorted(caravan.traits)),
        choices=parts.choices,
        blocks={written.block.id: written.block.digest for written in book.written.values()},
        equipment={one.key: one.kind.name for one in caravan.equipment},
        stood=parts.stood,
        safety=parts.safety,
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


def _pages(book: Book, previous: PublishedVan | None, stood: Stood) -> tuple[tuple[Page, ...], tuple[Page, ...]]:
    """Return all pages in reading order, and those among them that search takes whole."""
    lights = lights_page(book)
    lists = checklist_pages(book)
    own = (snags_page(book), changed_page(book), about_page(book))
    last = (*number_pages(book), *planner_pages(book), safety_page(book), *own)
    reference = (*((lights,) if lights else ()), *last)
    fixed = (home_page(book, lights is not None), contents_page(book, lights is not None))
    pages = (*fixed, *topic_pages(book), *place_pages(book), *lists, *reference)
    stubs = gone_pages(previous, pages, stood, book)
    return (*pages, *stubs), (*lists, *reference, *(stub for stub in stubs if stub.plate))


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
