"""Writes numbers, tables and workings as HTML.

What they say was worked out before; nothing is rounded or judged here.
"""

import re
from collections.abc import Container
from datetime import date

from markupsafe import Markup

from generator.fill.chart import bar_chart
from generator.fill.holes import printable
from generator.fill.worked import folded, sums
from generator.model.holes import Summary, Verdicts, Working
from generator.model.numbers import DataTable, Input, Number, Verdict
from generator.model.wording import ROUNDING, origin_of

_FIGURE = 16  # characters of the longest value that is set large
_UNITS = "kg|g|g/h|m|cm|mm²|L|mL|V|A|Ah|W|Wh|kN|kPa|bar|h|min|%|°C|days?"
_VALUE = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?![\w/]))")
_SHARED = "made-from"
_FEW = 6  # inputs that are read at a glance
_SHAPE = {Verdict.WITHIN: "within", Verdict.CLOSE: "close", Verdict.OVER: "over"}


def number_panel(number: Number, title: Markup | None = None) -> Markup:
    """Return a key number: its name, value, verdict, and the sentence that sets it against its limit."""
    parts = [title or _p("number__title", number.title), _value(number)]
    if number.verdict is not None:
        parts.append(_verdict(number.verdict))
    if number.sentence:
        parts.append(_p("number__sentence", number.sentence))
    elif number.limit:
        parts.append(_p("number__sentence", f"Limit {number.limit}."))
    return Markup('<div class="number">{}</div>').format(Markup("\n").join(parts))


def _value(number: Number) -> Markup:
    if number.value is None:
        return _p("number__missing", number.shown)
    # "2 days in cold weather, 5 in mild" is read as a sentence, "74 kg" as a figure.
    return _p("number__value number__value--words" if len(number.shown) > _FIGURE else "number__value", number.shown)


def _verdict(verdict: Verdict, tag: str = "p") -> Markup:
    """The words say it; the frame's shape repeats them without colour."""
    return Markup('<{0} class="verdict verdict--{1}">{2}</{0}>').format(tag, _SHAPE[verdict], verdict.value)


def data_table(table: DataTable) -> Markup:
    """Return a table that scrolls by itself where the screen is narrow, after its chart if it has one."""
    head = _cells("th", table.head, ' scope="col"')
    rows = [
        Markup("<tr{}>{}{}</tr>").format(_due(due), _cells("th", row[:1], ' scope="row"'), _cells("td", row[1:]))
        for row, due in zip(map(_kept, table.rows), table.due or (None,) * len(table.rows), strict=True)
    ]
    note = _p("table__note", table.note) if table.note else Markup("")
    chart = bar_chart(table.chart, f"chart-{table.id}") + Markup("\n") if table.chart else Markup("")
    return chart + Markup(
        '<div class="scroll" role="group" aria-label="{}" tabindex="0">\n<table>\n<caption>{}</caption>\n'
        "<thead><tr>{}</tr></thead>\n<tbody>\n{}\n</tbody>\n</table>\n</div>{}"
    ).format(printable(table.title), printable(table.title), head, Markup("\n").join(rows), note)


def _due(due: tuple[date, int] | None) -> Markup:
    """The page script says which dates lie behind: only the reader's own clock knows."""
    return Markup(' data-due="{}" data-every="{}"').format(due[0].isoformat(), due[1]) if due else Markup("")


def _kept(row: tuple[str, ...]) -> tuple[str, ...]:
    """Return the cells of a row, each value on one line with its unit."""
    return tuple(_VALUE.sub("\N{NO-BREAK SPACE}", cell) for cell in row)


def _cells(tag: str, texts: tuple[str, ...], scope: str = "") -> Markup:
    cell = Markup(f"<{tag}{scope}>{{}}</{tag}>")
    return Markup("").join(cell.format(printable(text)) for text in texts)


def summary(group: Summary, root: str) -> Markup:
    """Return a row for each number and table, linked to where it is worked out."""
    rows = [_row(root + group.path, number, _said(number)) for number in group.numbers]
    rows += [_row(root + group.path, table, Markup("Table")) for table in group.tables]
    return Markup('<ul class="rows" role="list">\n{}\n</ul>').format(Markup("\n").join(rows))


def _row(page: str, one: Number | DataTable, said: Markup) -> Markup:
    return Markup(
        '<li><a class="row" href="{}#{}"><span class="row__text"><span class="row__title">{}</span>'
        '<span class="row__note">{}</span></span></a></li>'
    ).format(page, one.id, printable(one.title), said)


def _said(number: Number) -> Markup:
    """The value, and how it stands to its limit in words."""
    if number.value is None:
        return printable(number.shown)
    shown = Markup("<strong>{}</strong>").format(printable(number.shown))
    return shown + (printable(f". {number.verdict.value}.") if number.verdict else Markup(""))


def verdicts(judged: Verdicts, root: str) -> Markup:
    """Return a row for each number that has a limit: the verdict in words, the value, what moves it."""
    if not judged.numbers:
        return _p("", "No number of this van can be compared with a limit yet. Each says below what to read.")
    rows = [_judged(root + path, number) for path, number in judged.numbers]
    return Markup('<ul class="rows rows--judged" role="list">\n{}\n</ul>').format(Markup("\n").join(rows))


