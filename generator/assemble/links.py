"""The last look at a manual: every link lands, every hole has a value, names hold no value.

A fault here that has no position is one of ours rather than of an author.
"""

from collections.abc import Iterator, Mapping

from generator.assemble.faults import Faults
from generator.assemble.sitemap import place_path
from generator.assemble.words import all_inlines, all_nodes
from generator.model import pages as p
from generator.model.holes import EDITION_HOLES, HOLE_OPEN, HoleValue

_FIND = "find"  # the anchor of the search field
_LATER = "site/"  # files that ``fill`` names


def check_links(pages: tuple[p.Page, ...], values: Mapping[str, HoleValue], faults: Faults) -> None:
    """Add a fault for each dead link, hole without value, and file name or anchor given twice."""
    anchors = _anchors(pages, faults)
    for page in pages:
        for path, anchor in _links(page):
            if path not in anchors:
                faults.add(f"page {page.path} links to {path}, which is not there")
            elif anchor and anchor not in anchors[path]:
                faults.add(f"page {page.path} links to {path}#{anchor}, and {path} has no such anchor")
        for name in holes(page):
            if name not in values and name not in EDITION_HOLES:
                faults.add(f"page {page.path} has a hole {name} without a value")
        if HOLE_OPEN in page.title + page.path + page.id:
            faults.add(f"page {page.path} has a hole in its name")


def _anchors(pages: tuple[p.Page, ...], faults: Faults) -> dict[str, set[str]]:
    """Return the anchors of each page; two pages of one name, or two headings of one anchor, are faults."""
    found: dict[str, set[str]] = {}
    names: set[str] = set()
    for page in pages:
        if page.path.lower() in names:
            faults.add(f"two pages are called {page.path}")
        names.add(page.path.lower())
        anchors = found.setdefault(page.path, set())
        for node in all_nodes(page.body):
            anchor = node.anchor if isinstance(node, p.Heading) else _FIND if isinstance(node, p.Find) else ""
            if anchor and anchor in anchors:
                faults.add(f"page {page.path} has two headings at #{anchor}", None, "give one of them other words")
            anchors.add(anchor)
    return found


def _links(page: p.Page) -> Iterator[tuple[str, str]]:
    for _, path in page.crumbs:
        name, _, anchor = path.partition("#")
        yield name, anchor
    for inline in all_inlines(page.body):
        if isinstance(inline, p.Ref):
            yield inline.path, inline.anchor
        elif isinstance(inline, p.PlaceRef):
            yield place_path(inline.code), ""
    for node in all_nodes(page.body):
        if isinstance(node, p.Links):
            yield from ((item.path, item.anchor) for item in node.items if not item.path.startswith(_LATER))
        elif isinstance(node, p.Checks):
            yield from ((check.path, check.anchor) for check in node.items)


def holes(page: p.Page) -> Iterator[str]:
    """Yield the names of the holes of ``page``."""
    for inline in all_inlines(page.body):
        if isinstance(inline, p.TextHole | p.DialHole):
            yield inline.name
    for node in all_nodes(page.body):
        if isinstance(node, p.FragmentHole):
            yield node.name
