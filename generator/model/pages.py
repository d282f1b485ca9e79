"""Pages as trees of structure: inline words, blocks, pages, with holes where values go; no markup.

What fills the holes stands in ``holes``; what else a manual holds in ``manual``.
"""

from dataclasses import dataclass
from typing import Literal

from generator.model.blocks import Text
from generator.model.content import SafetyMessage

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
