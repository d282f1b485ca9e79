"""QR Code symbols as one outline each: the modules of an address, and the path around the dark ones.

Where a symbol stands on a sheet is left to ``labels``.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import segno

QUIET_MODULES = 4  # on each side, ISO/IEC 18004

Matrix = Sequence[Sequence[int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """One QR Code: ``side`` modules wide without quiet zone, ``path`` in modules from its top left corner."""

    text: str
    version: int
    mode: str  # "alphanumeric" or "byte"
    side: int
    path: str

    @property
    def boxed(self) -> int:
        """Return the width in modules with the quiet zone."""
        return self.side + 2 * QUIET_MODULES

    @property
    def svg(self) -> bytes:
        """Return the symbol without quiet zone as an SVG of one filled path."""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.side} {self.side}" '
            f'width="{self.side}" height="{self.side}">'
            f'<path fill="#000000" fill-rule="evenodd" d="{self.path}"/></svg>'
        ).encode()


@lru_cache(maxsize=256)  # the codes of a van stand in several documents, and choosing a mask takes its time
def symbol(text: str, error: str = "h") -> Symbol:
    """Return ``text`` as the smallest QR Code with error correction H, or another where no dirt gets at it.

    Fixing the version and taking the highest correction that fits costs no size; below version 3
    nothing is gained on a label, so the smallest version at H is taken as it comes.
    """
    code = segno.make_qr(text, error=error, boost_error=False)
    matrix = [list(row) for row in code.matrix]
    return Symbol(text=text, version=int(code.version), mode=str(code.mode), side=len(matrix), path=outline(matrix))


def outline(matrix: Matrix) -> str:
    """Return the boundary of all dark modules as closed SVG subpaths, to be filled by even-odd.

    One path for the whole symbol: modules drawn one by one leave hairlines between them in print.
    """
    edges = _edges(matrix)
    parts: list[str] = []
    while edges:
        start = min(edges)
        at, heading, part = start, "", [f"M{start[0]} {start[1]}"]
        while True:
            step = edges[at].pop()
            if not edges[at]:
                del edges[at]
            at, heading = (at[0] + step[0], at[1] + step[1]), _append(part, step, heading)
            if at == start:
                break
        parts.append("".join(part) + "z")
    return "".join(parts)


def _edges(matrix: Matrix) -> dict[tuple[int, int], list[tuple[int, int]]]:
    """Return the unit edges between dark and light, from each corner, dark on the right hand.

    Every corner has as many edges coming in as going out, so a walk can only end where it began.
    """
    side = len(matrix)

    def dark(x: int, y: int) -> bool:
        return 0 <= x < side and 0 <= y < side and bool(matrix[y][x])

    edges: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for y in range(side):
        for x in range(side):
            if not dark(x, y):
                continue
            for light, corner, step in (
                (not dark(x, y - 1), (x, y), (1, 0)),
                (not dark(x + 1, y), (x + 1, y), (0, 1)),
                (not dark(x, y + 1), (x + 1, y + 1), (-1, 0)),
                (not dark(x - 1, y), (x, y + 1), (0, -1)),
            ):
                if light:
                    edges.setdefault(corner, []).append(step)
    return edges


def _append(part: list[str], step: tuple[int, int], heading: str) -> str:
    """Add one step to a subpath, lengthening the last run where the direction is the same."""
    letter, length = ("h", step[0]) if step[0] else ("v", step[1])
    now = f"{letter}{'-' if length < 0 else '+'}"
    if now == heading:
        length += int(part.pop()[1:])
    part.append(f"{letter}{length}")
    return now
