"""The pages of the planners: the tables of this van that stand without script, and room for the form above them.

What the form reckons with is worked out in ``compute``; the form itself is the page script's.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.assemble.book import Book, own_page
from generator.assemble.sitemap import START
from generator.model import pages as p
from generator.model.blocks import Text


@dataclass(frozen=True, slots=True)
class _Planner:
    """One planner: its page, the numbers and tables on it, and the traits of which it needs one."""

    name: str
    title: str
    numbers: tuple[str, ...]
    tables: tuple[str, ...]
    one_of: tuple[str, ...] = ()
    note: str = ""

    @property
    def path(self) -> str:
        """Its page; an outline page may not have its name."""
        return f"plan-{self.name}.html"


_PLANNERS = (
    _Planner(
        "loading",
        "Plan the load",
        ("payload", "ball-load-target"),
        ("room-left", "ball-load-change"),
        note="A sum is no weighing: weigh the loaded van. The plates win.",
    ),
    _Planner(
        "car",
        "Match your car to this van",
        ("tow-car-heaviest",),
        ("car-must-allow",),
        note="The plates and papers of car, towbar and van win. What your licence allows counts too.",
    ),
    _Planner(
        "days",
        "Plan days away",
        ("gas-days-typical", "gas-days-all", "battery-days", "battery-days-sun", "water-days"),
        ("gas-day", "gas-day-appliances", "daily-12v-loads", "solar-months"),
        one_of=("gas", "battery", "water"),
    ),
    _Planner("mains", "Plan what runs together", (), ("mains-combinations", "mains-loads", "mains-trips"), ("mains",)),
)


LOADING = _PLANNERS[0].path


def planner_pages(book: Book) -> tuple[p.Page, ...]:
    """Return the page of every planner this van has a use for."""
    crumbs = (START, ("Your numbers", "index.html#numbers"))
    return tuple(
        own_page(book, planner.path, planner.title, "planner", (_tables(planner, book),), crumbs=crumbs)
        for planner in _of(book)
    )


def planner_links(book: Book) -> tuple[p.LinkItem, ...]:
    """Return a link to each planner."""
    return tuple(p.LinkItem(planner.path, "", planner.title) for planner in _of(book))


def _of(book: Book) -> Iterator[_Planner]:
    """Yield the planners of this van; traits decide, so that vans which differ in values share their pages."""
    traits = book.van.caravan.traits
    for planner in _PLANNERS:
        shown = any(id_ in book.van.numbers.tables for id_ in planner.tables)
        if shown and (not planner.one_of or any(trait in traits for trait in planner.one_of)):
            yield planner


def _tables(planner: _Planner, book: Book) -> p.Group:
    found = book.van.numbers
    verdicts = (p.FragmentHole(f"verdict/{id_}") for id_ in planner.numbers if id_ in found.numbers)
    tables = (p.FragmentHole(f"table/{id_}") for id_ in planner.tables if id_ in found.tables)
    note = (p.Paragraph(((Text(planner.note),),), "stop"),) if planner.note else ()
    head = p.Heading(2, "As this van stands", "as-it-stands")
    return p.Group(f"plan-{planner.name}", (*note, head, *verdicts, *tables))
