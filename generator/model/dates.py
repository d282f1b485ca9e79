"""Dates an owner must keep: what is looked at, tested or renewed, and when."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal

from generator.model.sourced import Given, Unit
from generator.units import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class DateRule:
    """What comes due, as written in the file of a market or a kind.

    It holds in vans with all traits of ``when``. It counts from the day the van was built or handed over, or
    is ``stamped``: the part itself says it, and ``every`` is left out.
    """

    id: str
    title: Given[str]  # "Gas hose"
    when: tuple[Given[str], ...] = ()
    counts_from: Literal["built", "handed_over", "stamped"]
    every: Annotated[Given[Quantity], Unit("year")] | None = None
    then_every: Annotated[Given[Quantity], Unit("year")] | None = None  # after the first time, where it differs
    why: str  # what to do, and why: one or two sentences
    source: str
    read_on: str  # day the source was read, or "from memory"
    topic: Given[str] | None = None  # the page to read


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """A date rule as it holds for one van. ``day`` is None where the part says it, or the first day is not known."""

    id: str
    title: str
    day: date | None
    every_months: int  # from then on; 0 for a date that the part says
    when: str  # for a reader: "15 June 2031, then every 5 years"
    why: str
    source: str
    topic: str = ""
