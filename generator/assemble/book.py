"""What every page of a manual is made from, and the frame each page gets.

The pages themselves are left to one module each.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.assemble.faults import Faults
from generator.assemble.prose import Written
from generator.assemble.sitemap import START, Sitemap, TopicPage
from generator.assemble.van import Van
from generator.assemble.words import all_inlines
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.content import Content

MOST_RELATED = 4  # owner site brief: a longer list is not read


@dataclass(frozen=True, slots=True)
class Book:
    """A van, its content, where its topics stand, and its blocks as written for it, by topic in outline order."""

    content: Content
    van: Van
    site: Sitemap
    written: Mapping[str, Written]
    faults: Faults

    @property
    def language(self) -> str:
        """The language of every page."""
        return self.van.caravan.market.language


def own_page(
    book: Book,
    path: str,
    title: str,
    template: p.Template,
    body: tuple[p.Node, ...],
    *,
    related: tuple[p.LinkItem, ...] = (),
    crumbs: tuple[tuple[str, str], ...] = (START,),
    plate: str = "",
    blocks: tuple[str, ...] = (),
    page_id: str = "",
) -> p.Page:
    """Return a page that is not in the outline, with related links and the dealer at its end.

    Args:
        book: The van's book.
        path: From the manual's root; without ``page_id`` its stem is the id.
        title: Plain words, no hole.
        template: How it is laid out.
        body: What stands between title and related links.
        related: At most ``MOST_RELATED`` of these are printed.
        crumbs: The way back.
        plate: Place code beside the title.
        blocks: Ids of blocks that it prints something of.
        page_id: Where the id is not the stem.
    """
    return p.Page(
        id=page_id or path.removesuffix(".html"),
        path=path,
        title=title,
        template=template,
        crumbs=crumbs,
        plate=plate,
        language=book.language,
        blocks=blocks,
        body=(*body, *closing(related)),
    )


def closing(related: tuple[p.LinkItem, ...]) -> Iterator[p.Node]:
    """Yield what ends every page: at most four related links, then the dealer."""
    if related:
        yield p.Group("related", (p.Heading(2, "Read next", "related"), p.Links(related[:MOST_RELATED])))
    yield dealer()


def dealer() -> p.Group:
    """Return who to ring and what to read out to them; the same on every page."""
    tell: p.Line = (
        Text("Tell them: "),
        p.TextHole("van/name"),
        Text(", chassis ending "),
        p.TextHole("van/tail"),
        Text(", edition "),
        p.TextHole("edition/number"),
        Text("."),
    )
    return p.Group(
        "dealer",
        (
            p.Heading(2, "Your dealer", "dealer"),
            p.Paragraph(((p.TextHole("dealer/name"),), (p.DialHole("dealer/phone"),), tell)),
        ),
    )


def related_to(page: TopicPage, body: tuple[p.Node, ...], book: Book) -> tuple[p.LinkItem, ...]:
    """Return where to read on: the pages that the text links to, then the next ones of the same section."""
    linked = [inline.path for inline in all_inlines(body) if isinstance(inline, p.Ref)]
    section = [other.path for other in book.site.pages if other.section is page.section]
    here = section.index(page.path)
    titles = {other.path: other.title for other in book.site.pages}
    order = dict.fromkeys(linked + section[here + 1 :] + section[:here])
    return tuple(p.LinkItem(path, "", titles[path]) for path in order if path in titles and path != page.path)


def link_to(book: Book, topic: str, note: str = "", plate: str = "") -> p.LinkItem:
    """Return a link row to an answered topic."""
    target = book.site.targets[topic]
    return p.LinkItem(target.path, target.anchor, target.title, note, plate)
