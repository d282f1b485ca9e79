"""What differs between one edition of a van's manual and the one before."""

from dataclasses import dataclass
from typing import Literal

State = Literal["new", "gone", "changed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing that differs; ``path`` is "" where this edition has no page of it. ``now`` and ``before`` are shown."""

    state: State
    title: str
    path: str = ""
    anchor: str = ""
    now: str = ""
    before: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeGroup:
    """The changes of one kind under their heading."""

    title: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """Everything that differs since edition ``since``; nothing came before a first edition."""

    since: int | None
    groups: tuple[ChangeGroup, ...] = ()
