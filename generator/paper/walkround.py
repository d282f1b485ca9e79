"""The walk-round sheet: what is prepared, shown, read, handed over and signed, fitted into the hour.

How it looks is left to ``walkround.typ``.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.model.handover import Handed, PlateValue
from generator.model.manual import Manual, WalkLine, WalkStop
from generator.model.numbers import Number
from generator.model.paper import Whole
from generator.paper.document import common
from generator.paper.setting import Data, breakable

BEFORE = "Before you walk round"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Which lines are shown in the hour and which are left to the first evening, in walking order.

    ``shown`` and ``moved`` are indexes (stop, line). ``minutes`` is what the shown lines take with the first stop,
    ``must`` what of it cannot be left out.
    """

    shown: frozenset[tuple[int, int]]
    moved: tuple[tuple[int, int], ...]
    minutes: int
    must: int


def plan(stops: Sequence[WalkStop], hour: int, phone: int) -> Plan:
    """Return what fits the hour.

    Lines marked must are always shown. Of the others as many as fit, the shortest first and among equally short ones
    those that come first on the way round. The same lines always give the same sheet.

    Args:
        stops: The walk-round.
        hour: Minutes it may take.
        phone: Minutes of them that the owner's own telephone takes.
    """
    lines = {(s, n): line for s, stop in enumerate(stops) for n, line in enumerate(stop.lines)}
    must = phone + sum(line.minutes for line in lines.values() if line.must)
    shown = {at for at, line in lines.items() if line.must}
    minutes = must
    for at in sorted((at for at, line in lines.items() if not line.must), key=lambda at: (lines[at].minutes, at)):
        if minutes + lines[at].minutes <= hour:
            minutes += lines[at].minutes
            shown.add(at)
    moved = tuple(at for at in lines if at not in shown)
    return Plan(shown=frozenset(shown), moved=moved, minutes=minutes, must=must)


def walkround_document(manual: Manual, address: str, whole: Whole) -> Data:
    """Return everything the template prints."""
    sheet, stops = manual.sheet, manual.walkround
    hour, phone = (sheet.minutes, sheet.phone_minutes) if sheet else (60, 0)
    made = plan(stops, hour, phone)
    said: set[str] = set()
    shown = [_stop(stop, number, made, manual, said) for number, stop in enumerate(stops)]
    return {
        **common(manual, address, whole, f"{manual.model}, van {manual.tail}: walk-round"),
        "van": f"{manual.model}, van {manual.tail}",
        "chassis": manual.chassis,
        "hour": _hour(made, hour),
        "prepare": list(sheet.prepare) if sheet else [],
        "leave": list(sheet.leave) if sheet else [],
        "phone": {
            "lines": list(sheet.phone) if sheet else [],
            "minutes": phone,
            "address": breakable(address),
            "target": address,
        },
        "plates": [_plate(one) for one in (sheet.plates if sheet else ())],
        "papers": [_handed(one) for one in (sheet.papers if sheet else ())],
        "stops": [one for one in shown if one["lines"] or one["plates"] or one["hand_over"]],
        "evening": [_moved(stops[s], stops[s].lines[n]) for s, n in made.moved],
    }


def _hour(made: Plan, hour: int) -> str:
    """Say how the lines fill the hour, and when they do not fit it."""
    if made.must > hour:
        return (
            f"The lines that must be shown take {made.must} minutes, {made.must - hour} more than the {hour} allowed. "
            "Allow the time; leave none of them out."
        )
    moved = f" {len(made.moved)} lines that do not fit are left to the first evening." if made.moved else ""
    return f"{made.minutes} minutes of {hour}, of them {made.must} that must be shown.{moved}"


def _stop(stop: WalkStop, number: int, made: Plan, manual: Manual, said: set[str]) -> Data:
    lines = [line for n, line in enumerate(stop.lines) if (number, n) in made.shown]
    left = manual.values.get(f"place/{stop.code}/left")
    return {
        "code": stop.code,
        "name": stop.name if stop.code else BEFORE,
        "where": stop.where,
        "left": left if isinstance(left, str) else "",
        "minutes": sum(line.minutes for line in lines),
        "lines": [{"t": breakable(line.line), "minutes": line.minutes, "must": line.must} for line in lines],
        "say": _said(lines, manual.values, said),
        "plates": [_plate(one) for one in stop.plates],
        "hand_over": [_handed(one) for one in stop.hand_over],
    }


def _said(lines: Sequence[WalkLine], values: Mapping[str, object], said: set[str]) -> list[list[str]]:
    """Return the numbers said aloud at a stop, each at the first stop that names it."""
    made = []
    for id_ in dict.fromkeys(id_ for line in lines for id_ in line.numbers):
        number = values.get(f"verdict/{id_}")
        if id_ not in said and isinstance(number, Number):
            said.add(id_)
            made.append([number.title, number.shown])
    return made


def _plate(one: PlateValue) -> list[str]:
    return [breakable(one.name), breakable(one.shown), one.where]


def _handed(one: Handed) -> Data:
    return {"t": one.line, "write": one.write}


def _moved(stop: WalkStop, line: WalkLine) -> Data:
    return {"code": stop.code, "t": breakable(line.line), "read": breakable(line.title)}
