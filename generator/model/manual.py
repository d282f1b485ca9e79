"""A van's manual as a tree: pages with holes, the values for the holes, search, labels, walk-round.

The tree is what site, single file and paper are made from; it holds no markup.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from generator.model import pictures
from generator.model.blocks import Text
from generator.model.content import SafetyMessage
from generator.model.dates import Due
from generator.model.handover import Handed, KeyFacts, PlateValue, Sheet
from generator.model.numbers import DataTable, Input, Number
from generator.model.panels import PanelDrawing
from generator.model.planners import Planners
from generator.model.reviews import SafetyBlock

# Holes are written into rendered text between two private-use characters, which no input may hold.
HOLE_OPEN, HOLE_CLOSE = "\ue000", "\ue001"


# --- inline ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Strong:
    """Strong emphasis on a finished page."""

    children: tuple["Inline", ...]


@dataclass(frozen=True, slots=True)
class Emphasis:
    """Emphasis on a finished page."""

    children: tuple["Inline", ...]


@dataclass(frozen=True, slots=True)
class Ref:
    """A link inside the manual: ``path`` from the manual's root ("gas.html", "A1/index.html")."""

    path: str
    anchor: str
    children: tuple["Inline", ...]


@dataclass(frozen=True, slots=True)
class PlaceRef:
    """A code plate with the place's name, linked to the place's page."""

    code: str
    name: str


@dataclass(frozen=True, slots=True)
class Call:
    """A telephone link to a number that is part of the structure (emergency numbers)."""

    number: str
    children: tuple["Inline", ...]


@dataclass(frozen=True, slots=True)
class TextHole:
    """Where a value goes as escaped text; ``name`` is a key of ``Manual.values``."""

    name: str


@dataclass(frozen=True, slots=True)
class DialHole:
    """A telephone link whose number is a value (the dealer's): text and target from one hole."""

    name: str


Inline = Text | Strong | Emphasis | Ref | PlaceRef | Call | TextHole | DialHole
Line = tuple[Inline, ...]


# --- blocks ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Heading:
    """Level 2 or 3; the page title is level 1 and stands outside the body. No holes."""

    level: Literal[2, 3]
    text: str
    anchor: str


Role = Literal["", "lead", "note", "undo", "stop"]


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Lines, each on its own line. ``role`` lets a template style it."""

    lines: tuple[Line, ...]
    role: Role = ""


@dataclass(frozen=True, slots=True)
class SafetyBox:
    """A safety message at the place where it is read; links to a procedure land above it."""

    message: SafetyMessage


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture; it fills the hole ``picture/<name>``. Width and height are the ratio of its sides."""

    name: str
    alt: str
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Step:
    """One step: messages in front of it, the action (first line), what to see (further lines), pictures of it.

    A drawing among the pictures is a hole.
    """

    safety: tuple[SafetyMessage, ...]
    lines: tuple[Line, ...]
    pictures: tuple["Picture | FragmentHole", ...] = ()


@dataclass(frozen=True, slots=True)
class Steps:
    """Numbered steps. Those of a ``fault`` are checks, each of which may put it right."""

    items: tuple[Step, ...]
    role: Literal["", "fault"] = ""


@dataclass(frozen=True, slots=True)
class Bullets:
    """An unnumbered list."""

    items: tuple[tuple[Line, ...], ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A static table; the first cell of a row heads it."""

    head: tuple[Line, ...]
    rows: tuple[tuple[Line, ...], ...]


@dataclass(frozen=True, slots=True)
class FragmentHole:
    """Where a table, verdict, working or drawing built from values goes; key of ``Manual.values``."""

    name: str


@dataclass(frozen=True, slots=True)
class LinkItem:
    """A ruled row that is a link: title, optional note under it and code plate before it."""

    path: str
    anchor: str
    title: str
    note: str = ""
    plate: str = ""


@dataclass(frozen=True, slots=True)
class Links:
    """A list of link rows."""

    items: tuple[LinkItem, ...]


@dataclass(frozen=True, slots=True)
class Check:
    """A tick box with its line, linked to the page that explains it. ``id`` is stable across editions."""

    id: str
    line: Line
    path: str
    anchor: str


@dataclass(frozen=True, slots=True)
class Checks:
    """A checklist; ``id`` names its ticks in the browser's storage."""

    id: str
    items: tuple[Check, ...]


@dataclass(frozen=True, slots=True)
class Find:
    """The search field and its results."""


@dataclass(frozen=True, slots=True)
class Group:
    """A part of a page with a role of its own.

    On the start page: "emergency", "find", "van", "phases", "wrong", "numbers", "systems", "more". On a place page:
    "where", "limit", "here", "do", "wrong", "cautions", "read", "drawn", "near". On an emergency page: "call",
    "shut-offs". At the end of every page: "related" (at most four links), "dealer".
    """

    role: str
    children: tuple["Node", ...]


Node = (
    Heading | Paragraph | Picture | SafetyBox | Steps | Bullets | Table | FragmentHole | Links | Checks | Find | Group
)


# --- pages ----------------------------------------------------------------------------------------


Template = Literal[
    "home",
    "topic",
    "emergency",
    "place",
    "checklist",
    "list",
    "numbers",
    "lights",
    "safety",
    "planner",
    "notes",
    "gone",
]  # of pages: a file of the site template each


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page. Everything in it is structure: kinds, traits, market, places; never a value."""

    id: str  # outline id or own ("numbers"); a place page's is its code
    path: str  # from the manual's root: "fridge.html", "A1/index.html"
    title: str
    template: Template
    section: str = ""
    crumbs: tuple[tuple[str, str], ...] = ()  # (title, path) from the start page down, own page left out
    plate: str = ""
    language: str
    topics: tuple[str, ...] = ()
    blocks: tuple[str, ...] = ()  # block ids printed on it
    body: tuple[Node, ...] = ()

    @property
    def root(self) -> str:
        """Prefix from this page to the manual's root: "" or "../"."""
        return "../" * self.path.count("/")


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


HoleValue = (
    str | Number | DataTable | VanDrawing | PanelDrawing | Working | Summary | Verdicts | Notice | pictures.Picture
)


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
    sign: str = ""  # ISO 7010 code of the gravest hazard here


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


# Values that only ``fill`` knows; it adds them under these names.
EDITION_HOLES = ("edition/number", "edition/date", "edition/changes")
