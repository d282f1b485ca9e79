"""Codes stand in the margins in rows a finger can hit, in order, with leaders that do not cross."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from generator.fill.layout import ROW, SIDE_MOST, Spot, crosses, rows, sides, spread

EDGE = 58.0

spots = st.lists(
    st.tuples(st.floats(-1.2, 1.2), st.floats(30, 400)), min_size=1, max_size=2 * SIDE_MOST
).map(lambda found: [Spot(i, 180 - left * 60, y, left) for i, (left, y) in enumerate(found)])  # fmt: skip


@given(spots)
def test_every_place_has_one_row_and_no_side_is_too_full(found: list[Spot]) -> None:
    left, right = sides(found)
    assert sorted(spot.index for spot in left + right) == list(range(len(found)))
    assert len(left) <= SIDE_MOST and len(right) <= SIDE_MOST


@given(spots)
def test_a_place_at_the_side_keeps_its_side_while_there_is_room(found: list[Spot]) -> None:
    left, right = sides(found)
    if len(left) < SIDE_MOST and len(right) < SIDE_MOST:
        assert all(spot.left_m > -0.15 for spot in left)
        assert all(spot.left_m < 0.15 + 1e-9 for spot in right)


@given(spots)
def test_rows_are_far_enough_apart_and_inside_the_drawing(found: list[Spot]) -> None:
    left, _ = sides(found)
    low, high = 40.0, 40.0 + ROW * SIDE_MOST
    placed = rows(left, EDGE, low, high)
    heights = sorted(row.y for row in placed)
    assert all(b - a >= ROW - 1e-6 for a, b in itertools.pairwise(heights))
    assert all(low - 1e-6 <= y <= high + 1e-6 for y in heights)


@given(spots)
def test_leaders_of_neighbours_do_not_cross(found: list[Spot]) -> None:
    left, _ = sides(found)
    placed = rows(left, EDGE, 40, 40 + ROW * SIDE_MOST)
    assert not [1 for one, two in itertools.pairwise(placed) if crosses(one, two, EDGE)]


def test_places_far_apart_stay_at_their_height() -> None:
    assert spread([50, 200, 350], ROW, 0, 400) == [50, 200, 350]


def test_places_at_one_spot_share_the_way() -> None:
    """Least squares: two places wanting 100 stand at 78 and 122, half a row to either side."""
    assert spread([100, 100], ROW, 0, 400) == [78, 122]


@given(st.lists(st.floats(0, 400), min_size=1, max_size=9).map(sorted))
def test_spreading_moves_no_more_than_any_even_shift(wanted: list[float]) -> None:
    """The optimum beats every equally spaced placement (a feasible competitor of the same problem)."""
    found = spread(wanted, ROW, -1e6, 1e6)
    cost = sum((a - b) ** 2 for a, b in zip(found, wanted, strict=True))
    for start in range(0, 400, 20):
        other = [start + ROW * i for i in range(len(wanted))]
        assert cost <= sum((a - b) ** 2 for a, b in zip(other, wanted, strict=True)) + 1e-6
