"""Turns the tree of a page into data for the Typst templates, holes filled with one van's values.

How it looks is left to ``parts.typ``. Texts stay data on the way and are never Typst source.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.errors import Fault, PublishError
from generator.model import manual as m
from generator.model.blocks import Text
from generator.model.content import SafetyMessage
from generator.model.numbers import BarChart, DataTable, Input, Number
from generator.model.paper import Picture
from generator.model.pictures import Picture as Photo
from generator.model.wording import ROUNDING, origin_of
from generator.paper.pictures import drawn, standing

Data = dict[str, object]

_DROPPED = ("related", "dealer", "near", "find", "snags")  # groups that lead on a screen; paper has contents and index
_READS = ("You see:", "You hear:", "You smell:", "You feel:")
_LONG_WORD = re.compile(r"\S{17,}")
_BREAK = "\u200b"
_LINE = 70  # letters of a line on A5, about
_PADDING = 2  # letters that the edges of a cell take
_SHORT = 16  # letters of a column that is never made narrower
_VALUE = 10  # letters of a value with its unit


def mark(path: str, anchor: str = "") -> str:
    """Return the name of a place in the booklet that page numbers are looked up for."""
    return f"{path}#{anchor}" if anchor else path


def breakable(words: str) -> str:
    """Return ``words`` with places to break where a word is too long for a line: an address at its slashes."""
    return _LONG_WORD.sub(_broken, words)


def _broken(word: re.Match[str]) -> str:
    start, slashes, rest = word[0].rpartition("://")
    parts = [part for part in re.split(r"(?<=/)", rest) if part]
    return start + slashes + _BREAK.join(_BREAK.join(re.findall(".{1,16}", part)) for part in parts)


@dataclass(frozen=True, slots=True)
class Setting:
    """What the nodes of one van need.

    Args:
        values: What fills the holes, edition included.
        marks: Where the booklet has something, by link target.
        drawings: Pictures by hole name.
    """

    values: Mapping[str, m.HoleValue]
    marks: Mapping[str, str]
    drawings: Mapping[str, tuple[Picture, ...]]

    def text(self, name: str) -> str:
        """Return the text that fills a hole."""
        value = self.values.get(name)
        if not isinstance(value, str):
            raise PublishError(Fault(f'no text for "{name}"'))
        return breakable(value)

    def to(self, path: str, anchor: str = "") -> str | None:
        """Return the mark that a link leads to; None where paper has no such thing."""
        return self.marks.get(mark(path, anchor)) or self.marks.get(path)


# --- inline -----------------------------------------------------------------------------------------


def line(inlines: m.Line, at: Setting) -> list[object]:
    """Return one line: strings, and mappings with "k" for everything that is more."""
    return [part for inline in inlines for part in _inline(inline, at)]


def lines(all_lines: Iterable[m.Line], at: Setting) -> list[list[object]]:
    """Return several lines."""
    return [line(one, at) for one in all_lines]


def _inline(inline: m.Inline, at: Setting) -> list[object]:
    match inline:
        case Text(text):
            return [breakable(text)]
        case m.Strong(children):
            return [{"k": "b", "x": line(children, at)}]
        case m.Emphasis(children):
            return [{"k": "i", "x": line(children, at)}]
        case m.Ref(path, anchor, children):
            return [{"k": "ref", "x": line(children, at), "to": at.to(path, anchor)}]
        case m.PlaceRef(code, name):
            return [{"k": "plate", "code": code, "name": name, "to": at.to(f"{code}/index.html")}]
        case m.Call(number):
            return [{"k": "b", "x": [number]}]
        case m.TextHole(name):
            return [at.text(name)]
        case m.DialHole(name):
            return [{"k": "b", "x": [at.text(name)]}]


# --- nodes ------------------------------------------------------------------------------------------


def nodes(all_nodes: Iterable[m.Node], at: Setting, path: str) -> list[Data]:
    """Return the nodes of the page at ``path``, without what only a screen needs."""
    made = [done for node in all_nodes for done in _node(node, at, path)]
    for before, after in pairwise(made):
        if before["k"] == "h" and after["k"] == "data" and before["t"] == after["t"]:
            after["t"] = ""  # the heading says it
    return made


def _node(node: m.Node, at: Setting, path: str) -> list[Data]:
    match node:
        case m.Heading(level, words, anchor):
            return [{"k": "h", "l": level, "t": breakable(words), "id": mark(path, anchor)}]
        case m.Paragraph(all_lines, role):
            return [{"k": "p", "r": role, "x": lines(all_lines, at)}]
        case m.Picture():
            return [_picture(node, at)]
        case m.SafetyBox(message):
            return [{"k": "s", "m": safety(message)}]
        case m.Steps(items):
            return [{"k": "ol", "x": [_step(step, at) for step in items]}]
        case m.Bullets(items):
            return [{"k": "ul", "x": [lines(item, at) for item in items]}]
        case m.Table(head, rows):
            return [_table(head, rows, at)]
        case m.FragmentHole(name):
            return _fragment(name, at)
        case m.Links(items):
            return [{"k": "links", "x": [row for item in items for row in _row(item, at)]}]
        case m.Checks(_, items):
            return [{"k": "checks", "x": [{"x": line(c.line, at), "to": at.to(c.path, c.anchor)} for c in items]}]
        case m.Find():
            return []
        case m.Group(role, children):
            return [] if role in _DROPPED else [{"k": "g", "r": role, "x": nodes(children, at, path)}]


def _table(head: tuple[m.Line, ...], rows: tuple[tuple[m.Line, ...], ...], at: Setting) -> Data:
    columns = [[_plain(one, at) for one in (name, *(row[n] for row in rows))] for n, name in enumerate(head)]
    return {
        "k": "t",
        "head": lines(head, at),
        "rows": [lines(row, at) for row in rows],
        "w": widths(columns),
    }


def _plain(one: m.Line, at: Setting) -> str:
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


def _step(step: m.Step, at: Setting) -> Data:
    """The messages of a step go with it; lines that say what to see or hear are told apart."""
    return {
        "m": [safety(message) for message in step.safety],
        "x": [{"x": line(one, at), "see": _reads(one)} for one in step.lines],
        "pics": [_picture(picture, at) for picture in step.pictures],
    }


def _reads(one: m.Line) -> bool:
    return bool(one) and isinstance(one[0], Text) and one[0].text.startswith(_READS)


def _row(item: m.LinkItem, at: Setting) -> list[Data]:
    """Return a row of links; files to be kept are nothing that paper leads to."""
    if item.path.startswith("site/"):
        return []
    return [{"t": breakable(item.title), "n": item.note, "p": item.plate, "to": at.to(item.path, item.anchor)}]


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


def _picture(picture: m.Picture, at: Setting) -> Data:
    """Return a drawing or photograph of the text, with its words for a reader that reads aloud."""
    value = at.values.get(f"picture/{picture.name}")
    if not isinstance(value, Photo):
        raise PublishError(Fault(f'no picture "{picture.name}" to print'))
    drawing = value.file.form == "svg"
    data: object = standing(value.file.data.decode("utf-8")) if drawing else list(value.file.data)
    return {"k": "photo", "f": value.file.form, "data": data, "t": picture.alt}


def _fragment(name: str, at: Setting) -> list[Data]:
    value = at.values.get(name)
    match value:
        case Number():
            return [number(value)]
        case DataTable():
            return [data_table(value)]
        case m.Working(numbers=numbers, tables=tables):
            return [*(_worked_number(one) for one in numbers), *(_worked_table(one) for one in tables)]
        case m.Summary():
            return [_summary(value, at)]
        case m.VanDrawing():
            return [
                {"k": "pic", "svg": drawn(picture.svg), "t": picture.caption} for picture in at.drawings.get(name, ())
            ]
        case _:
            raise PublishError(Fault(f'nothing to print for "{name}"'))


def number(one: Number) -> Data:
    """Return a key number: title, value, verdict and the sentence against its limit."""
    return {
        "k": "num",
        "t": one.title,
        "v": one.shown,
        "known": one.value is not None,
        "verdict": one.verdict.value if one.verdict else "",
        "s": one.sentence or (f"Limit {one.limit}." if one.limit else ""),
    }


def _summary(summary: m.Summary, at: Setting) -> Data:
    """Return numbers and tables in a row each, with the page of their working."""
    rows: list[Data] = [
        {"t": one.title, "v": one.shown, "verdict": one.verdict.value if one.verdict else ""} for one in summary.numbers
    ]
    rows += [{"t": table.title, "v": "", "verdict": ""} for table in summary.tables]
    return {"k": "sum", "x": rows, "to": at.to(summary.path)}


def data_table(table: DataTable) -> Data:
    """Return a table of values with its note."""
    head, rows = [breakable(cell) for cell in table.head], [[_cell(cell) for cell in row] for row in table.rows]
    columns = [[name, *(row[number] for row in rows)] for number, name in enumerate(head)]
    return {
        **{"k": "data", "t": table.title, "head": head, "rows": rows, "w": widths(columns), "note": table.note},
        "chart": _chart(table.chart) if table.chart else None,
    }


def _chart(chart: BarChart) -> Data:
    """Return bars and limits as shares of the longest, each with its words."""
    most = max((bar.value for bar in (*chart.bars, *chart.limits)), default=0.0)
    scale = max(most, chart.most or 0.0) or 1.0
    bars, limits = (
        [[one.label, max(one.value, 0.0) / scale, one.shown] for one in some] for some in (chart.bars, chart.limits)
    )
    return {"t": chart.title, "bars": bars, "limits": limits}


def _cell(words: str) -> str:
    """Return the words of a cell; a value and its unit stay on one line."""
    return words.replace(" ", "\u00a0") if len(words) <= _VALUE else breakable(words)


def widths(columns: Sequence[Sequence[str]]) -> list[tuple[str, float]]:
    """Return how wide columns are, the head of each first: "auto", letters, or shares of what is left.

    Where all that is in them fits beside each other, only the first takes what is left.
    """
    whole = [max(len(words) for words in column) for column in columns]
    if sum(whole) <= _LINE:
        return [("share", 1), *(("auto", 0) for _ in whole[1:])]
    needs = [_weight(head, cells) for head, *cells in columns]
    return [("letters", need + _PADDING) if need <= _SHORT else ("share", need) for need in needs]


def _weight(head: str, cells: Sequence[str]) -> int:
    """Return about how many letters a column needs, its head on two lines and a long cell on several."""
    longest_word = max((len(word) for words in (head, *cells) for word in words.split()), default=0)
    longest = max((len(cell) for cell in cells), default=0)
    return max(min(longest, _LINE), len(head) // 2, longest_word)


def _worked_number(one: Number) -> Data:
    return {
        "k": "work",
        "of": number(one),
        "method": one.method,
        "worked": [breakable(line) for line in one.worked],
        "inputs": _inputs(one.inputs),
        "missing": one.missing,
        "rounding": ROUNDING[one.rounding] if one.value is not None else "",
        "source": one.source,
    }


def _worked_table(table: DataTable) -> Data:
    return {
        "k": "work",
        "of": data_table(table),
        "method": table.method,
        "worked": [],
        "inputs": [],
        "missing": [],
        "rounding": "",
        "source": table.source,
    }


def _inputs(inputs: Sequence[Input]) -> list[list[object]]:
    """Return inputs by where they come from; one by one they would fill pages."""
    found: dict[str, list[list[str]]] = {}
    for one in inputs:
        origin = origin_of(one)
        origin = origin[0].upper() + origin[1:]
        found.setdefault(origin, []).append([breakable(one.name), breakable(one.shown)])
    return [[origin, given] for origin, given in found.items()]
