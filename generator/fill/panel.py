"""Draws a panel: knobs, switches, lamps and displays in rows inside a frame, each with its labels and its name.

Ink alone, so that it holds on a dark ground, on paper and in a browser's own colours: what is set has a frame and heavy
letters, colours of lamps are words and hatching. How each thing looks is left to ``panel_parts``. Shapes are our own;
none of them is a graphical symbol of IEC 60417 or ISO 7000, since the sketch says nothing that its words do not.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from generator.fill.holes import printable
from generator.fill.outline import n
from generator.fill.panel_parts import LINE, SIZE, Cell, cell_of, width_of, wrapped
from generator.model.panels import PanelDrawing, Part
from generator.model.paper import Picture

_WIDTH, _PAD, _GAP = 360.0, 14.0, 14.0
_NAMES = (116.0, 100.0, 86.0)  # least widths of a name under what it names: the first with which a row fits
_SKETCH = "Drawing of what to look for. Yours may look different: go by its labels."


@dataclass(frozen=True, slots=True)
class _Placed:
    """A part in its row, as wide as it is with its name."""

    part: Part
    cell: Cell
    wide: float

    @property
    def name(self) -> list[str]:
        """The lines of its name."""
        unit = f" ({self.part.unit})" if self.part.unit else ""
        return wrapped(self.part.name + unit, self.wide)


_Row = list[_Placed]


def panel_figure(panel: PanelDrawing) -> Markup:
    """Return the drawing with its caption; a list of its parts is for those who cannot see it."""
    items = Markup("").join(Markup("<li>{}</li>").format(printable(words)) for words in panel.in_words)
    return Markup(
        '<figure class="panel">\n{}\n<ul class="unseen">{}</ul>\n<figcaption>{}. {}</figcaption>\n</figure>'
    ).format(_svg(panel)[0], items, printable(panel.title), _SKETCH)


def panel_picture(panel: PanelDrawing) -> Picture:
    """Return the drawing for paper, with everything it shows in words."""
    words = " ".join((f"{panel.title}.", *panel.in_words))
    svg, width = _svg(panel)
    return Picture(caption=words, svg=str(svg), width=width, note=_SKETCH)


def _svg(panel: PanelDrawing) -> tuple[Markup, float]:
    """Return the drawing and its width, so that a narrow panel is not blown up."""
    rest = not any(part.marked for part in panel.parts)
    rows = [line for row in panel.rows for line in _lines([(part, cell_of(part, rest=rest)) for part in row])]
    widest = max(_width(row) for row in rows)
    shapes, words, top = Markup(""), Markup(""), _PAD
    for row in rows:
        left, tall = _PAD + (widest - _width(row)) / 2, max(one.cell.height for one in row)
        for one in row:
            drawn, written = one.cell.at(left + (one.wide - one.cell.width) / 2, top + (tall - one.cell.height) / 2)
            shapes += drawn
            words += written + _name(one, left + one.wide / 2, top + tall, quiet=not rest and not one.part.marked)
            left += one.wide + _GAP
        top += tall + max(len(one.name) for one in row) * LINE + _GAP + 4
    height, right = top - _GAP + _PAD - 4, widest + 2 * _PAD
    frame = Markup('<rect x="1" y="1" width="{}" height="{}" rx="6"/>').format(n(right - 2), n(height - 2))
    svg = Markup(
        '<svg width="{}" viewBox="0 0 {} {}" role="img" color="#000"><title>{}</title><desc>{}</desc>'
        '<g fill="none" stroke="currentColor" stroke-width="2">{}{}</g>'
        '<g fill="currentColor" font-size="{}" text-anchor="middle">{}</g></svg>'
    ).format(n(right), n(right), n(height), printable(panel.title), _said(panel), frame, shapes, n(SIZE), words)
    return svg, right


def _said(panel: PanelDrawing) -> Markup:
    """Return in a sentence what the sketch is, and what is set in it."""
    marked = [f"{part.name}: {part.marked.words}." for part in panel.parts if part.marked]
    return printable(" ".join(["A sketch, not to scale.", *marked]))


def _lines(row: list[tuple[Part, Cell]]) -> Iterator[_Row]:
    """Yield a row with its names as broad as fit beside each other; in more lines where even narrow ones do not."""
    for name in _NAMES:
        whole = [_Placed(part, cell, _wide(part, cell, name)) for part, cell in row]
        if _width(whole) <= _WIDTH - 2 * _PAD:
            yield whole
            return
    line: _Row = []
    for one in (_Placed(part, cell, _wide(part, cell, _NAMES[0])) for part, cell in row):
        if line and _width([*line, one]) > _WIDTH - 2 * _PAD:
            yield line
            line = []
        line = [*line, one]
    yield line


def _wide(part: Part, cell: Cell, name: float) -> float:
    """Return the width of a part with its name, which breaks into lines rather than make it wide."""
    longest_word = max(width_of(word) for word in part.name.split())
    return max(cell.width, min(name, width_of(part.name)), longest_word)


def _width(row: _Row) -> float:
    return sum(one.wide for one in row) + _GAP * (len(row) - 1)


def _name(one: _Placed, centre: float, top: float, *, quiet: bool) -> Markup:
    """Return the name under a part, quiet where another one is what the drawing is about."""
    mark = Markup(' class="panel__quiet"') if quiet else Markup("")
    lines = (
        Markup('<text x="{}" y="{}"{}>{}</text>').format(n(centre), n(top + LINE * (at + 1)), mark, printable(words))
        for at, words in enumerate(one.name)
    )
    return Markup("").join(lines)
