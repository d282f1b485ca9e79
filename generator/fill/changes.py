"""Says what changed: compares the records of two editions, and writes the difference as HTML.

The record is data of an earlier run, perhaps of an earlier version: what it lacks is not compared.
"""

from collections.abc import Iterator, Mapping
from dataclasses import asdict
from typing import Any

from markupsafe import Markup

from generator.fill.holes import printable
from generator.model.changes import Change, ChangeGroup, Changes, State
from generator.model.site import PublishedVan

Record = Mapping[str, Any]
FIRST = "This is the first edition."
_NOTHING = (
    "Equipment, places, numbers and the words of the pages are as they were.",
    "What changed is how the manual looks or finds, or how to reach the dealer.",
)
_WORD: Mapping[State, str] = {"new": "New", "gone": "Taken out", "changed": "Changed"}
_DRAFT = {True: "a draft, not yet checked by the dealer", False: "checked by the dealer"}


def changes_since(previous: PublishedVan | None, edition: int, record: Record) -> Changes:
    """Return what this edition changes.

    Args:
        previous: The edition in the records; the very same one when a standing edition is written again, which
            then says what it said the first time.
        edition: The number of this edition.
        record: Its own record.
    """
    if previous is None:
        return Changes(since=None)
    if previous.edition == edition:
        return from_data(previous.record.get("changes"))
    parts = {
        "The manual": _draft(previous.record, record),
        "Equipment": _named(previous.record, record, "equipment"),
        "Places": _places(previous.record, record),
        "Numbers": _numbers(previous.record, record),
        "Room in places": _rooms(previous.record, record),
        "Tables": _tables(previous.record, record),
        "Pages": _pages(previous.record, record),
    }
    groups = ((title, tuple(found)) for title, found in parts.items())
    return Changes(
        since=previous.edition,
        groups=tuple(ChangeGroup(title=title, changes=found) for title, found in groups if found),
    )


def as_data(changes: Changes) -> dict[str, object]:
    """Return the changes as ``edition.json`` holds them."""
    return asdict(changes)


def from_data(data: Any) -> Changes:
    """Return the changes that a record holds; those of a record without any are none."""
    if not isinstance(data, Mapping):
        return Changes(since=None)
    groups = (
        ChangeGroup(title=group["title"], changes=tuple(Change(**change) for change in group["changes"]))
        for group in data["groups"]
    )
    return Changes(since=data["since"], groups=tuple(groups))


# --- comparing ------------------------------------------------------------------------------------------


def _both(old: Record, new: Record, key: str) -> tuple[Mapping[str, Any], Mapping[str, Any]]:
    """Return one mapping of both records; an old record without it has nothing to compare with."""
    after = new[key]
    return old.get(key, after), after


def _draft(old: Record, new: Record) -> Iterator[Change]:
    before, now = old.get("draft", new["draft"]), new["draft"]
    if before != now:
        yield Change(state="changed", title="This manual", now=_DRAFT[now], before=_DRAFT[before])


def _named(old: Record, new: Record, key: str) -> Iterator[Change]:
    """Yield what came, went or was exchanged among things known by their names."""
    before, after = _both(old, new, key)
    for id_, name in after.items():
        if id_ not in before:
            yield Change(state="new", title=name)
        elif before[id_] != name:
            yield Change(state="changed", title=name, before=before[id_])
    yield from (Change(state="gone", title=name) for id_, name in before.items() if id_ not in after)


def _places(old: Record, new: Record) -> Iterator[Change]:
    before, after = _both(old, new, "places")
    for code, name in after.items():
        path = f"{code}/index.html"
        if code not in before:
            yield Change(state="new", title=f"{code} {name}", path=path)
        elif before[code] != name:
            yield Change(state="changed", title=f"{code} {name}", path=path, before=before[code])
    yield from (Change(state="gone", title=f"{code} {name}") for code, name in before.items() if code not in after)


def _numbers(old: Record, new: Record) -> Iterator[Change]:
    before, after = _both(old, new, "numbers")
    titles = {**old.get("titles", {}), **new["titles"]}
    for id_, shown in after.items():
        title = titles.get(id_, _words(id_))
        if id_ not in before:
            yield Change(state="new", title=title, now=shown)
        elif before[id_] != shown:
            yield Change(state="changed", title=title, now=shown, before=before[id_])
    for id_, shown in before.items():
        if id_ not in after:
            yield Change(state="gone", title=titles.get(id_, _words(id_)), before=shown)


def _rooms(old: Record, new: Record) -> Iterator[Change]:
    """Yield load limit and room left of places that both editions have."""
    before, after = _both(old, new, "rooms")
    for code, rooms in after.items():
        for words, shown in rooms.items():
            was = before.get(code, {}).get(words)
            if was is not None and was != shown:
                title = f"{code} {new['places'].get(code, '')}".strip() + f", {words}"
                yield Change(state="changed", title=title, path=f"{code}/index.html", now=shown, before=was)


def _tables(old: Record, new: Record) -> Iterator[Change]:
    before, after = _both(old, new, "tables")
    for id_, table in after.items():
        if id_ in before and before[id_]["digest"] != table["digest"]:
            yield Change(state="changed", title=table["title"])


def _pages(old: Record, new: Record) -> Iterator[Change]:
    before, after = _both(old, new, "parts")
    for id_, part in after.items():
        was = before.get(id_)
        if was is None or was["digest"] != part["digest"]:
            state: State = "new" if was is None else "changed"
            yield Change(state=state, title=part["title"], path=part["path"], anchor=part["anchor"])
    yield from (Change(state="gone", title=part["title"]) for id_, part in before.items() if id_ not in after)


def _words(id_: str) -> str:
    return id_.replace("-", " ").capitalize()


# --- writing --------------------------------------------------------------------------------------------


def changes_list(changes: Changes, level: int, *, links: bool) -> Markup:
    """Return the changes as HTML.

    Args:
        changes: What differs.
        level: Of the headings.
        links: Whether pages are linked; in the single file they are not at these paths.
    """
    if changes.since is None:
        return Markup("<p>{}</p>").format(FIRST)
    if not changes.groups:
        return Markup("<p>{}</p>").format(Markup("<br>").join(_NOTHING))
    lead = Markup('<p class="lead">What is different from edition {}.</p>').format(changes.since)
    return lead + Markup("").join(_group(group, level, links) for group in changes.groups)


def _group(group: ChangeGroup, level: int, links: bool) -> Markup:
    rows = Markup("").join(_row(change, links) for change in group.changes)
    return Markup('\n<h{} id="changed-{}">{}</h{}>\n<ul class="changes" role="list">{}</ul>').format(
        level, group.title.lower().replace(" ", "-"), group.title, level, rows
    )


def _row(change: Change, links: bool) -> Markup:
    title = printable(change.title)
    if change.path and links:
        target = change.path + (f"#{change.anchor}" if change.anchor else "")
        title = Markup('<a href="{}">{}</a>').format(target, title)
    said = [_p("changes__now", change.now), _p("changes__before", change.before and f"Before: {change.before}")]
    return Markup('<li><p class="changes__what"><span class="changes__state">{}</span> {}</p>{}</li>').format(
        _WORD[change.state], title, Markup("").join(said)
    )


def _p(kind: str, words: str) -> Markup:
    return Markup('<p class="{}">{}</p>').format(kind, printable(words)) if words else Markup("")
