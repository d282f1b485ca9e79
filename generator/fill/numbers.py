"""Writes numbers, tables and workings as HTML.

What they say was worked out before; nothing is rounded or judged here.
"""

import re
from collections.abc import Container
from datetime import date

from markupsafe import Markup

from generator.fill.chart import bar_chart
from generator.fill.holes import printable
from generator.model.manual import Summary, Working
from generator.model.numbers import DataTable, Input, Number, Verdict
from generator.model.wording import ROUNDING, origin_of

_FIGURE = 16  # characters of the longest value that is set large
_VALUE = re.compile(r"(?<=\d) (?=[A-Za-z])")
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


def _verdict(verdict: Verdict) -> Markup:
    """The words say it; the frame's shape repeats them without colour."""
    return Markup('<p class="verdict verdict--{}">{}</p>').format(_SHAPE[verdict], verdict.value)


def data_table(table: DataTable) -> Markup:
    """Return a table that scrolls by itself where the screen is narrow, after its chart if it has one."""
    head = _cells("th", table.head, ' scope="col"')
    rows = [
        Markup("<tr{}>{}{}</tr>").format(_due(due), _cells("th", row[:1], ' scope="row"'), _cells("td", row[1:]))
        for row, due in zip(table.rows, table.due or (None,) * len(table.rows), strict=True)
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


def working(work: Working) -> Markup:
    """Return numbers and tables with their inputs, method and source.

    What a table shares with the numbers above it is not printed twice.
    """
    said = {one for number in work.numbers for one in number.inputs}
    parts = [_worked_number(number) for number in work.numbers] + [_worked_table(table, said) for table in work.tables]
    return Markup('<div class="workings">\n{}\n</div>').format(Markup("\n").join(parts))


def _worked_number(number: Number) -> Markup:
    missing = Markup("").join(Markup("<li>{}</li>").format(printable(one)) for one in number.missing)
    return Markup('<div class="working">\n{}\n{}{}{}{}{}\n</div>').format(
        number_panel(number, _title(number)),
        _p("", number.method) + _formula(number),
        _inputs(number.inputs),
        Markup('<p>To fill in, read:</p><ul class="missing">{}</ul>').format(missing) if missing else Markup(""),
        _p("", ROUNDING[number.rounding]) if number.value is not None else Markup(""),
        _source(number.source),
    )


def _formula(number: Number) -> Markup:
    """The method with the values put in, a line each."""
    # A value and its unit stay on one line.
    lines = Markup("<br>").join(printable(_VALUE.sub("\N{NO-BREAK SPACE}", line)) for line in number.worked)
    return Markup('<p class="worked">{}</p>').format(lines) if number.worked else Markup("")


def _title(one: Number) -> Markup:
    """A heading, so that a long page of numbers is gone through from one to the next; rows lead to it."""
    return Markup('<h2 class="number__title" id="{}">{}</h2>').format(one.id, printable(one.title))


def _worked_table(table: DataTable, said: Container[Input]) -> Markup:
    method = _p("", table.method) if table.method else Markup("")
    source = _source(table.source) if table.source else Markup("")
    own = tuple(one for one in table.inputs if one not in said)
    above = _p("", "What else it is made from stands above.") if len(own) < len(table.inputs) else Markup("")
    parts = table.id, data_table(table), method, _inputs(own) + above, source
    return Markup('<div class="working" id="{}">\n{}\n{}{}{}\n</div>').format(*parts)


def _inputs(inputs: tuple[Input, ...]) -> Markup:
    if not inputs:
        return Markup("")
    return Markup('<ul class="inputs" role="list">{}</ul>').format(Markup("").join(_input(one) for one in inputs))


def _input(one: Input) -> Markup:
    return Markup(
        '<li><span class="inputs__name">{}</span> <strong>{}</strong> <span class="inputs__from">{}</span></li>'
    ).format(printable(one.name), printable(one.shown), printable(origin_of(one)))


def _source(source: str) -> Markup:
    return _p("source", f"Source: {source}")


def _p(kind: str, words: str) -> Markup:
    start = Markup('<p class="{}">').format(kind) if kind else Markup("<p>")
    return start + printable(words) + Markup("</p>")
