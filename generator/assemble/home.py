"""The start page: emergencies, find, the van, phases, faults, numbers, all systems.

Order after the owner site brief; the top line and the foot rail are left to the templates.
"""

from collections.abc import Iterator

from generator.assemble.book import Book, link_to, own_page
from generator.assemble.checklists import checklist_links
from generator.assemble.places import place_link
from generator.assemble.planners import planner_links
from generator.assemble.sitemap import ABOUT, CHANGED, CONTENTS, HOME, LIGHTS, NUMBERS, SAFETY, SNAGS, group_path
from generator.assemble.words import slug
from generator.model import pages as p
from generator.model.blocks import Text

# Shown first, in this order; every other emergency is one link further.
_FIRST = ("emergency/carbon-monoxide", "emergency/fire", "emergency/electric-shock", "emergency/gas-smell")
_BY_ITSELF = "emergency/gas-off"
_KEY_NUMBERS = (
    *("payload", "payload-with-water", "ball-load-target", "ball-load-laden", "axle-load-most", "tyre-pressure"),
    *("gas-days-typical", "battery-days", "battery-days-sun", "water-days", "cassette-days"),
)
_NEW_OWNER = ("trip/new-owner", "trip/first-evening")


def home_page(book: Book, has_lights: bool) -> p.Page:
    """Return the start page; ``has_lights`` says whether there is a page of lights and sounds."""
    body = (
        *_emergency(book),
        p.Group("find", (p.Find(),)),
        *_van(book),
        *_phases(book),
        *_wrong(book, has_lights),
        *_numbers(book),
        *_systems(book),
        *_more(book),
    )
    return own_page(book, HOME, "Start", "home", body, crumbs=(), page_id="start")


def _emergency(book: Book) -> Iterator[p.Node]:
    first = [link_to(book, topic) for topic in _FIRST if topic in book.written]
    sections = dict.fromkeys(page.section.title for page in book.site.pages if page.section.role == "emergency")
    others = [p.LinkItem(CONTENTS, slug(title), "Every emergency") for title in sections]
    alone = [link_to(book, _BY_ITSELF)] if _BY_ITSELF in book.written else []
    lists = tuple(p.Links(tuple(items)) for items in (first, alone, others[:1]) if items)
    if lists:
        yield p.Group("emergency", (p.Heading(2, "Emergency", "emergency"), *_ring(book), *lists))


def _ring(book: Book) -> Iterator[p.Node]:
    """Yield the first number of the market as a call link; every emergency page says whom it reaches."""
    for one in book.van.caravan.market.emergency[:1]:
        yield p.Paragraph(((p.Call(one.number, (Text(f"Ring {one.number}"),)),),))


def _van(book: Book) -> Iterator[p.Node]:
    children: list[p.Node] = [p.Heading(2, "The van", "van"), p.FragmentHole("drawing/van")]
    for where, title in (("outside", "Outside"), ("inside", "Inside")):
        if items := tuple(place_link(place) for place in book.van.places if place.where == where):
            children += [p.Heading(3, title, where), p.Links(items)]
    yield p.Group("van", tuple(children))


def _phases(book: Book) -> Iterator[p.Node]:
    if items := checklist_links(book):
        yield p.Group("phases", (p.Heading(2, "What are you about to do?", "phases"), p.Links(items)))


def _wrong(book: Book, has_lights: bool) -> Iterator[p.Node]:
    children: list[p.Node] = []
    if has_lights:
        children.append(p.Links((p.LinkItem(LIGHTS, "", "Lights and sounds"),)))
    for title, topics in _faults_by_section(book).items():
        items = tuple(link_to(book, topic) for topic in topics)
        children += [p.Heading(3, title, f"wrong-{slug(title)}"), p.Links(items)]
    if children:
        yield p.Group("wrong", (p.Heading(2, "Something is not right", "wrong"), *children))


def _faults_by_section(book: Book) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for page in book.site.pages:
        for block in page.blocks:
            if block.form == "fault":
                found.setdefault(page.section.title, []).append(block.topic.value)
    return found


def _numbers(book: Book) -> Iterator[p.Node]:
    present = [number for number in _KEY_NUMBERS if number in book.van.numbers.numbers]
    if present:
        verdicts = (p.FragmentHole(f"verdict/{number}") for number in present)
        more = p.Links((*planner_links(book), p.LinkItem(NUMBERS, "", "How these and all numbers were worked out")))
        yield p.Group("numbers", (p.Heading(2, "Your numbers", "numbers"), *verdicts, more))


def _systems(book: Book) -> Iterator[p.Node]:
    titles = dict.fromkeys(page.section.title for page in book.site.pages)
    items = tuple(p.LinkItem(CONTENTS, slug(title), title) for title in titles)
    if items:
        yield p.Group("systems", (p.Heading(2, "All systems", "systems"), p.Links(items)))


def _more(book: Book) -> Iterator[p.Node]:
    items = [link_to(book, topic) for topic in _NEW_OWNER if topic in book.written]
    items.append(p.LinkItem(SAFETY, "", "All safety messages"))
    items.append(p.LinkItem(SNAGS, "", "Your notes and snags"))
    if "dates" in book.van.numbers.tables:
        items.append(p.LinkItem(group_path("Dates"), "", "Dates to keep"))
    items.append(p.LinkItem(CHANGED, "", "What changed in this edition"))
    items.append(p.LinkItem(ABOUT, "", "About this manual"))
    # Their file names are known once the files are: ``fill`` writes them.
    items.append(p.LinkItem("site/single", "", "Keep a copy: the whole manual in one file"))
    items.append(p.LinkItem("site/zip", "", "Keep a copy: all pages, zipped"))
    yield p.Group("more", (p.Links(tuple(items)),))
