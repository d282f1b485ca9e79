"""Computed quantities as the later stages see them: shown text, verdict, working."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from generator.errors import Fault
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
    inputs: tuple[Input, ...] = ()
    method: str  # one sentence
    source: str  # publication, or "common practice, no source"
    rounding: Rounding
    missing: tuple[str, ...] = ()  # what to read off which plate


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbers:
    """Everything computed for one van. ``warnings`` are thin margins; faults were raised."""

    numbers: Mapping[str, Number]
    tables: Mapping[str, DataTable]
    place_limits: Mapping[str, Number] = field(default_factory=dict)  # place code -> room left there
    warnings: tuple[Fault, ...] = ()
