"""Turns the tree of a page into data for the Typst templates, holes filled with one van's values.

How it looks is left to ``parts.typ``; numbers and tables are made data in ``figures``. Texts stay data on the way and
are never Typst source.
"""

import re
from collections.abc import Iterable
from itertools import pairwise

from generator.errors import Fault, PublishError
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.content import SafetyMessage
from generator.model.holes import Summary, VanDrawing, Verdicts, Working
from generator.model.numbers import DataTable, Number
from generator.model.panels import PanelDrawing
from generator.model.paper import Picture
from generator.model.pictures import Picture as Photo
from generator.paper.figures import data_table, number, summary, verdicts, widths, workings
from generator.paper.pictures import drawn, standing
from generator.paper.setting import Data, Setting, breakable, mark

# Groups that lead on a screen, where paper has contents and index; panels and cautions stand in its procedures.
_DROPPED = ("related", "dealer", "near", "find", "snags", "drawn", "cautions")
_NO_ROWS: Data = {"k": "links", "x": []}
_UNIT = 0.17  # mm of a drawing unit of a panel: its letters are 16 high, here 7.7 pt
_READS = ("You see:", "You hear:", "You smell:", "You feel:")
_WARNED = re.compile(r"Read its (DANGER|WARNING|CAUTION|NOTICE) first\.")


# --- inline -----------------------------------------------------------------------------------------


def line(inlines: p.Line, at: Setting) -> list[object]:
    """Return one line: strings, and mappings with "k" for everything that is more."""
    return [part for inline in inlines for part in _inline(inline, at)]


def lines(all_lines: Iterable[p.Line], at: Setting) -> list[list[object]]:
    """Return several lines."""
    return [line(one, at) for one in all_lines]


def _inline(inline: p.Inline, at: Setting) -> list[object]:
    match inline:
        case Text(text):
            return [breakable(text)]
        case p.Strong(children):
            return [{"k": "b", "x": line(children, at)}]
        case p.Emphasis(children):
            return [{"k": "i", "x": line(children, at)}]
        case p.Ref(path, anchor, children):
            return [{"k": "ref", "x": line(children, at), "to": at.to(path, anchor)}]
        case p.PlaceRef(code, name):
            return [{"k": "plate", "code": code, "name": name, "to": at.to(f"{code}/index.html")}]
        case p.Call(number):
            return [{"k": "b", "x": [number]}]
        case p.TextHole(name):
            return [at.text(name)]
        case p.DialHole(name):
            return [{"k": "b", "x": [at.text(name)]}]


# --- nodes ------------------------------------------------------------------------------------------


def nodes(all_nodes: Iterable[p.Node], at: Setting, path: str) -> list[Data]:
    """Return the nodes of the page at ``path``, without what only a screen needs."""
    made = [done for node in all_nodes for done in _node(node, at, path)]
    for before, after in pairwise(made):
        if before["k"] == "h" and after["k"] == "data" and before["t"] == after["t"]:
            after["t"] = ""  # the heading says it
    heads_nothing = [before["k"] == "h" and after == _NO_ROWS for before, after in pairwise(made)]
    return [one for one, dropped in zip(made, (*heads_nothing, False), strict=False) if not dropped and one != _NO_ROWS]


def _node(node: p.Node, at: Setting, path: str) -> list[Data]:
    match node:
        case p.Heading(level, words, anchor):
            return [{"k": "h", "l": level, "t": breakable(words), "id": mark(path, anchor)}]
        case p.Paragraph(all_lines, role):
            return [{"k": "p", "r": role, "x": lines(all_lines, at)}]
        case p.Picture():
            return [_picture(node, at)]
        case p.SafetyBox(message):
            return [{"k": "s", "m": safety(message)}]
        case p.Steps(items):
            return [{"k": "ol", "x": [_step(step, at) for step in items]}]
        case p.Bullets(items):
            return [{"k": "ul", "x": [lines(item, at) for item in items]}]
        case p.Table(head, rows):
            return [_table(head, rows, at)]
        case p.FragmentHole(name):
            return _fragment(name, at, path)
        case p.Links(items):
            return [{"k": "links", "x": [row for item in items for row in _row(item, at)]}]
        case p.Checks(_, items):
            return [{"k": "checks", "x": [{"x": line(c.line, at), "to": at.to(c.path, c.anchor)} for c in items]}]
        case p.Find():
            return []
        case p.Group(role, children):
            return [] if role in _DROPPED else [{"k": "g", "r": role, "x": nodes(children, at, path)}]


