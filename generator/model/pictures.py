"""Pictures: what a file of the workspace was read as, and what a van prints in a place.

Only ``load`` reads files; a picture that reaches a page is small, without metadata, and has words beside it.
"""

from dataclasses import dataclass
from typing import Literal

from generator.errors import Source
from generator.model.sourced import Given


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureEntry:
    """A picture as written: its file, and what it shows, in words. ``file`` lies in the folder of pictures beside."""

    file: Given[str]
    alt: Given[str]
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureFile:
    """A picture as read: a line drawing in ink (SVG of few elements), or WebP made small. Sizes are pixels."""

    form: Literal["svg", "webp"]
    data: bytes
    width: int
    height: int
    digest: str  # sha256 of ``data``


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture of one van, with its words."""

    alt: Given[str]
    file: PictureFile
