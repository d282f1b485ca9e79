"""Faults: what the author of an input file can put right, and the errors that carry them.

Printing them is left to the command line.
"""

from dataclasses import dataclass
from difflib import get_close_matches
from enum import Enum


class Level(Enum):
    """How a fault is taken: an error stops publication, a warning is printed."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True, order=True)
class Source:
    """Where something was written: file relative to the workspace, line and column from 1."""

    file: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing the author of an input file can put right."""

    message: str
    source: Source | None = None
    hint: str = ""
    level: Level = Level.ERROR

    def __str__(self) -> str:
        """Return the fault as the command line prints it, hint on a line of its own."""
        where = f"{self.source}: " if self.source else ""
        hint = f"\n  hint: {self.hint}" if self.hint else ""
        return f"{where}{self.level.value}: {self.message}{hint}"


class ManualError(Exception):
    """Base of every error raised on purpose; carries one or more faults."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__(*(fault.message for fault in faults))
        self.faults = faults


class SpecError(ManualError):
    """A build sheet must be put right."""


class CatalogueError(ManualError):
    """A kind, slot, rule or derived trait must be put right."""


class ContentError(ManualError):
    """A block, safety message, outline, market or term must be put right."""


class ComputeError(ManualError):
    """A number cannot be worked out, or breaks a plate or legal limit."""


class RenderError(ManualError):
    """A page could not be turned into HTML, or a finished page has a dead link."""


class PublishError(ManualError):
    """The library or the records could not be written."""


def nearest(word: str, known: object) -> str:
    """Return a hint naming the known word closest to ``word``, or the choices when few.

    Args:
        word: What the author typed.
        known: Iterable of the accepted words.
    """
    choices = sorted(str(choice) for choice in known)  # type: ignore[attr-defined]
    close = get_close_matches(word, choices, n=1, cutoff=0.6)
    if close:
        return f'did you mean "{close[0]}"?'
    if 0 < len(choices) <= 12:
        return "one of: " + ", ".join(choices)
    return ""
