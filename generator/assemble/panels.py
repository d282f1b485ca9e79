"""The panels of what is fitted: which there are by name, and each as it stands in a state.

Turning one into a picture is left to ``fill``.
"""

from collections.abc import Iterator, Mapping

from generator.assemble.van import Van
from generator.model.caravan import Equipment, Place
from generator.model.catalogue import Control, Kind
from generator.model.panels import Face, PanelDrawing, Part
from generator.units import unit_text

_POINTS = {"shut_off": "shut-off"}  # points whose name is not yet how it is written


def part_of(one: Equipment, point: str) -> str:
    """Return what stands at a point in words: "Water heater: drain", "Hob"."""
    words = _POINTS.get(point, point.replace("_", " "))
    return one.slot.name if words in one.slot.name.lower() else f"{one.slot.name}: {words}"


def hole_of(one: Equipment, name: str) -> str:
    """Return the name of the hole that a drawing of ``one`` fills."""
    return f"drawing/{one.key}.{name}"


def holes_at(place: Place, van: Van, *, signals: bool = False) -> Iterator[str]:
    """Yield the hole of every panel at ``place``, in the order of slots; with ``signals`` where something lights."""
    for one in van.caravan.equipment:
        for point in one.kind.panels:
            if one.at.get(point) == place.code and (not signals or _lights(one.kind, point)):
                yield hole_of(one, point)


def _lights(kind: Kind, point: str) -> bool:
    return any((one.lamp or one.message) and one.at.value == point for one in kind.controls.values())


def asked(argument: str, van: Van) -> Mapping[str, PanelDrawing]:
    """Return what ``drawing('slot.name')`` draws in ``van``, by hole: nothing, or a panel of each kind in the slot."""
    slot, _, name = argument.partition(".")
    having = (one for one in van.fitted(slot) if one.kind.drawings.get(name) in one.at)
    return {hole_of(one, name): draw_panel(one, name) for one in having}


def panels_of(van: Van) -> Iterator[tuple[str, PanelDrawing]]:
    """Yield every drawing that blocks may ask for in ``van``, with its hole; none of a point it lacks."""
    for one in van.caravan.equipment:
        for name, point in one.kind.drawings.items():
            if point in one.at:
                yield hole_of(one, name), draw_panel(one, name)


def draw_panel(one: Equipment, name: str) -> PanelDrawing:
    """Return the drawing that a kind has under ``name``; see ``Kind.drawings``."""
    kind, point = one.kind, one.kind.drawings[name]
    state = {} if name in kind.panels else _state(kind, name)
    rows = tuple(tuple(_part(kind, given.value, state) for given in row) for row in kind.panels[point])
    return PanelDrawing(title=part_of(one, point), rows=rows)


def _state(kind: Kind, name: str) -> Mapping[str, str]:
    """Return what each control is set to; a lamp or message alone is lit or shown."""
    if name in kind.states:
        return {control: given.value for control, given in kind.states[name].items()}
    return {name: kind.controls[name].settings[0]}


def _part(kind: Kind, name: str, state: Mapping[str, str]) -> Part:
    """Return a control with every other that has its name: they are one thing to look at."""
    shown = kind.controls[name]
    faces = (
        face
        for id_, control in kind.controls.items()
        if (control.at.value, control.name) == (shown.at.value, shown.name)
        for face in _faces(control, state.get(id_, ""))
    )
    unit = unit_text(shown.unit) if shown.unit else ""
    return Part(name=shown.name, form=shown.form, faces=tuple(faces), unit=unit)


def _faces(control: Control, setting: str) -> Iterator[Face]:
    if looks := control.lamp or control.message:
        yield Face(words=looks, marked=bool(setting))
    yield from (Face(words=position, marked=position == setting) for position in control.positions)
