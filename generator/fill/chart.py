"""Draws bars for people who would rather look: ink only, told apart by pattern, named lines for limits.

The table beside a chart says the same in numbers. Plain attributes only; colours are left to the style sheet.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from generator.fill.holes import printable
from generator.fill.outline import n
from generator.model.numbers import Bar, BarChart

_WIDTH, _LETTER, _TEXT = 360.0, 9.8, 16.0  # of a letter: about, and on the wide side
_BAR, _GAP, _HATCH = 18.0, 10.0, 6.0
_NARROW = 10  # letters of a label that stands beside its bar; a longer one stands over it
_HEAD = 28.0


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where the bars of a chart lie: left and right end of the scale, what the right end stands for."""

    left: float
    right: float
    most: float
    over: bool  # whether labels stand over their bars

    @classmethod
    def of(cls, chart: BarChart) -> "_Frame":
        longest = max(len(bar.label) for bar in chart.bars)
        over = longest > _NARROW
        values = max(len(bar.shown) for bar in chart.bars) * _LETTER + 8
        tallest = max([bar.value for bar in chart.bars] + [limit.value for limit in chart.limits])
        most = min(tallest, chart.most) if chart.most is not None else tallest
        return cls(0.0 if over else longest * _LETTER + 8, _WIDTH - values, max(most, 1e-9), over)

    def x(self, value: float) -> float:
        return self.left + (self.right - self.left) * min(max(value, 0.0), self.most) / self.most

    @property
    def row(self) -> float:
        return _BAR + _GAP + (_TEXT + 4 if self.over else 0.0)


def bar_chart(chart: BarChart, name: str) -> Markup:
    """Return a chart; ``name`` makes its ids, so it must stand once on a page."""
    frame = _Frame.of(chart)
    top = _HEAD if chart.limits else 0.0
    rows = (_row(bar, chart, frame, top + frame.row * at) for at, bar in enumerate(chart.bars))
    inner = Markup("").join([*_names(chart, frame), *rows])
    size = n(top + frame.row * len(chart.bars))
    title, words = printable(chart.title), printable(in_words(chart))
    return Markup(
        '<figure class="chart">\n<figcaption>{title}</figcaption>\n'
        '<svg viewBox="0 0 360 {size}" role="img" aria-labelledby="{name}-title {name}-desc" color="#000">'
        '<title id="{name}-title">{title}</title><desc id="{name}-desc">{words}</desc>{inner}</svg>\n</figure>'
    ).format(size=size, name=name, title=title, words=words, inner=inner)


def in_words(chart: BarChart) -> str:
    """Return what the chart shows, for those who hear it."""
    limits = [f"{limit.label}: {limit.shown}" for limit in chart.limits]
    return ". ".join([f"{bar.label}: {bar.shown}" for bar in chart.bars] + limits) + "."


def _names(chart: BarChart, frame: _Frame) -> Iterator[Markup]:
    """Yield the name of each line beside a piece of it; the pieces at the bars lie under it."""
    for limit in chart.limits:
        x = frame.x(limit.value)
        anchor, at = ("end", x - 6) if x > _WIDTH / 2 else ("start", x + 6)
        yield _line(x, 2, _HEAD - 8)
        yield _text(at, 16, f"{limit.label} {limit.shown}", anchor)


def _row(bar: Bar, chart: BarChart, frame: _Frame, top: float) -> Markup:
    y = top + (_TEXT + 4 if frame.over else 0.0)
    label = _text(0, top + _TEXT - 2, bar.label) if frame.over else _text(0, y + _BAR - 3, bar.label)
    limit = min((each.value for each in chart.limits), default=bar.value)
    solid, end = frame.x(min(bar.value, limit)), frame.x(bar.value)
    parts = [label, _text(_WIDTH, y + _BAR - 3, bar.shown, "end")]
    if solid > frame.left:
        parts.append(_solid(frame.left, solid, y))
    if end > solid:
        parts.append(_hatched(solid, end, y))
    parts += [_line(frame.x(each.value), y - 4, y + _BAR + 4) for each in chart.limits]
    if bar.value > frame.most:
        parts.append(_open(end, y))
    return Markup("").join(parts)


def _solid(left: float, right: float, y: float) -> Markup:
    return Markup('<rect class="chart__bar" x="{}" y="{}" width="{}" height="{}" fill="currentColor"/>').format(
        n(left), n(y), n(right - left), n(_BAR)
    )


def _hatched(left: float, right: float, y: float) -> Markup:
    """What is beyond a limit: a frame with slanting lines."""
    lines = []
    start = left - _BAR
    while start < right:
        low, high = max(start, left), min(start + _BAR, right)
        if high > low:
            lines.append(f"M{n(low)} {n(y + _BAR - (low - start))}L{n(high)} {n(y + _BAR - (high - start))}")
        start += _HATCH
    box = f"M{n(left)} {n(y)}H{n(right)}V{n(y + _BAR)}H{n(left)}z"
    return Markup('<path class="chart__over" d="{}" fill="none" stroke="currentColor"/>').format("".join([box, *lines]))


def _open(x: float, y: float) -> Markup:
    """A bar that goes on past the end of the scale: two gaps near its end."""
    slants = "".join(f"M{n(x - off)} {n(y + _BAR + 2)}l6 {n(-_BAR - 4)}" for off in (20, 12))
    return Markup('<path class="chart__gap" d="{}" fill="none" stroke="#fff" stroke-width="3"/>').format(slants)


def _line(x: float, top: float, bottom: float) -> Markup:
    return Markup(
        '<path class="chart__line" d="M{} {}V{}" fill="none" stroke="currentColor" stroke-width="2"/>'
    ).format(n(x), n(top), n(bottom))


def _text(x: float, y: float, words: str, anchor: str = "start") -> Markup:
    return Markup('<text x="{}" y="{}" font-size="16" text-anchor="{}" fill="currentColor">{}</text>').format(
        n(x), n(y), anchor, printable(words)
    )
