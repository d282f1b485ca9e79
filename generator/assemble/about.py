"""What the manual covers, how far it can be trusted, and what the law of the market says.

The words here stand in every van, so they speak of no equipment.
"""

from collections.abc import Iterator

from generator.assemble.book import Book, own_page
from generator.assemble.mentions import speaks_of_missing
from generator.assemble.sitemap import ABOUT
from generator.model import manual as m
from generator.model.blocks import Text

_COVERS = (
    "This manual is made for one van. It covers what the dealer fitted, and nothing else.",
    "Something in the van and not in here: ask your dealer before you use it.",
)
_DRAFT = (
    "Draft. No licensed person has checked these pages yet.",
    "The wording is demonstration content until the dealer has checked and released it.",
    "Compare every number with the plates on the van before you rely on it.",
)
_WINS = (
    "The plates and labels on the van win over this manual.",
    "The instructions that came with an appliance win over this manual.",
    "The law and the rules of the site win over this manual.",
    "Work that needs a licence belongs to the licensed trade. Never to you, even with this manual in hand.",
)


def about_page(book: Book) -> m.Page:
    """Return the page about the manual itself."""
    body = (
        *_part("What it covers", _COVERS),
        *_part("How far it has been checked", _DRAFT),
        *_part("What wins over it", _WINS),
        *_law(book),
    )
    return own_page(book, ABOUT, "About this manual", "list", body)


def _part(title: str, sentences: tuple[str, ...]) -> Iterator[m.Node]:
    yield m.Heading(2, title, title.lower().replace(" ", "-"))
    yield m.Bullets(tuple(((Text(sentence),),) for sentence in sentences))


def _law(book: Book) -> Iterator[m.Node]:
    """Yield the points of law of the market; one that speaks of what is not fitted does not concern this van."""
    market = book.van.caravan.market
    points = [point for point in market.legal if not speaks_of_missing(point.text, book.van)]
    if points:
        yield m.Heading(2, f"Law and guidance: {market.name}", "law")
        yield m.Bullets(tuple(((Text(p.text),), (Text(f"Source: {p.source}. Read: {p.read_on}."),)) for p in points))
