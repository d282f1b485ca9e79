"""Writes down where subjects are used: for a person, as JSON, or as CSV."""

import csv
import io
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.reach.hits import Hit
from generator.reach.named import Named
from generator.reach.subjects import Subject

_COLUMNS = ("sort", "id", "van", "name", "where", "path", "title")
_HEADS = {
    "manual": "manual",
    "page": "pages",
    "checklist": "checklists",
    "label": "labels",
    "walk-round": "walk-round",
    "booklet": "booklet",
    "number": "numbers",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What is known of one subject: who names it, and what it touches in so many vans."""

    subject: Subject
    file: str
    title: str
    named: tuple[Named, ...]
    hits: tuple[Hit, ...]
    vans: int


def as_text(answers: Iterable[Answer]) -> str:
    """Return the answers for a person; a list that an earlier answer has word for word is not told again."""
    told: dict[tuple[_Row, ...], Subject] = {}
    texts = []
    for answer in answers:
        rows = tuple((hit.van, hit.where, hit.path, hit.title) for hit in answer.hits)
        texts.append("\n".join(_lines(answer, told.get(rows))))
        if rows:
            told.setdefault(rows, answer.subject)
    return "\n\n".join(texts) or "nothing that a manual is made from"


_Row = tuple[str, str, str, str]


def _lines(answer: Answer, same: Subject | None) -> Iterator[str]:
    reached = dict.fromkeys((hit.van, hit.name) for hit in answer.hits)
    yield " ".join(filter(None, (str(answer.subject), f'"{answer.title}"' if answer.title else "", answer.file)))
    where = f"in {len(reached)} of {answer.vans} vans" if reached else f"shows in none of {answer.vans} vans"
    yield f"  {where}, the same as {same} above" if same else f"  {where}"
    alike: dict[tuple[str, ...], list[str]] = {}
    for van, name in reached if not same else ():
        rows = tuple(_of_van([hit for hit in answer.hits if hit.van == van]))
        alike.setdefault(rows, []).append(f"  {name} ({van})")
    for rows, names in alike.items():
        yield from (*names, *rows)
    if answer.named:
        yield "  named in 1 place" if len(answer.named) == 1 else f"  named in {len(answer.named)} places"
        yield from (f"    {one.source}: {one.how}" for one in answer.named)


def _of_van(hits: list[Hit]) -> Iterator[str]:
    width = max(map(len, _HEADS.values()))
    for where, head in _HEADS.items():
        for number, hit in enumerate(hit for hit in hits if hit.where == where):
            path = "" if where in ("walk-round", "number", "booklet") else f"{hit.path}  "
            yield f"    {'' if number else head:{width}}  {path}{hit.title}"


def as_json(answers: Iterable[Answer]) -> str:
    """Return the answers as a JSON list, one object for each subject."""
    return json.dumps([_object(answer) for answer in answers], ensure_ascii=False, indent=2)


def _object(answer: Answer) -> dict[str, object]:
    vans: dict[str, dict[str, object]] = {}
    for hit in answer.hits:
        van = vans.setdefault(hit.van, {"van": hit.van, "name": hit.name, "touches": []})
        touches = van["touches"]
        assert isinstance(touches, list)
        touches.append({"where": hit.where, "path": hit.path, "title": hit.title})
    return {
        "sort": answer.subject.sort,
        "id": answer.subject.id,
        "file": answer.file,
        "title": answer.title,
        "named": [
            {"file": one.source.file, "line": one.source.line, "column": one.source.column, "how": one.how}
            for one in answer.named
        ],
        "vans": list(vans.values()),
    }


def as_csv(answers: Iterable[Answer]) -> str:
    """Return the answers as CSV (RFC 4180), a row for each thing touched."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(_COLUMNS)
    for answer in answers:
        for hit in answer.hits:
            row = (hit.subject.sort, hit.subject.id, hit.van, hit.name, hit.where, hit.path, hit.title)
            writer.writerow([_plain(cell) for cell in row])
    return out.getvalue()


def _plain(cell: str) -> str:
    """Keep a spreadsheet from taking a title for a formula."""
    return f"'{cell}" if cell[:1] in ("=", "+", "-", "@") else cell
