"""What writers keep beside the blocks: outline, safety messages, markets and terms."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Literal

from generator.errors import Source
from generator.model.blocks import Block, Fragment
from generator.model.catalogue import Catalogue
from generator.model.dates import DateRule
from generator.model.handover import Handover, LabelSign
from generator.model.language import Language
from generator.model.pictures import PictureEntry, PictureFile
from generator.model.reviews import Review
from generator.model.sourced import Given, Unit
from generator.model.specs import Dealer, Spec
from generator.model.spoilt import NOTHING, Spoilt
from generator.units import Quantity

Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
SIGNALS: tuple[Signal, ...] = ("DANGER", "WARNING", "CAUTION", "NOTICE")  # gravest first


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyMessage:
    """Signal word, hazard, consequence and avoidance (ANSI Z535.6); ``id`` is its file name."""

    id: str
    signal: Signal
    hazard: Given[str]
    consequence: Given[str]
    avoid: Given[str]
    sign: str | None = None  # ISO 7010 code
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlinePage:
    """A page of topics; it stands in a van as soon as one of its topics is answered."""

    id: Given[str]
    topics: tuple[Given[str], ...]
    title: str | None = None  # needed where there is more than one topic


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineSection:
    """A section of the manual. ``role`` picks the home page's treatment."""

    title: str
    pages: tuple[OutlinePage, ...]
    role: Literal["emergency", "system", "trip", "reference"] = "system"
    about: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Phase:
    """What the owner is doing, with the topics whose checklist lines it takes, in order."""

    title: str
    topics: tuple[Given[str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Sections in reading order and phases in the order of a trip."""

    sections: tuple[OutlineSection, ...]
    phases: Mapping[str, Phase]
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class LegalPoint:
    """A point of law or guidance of a market, printed with its date and source."""

    id: str
    text: str
    source: str
    read_on: str  # date the source was read, or "from memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class EmergencyNumber:
    """A number to ring and what it is for."""

    name: str
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UnbrakedLimit:
    """The most a van without brakes may be: as a whole, or on its wheels."""

    mass: Annotated[Given[Quantity], Unit("kg")]
    of: Literal["laden", "wheels"] = "laden"
    source: str
    read_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KerbShare:
    """The most a van should or may weigh, as a share of the car's kerb mass; ``text`` says which of the two."""

    share: Annotated[Given[Quantity], Unit("percent")]
    text: str  # "Advice for those new to towing, not law."
    source: str
    read_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Market:
    """A country or region; ``id`` is its file name (uk, nz, au, eu)."""

    id: str
    name: str
    language: str  # BCP 47, "en-GB"
    mains_voltage: Annotated[Given[Quantity], Unit("V")]
    pitch_ratings: Annotated[Given[tuple[Quantity, ...]], Unit("A")]
    ball_load_share: Annotated[Given[tuple[Quantity, Quantity]], Unit("percent")]  # of laden mass, guidance
    ball_load_source: str
    pressure_unit: str
    gauge_unit: str = ""  # what tyre gauges here show as well, "psi"
    speed_unit: str
    gas_supply: str  # what "gas" is on this market: "propane"
    emergency: tuple[EmergencyNumber, ...]
    legal: tuple[LegalPoint, ...] = ()
    unbraked_limit: UnbrakedLimit | None = None
    kerb_braked: KerbShare | None = None  # for a van with brakes; None where the market has no such advice
    kerb_unbraked: KerbShare | None = None
    dates: tuple[DateRule, ...] = ()
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class TiedWords:
    """Words that must not be printed in a van without ``trait``, unless a block states an allowance."""

    id: str
    trait: Given[str]
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """Trade words by market, groups of words owners use alike, and words tied to a trait."""

    trade: Mapping[str, Mapping[str, str]]  # term -> market id or "default" -> word
    asked: tuple[tuple[str, ...], ...] = ()
    tied: tuple[TiedWords, ...] = ()
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRule:
    """An action that must stand before another wherever a block marks both (content/order.yaml).

    With ``always``, the first must be there whenever the other is, in vans with all traits of ``where``.
    """

    first: Given[str]
    then: Given[str]
    why: str
    always: bool = False
    where: tuple[Given[str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """Everything writers keep, parsed."""

    outline: Outline
    blocks: tuple[Block, ...]  # ordered by id
    safety: Mapping[str, SafetyMessage]
    terms: Terms
    order: tuple[OrderRule, ...] = ()
    reviews: tuple[Review, ...] = ()  # those that come with the content
    handover: Handover | None = None
    label_signs: tuple[LabelSign, ...] = ()
    language: Language | None = None  # the rules that words are held to
    fragments: Mapping[str, Fragment] = field(default_factory=dict)  # by id; blocks hold their nodes
    pictures: Mapping[str, PictureEntry] = field(default_factory=dict)  # by id
    spoilt: Spoilt = NOTHING  # files with faults, where a workspace is judged in spite of them


@dataclass(frozen=True, slots=True, kw_only=True)
class Workspace:
    """All documents of a workspace. ``vans`` is keyed by path relative to the workspace."""

    catalogue: Catalogue
    content: Content
    markets: Mapping[str, Market]
    dealers: Mapping[str, Dealer]
    models: Mapping[str, Spec]
    vans: Mapping[str, Spec] = field(default_factory=dict)
    picture_files: Mapping[str, PictureFile] = field(default_factory=dict)  # by path relative to the workspace

    @property
    def spoilt(self) -> Spoilt:
        """The files that have faults; none where all of it was read."""
        return self.content.spoilt
