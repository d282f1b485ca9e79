"""Turns the tree of a page into HTML with holes.

What stands around the body (head, top line, rail) is left to the template.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from generator.model import pages as p
from generator.model.blocks import Text
from generator.render.element import NOTHING, element, hole, joined
from generator.render.inline import href, line, lines, plate
from generator.render.safety import message_box, message_boxes

_READS = ("You see:", "You hear:", "You smell:", "You feel:")


@dataclass(frozen=True, slots=True)
class Setting:
    """What the nodes of one page need: the way to the root, pictures, anchors its headings take.

    ``cards`` lays the rows of tables out one under the other: four columns of words do not fit a phone.
    """

    root: str
    pictures: Mapping[str, Markup]
    anchors: frozenset[str] = frozenset()
    cards: bool = False


def body(page: p.Page, pictures: Mapping[str, Markup]) -> Markup:
    """Return the body of ``page``: everything under its title."""
    anchors = frozenset(_anchors(page.body))
    return nodes(page.body, Setting(page.root, pictures, anchors, cards=page.template == "lights"))


def has_search(page_nodes: tuple[p.Node, ...]) -> bool:
    """Return whether a search field stands among the nodes."""
    return any(
        isinstance(node, p.Find) or (isinstance(node, p.Group) and has_search(node.children)) for node in page_nodes
    )


def has_group(page_nodes: tuple[p.Node, ...], role: str) -> bool:
    """Return whether a group of this role stands on the page's first level."""
    return any(isinstance(node, p.Group) and node.role == role for node in page_nodes)


def nodes(all_nodes: tuple[p.Node, ...], setting: Setting) -> Markup:
    """Return nodes one after the other."""
    return joined([_node(node, setting) for node in all_nodes], Markup("\n"))


def _anchors(all_nodes: tuple[p.Node, ...]) -> list[str]:
    own = [node.anchor for node in all_nodes if isinstance(node, p.Heading)]
    inner = [anchor for node in all_nodes if isinstance(node, p.Group) for anchor in _anchors(node.children)]
    return own + inner


def _node(node: p.Node, at: Setting) -> Markup:
    match node:
        case p.Heading(level, words, anchor):
            return element(f"h{level}", words, id=anchor)
        case p.Paragraph(all_lines, role):
            return element("p", lines(all_lines, at.root), **({"class_": role} if role else {}))
        case p.Picture():
            return _picture(node)
        case p.SafetyBox(message):
            return message_box(message, at.pictures)
        case p.Steps(items, role):
            kind = f"steps steps--{role}" if role else "steps"
            return element("ol", *(_step(step, at) for step in items), class_=kind, role="list")
        case p.Bullets(items):
            return element("ul", *(element("li", lines(item, at.root)) for item in items))
        case p.Table(head, rows):
            return _cards(head, rows, at) if at.cards else _table(head, rows, at)
        case p.FragmentHole(name):
            return hole("f", name)
        case p.Links(items):
            return element("ul", *(_row(item, at) for item in items), class_="rows", role="list")
        case p.Checks():
            return _checks(node, at)
        case p.Find():
            return _find()
        case p.Group(role, children):
            return _group(role, children, at)


def _step(step: p.Step, at: Setting) -> Markup:
    """Messages come before the words of the step, in the reading order too."""
    action, rest = step.lines[:1], step.lines[1:]
    return element(
        "li",
        message_boxes(step.safety, at.pictures),
        element("p", lines(action, at.root), class_="act"),
        *(element("p", line(one, at.root), class_="see" if _reads(one) else "more") for one in rest),
        *(_picture(picture) for picture in step.pictures),
    )


def _picture(picture: p.Picture | p.FragmentHole) -> Markup:
    if isinstance(picture, p.FragmentHole):
        return hole("f", picture.name)
    return element("figure", hole("f", f"picture/{picture.name}"), class_="picture")


def _reads(one: p.Line) -> bool:
    return bool(one) and isinstance(one[0], Text) and one[0].text.startswith(_READS)


