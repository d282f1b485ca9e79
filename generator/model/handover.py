"""What a technician prepares, shows first and hands over: as written, and as it holds for one van."""

from dataclasses import dataclass
from typing import Literal

from generator.errors import Source
from generator.model.sourced import Duration, Given


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One line of ``content/handover.yaml``; it holds in vans with all traits of ``when`` and none of ``unless``.

    ``at`` is the point ("mains_inlet.inlet") at whose place it is handed over. ``write`` leaves room for what it says.
    """

    line: str
    when: tuple[Given[str], ...] = ()
    unless: tuple[Given[str], ...] = ()
    at: Given[str] | None = None
    write: bool = False
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Handover:
    """The whole file. ``time`` is what the walk-round may take, ``phone_time`` what its first stop takes of it.

    ``say`` lists the numbers that are said aloud where a topic that names them is shown.
    """

    time: Duration
    phone_time: Duration
    say: tuple[Given[str], ...]
    prepare: tuple[Told, ...]
    leave: tuple[Told, ...]
    phone: tuple[Told, ...]
    hand_over: tuple[Told, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSign:
    """The sign of ``message``, or a pictogram, stands on the label of the place where the point ``at`` is."""

    at: Given[str]
    message: Given[str] | None = None
    pictogram: Given[str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Handed:
    """Something put into the owner's hands, with room to write a number where ``write``."""

    line: str
    write: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateValue:
    """A value of the build sheet that somebody reads off its plate; ``shown`` is "" where it is not known."""

    name: str  # "Gas input"
    shown: str  # "1.5 kW"
    where: str  # "the rating plate of the water heater"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What the walk-round sheet has beside its stops."""

    minutes: int
    phone_minutes: int
    prepare: tuple[str, ...]
    leave: tuple[str, ...]
    phone: tuple[str, ...]
    papers: tuple[Handed, ...]  # at no place
    plates: tuple[PlateValue, ...]  # of the van itself


@dataclass(frozen=True, slots=True, kw_only=True)
class ShutOff:
    """Something that can be cut off, and where."""

    what: Literal["Gas", "Mains", "12 V", "Water"]
    part: str  # "bottle valves"
    code: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyFacts:
    """What the card in the car shows: title and value, line by line, and where things are cut off."""

    facts: tuple[tuple[str, str], ...]
    shut_offs: tuple[ShutOff, ...]
    emergency: tuple[tuple[str, str], ...]  # whom, number
