"""Computed quantities as the later stages see them: shown text, verdict, working."""

from collections.abc import Container, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import Enum
from typing import Literal

from generator.errors import Fault
from generator.model.dates import Due
from generator.model.planners import Planners
from generator.model.sourced import Origin
from generator.units import Quantity, Rounding


class Verdict(Enum):
    """How a value stands to its limit, in the words that are printed."""

    WITHIN = "Within the limit"
    CLOSE = "Close to the limit"
    OVER = "Over the limit"


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One input of a number, as the working prints it."""

    name: str
    shown: str
    origin: Origin
    where: str = ""  # for a reader: "plate", "weighed on this van", or the assumption's own source


@dataclass(frozen=True, slots=True)
class Fraction:
    """A quotient inside a sum. ``brackets`` says whether what is above and what is below need them on one line."""

    above: "Formula"
    below: "Formula"
    brackets: tuple[bool, bool]


Formula = tuple[str | Fraction, ...]


def in_line(formula: Formula) -> str:
    """Return a formula on one line: "9000 g ÷ (140 g/h × 1.5 h/day)"."""
    return "".join(part if isinstance(part, str) else _quotient(part) for part in formula)


def _quotient(fraction: Fraction) -> str:
    parts = zip((fraction.above, fraction.below), fraction.brackets, strict=True)
    return " ÷ ".join(f"({in_line(part)})" if bracket else in_line(part) for part, bracket in parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """One sum with a van's values put in; ``label`` says of what, where there are several."""

    label: str = ""
    formula: Formula
    result: str  # nearest; what is shown is rounded to the safe side

    def __str__(self) -> str:
        said = f"{in_line(self.formula)} = {self.result}"
        return f"{self.label}: {said}" if self.label else said


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """One computed quantity. Without ``value``, ``shown`` says what to read off which plate."""

    id: str
    group: str  # heading on the numbers page: "Masses", "Gas", "12 V" ...
    title: str  # "What you may still load"
    value: Quantity | None
    shown: str  # rounded to the safe side in the market's unit: "168 kg"
    sentence: str = ""  # verdict sentence: "74 kg on the towball. Limit 100 kg."
    limit: str = ""  # shown limit
    verdict: Verdict | None = None
    moves: str = ""  # what moves it, and who can
    inputs: tuple[Input, ...] = ()
    method: str  # one sentence
    worked: tuple[Worked, ...] = ()  # the method with the values put in
    source: str  # publication, or "common practice, no source"
    rounding: Rounding
    missing: tuple[str, ...] = ()  # what to read off which plate


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar or limit of a chart: how long it is drawn, and what is written beside it."""

    label: str
    value: float
    shown: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BarChart:
    """What a table says, to be looked at. Bars and limits are on one scale, which ends at ``most`` if need be."""

    title: str
    bars: tuple[Bar, ...]
    limits: tuple[Bar, ...] = ()
    most: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DataTable:
    """A table of values: header, rows of text, and a note under it. The first cell heads its row."""

    id: str
    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    group: str = ""
    method: str = ""
    source: str = ""
    inputs: tuple[Input, ...] = ()
    chart: BarChart | None = None
    due: tuple[tuple[date, int] | None, ...] = ()  # by row: when it first comes due, and after how many months again
    worked: tuple[Worked, ...] = ()  # the method with the values put in, by row
    missing: tuple[str, ...] = ()  # what to read off which plate; a table that needs it all has no rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Declared:
    """What a number or table says of itself before any van is known, so that it can be judged as data.

    It is made in every van with all traits of ``all_of`` and none of ``none_of``. Paths of ``needs`` are
    facts (``masses.max_laden``, ``hot_water.volume``) that must then be given. With a star they stand for
    as many as are fitted, perhaps none (``*.gas_input``). Paths that start with ``van.`` or ``market.``
    are there in every van. ``optional`` facts are used where given.
    """

    id: str
    form: Literal["number", "table", "places"]  # "places": one number for each place, under no id of its own
    group: str
    title: str
    all_of: tuple[str, ...] = ()
    none_of: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    optional: tuple[str, ...] = ()
    uses: tuple[str, ...] = ()  # ids of numbers it builds on
    assumes: tuple[str, ...] = ()  # ids of assumptions
    head: tuple[str, ...] = ()  # of a table
    unit: str = ""  # a number is shown in it; a table's cells say theirs
    rounding: Rounding
    digits: int = 0
    method: str
    moves: str = ""  # what moves a number that has a limit: "What you load, and where."
    source: str

    def holds(self, traits: Container[str]) -> bool:
        """Return whether a van with ``traits`` has it."""
        return all(trait in traits for trait in self.all_of) and not any(trait in traits for trait in self.none_of)


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbers:
    """Everything computed for one van. ``warnings`` are thin margins; faults were raised."""

    numbers: Mapping[str, Number]
    tables: Mapping[str, DataTable]
    place_limits: Mapping[str, Number] = field(default_factory=dict)  # place code -> room left there
    warnings: tuple[Fault, ...] = ()
    dates: tuple[Due, ...] = ()  # soonest first, then those that the part itself says
    planners: Planners = field(default_factory=Planners)
