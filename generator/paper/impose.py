"""The booklet laid out for stapling: two pages a side, in parts thin enough to fold.

Nothing is set anew: each page is the finished booklet's own.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.paper.typeset import typeset

MOST_PAGES = 64  # 16 sheets of 80 g/m2: what folds flat and takes a staple (common practice, no source)
_BLANK = 0
_DIGITS = [str(byte) for byte in range(256)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Pages that are stapled together, first and last as numbered; blank pages fill up to whole sheets."""

    first: int
    last: int

    @property
    def pages(self) -> tuple[int, ...]:
        """The pages in reading order. One that is a left-hand page stays one, so that margins lie at the fold."""
        pages = [_BLANK] * (self.first % 2 == 0) + list(range(self.first, self.last + 1))
        return tuple(pages + [_BLANK] * (-len(pages) % 4))

    @property
    def sheets(self) -> int:
        """How many sheets of paper it takes."""
        return len(self.pages) // 4


def parts(count: int, openings: Sequence[int]) -> tuple[Part, ...]:
    """Divide a booklet of ``count`` pages into parts of about the same thickness, opening with chapters if they can.

    Args:
        count: Pages of the booklet.
        openings: Pages on which chapters open.
    """
    made: list[Part] = []
    first = 1
    most = MOST_PAGES - 1  # a blank page may come first
    while (left := count - first + 1) > most:
        wanted = first + left // math.ceil(left / most)
        fitting = [page for page in openings if first + most // 2 < page <= first + most]
        cut = min(fitting, key=lambda page: abs(page - wanted), default=wanted)
        made.append(Part(first=first, last=cut - 1))
        first = cut
    return (*made, Part(first=first, last=count))


def sides(part: Part) -> list[tuple[int, int]]:
    """Return the sides of a part's sheets, front then back, each with its left and right page; 0 is blank."""
    pages = part.pages
    made = []
    for sheet in range(part.sheets):
        low, high = 2 * sheet, len(pages) - 1 - 2 * sheet
        made += [(pages[high], pages[low]), (pages[low + 1], pages[high - 1])]
    return made


def imposed(booklet: bytes, all_parts: Sequence[Part], look: dict[str, object]) -> bytes:
    """Return the booklet as a PDF to be printed on both sides, turned at the short edge.

    It is for the printer only: its sides have no reading order, so it is no PDF/UA as the booklet itself is.

    Args:
        booklet: The finished booklet.
        all_parts: How it is divided.
        look: Title, author, language and page size, as the booklet has them.
    """
    document = {
        **look,
        "alt": "Page {page} of the booklet",
        "sides": [side for part in all_parts for side in sides(part)],
    }
    # A file handed to Typst in memory must be text, so the booklet goes as its numbers: 0.2 s for 160 pages.
    numbers = f"[{','.join(map(_DIGITS.__getitem__, booklet))}]".encode()
    return typeset("impose.typ", document, {"booklet.json": numbers}, standards=())
