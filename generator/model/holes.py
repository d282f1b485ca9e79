"""What fills the holes of pages: the values of one van by name, and how a hole is written into rendered text.

Where the holes stand is in ``pages``.
"""

from collections import Counter
from dataclasses import dataclass
from typing import Literal

from generator.model.numbers import DataTable, Input, Number
from generator.model.panels import PanelDrawing
from generator.model.pictures import Picture

# Holes are written into rendered text between two private-use characters, which no input may hold.
HOLE_OPEN, HOLE_CLOSE = "\ue000", "\ue001"

# Values that only ``fill`` knows; it adds them under these names.
EDITION_HOLES = ("edition/number", "edition/date", "edition/changes")


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPlace:
    """A place as the van drawing shows it, metres; ``path`` is its page."""

    code: str
    name: str
    where: Literal["outside", "inside"]
    behind_coupling_m: float
    left_m: float
    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class VanDrawing:
    """The van from above, front up: body and coupling in metres, and its places.

    ``focus`` is the one code to stress, where the drawing shows where a place is.
    """

    length_m: float
    width_m: float
    overall_m: float
    axle_m: float  # coupling to mean axle
    axles: int
    places: tuple[DrawnPlace, ...]
    focus: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """Numbers with inputs, method and source, for the page of their group. Their ids are anchors there."""

    numbers: tuple[Number, ...]
    tables: tuple[DataTable, ...] = ()

    @property
    def shared(self) -> tuple[Input, ...]:
        """The inputs that more than one of them is made from, in the order they are first read."""
        every = [each.inputs for each in self.numbers] + [each.inputs for each in self.tables]
        read = Counter(one for inputs in every for one in inputs)
        return tuple(one for one, times in read.items() if times > 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """The numbers and tables of one group in a row each; ``path`` is the page of their working."""

    path: str
    numbers: tuple[Number, ...]
    tables: tuple[DataTable, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdicts:
    """The numbers that have a limit, gravest verdict first, each with the page of its working."""

    numbers: tuple[tuple[str, Number], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """A line under the title of every page; without text nothing stands there."""

    text: str


HoleValue = str | Number | DataTable | VanDrawing | PanelDrawing | Working | Summary | Verdicts | Notice | Picture
