"""Whether panels and states of a kind can be drawn: their controls are there, at one point, and take the setting."""

from collections.abc import Iterable, Iterator

from generator.errors import nearest
from generator.load.faults import Faults
from generator.model.catalogue import Control, Drawn, Kind
from generator.model.sourced import Given

_MOST = 4  # things beside each other that a telephone shows with words
_TURNED: tuple[Drawn, ...] = ("dial", "switch", "breaker", "breakers", "keys", "button")


def check_panels(kind: Kind, faults: Faults) -> None:
    """Add a fault for everything that a panel or state of ``kind`` names and cannot show."""
    for point, rows in kind.panels.items():
        if point not in kind.points:
            faults.add(f'{kind.id} has no point "{point}"', kind.source, nearest(point, kind.points))
        for row in rows:
            _check_row(kind, point, row, faults)
    drawn = {one.name for rows in kind.panels.values() for row in rows for one in _controls(kind, row)}
    for name, state in kind.states.items():
        if name in kind.controls or name in kind.points:
            faults.add(f'state "{name}" has the name of a control or point', kind.source, "give it a name of its own")
        known = [(control, kind.controls[control]) for control in state if control in kind.controls]
        for control in set(state) - set(kind.controls):
            faults.add(f'unknown control "{control}"', state[control].source, nearest(control, kind.controls))
        for control, one in known:
            _check_setting(one, state[control], drawn, faults)
        if len({one.at.value for _, one in known}) > 1:
            faults.add(f'state "{name}" is of more than one point', kind.source, "make a state of each")


def _check_row(kind: Kind, point: str, row: tuple[Given[str], ...], faults: Faults) -> None:
    if len(row) > _MOST:
        faults.add(f"{len(row)} things stand in one row of a panel, at most {_MOST} fit", row[0].source)
    for given in row:
        control = kind.controls.get(given.value)
        if control is None:
            faults.add(f'unknown control "{given.value}"', given.source, nearest(given.value, kind.controls))
            continue
        if control.at.value != point:
            faults.add(f'"{given.value}" is at {control.at.value}, not at {point}', given.source)
        if not control.name or not control.settings:
            faults.add(f'"{given.value}" cannot be drawn: it has no name, or only sounds', given.source)
        elif control.form in _TURNED and not control.positions:
            faults.add(f'"{given.value}" has no positions to draw as a {control.form}', given.source)


def _check_setting(control: Control, setting: Given[str], drawn: set[str], faults: Faults) -> None:
    if control.name not in drawn:
        faults.add(f'"{control.name}" stands on no panel', setting.source, "put it into a row under panels")
    if setting.value not in control.settings:
        hint = nearest(setting.value, control.settings)
        faults.add(f'"{control.name}" cannot be "{setting.value}"', setting.source, hint)


def _controls(kind: Kind, row: Iterable[Given[str]]) -> Iterator[Control]:
    return (kind.controls[given.value] for given in row if given.value in kind.controls)
