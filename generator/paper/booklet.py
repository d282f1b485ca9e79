"""The booklet of one van: the same pages as its site, in chapters, with contents, page numbers and index.

How a page becomes data is left to ``tree``, how it looks to ``booklet.typ``.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.model import pages as p
from generator.model.holes import HoleValue, Notice, Working
from generator.model.manual import Manual
from generator.model.numbers import DataTable
from generator.model.paper import Whole
from generator.paper.document import code_to, common
from generator.paper.index import index_of
from generator.paper.pictures import drawn
from generator.paper.setting import Data, Setting, mark
from generator.paper.tree import nodes, table_mark

# Millimetres; "size" and "index" points, "letters" about how many a line of a table holds, the rest counts of columns.
SIZES: Mapping[str, Mapping[str, float]] = {
    "a5": {
        **{"width": 148, "height": 210, "inside": 13, "outside": 10, "top": 13, "bottom": 12},
        **{"size": 9, "index": 7.2, "letters": 78, "drawing": 100, "spot": 27, "photo": 38, "beside": 64, "qr": 16},
        **{"cols": 1, "contents": 2, "drawings": 2, "places": 2, "columns": 4},
    },
    "a4": {
        **{"width": 210, "height": 297, "inside": 22, "outside": 14, "top": 17, "bottom": 16},
        **{"size": 9.6, "index": 7.6, "letters": 48, "drawing": 80, "spot": 34, "photo": 38, "beside": -1, "qr": 16},
        **{"cols": 2, "contents": 3, "drawings": 1, "places": 1, "columns": 3},
    },
}
_OPENING = frozenset({"van", "place"})  # what begins a page of its own
_TOPICS = ("topic", "emergency")
_AFTER = (
    ("checklist", "Checklists", "index.html#phases"),
    ("place", "Places", "index.html#van"),
    ("lights", "", ""),
    ("numbers", "How your numbers were worked out", "numbers.html"),
    ("safety", "", ""),
    ("notes", "", ""),
)
_ABOUT = "about"


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A chapter: its title, the page of the site it is the paper of, and its pages."""

    title: str
    path: str  # from the manual's root, with anchor
    pages: tuple[p.Page, ...]
    head: tuple[p.Node, ...] = ()
    kind: str = ""  # "van" for the drawings

    @property
    def mark(self) -> str:
        """The name page numbers are looked up by."""
        return f"chapter {self.title}"


def chapters(manual: Manual) -> tuple[Chapter, ...]:
    """Return the chapters of a manual in reading order; the first is read in an emergency where there is one."""
    sections: dict[str, list[p.Page]] = {}
    for page in manual.pages:
        if page.template in _TOPICS:
            sections.setdefault(page.section, []).append(page)
    made = [_of_section(title, pages) for title, pages in sections.items()]
    made.sort(key=lambda one: not any(page.template == "emergency" for page in one.pages))
    first, rest = made[:1], made[1:]
    return (*first, *_van(manual), *rest, *_others(manual))


def _of_section(title: str, pages: Sequence[p.Page]) -> Chapter:
    path = pages[0].crumbs[-1][1] if pages[0].crumbs else ""
    calls = (node for page in pages for node in page.body if isinstance(node, p.Group) and node.role == "call")
    call = next(calls, None)
    return Chapter(title=title, path=path, pages=tuple(pages), head=(call,) if call else ())


def _van(manual: Manual) -> Iterator[Chapter]:
    """Yield what the start page shows of the van: the drawing and the key numbers."""
    home = next((page for page in manual.pages if page.template == "home"), None)
    if home is None:
        return
    for role, title, path in (("van", "The van", "index.html#van"), ("numbers", "Your numbers", "index.html#numbers")):
        groups = [node for node in home.body if isinstance(node, p.Group) and node.role == role]
        if groups:
            head = tuple(node for node in groups[0].children if not (isinstance(node, p.Heading) and node.level == 2))
            yield Chapter(title=title, path=path, pages=(), head=tuple(_raised(head)), kind=role)


def _raised(all_nodes: Sequence[p.Node]) -> Iterator[p.Node]:
    """Yield nodes with their headings one level up, since the heading over them is the chapter's."""
    for node in all_nodes:
        yield replace(node, level=2) if isinstance(node, p.Heading) else node


def _others(manual: Manual) -> Iterator[Chapter]:
    for template, title, path in _AFTER:
        pages = tuple(page for page in manual.pages if page.template == template)
        if title and pages:
            yield Chapter(title=title, path=path, pages=pages)
        elif pages:
            yield _alone(pages[0])
    yield from (_alone(page) for page in manual.pages if page.id == _ABOUT)


def _alone(page: p.Page) -> Chapter:
    return Chapter(title=page.title, path=page.path, pages=(page,))


# --- data for the template --------------------------------------------------------------------------


def booklet_document(manual: Manual, address: str, whole: Whole, size: str) -> Data:
    """Return everything the template prints.

    Args:
        manual: The van's manual.
        address: Where it is online, ending in a slash; "" where that is not known yet.
        whole: Edition, drawings and signs.
        size: A key of ``SIZES``.
    """
    made = chapters(manual)
    values = whole.values(manual)
    at = Setting(values, {**_marks(made), **_marks_of_values(made, values)}, whole.drawings)
    return {
        **common(manual, address, whole, f"{manual.model}, van {manual.tail}: owner manual"),
        "look": SIZES[size],
        "cover": _cover(manual, address, whole, at),
        "chapters": [_chapter(one, at, address) for one in made],
        "places": [
            {"code": page.plate, "name": page.title, "to": page.path}
            for page in manual.pages
            if page.template == "place"
        ],
        "index": index_of(manual, at, [(one.title, one.mark) for one in made]),
    }