def _table(head: tuple[p.Line, ...], rows: tuple[tuple[p.Line, ...], ...], at: Setting) -> Markup:
    top = element("tr", *(element("th", line(cell, at.root), scope="col") for cell in head))
    body_rows = [
        element(
            "tr",
            *(element("th", line(cell, at.root), scope="row") for cell in row[:1]),
            *(element("td", line(cell, at.root)) for cell in row[1:]),
        )
        for row in rows
    ]
    table = element("table", element("thead", top), element("tbody", *body_rows))
    return element("div", table, class_="scroll", role="group", aria_label="Table", tabindex="0")


def _cards(head: tuple[p.Line, ...], rows: tuple[tuple[p.Line, ...], ...], at: Setting) -> Markup:
    """The first cell heads its card; the others stand beside the heads of their columns."""
    cards = []
    for row in rows:
        pairs = (
            element("div", element("dt", line(name, at.root)), element("dd", line(cell, at.root)))
            for name, cell in zip(head[1:], row[1:], strict=True)
        )
        cards.append(element("li", element("p", line(row[0], at.root), class_="cards__head"), element("dl", *pairs)))
    return element("ul", *cards, class_="cards", role="list")


def _row(item: p.LinkItem, at: Setting) -> Markup:
    words = element(
        "span",
        element("span", item.title, class_="row__title"),
        element("span", item.note, class_="row__note") if item.note else NOTHING,
        class_="row__text",
    )
    before = joined([plate(item.plate), Markup(" ")]) if item.plate else NOTHING
    return element("li", element("a", before, words, class_="row", href=_target(item, at)))


def _target(item: p.LinkItem, at: Setting) -> Markup | str:
    """``site/single`` and ``site/zip`` are files whose names only ``fill`` knows."""
    if item.path.startswith("site/"):
        return Markup(at.root) + hole("n", item.path)
    return href(item.path, item.anchor, at.root)


def _checks(checks: p.Checks, at: Setting) -> Markup:
    rows = [
        element(
            "li",
            element(
                "label",
                element("input", type="checkbox", data_check=check.id),
                " ",
                element("span", line(check.line, at.root)),
            ),
            element("a", "How", _unseen(check, at), href=href(check.path, check.anchor, at.root)),
        )
        for check in checks.items
    ]
    # Script counts, keeps and clears the ticks; without it the boxes tick and nothing is kept.
    return joined(
        [
            element("p", class_="ticks", role="status"),
            element("ul", *rows, class_="checks", role="list", data_checks=checks.id),
            element("p", element("button", "Clear the ticks", type="button"), class_="reset", hidden=True),
        ],
        Markup("\n"),
    )


def _unseen(check: p.Check, at: Setting) -> Markup:
    return element("span", ": ", line(check.line, at.root), class_="unseen")


def _find() -> Markup:
    field = element(
        "input",
        id="find",
        type="search",
        name="q",
        autocomplete="off",
        autocapitalize="none",
        spellcheck="false",
        enterkeyhint="search",
        maxlength="80",
    )
    form = element(
        "form",
        element("label", "Find: a code, or what you see", for_="find"),
        field,
        element("p", id="found-count", class_="found__count", role="status"),
        element("ol", id="found", class_="rows found", role="list"),
        class_="find",
        role="search",
        aria_label="This manual",
    )
    return form + element("noscript", element("p", "Finding needs script. All pages are listed below.", class_="note"))


def _group(role: str, children: tuple[p.Node, ...], at: Setting) -> Markup:
    kind = "section" if any(isinstance(child, p.Heading) for child in children) else "div"
    inner = nodes(children, at)
    # Rail and page script point at these; a heading in the group may already carry the name.
    if role in ("emergency", "more") and role not in at.anchors:
        return element(kind, inner, class_=f"group group--{role}", id=role)
    return element(kind, inner, class_=f"group group--{role}")