def _judged(page: str, number: Number) -> Markup:
    verdict = _verdict(number.verdict, "span") if number.verdict else Markup("")
    # Most sentences open with the value; it is not said twice.
    more = number.sentence.removeprefix(number.shown)
    gap = "" if number.sentence and more != number.sentence else ". " if more else "."
    said = Markup("<strong>{}</strong>{}{}").format(printable(number.shown), gap, printable(more))
    moves = Markup('<span class="row__note">What moves it: {}</span>').format(printable(number.moves))
    return Markup(
        '<li><a class="row" href="{}#{}"><span class="row__text">{} <span class="row__title">{}</span>'
        '<span class="row__note">{}</span>{}</span></a></li>'
    ).format(page, number.id, verdict, printable(number.title), said, moves if number.moves else Markup(""))


def working(work: Working) -> Markup:
    """Return numbers and tables with their sums, inputs, method and source.

    What several are made from stands once, at the end.
    """
    shared = work.shared
    parts = [_worked_number(number, shared) for number in work.numbers]
    parts += [_worked_table(table, shared) for table in work.tables]
    if shared:
        head = Markup('<h2 class="number__title" id="{}">Used more than once on this page</h2>').format(_SHARED)
        parts.append(Markup('<div class="working">\n{}\n{}\n</div>').format(head, _listed(shared)))
    return Markup('<div class="workings">\n{}\n</div>').format(Markup("\n").join(parts))


def _worked_number(number: Number, shared: Container[Input]) -> Markup:
    missing = Markup("").join(Markup("<li>{}</li>").format(printable(one)) for one in number.missing)
    return Markup('<div class="working">\n{}\n{}{}{}{}\n</div>').format(
        number_panel(number, _title(number)),
        _p("", number.method) + sums(number.worked),
        _own(number.inputs, shared),
        Markup('<p>To fill in, read:</p><ul class="missing">{}</ul>').format(missing) if missing else Markup(""),
        _source(number.inputs, shared, ROUNDING[number.rounding] if number.value is not None else "", number.source),
    )


def _title(one: Number) -> Markup:
    """A heading, so that a long page of numbers is gone through from one to the next; rows lead to it."""
    return Markup('<h2 class="number__title" id="{}">{}</h2>').format(one.id, printable(one.title))


def _worked_table(table: DataTable, shared: Container[Input]) -> Markup:
    method = _p("", table.method) if table.method else Markup("")
    source = _source(table.inputs, shared, "", table.source)
    return Markup('<div class="working" id="{}">\n{}\n{}{}{}{}\n</div>').format(
        table.id, data_table(table), method, folded(table.worked), _own(table.inputs, shared), source
    )


def _own(inputs: tuple[Input, ...], shared: Container[Input]) -> Markup:
    return _inputs(tuple(one for one in inputs if one not in shared))


def _inputs(inputs: tuple[Input, ...]) -> Markup:
    """Return inputs by where they come from; many of them under a line that opens them."""
    if len(inputs) <= _FEW:
        return _listed(inputs)
    summary = f"What it was made from: {len(inputs)} values"
    return Markup('<details class="sums">\n<summary>{}</summary>\n{}\n</details>').format(summary, _listed(inputs))


def _listed(inputs: tuple[Input, ...]) -> Markup:
    if not inputs:
        return Markup("")
    found: dict[str, list[Input]] = {}
    for one in inputs:
        found.setdefault(origin_of(one), []).append(one)
    items = Markup("\n").join(_origin(origin, some) for origin, some in found.items())
    return Markup('<ul class="inputs" role="list">\n{}\n</ul>').format(items)


def _origin(origin: str, inputs: list[Input]) -> Markup:
    values = (
        Markup('<span class="inputs__one">{} <strong>{}</strong></span>').format(
            printable(one.name), printable(one.shown)
        )
        for one in inputs
    )
    return Markup('<li>{} <span class="inputs__from">{}</span></li>').format(
        Markup(" ").join(values), printable(origin)
    )


def _source(inputs: tuple[Input, ...], shared: Container[Input], rounding: str, source: str) -> Markup:
    """Return what is left to say: where the other inputs stand, the rounding, and who says so."""
    elsewhere = [one for one in inputs if one in shared]
    parts = []
    if elsewhere:
        what = "What it was made from" if len(elsewhere) == len(inputs) else "The rest it was made from"
        parts.append(Markup('<a href="#{}">{}</a> stands at the end.').format(_SHARED, what))
    parts += [printable(said) for said in (rounding, f"Source: {source}" if source else "") if said]
    return Markup('<p class="source">{}</p>').format(Markup(" ").join(parts)) if parts else Markup("")


def _p(kind: str, words: str) -> Markup:
    start = Markup('<p class="{}">').format(kind) if kind else Markup("<p>")
    return start + printable(words) + Markup("</p>")
