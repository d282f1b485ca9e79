"""What the paper stage hands over: finished files, and what a dealer must know about the labels."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from generator.model.holes import HoleValue
from generator.model.manual import Manual
from generator.model.site import Edition


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing for paper: SVG with plain attributes and class names, and its caption.

    ``width`` is that of its view box; 0 where the page says how wide it is. ``note`` is printed under it.
    """

    caption: str
    svg: str
    width: float = 0.0
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelChoice:
    """Which labels are set: from position ``first`` of the first sheet on, and of all places or ``only`` some codes."""

    first: int = 1
    only: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """What paper beside the labels is made of, beyond the manual.

    Without ``edition`` it is a proof of what is not published. ``drawings`` are by hole name, ``signs`` are SVG by
    name: "alert" and codes of ISO 7010.
    """

    edition: Edition | None
    day: date
    cover: Picture | None
    drawings: Mapping[str, tuple[Picture, ...]]
    signs: Mapping[str, str]

    @property
    def edition_in_words(self) -> str:
        """What foot and cover call it."""
        return f"edition {self.edition.number}" if self.edition else "proof"

    def values(self, manual: Manual) -> Mapping[str, HoleValue]:
        """Return the manual's values with those of the edition."""
        edition = self.edition
        number, day = (str(edition.number), edition.day_in_words) if edition else ("none yet", "not published")
        return {**manual.values, "edition/number": number, "edition/date": day}


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelReport:
    """How a van's labels came out, for the dealer who prints and sticks them.

    ``near_m`` follows the rule of thumb that a symbol is read from ten times its width, ``far_m``
    assumes a telephone camera; both metres. ``note`` says what would make the symbols coarser.
    """

    count: int
    sheets: int
    stock: str
    version: int  # of the densest symbol
    module_mm: float  # of the densest symbol
    symbol_mm: float  # without quiet zone
    near_m: float
    far_m: float
    note: str = ""

    @property
    def lines(self) -> tuple[str, ...]:
        """Return the report as it is printed."""
        labels = "1 label" if self.count == 1 else f"{self.count} labels"
        sheets = "1 sheet" if self.sheets == 1 else f"{self.sheets} sheets"
        lines = (
            f"{labels} on {sheets} ({self.stock}); print at 100 % and measure the check line",
            f"symbol {self.symbol_mm:.1f} mm wide, version {self.version}-H, module {self.module_mm:.2f} mm",
            f"reads from about {self.near_m * 100:.0f} cm (ten times its width, a rule of thumb), "
            f"at most about {self.far_m * 100:.0f} cm (camera assumed, no telephone was tried)",
        )
        return (*lines, self.note) if self.note else lines


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """Printed matter of one van by file name. ``labels`` is None for a van without labelled places.

    ``notes`` say what a dealer must know of a file; "" for nothing.
    """

    files: Mapping[str, bytes]
    labels: LabelReport | None = None
    notes: Mapping[str, str] = field(default_factory=dict)
