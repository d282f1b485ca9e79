"""The booklet laid out for stapling: two pages a side, in parts thin enough to fold.

Nothing is set anew: each page is the finished booklet's own.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.paper.typeset import typeset

MOST_PAGES = 48  # 12 sheets of 80 g/m2: what folds flat and takes a staple by hand (common practice, no source)
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


def mark(number: int, count: int, sheet: int, sheets: int) -> str:
    """Return what a sheet says at its fold: which part it belongs to, and where in it, counted from the outside."""
    part = f"Part {number} of {count}, " if count > 1 else ""
    return f"{part}sheet {sheet} of {sheets} from the outside"


def steps(all_parts: Sequence[Part]) -> list[str]:
    """Return how the sheets become a booklet."""
    several = len(all_parts) > 1
    which = "; ".join(
        f"part {number}: {part.sheets} sheets, pages {part.first} to {part.last}"
        for number, part in enumerate(all_parts, 1)
    )
    made = [
        "Print on A4 at 100 %, on both sides, turned at the short edge. This sheet is no part of the booklet.",
        f"Sort the sheets into {len(all_parts)} parts ({which})."
        if several
        else f"There are {all_parts[0].sheets} sheets.",
        "Each sheet says at its fold where it belongs. Lay sheet 1 with those words below, the next on it.",
        "Fold all sheets of a part together in the middle, sheet 1 outside, and press the fold flat.",
        "Open them and staple twice from outside, where sheet 1 has short lines on the fold. A stapler with a long arm "
        "reaches it.",
    ]
    if several:
        made.append(
            "Lay the parts on each other in their order. Hold their backs together with cloth tape or a clip rail."
        )
    return made


def imposed(booklet: bytes, all_parts: Sequence[Part], look: dict[str, object]) -> bytes:
    """Return the booklet as a PDF to be printed on both sides, turned at the short edge; its first sheet says how.

    It is for the printer only: its sides have no reading order, so it is no PDF/UA as the booklet itself is.

    Args:
        booklet: The finished booklet.
        all_parts: How it is divided.
        look: Title, author, language and page size, as the booklet has them.
    """
    document = {
        **look,
        "alt": "Page {page} of the booklet",
        "how": "How to make the booklet",
        "steps": steps(all_parts),
        "sides": [side for number, part in enumerate(all_parts, 1) for side in _marked(number, len(all_parts), part)],
    }
    # A file handed to Typst in memory must be text, so the booklet goes as its numbers: 0.2 s for 160 pages.
    numbers = f"[{','.join(map(_DIGITS.__getitem__, booklet))}]".encode()
    return typeset("impose.typ", document, {"booklet.json": numbers}, standards=())


def _marked(number: int, count: int, part: Part) -> Iterator[dict[str, object]]:
    """Yield the sides of a part; the outside of each sheet has its mark, and the outermost shows where to staple."""
    for side, pages in enumerate(sides(part)):
        outside = side % 2 == 0
        words = mark(number, count, side // 2 + 1, part.sheets) if outside else ""
        yield {"pages": pages, "mark": words, "staple": side == 0}
