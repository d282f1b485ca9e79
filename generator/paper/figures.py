"""Numbers, tables, charts and workings as data for the Typst templates.

How they look is left to the templates. The values that the numbers of a group were made from are listed once and have
a number each, since one by one they would fill pages.
"""

from collections.abc import Mapping, Sequence
from itertools import groupby

from generator.model.holes import Summary, Verdicts, Working
from generator.model.numbers import BarChart, DataTable, Input, Number
from generator.model.wording import ROUNDING, origin_of
from generator.paper.setting import Data, Setting, breakable, mark

_LONG = 70  # letters of a cell from which on it takes no larger share
_VALUE = 10  # letters of a value with its unit


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


def data_table(table: DataTable, here: str = "", first: str | None = None) -> Data:
    """Return a table of values with its note.

    Args:
        table: The table.
        here: The mark of this place.
        first: The mark of the place where the table is printed; elsewhere that place is named instead of its rows.
    """
    head, rows = [breakable(cell) for cell in table.head], [[_cell(cell) for cell in row] for row in table.rows]
    columns = [[name, *(row[number] for row in rows)] for number, name in enumerate(head)]
    again = first is not None and first != here
    return {
        **{"k": "data", "t": table.title, "id": first if first == here else None, "to": first if again else None},
        **{"head": head, "rows": [] if again else rows, "w": widths(columns), "note": "" if again else table.note},
        "chart": _chart(table.chart) if table.chart and not again else None,
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


def widths(columns: Sequence[Sequence[str]]) -> list[tuple[int, int, str]]:
    """Return what each column needs; the head of each comes first.

    That is how many letters it takes whole, about how many it needs, its head on two lines and a long cell on
    several, and its longest word.
    """
    return [_width(column[0], column[1:]) for column in columns]


def _width(head: str, cells: Sequence[str]) -> tuple[int, int, str]:
    words = [word for cell in (head, *cells) for word in (cell if len(cell) > _VALUE else _cell(cell)).split(" ")]
    word = max(words, key=len)
    longest = max(map(len, cells), default=0)
    return max(longest, len(head)), max(min(longest, _LONG), len(head) // 2, len(word)), word


# --- all numbers of a group ---------------------------------------------------------------------------


def summary(one: Summary, at: Setting) -> Data:
    """Return numbers and tables in a row each, with the page of their working."""
    rows = [(n.id, n.title, n.shown, n.verdict.value if n.verdict else "") for n in one.numbers]
    rows += [(table.id, table.title, "", "") for table in one.tables]
    return {
        "k": "sum",
        "x": [{"t": t, "v": v, "verdict": verdict, "to": at.to(one.path, id_)} for id_, t, v, verdict in rows],
    }


def verdicts(one: Verdicts, at: Setting) -> Data:
    """Return every number that has a limit in a row, gravest verdict first."""
    rows = [(n, n.verdict.value if n.verdict else "", at.to(path, n.id)) for path, n in one.numbers]
    return {"k": "sum", "x": [{"t": n.title, "v": n.shown, "verdict": said, "to": to} for n, said, to in rows]}


def workings(one: Working, at: Setting, path: str) -> list[Data]:
    """Return the values that a group was made from, then each number and table with how it was made."""
    given = _numbered(one)
    made = [_worked_number(each, given, at.marks.get(mark(path, each.id))) for each in one.numbers]
    made += [_worked_table(each, at, at.marks.get(mark(path, each.id))) for each in one.tables]
    return [_given(given), *made] if given else made


Key = tuple[str, str, str]  # origin in words, name, as shown


def _key(one: Input) -> Key:
    origin = origin_of(one)
    return origin[0].upper() + origin[1:], one.name, one.shown


def _numbered(working: Working) -> Mapping[Key, int]:
    """Return the values of a group, counted from 1, those of one origin beside each other."""
    keys = dict.fromkeys(_key(one) for number in working.numbers for one in number.inputs)
    origins = list(dict.fromkeys(origin for origin, _, _ in keys))
    return {key: count for count, key in enumerate(sorted(keys, key=lambda key: origins.index(key[0])), 1)}


def _given(given: Mapping[Key, int]) -> Data:
    by_origin = groupby(given.items(), key=lambda one: one[0][0])
    return {
        "k": "given",
        "x": [
            [origin, [[count, breakable(name), breakable(shown)] for (_, name, shown), count in some]]
            for origin, some in by_origin
        ],
    }


def _worked_number(one: Number, given: Mapping[Key, int], id_: str | None) -> Data:
    return {
        "k": "work",
        "of": number(one),
        "id": id_,
        "method": one.method,
        "worked": [breakable(str(line)) for line in one.worked],
        "from": spans(sorted({given[_key(each)] for each in one.inputs})),
        "missing": one.missing,
        "rounding": ROUNDING[one.rounding] if one.value is not None else "",
        "source": one.source,
    }


def _worked_table(table: DataTable, at: Setting, id_: str | None) -> Data:
    """Return how a table was made; where its rows stand on a page already, that page is named."""
    return {
        **{
            "k": "work",
            "of": data_table(table, first=at.marks.get(f"table/{table.id}")),
            "id": id_,
            "method": table.method,
            "source": table.source,
        },
        **{"worked": [breakable(str(line)) for line in table.worked], "from": ""},
        **{"missing": table.missing, "rounding": ""},
    }


def spans(counts: Sequence[int]) -> str:
    """Return rising numbers in words, runs of three and more by their ends: "1, 3 to 6, 9"."""
    runs: list[list[int]] = []
    for count in counts:
        if runs and count == runs[-1][-1] + 1:
            runs[-1].append(count)
        else:
            runs.append([count])
    parts = [[f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(one) for one in run] for run in runs]
    return ", ".join(part for some in parts for part in some)
