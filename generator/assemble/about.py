"""What the manual covers, how far it can be trusted, and what the law of the market says.

The words here stand in every van, so they speak of no equipment.
"""

from collections.abc import Iterator

from generator.assemble.book import Book, own_page
from generator.assemble.mentions import speaks_of_missing
from generator.assemble.sitemap import ABOUT
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.wording import cited

_COVERS = (
    "This manual is made for one van. It covers what the dealer fitted, and nothing else.",
    "Something in the van and not in here: ask your dealer before you use it.",
)
_CHECKED: tuple[p.Line, ...] = (
    (p.TextHole("draft/state"),),
    (Text("Compare every number with the plates on the van before you rely on it."),),
)
_WINS = (
    "The plates and labels on the van win over this manual.",
    "The instructions that came with an appliance win over this manual.",
    "The law and the rules of the site win over this manual.",
    "Work that needs a licence belongs to the licensed trade. Never to you, even with this manual in hand.",
)


def about_page(book: Book) -> p.Page:
    """Return the page about the manual itself."""
    body = (
        *_part("What it covers", _said(_COVERS)),
        *_part("How far it has been checked", _CHECKED),
        *_part("What wins over it", _said(_WINS)),
        *_law(book),
    )
    return own_page(book, ABOUT, "About this manual", "list", body)


def _said(sentences: tuple[str, ...]) -> tuple[p.Line, ...]:
    return tuple((Text(sentence),) for sentence in sentences)


def _part(title: str, lines: tuple[p.Line, ...]) -> Iterator[p.Node]:
    yield p.Heading(2, title, title.lower().replace(" ", "-"))
    yield p.Bullets(tuple((line,) for line in lines))


def _law(book: Book) -> Iterator[p.Node]:
    """Yield the points of law of the market; one that speaks of what is not fitted does not concern this van."""
    market = book.van.caravan.market
    points = [point for point in market.legal if not speaks_of_missing(point.text, book.van)]
    if points:
        yield p.Heading(2, f"Law and guidance: {market.name}", "law")
        yield p.Bullets(
            tuple(((Text(one.text),), (Text(f"Source: {cited(one.source, one.read_on)}."),)) for one in points)
        )
