"""The tree a content block is parsed into, before anything of a van is known.

Text and emphasis are shared with finished pages; links and calls are resolved by ``assemble``.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from generator.errors import Source
from generator.model.catalogue import Condition
from generator.model.sourced import Given, Unit  # noqa: F401 (Unit is part of the annotations)

CALLS = ("number", "table", "drawing", "term", "place", "say", "safety", "include", "picture")


@dataclass(frozen=True, slots=True)
class Text:
    """Plain text."""

    text: str


@dataclass(frozen=True, slots=True)
class Strong:
    """Strong emphasis."""

    children: tuple["Inline", ...]


@dataclass(frozen=True, slots=True)
class Emphasis:
    """Emphasis."""

    children: tuple["Inline", ...]


@dataclass(frozen=True, slots=True)
class TopicLink:
    """A link to a topic, ``[words](topic:gas/open)``."""

    topic: str
    children: tuple["Inline", ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Call:
    """``{{ name('argument') }}``, with ``name`` one of ``CALLS``; ``load`` leaves no "include"."""

    name: Literal["number", "table", "drawing", "term", "place", "say", "safety", "include", "picture"]
    argument: str
    source: Source


Inline = Text | Strong | Emphasis | TopicLink | Call


@dataclass(frozen=True, slots=True)
class Guard:
    """Traits that open a step, paragraph, row or line: ``{two-bottles, not crash-sensor}``."""

    all: tuple[str, ...]
    none: tuple[str, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the source is one line of the page; ``raw`` is how it is typed, from ``source`` on."""

    guard: Guard | None
    content: tuple[Inline, ...]
    source: Source
    raw: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Lines that belong together; a guard on the first line guards the paragraph."""

    guard: Guard | None
    lines: tuple[Line, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered step: an action, with lines under it that say what to see.

    ``safety`` names messages printed in front of this step only; ``mark`` is what order rules refer to.
    """

    guard: Guard | None
    mark: str | None
    safety: tuple[Given[str], ...]
    lines: tuple[Line, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Steps:
    """A numbered list; numbers are counted after guards are applied."""

    items: tuple[Step, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Bullet:
    """One entry of an unnumbered list."""

    guard: Guard | None
    lines: tuple[Line, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Bullets:
    """An unnumbered list."""

    items: tuple[Bullet, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Row:
    """One table row; its guard stands in the first cell."""

    guard: Guard | None
    cells: tuple[tuple[Inline, ...], ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Table:
    """A table with a header row."""

    head: tuple[tuple[Inline, ...], ...]
    rows: tuple[Row, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Subheading:
    """A heading inside a block, ``## Words``; no calls in it."""

    text: str
    source: Source


@dataclass(frozen=True, slots=True)
class Standalone:
    """A paragraph that is one ``table``, ``drawing`` or ``picture`` call, or for ``load`` one ``include``."""

    guard: Guard | None
    call: Call
    source: Source


Node = Paragraph | Steps | Bullets | Table | Subheading | Standalone


@dataclass(frozen=True, slots=True, kw_only=True)
class Fragment:
    """Steps or paragraphs that blocks include; ``id`` is its file name. Its nodes stand in each block's body."""

    id: str
    body: tuple[Node, ...]
    digest: str  # sha256 of the file's bytes
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Walkround:
    """A line on the technician's sheet; ``time`` is minutes."""

    line: str
    time: str = "1 min"
    must: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One Markdown file that answers a topic for the vans it applies to.

    ``id`` is its path under content/blocks without ending. ``allow`` lists words tied to a trait
    that this block may use in vans without the trait.
    """

    id: str
    topic: Given[str]
    title: Given[str]
    form: Literal["description", "procedure", "fault", "emergency", "reference"]
    applies: Condition = field(default_factory=Condition)
    at: tuple[Given[str], ...] = ()
    hazards: tuple[Given[str], ...] = ()
    checklist: Given[str] | None = None
    walkround: Walkround | None = None
    words: tuple[str, ...] = ()
    allow: Mapping[str, str] = field(default_factory=dict)  # tied word group -> why it may stand here
    source: Source
    body: tuple[Node, ...] = ()
    digest: str = ""  # sha256 of the file's bytes, and of the fragments it includes
    fragments: tuple[Given[str], ...] = ()  # ids, each where it is included