def _table(head: tuple[p.Line, ...], rows: tuple[tuple[p.Line, ...], ...], at: Setting) -> Data:
    columns = [[_plain(one, at) for one in (name, *(row[n] for row in rows))] for n, name in enumerate(head)]
    return {
        "k": "t",
        "head": lines(head, at),
        "rows": [lines(row, at) for row in rows],
        "w": widths(columns),
    }


def _plain(one: p.Line, at: Setting) -> str:
    """Return a line as about the text that is printed, to see how long it is."""

    def of(part: object) -> str:
        if isinstance(part, str):
            return part
        if isinstance(part, dict):
            return f"{part.get('code', '')}    {part.get('name', '')}" + "".join(
                of(inner) for inner in part.get("x", ())
            )
        return ""

    return "".join(of(part) for part in line(one, at))


def _step(step: p.Step, at: Setting) -> Data:
    """The messages of a step go with it; lines that say what to see or hear are told apart."""
    return {
        "m": [safety(message) for message in step.safety],
        "x": [{"x": line(one, at), "see": _reads(one)} for one in step.lines],
        "pics": [shown for picture in step.pictures for shown in _node(picture, at, "")],
    }


def _reads(one: p.Line) -> bool:
    return bool(one) and isinstance(one[0], Text) and one[0].text.startswith(_READS)


def _row(item: p.LinkItem, at: Setting) -> list[Data]:
    """Return a row of links, none where paper has no such thing: planners, and files to be kept.

    A note that names the message to be read first is that word alone, as the heading of all places explains.
    """
    to = at.to(item.path, item.anchor)
    if to is None:
        return []
    warned = _WARNED.fullmatch(item.note)
    return [
        {
            "t": breakable(item.title),
            "n": "" if warned else item.note,
            "signal": warned[1] if warned else "",
            "p": item.plate,
            "to": to,
        }
    ]


def safety(message: SafetyMessage) -> Data:
    """Return a safety message."""
    return {
        "signal": message.signal,
        "hazard": message.hazard.value,
        "consequence": message.consequence.value,
        "avoid": message.avoid.value,
        "sign": message.sign,
    }


# --- what is made from values -------------------------------------------------------------------------


def _picture(picture: p.Picture, at: Setting) -> Data:
    """Return a drawing or photograph of the text, with its words for a reader that reads aloud."""
    value = at.values.get(f"picture/{picture.name}")
    if not isinstance(value, Photo):
        raise PublishError(Fault(f'no picture "{picture.name}" to print'))
    drawing = value.file.form == "svg"
    data: object = standing(value.file.data.decode("utf-8")) if drawing else list(value.file.data)
    return {"k": "photo", "f": value.file.form, "data": data, "t": picture.alt}


def _panel(picture: Picture) -> Data:
    """Return the sketch of a panel, in a size at which its words are read."""
    words, width = picture.caption, picture.width * _UNIT
    return {"k": "photo", "f": "svg", "data": drawn(picture.svg), "t": words, "w": width, "note": picture.note}


def _fragment(name: str, at: Setting, path: str) -> list[Data]:
    value = at.values.get(name)
    match value:
        case Number():
            return [number(value)]
        case DataTable():
            return [data_table(value, table_mark(path, name), at.marks.get(name))]
        case Working():
            return workings(value, at, path)
        case Summary():
            return [summary(value, at)]
        case Verdicts():
            return [verdicts(value, at)]
        case VanDrawing():
            small = name.startswith("drawing/place/")
            return [{"k": "pic", "svg": drawn(one.svg, small), "t": one.caption} for one in at.drawings.get(name, ())]
        case PanelDrawing():
            return [_panel(picture) for picture in at.drawings.get(name, ())]
        case _:
            raise PublishError(Fault(f'nothing to print for "{name}"'))


def table_mark(path: str, name: str) -> str:
    """Return the mark of the table in the hole ``name`` of a page."""
    return f"{path} {name}"
