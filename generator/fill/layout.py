"""Places the codes of a van drawing in its margins: sides, rows and leaders that do not cross.

Drawing units throughout, y downwards; what is drawn is left to ``drawing``.
"""

from collections.abc import Sequence
from dataclasses import dataclass

ROW = 44.0  # least height of a row, so that a finger hits one code (WCAG 2.5.8 asks 24, we want 44)
SIDE_MOST = 9
_CENTRE_M = 0.15  # nearer to the centre line than this, a place may go to either side


@dataclass(frozen=True, slots=True)
class Spot:
    """One place to be labelled: index in the drawing's order, marker position, metres left of the centre line."""

    index: int
    x: float
    y: float
    left_m: float


@dataclass(frozen=True, slots=True)
class Row:
    """A code in a margin at height ``y``, with the marker it points at."""

    spot: Spot
    y: float


def sides(spots: Sequence[Spot]) -> tuple[list[Spot], list[Spot]]:
    """Return the spots of the left and the right margin, each from the front to the rear.

    At most ``SIDE_MOST`` stand on a side as long as there are no more than twice as many.
    """
    left = [spot for spot in spots if spot.left_m > _CENTRE_M]
    right = [spot for spot in spots if spot.left_m < -_CENTRE_M]
    for spot in spots:
        if abs(spot.left_m) <= _CENTRE_M:
            (left if len(left) <= len(right) else right).append(spot)
    _relieve(left, right)
    _relieve(right, left)
    return sorted(left, key=_height), sorted(right, key=_height)


def _relieve(full: list[Spot], other: list[Spot]) -> None:
    """Move the spots nearest to the centre line from a side that is too full."""
    while len(full) > SIDE_MOST and len(other) < SIDE_MOST:
        nearest = min(full, key=lambda spot: abs(spot.left_m))
        full.remove(nearest)
        other.append(nearest)


def _height(spot: Spot) -> tuple[float, int]:
    return spot.y, spot.index


def rows(spots: Sequence[Spot], edge: float, low: float, high: float) -> list[Row]:
    """Return the spots of one margin in rows at least ``ROW`` apart, as near to their markers as can be.

    Args:
        spots: From the front to the rear.
        edge: x where leaders leave the margin.
        low: Least y of a row.
        high: Greatest y of a row; room for all of them is the caller's to give.
    """
    heights = spread([spot.y for spot in spots], ROW, low, high)
    return _uncrossed([Row(spot, y) for spot, y in zip(spots, heights, strict=True)], edge)


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Return positions in the given order, at least ``gap`` apart, with the least sum of squared moves.

    With ``gap`` taken off per place this is isotonic regression; pool-adjacent-violators solves it
    (Barlow et al., Statistical Inference under Order Restrictions, 1972; from memory).
    """
    pools: list[list[float]] = []  # [mean, count]
    for index, position in enumerate(wanted):
        pools.append([position - index * gap, 1])
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            mean, count = pools.pop()
            before = pools[-1]
            before[0] = (before[0] * before[1] + mean * count) / (before[1] + count)
            before[1] += count
    means = [mean for mean, count in pools for _ in range(int(count))]
    most = high - (len(wanted) - 1) * gap
    return [max(low, min(mean, most)) + index * gap for index, mean in enumerate(means)]


def _uncrossed(placed: list[Row], edge: float) -> list[Row]:
    """Swap neighbours whose leaders cross; each swap removes a crossing, the bound guards against a cycle."""
    for _ in range(len(placed) ** 2):
        crossing = next((i for i in range(len(placed) - 1) if crosses(placed[i], placed[i + 1], edge)), None)
        if crossing is None:
            break
        one, two = placed[crossing], placed[crossing + 1]
        placed[crossing : crossing + 2] = [Row(two.spot, one.y), Row(one.spot, two.y)]
    return placed


def crosses(one: Row, two: Row, edge: float) -> bool:
    """Return whether the straight leaders of two rows cross."""
    a, b, c, d = (edge, one.y), (one.spot.x, one.spot.y), (edge, two.y), (two.spot.x, two.spot.y)
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