def _marks(made: Sequence[Chapter]) -> dict[str, str]:
    """Return where the booklet has what a link on the site leads to."""
    marks = {"contents.html": "contents.html"}
    for chapter in made:
        marks[chapter.path] = chapter.mark
        for page in chapter.pages:
            marks[page.path] = page.path
            if page.template != "safety":  # its headings may go with their messages
                marks |= {mark(page.path, anchor): mark(page.path, anchor) for anchor in _anchors(page.body)}
    return marks


def _marks_of_values(made: Sequence[Chapter], values: Mapping[str, HoleValue]) -> dict[str, str]:
    """Return where tables stand first on the pages of topics, by hole, and where each number is worked out."""
    marks: dict[str, str] = {}
    for chapter in made:
        marks = {**_tables(chapter, values), **marks}
        for page in chapter.pages:
            for value in map(values.get, _holes(page.body)):
                if isinstance(value, Working):
                    ids = (*(one.id for one in value.numbers), *(one.id for one in value.tables))
                    marks |= {mark(page.path, id_): mark(page.path, id_) for id_ in ids}
    return marks


def _tables(chapter: Chapter, values: Mapping[str, HoleValue]) -> dict[str, str]:
    """Return where the tables of a chapter of topics stand, by hole; where one is called again, that place is named."""
    marks: dict[str, str] = {}
    for page in (page for page in chapter.pages if page.template in _TOPICS):
        for name in (name for name in _holes(page.body) if isinstance(values.get(name), DataTable)):
            marks.setdefault(name, table_mark(page.path, name))
    return marks


def _holes(all_nodes: Sequence[p.Node]) -> Iterator[str]:
    for node in all_nodes:
        if isinstance(node, p.FragmentHole):
            yield node.name
        elif isinstance(node, p.Group):
            yield from _holes(node.children)


def _anchors(all_nodes: Sequence[p.Node]) -> Iterator[str]:
    for node in all_nodes:
        if isinstance(node, p.Heading):
            yield node.anchor
        elif isinstance(node, p.Group) and node.role not in ("related", "dealer", "near", "call"):
            yield from _anchors(node.children)


def _chapter(chapter: Chapter, setting: Setting, address: str) -> Data:
    at = replace(setting, marks={**setting.marks, **_tables(chapter, setting.values)})
    alone = len(chapter.pages) == 1 and chapter.pages[0].title == chapter.title
    return {
        "t": chapter.title,
        "id": chapter.mark,
        **code_to(address, chapter.path),
        "kind": chapter.kind,
        "opens": not _OPENING.isdisjoint({chapter.kind, *(page.template for page in chapter.pages)}),
        "listed": _is_listed(chapter),
        "list": any(page.template == "emergency" for page in chapter.pages),
        "head": nodes(chapter.head, at, chapter.path.partition("#")[0]),
        "pages": [
            {
                "t": "" if alone else page.title,
                "plate": page.plate,
                "id": page.path,
                "kind": page.template,
                "depth": 0 if alone else 1,
                "body": nodes(_of_paper(page, first=page is chapter.pages[0]), at, page.path),
            }
            for page in chapter.pages
        ],
    }


def _is_listed(chapter: Chapter) -> bool:
    """Return whether the contents name what a chapter holds, and not only where it begins.

    The headings of the van, of all messages and of what is said about the manual are few pages from the chapter's own;
    those of the messages have the names of other chapters.
    """
    return chapter.kind != "van" and all(page.template != "safety" and page.id != _ABOUT for page in chapter.pages)


def _of_paper(page: p.Page, first: bool) -> Sequence[p.Node]:
    """Return the body of a page without what paper has said just before."""
    if page.template == "safety":
        return tuple(_each_once(page.body))
    if page.template == "numbers" and not first:  # each group opens with the same words
        return tuple(node for node in page.body if not (isinstance(node, p.Paragraph) and node.role == "lead"))
    return page.body


def _each_once(body: Sequence[p.Node]) -> Iterator[p.Node]:
    """Yield the nodes of the page of all messages, each message where it stands first, without empty headings."""
    seen: set[str] = set()
    heading: p.Node | None = None
    for node in body:
        if isinstance(node, p.Heading):
            heading = node
        elif not isinstance(node, p.SafetyBox) or node.message.id not in seen:
            if heading is not None:
                yield heading
                heading = None
            if isinstance(node, p.SafetyBox):
                seen.add(node.message.id)
            yield node


def _cover(manual: Manual, address: str, whole: Whole, at: Setting) -> Data:
    notice = manual.values.get("draft/notice")
    reach = [at.text(name) for name in ("dealer/phone", "dealer/address") if manual.values.get(name)]
    edition = whole.edition
    return {
        "what": "Owner manual",
        "van": manual.model,
        "tail": f"Van {manual.tail}",
        "edition": f"Edition {edition.number}, {edition.day_in_words}" if edition else "Proof, not an edition",
        "draft": notice.text if isinstance(notice, Notice) else "",
        "svg": drawn(whole.cover.svg) if whole.cover else None,
        "emergency": "Emergency: turn this page.",
        "dealer": at.text("dealer/name"),
        "reach": reach,
        **code_to(address, ""),
    }
