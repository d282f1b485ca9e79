"""Who has checked which words: the records that take the draft notice off a manual.

Which blocks need a review, and what their words are, is left to ``assemble``.
"""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class Review:
    """Somebody has checked a block as it stood: ``digest`` is of the words read, so other words are unreviewed."""

    block: str  # its id
    digest: str  # ``SafetyBlock.digest``
    by: str
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Register:
    """Reviews as a file holds them; what is not in it is unreviewed."""

    reviews: tuple[Review, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyBlock:
    """A block of one van that somebody can be hurt by, and who has checked its words.

    ``file`` is the block's own; ``sentences`` are the files of the fragments and kinds that speak in it. ``digest`` is
    the sha256 of the words it prints in this van.
    """

    id: str
    file: str
    title: str
    why: tuple[str, ...]
    sentences: tuple[str, ...]
    digest: str
    review: Review | None
