"""How each thing on a panel is drawn: dial, switch, breaker, keys, button, lamp, display, window, gauge, meter.

Drawing units, y downwards, from the corner at the upper left of a part. Where parts stand is left to ``panel``.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from textwrap import wrap

from markupsafe import Markup

from generator.fill.holes import printable
from generator.fill.outline import n
from generator.model.panels import Face, Part

SIZE, LINE = 16.0, 19.0
_LETTER, _HEAVY = 8.6, 10.6  # of a letter, of a heavy one: about, and on the wide side
_ROW = 30.0  # of positions under each other


@dataclass(frozen=True, slots=True)
class _Words:
    """A label: where its anchor stands, and on which side of it the words are ("start", "middle", "end")."""

    x: float
    y: float
    text: str
    anchor: str = "middle"
    marked: bool = False

    @property
    def left(self) -> float:
        """Where its frame begins."""
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        return self.x - share * self.width - 5

    @property
    def width(self) -> float:
        """How wide its letters are, without frame."""
        return len(self.text) * _HEAVY if self.marked else width_of(self.text)


@dataclass(frozen=True, slots=True)
class Cell:
    """A part as drawn: its size, shapes as path data, shapes that are filled, and labels."""

    width: float
    height: float
    lines: str = ""
    fills: str = ""
    heavy: str = ""
    words: tuple[_Words, ...] = ()
    dashes: str = ""

    def at(self, x: float, y: float) -> tuple[Markup, Markup]:
        """Return shapes and labels, moved to (``x``, ``y``)."""
        frames = "".join(_box(one.left, one.y - 14, one.width + 10, 19) for one in self.words if one.marked)
        kinds = (
            (self.lines + frames, Markup("")),
            (self.fills, Markup(' fill="currentColor" stroke="none"')),
            (self.heavy, Markup(' stroke-width="5"')),
            (self.dashes, Markup(' stroke-dasharray="4 4"')),
        )
        paths = Markup("").join(Markup('<path d="{}"{}/>').format(data, how) for data, how in kinds if data)
        moved = Markup('<g transform="translate({} {})">{}</g>').format(n(x), n(y), paths)
        return moved, Markup("").join(_label(one, x, y) for one in self.words)


def cell_of(part: Part, *, rest: bool) -> Cell:
    """Return a part as it is drawn; with ``rest`` it shows where it stands when nobody has set it."""
    return _FORMS[part.form](part, rest)


def width_of(words: str) -> float:
    """Return about how wide words are."""
    return len(words) * _LETTER


def wrapped(words: str, width: float) -> list[str]:
    """Return words in lines of at most about ``width``; a word is never broken."""
    return wrap(words, max(int(width / _LETTER), 1), break_long_words=False, break_on_hyphens=False)


def _label(one: _Words, x: float, y: float) -> Markup:
    anchor = Markup(' text-anchor="{}"').format(one.anchor) if one.anchor != "middle" else Markup("")
    weight = Markup(' font-weight="700"') if one.marked else Markup("")
    return Markup('<text x="{}" y="{}"{}{}>{}</text>').format(
        n(one.x + x), n(one.y + y), anchor, weight, printable(one.text)
    )


def _box(x: float, y: float, width: float, height: float, cut: float = 0.0) -> str:
    """Return a rectangle, its corners cut where asked for."""
    if not cut:
        return f"M{n(x)} {n(y)}h{n(width)}v{n(height)}h{n(-width)}z"
    c, w, h = n(cut), n(width - 2 * cut), n(height - 2 * cut)
    return f"M{n(x + cut)} {n(y)}h{w}l{c} {c}v{h}l-{c} {c}h-{w}l-{c} -{c}v-{h}z"


def _circle(x: float, y: float, radius: float) -> str:
    r = n(radius)
    return f"M{n(x - radius)} {n(y)}a{r} {r} 0 1 0 {n(2 * radius)} 0a{r} {r} 0 1 0 {n(-2 * radius)} 0z"


def _chosen(part: Part, *, rest: bool) -> int | None:
    """Return which face a part is set to; at ``rest`` it stands at off, else at its first position."""
    off = next((at for at, face in enumerate(part.faces) if face.words.startswith("off")), 0)
    return next((at for at, face in enumerate(part.faces) if face.marked), off if rest else None)


# --- what is turned or pressed ------------------------------------------------------------------------


def _dial(part: Part, rest: bool) -> Cell:
    """A knob with a pointer, its positions clockwise from the lower left to the lower right."""
    radius, ring = 32.0, 47.0
    steps = max(len(part.faces) - 1, 1)
    angles = [math.radians(-135 + 270 * at / steps) for at in range(len(part.faces))]
    labels = [_round_the_knob(face, angle, ring) for face, angle in zip(part.faces, angles, strict=True)]
    left = min([-radius, *(one.left for one in labels)])
    right = max([radius, *(one.left + one.width + 10 for one in labels)])
    x, y = -left, ring + 12
    words = tuple(_Words(one.x + x, one.y + y, one.text, one.anchor, one.marked) for one in labels)
    ticks = "".join(_spoke(x, y, angle, radius + 3, radius + 8) for angle in angles)
    chosen = _chosen(part, rest=rest)
    pointer = "" if chosen is None else _spoke(x, y, angles[chosen], 6, radius - 5)
    bottom = max([y + radius, *(one.y for one in words)]) + 6
    return Cell(right - left, bottom, _circle(x, y, radius) + ticks, heavy=pointer, words=words)


def _round_the_knob(face: Face, angle: float, ring: float) -> _Words:
    across = math.sin(angle)
    anchor = "middle" if abs(across) < 0.2 else "start" if across > 0 else "end"
    return _Words(ring * across, 5 - ring * math.cos(angle), face.words, anchor, face.marked)


def _spoke(x: float, y: float, angle: float, inner: float, outer: float) -> str:
    across, up = math.sin(angle), -math.cos(angle)
    return f"M{n(x + inner * across)} {n(y + inner * up)}L{n(x + outer * across)} {n(y + outer * up)}"


def _switch(part: Part, rest: bool) -> Cell:
    """A slide with its positions under each other, the first at the bottom."""
    count, knob = len(part.faces), _chosen(part, rest=rest)
    words = tuple(
        _Words(42, _ROW * (count - at) - 10, face.words, "start", face.marked) for at, face in enumerate(part.faces)
    )
    grip = "" if knob is None else _box(5, _ROW * (count - 1 - knob) + 5, 20, _ROW - 10)
    width = max(one.left + one.width + 10 for one in words)
    return Cell(width, _ROW * count, _box(0, 0, 30, _ROW * count, 3), fills=grip, words=words)


def _breaker(part: Part, rest: bool, modules: int = 1) -> Cell:
    """A circuit breaker: its lever up in the last position, as it is in service, and down in the first."""
    height, wide = 76.0, 26.0 if modules > 1 else 44.0
    last = len(part.faces) - 1
    set_to = _chosen(part, rest=False)
    chosen = last if set_to is None else set_to
    lines = fills = ""
    for number in range(modules):
        # Of a row one has tripped, the others stand as in service.
        up = chosen == last or (modules > 1 and number != 1)
        lines += _box(number * wide, 0, wide, height) + _box(number * wide + wide / 2 - 7, 16, 14, 44)
        fills += _box(number * wide + wide / 2 - 7, 16 if up else 38, 14, 22)
    rows = zip(part.faces, (height - 12, 24.0), strict=False) if last == 1 else ()
    words = tuple(_Words(modules * wide + 12, y, face.words, "start", face.marked) for face, y in rows)
    width = max([modules * wide, *(one.left + one.width + 10 for one in words)])
    return Cell(width, height, lines, fills, words=words)


def _breakers(part: Part, rest: bool) -> Cell:
    return _breaker(part, rest, modules=3)


def _keys(part: Part, rest: bool) -> Cell:
    """Buttons with a word on each, two beside each other."""
    width = max(len(face.words) for face in part.faces) * _HEAVY + 18
    boxes, words = "", []
    for at, face in enumerate(part.faces):
        x, y = (at % 2) * (width + 8), (at // 2) * 44.0
        boxes += _box(x, y, width, 36, 4)
        words.append(_Words(x + width / 2, y + 24, face.words, "middle", face.marked))
    rows = (len(part.faces) + 1) // 2
    return Cell(
        width * min(len(part.faces), 2) + (8 if len(part.faces) > 1 else 0), rows * 44 - 8, boxes, words=(*words,)
    )


def _button(part: Part, rest: bool) -> Cell:
    """A button; what it is pressed for stands beside it where the drawing is about that."""
    marked = part.marked
    outer, inner = _box(0, 0, 44, 44, 6), _box(9, 9, 26, 26, 4)
    if marked is None:
        return Cell(44, 44, outer + inner)
    words = _Words(58, 28, marked.words, "start", marked=True)
    return Cell(words.left + words.width + 10, 44, outer, fills=inner, words=(words,))


# --- what lights or shows -----------------------------------------------------------------------------

# Hatching by colour is that of engravers, known as Petra Sancta's (1638): red upright, blue level, green aslant,
# yellow dotted. Beside the word it only repeats the colour.
_HATCH = {"red": 90.0, "blue": 0.0, "green": 45.0}  # degrees
_LAMP = 11.0


def _lamp(part: Part, rest: bool) -> Cell:
    """A round lamp for every colour it can have, the word beside it; rays where it is lit, a broken ring if it flashes.

    Where the drawing is about something else it is one dark lamp.
    """
    if not rest and part.marked is None:
        return Cell(36, _ROW + 6, _circle(18, _ROW / 2 + 3, _LAMP))
    lines = dashes = ""
    words, y = [], 0.0
    for face in (part.marked,) if part.marked else part.faces:
        rows = wrapped(face.words, 130)
        tall = max(len(rows) * LINE, _ROW + 6)
        middle = y + tall / 2
        lines += _circle(18, middle, _LAMP) + _hatched(face.words, 18, middle)
        if face.marked:
            lines += "".join(_spoke(18, middle, math.radians(45 * at), _LAMP + 3, _LAMP + 8) for at in range(8))
        elif "flash" in face.words or "blink" in face.words:
            dashes += _circle(18, middle, _LAMP + 5)
        first = middle + 5.5 - (len(rows) - 1) * LINE / 2
        words += [_Words(44, first + at * LINE, row, "start", face.marked) for at, row in enumerate(rows)]
        y += tall
    width = max(one.left + one.width + 10 for one in words)
    return Cell(width, y, lines, words=(*words,), dashes=dashes)


def _hatched(colour: str, x: float, y: float) -> str:
    """Return the hatching of the first colour that the words name, inside a lamp at (``x``, ``y``)."""
    if "yellow" in colour or "amber" in colour:
        dots = ((-4, -4), (4, -4), (0, 0), (-4, 4), (4, 4))
        return "".join(f"M{n(x + across - 1)} {n(y + down)}h2" for across, down in dots)
    angle = next((slope for name, slope in _HATCH.items() if name in colour), None)
    if angle is None:
        return ""
    along, across = math.radians(angle), math.radians(angle + 90)
    lines = ""
    for off in (-5.5, 0.0, 5.5):
        half = math.sqrt(_LAMP**2 - off**2)
        cx, cy = x + off * math.cos(across), y - off * math.sin(across)
        dx, dy = half * math.cos(along), -half * math.sin(along)
        lines += f"M{n(cx - dx)} {n(cy - dy)}L{n(cx + dx)} {n(cy + dy)}"
    return lines


def _display(part: Part, rest: bool, cut: float = 0.0) -> Cell:
    """A display with what it can show, or with what it shows; empty where the drawing is about something else."""
    if not rest and part.marked is None:
        return Cell(90, _ROW, _box(0, 0, 90, _ROW, cut))
    faces = (part.marked,) if part.marked else part.faces
    rows = [wrapped(face.words, 150) for face in faces]
    width = max(width_of(row) for one in rows for row in one) + 28
    words, rules, y = [], "", 6.0
    for some in rows:
        rules += f"M8 {n(y)}H{n(width - 8)}" if y > 6 else ""
        words += [_Words(width / 2, y + 18 + at * LINE, row, "middle") for at, row in enumerate(some)]
        y += len(some) * LINE + 9
    frame = _box(0, 0, width, y, cut) + (_box(-4, -4, width + 8, y + 8, cut) if part.marked else "")
    return Cell(width, y, frame + rules, words=(*words,))


def _window(part: Part, rest: bool) -> Cell:
    return _display(part, rest, cut=10)


def _gauge(part: Part, rest: bool, field: tuple[int, int] = (20, 81)) -> Cell:
    """A scale, hatched over ``field`` degrees from upright; the needle is in it for the first face, else out of it."""
    marked = part.marked
    upright = sum(field) / 2
    angle = upright if marked is None or marked is part.faces[0] else -70
    rows = wrapped(marked.words, 120) if marked else []
    y, radius = 46.0, 42.0
    x = max([y, *(width_of(row) / 2 for row in rows)])
    scale = f"M{n(x - radius)} {n(y)}a{n(radius)} {n(radius)} 0 0 1 {n(2 * radius)} 0z"
    hatch = "".join(_spoke(x, y, math.radians(at), radius - 13, radius) for at in range(*field, 10))
    needle = _spoke(x, y, math.radians(angle), 0, radius - 6) if marked or rest else ""
    words = tuple(_Words(x, y + 22 + at * LINE, row) for at, row in enumerate(rows))
    return Cell(2 * x, y + 4 + len(rows) * (LINE + 3), scale + hatch, heavy=needle, words=words)


def _meter(part: Part, rest: bool) -> Cell:
    return _gauge(part, rest, field=(-80, 81))


_FORMS: Mapping[str, Callable[[Part, bool], Cell]] = {
    "dial": _dial,
    "switch": _switch,
    "breaker": _breaker,
    "breakers": _breakers,
    "keys": _keys,
    "button": _button,
    "lamp": _lamp,
    "display": _display,
    "window": _window,
    "gauge": _gauge,
    "meter": _meter,
}
