"""A panel as it is drawn: knobs, switches and lamps of one point of a kind, in rows, as a sketch of what to look for.

Nothing of a van is in it but which kind is fitted; how it looks is left to later stages.
"""

from dataclasses import dataclass

from generator.model.catalogue import Drawn


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A position, a colour of a lamp or words of a display; ``marked`` where the drawing shows it set or lit."""

    words: str
    marked: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One thing on a panel and everything it can be turned to or show; ``unit`` as printed, "°C"."""

    name: str
    form: Drawn
    faces: tuple[Face, ...]
    unit: str = ""

    @property
    def marked(self) -> Face | None:
        """What it is set to here, or None."""
        return next((face for face in self.faces if face.marked), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelDrawing:
    """A panel with its rows; where no part is marked it shows what there is."""

    title: str  # "Water heater: control"
    rows: tuple[tuple[Part, ...], ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        """All parts, row by row."""
        return tuple(part for row in self.rows for part in row)

    @property
    def in_words(self) -> tuple[str, ...]:
        """What each part is, and where it is set, for those who hear it."""
        return tuple(_in_words(part) for part in self.parts)


def _in_words(part: Part) -> str:
    unit = f" {part.unit}" if part.unit else ""
    said = f"{part.name}: {', '.join(face.words for face in part.faces)}{unit}."
    return f"{said} Here: {part.marked.words}." if part.marked else said
