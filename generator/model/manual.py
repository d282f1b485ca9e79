"""A van's manual: pages, the values for their holes, search, labels, walk-round.

Site, single file and paper are made from it. What pages are made of stands in ``pages``, what fills them in ``holes``.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from generator.model.dates import Due
from generator.model.handover import Handed, KeyFacts, PlateValue, Sheet
from generator.model.holes import HoleValue
from generator.model.pages import Page
from generator.model.planners import Planners
from generator.model.reviews import SafetyBlock


@dataclass(frozen=True, slots=True, kw_only=True)
class SearchEntry:
    """What search knows of a page or topic; holds no values."""

    path: str
    anchor: str
    title: str
    section: str
    plate: str = ""
    words: tuple[str, ...] = ()
    answer: str = ""  # first line of the answer
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkLine:
    """One thing shown at a stop."""

    line: str
    minutes: int
    must: bool
    topic: str
    title: str = ""  # of the topic, to read it up
    numbers: tuple[str, ...] = ()  # ids of those said aloud here


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkStop:
    """A place on the walk-round with what is shown there, in walking order."""

    code: str
    name: str
    where: Literal["outside", "inside"]
    lines: tuple[WalkLine, ...]
    plates: tuple[PlateValue, ...] = ()
    hand_over: tuple[Handed, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelText:
    """One label: its place's code and name."""

    code: str
    name: str
    path: str  # "A1/"
    sign: str = ""  # ISO 7010 code of the gravest hazard here, else the name of a pictogram


@dataclass(frozen=True, slots=True, kw_only=True)
class TopicChoice:
    """Why a topic is in or out of this van, for ``show``."""

    topic: str
    block: str | None
    reason: str


# Place code -> point ("toilet.cassette") -> the part in words. Places that were taken out stay in it.
Stood = Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Manual:
    """One van's manual, complete but for edition, date and asset names."""

    chassis: str
    tail: str
    model: str
    market: str
    language: str
    dealer: str
    pages: tuple[Page, ...]
    values: Mapping[str, HoleValue]
    search: tuple[SearchEntry, ...]
    synonyms: tuple[tuple[str, ...], ...]
    labels: tuple[LabelText, ...]
    walkround: tuple[WalkStop, ...]
    traits: tuple[str, ...]
    choices: tuple[TopicChoice, ...]
    blocks: Mapping[str, str] = field(default_factory=dict)  # block id -> digest
    equipment: Mapping[str, str] = field(default_factory=dict)  # key -> name of what is fitted
    stood: Stood = field(default_factory=dict)
    safety: tuple[SafetyBlock, ...] = ()
    sheet: Sheet | None = None
    card: KeyFacts | None = None
    dates: tuple[Due, ...] = ()
    planners: Planners = field(default_factory=Planners)

    @property
    def waiting(self) -> tuple[SafetyBlock, ...]:
        """The safety-critical blocks whose words nobody has checked; while there are any, this is a draft."""
        return tuple(block for block in self.safety if block.review is None)
