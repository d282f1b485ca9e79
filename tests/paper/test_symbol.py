"""QR symbols: the outline is the matrix, and its size is what the published tables say."""

import re

import pytest
import segno

from generator.paper.symbol import outline, symbol

# Capacity in alphanumeric mode at level H by version, ISO/IEC 18004 table 7 (values as computed with segno 1.6.6;
# versions 1 to 5 agree with tables seen on web pages).
CAPACITY_H = {1: 10, 2: 20, 3: 35, 4: 50, 5: 64, 6: 84}


def filled(path: str, side: int) -> list[list[int]]:
    """Return which modules a path fills by the even-odd rule: a ray to the left crosses vertical runs.

    Written apart from ``outline``: it only reads the path as an SVG viewer does.
    """
    crossings: list[list[int]] = [[] for _ in range(side)]
    for subpath in re.findall(r"M[^M]*z", path):
        x, y = map(int, re.match(r"M(\d+) (\d+)", subpath).groups())
        for letter, length in re.findall(r"([hv])(-?\d+)", subpath):
            if letter == "h":
                x += int(length)
                continue
            end = y + int(length)
            for row in range(min(y, end), max(y, end)):
                crossings[row].append(x)
            y = end
    return [[sum(x <= column for x in crossings[row]) % 2 for column in range(side)] for row in range(side)]


@pytest.mark.parametrize("text", ["HTTPS://VANS.EXAMPLE/7K3QX9F4WM/A1/", "A", "https://vans.example/" + "x" * 60])
def test_the_outline_fills_exactly_the_dark_modules(text: str) -> None:
    matrix = [list(row) for row in segno.make_qr(text, error="h", boost_error=False).matrix]
    assert filled(outline(matrix), len(matrix)) == matrix


def test_modules_that_touch_at_a_corner_only_are_both_filled() -> None:
    matrix = [[1, 0, 1], [0, 1, 0], [1, 0, 1]]
    assert filled(outline(matrix), 3) == matrix


def test_a_light_module_inside_dark_ones_stays_light() -> None:
    matrix = [[1, 1, 1], [1, 0, 1], [1, 1, 1]]
    assert filled(outline(matrix), 3) == matrix


def test_nothing_dark_gives_no_path() -> None:
    assert outline([[0, 0], [0, 0]]) == ""


@pytest.mark.parametrize("version", CAPACITY_H)
def test_the_smallest_version_at_h_is_taken(version: int) -> None:
    """One character fewer than the capacity fits, one more goes up a version (ISO/IEC 18004 table 7)."""
    full, over = symbol("A" * CAPACITY_H[version]), symbol("A" * (CAPACITY_H[version] + 1))
    assert (full.version, over.version) == (version, version + 1)
    assert full.side == 17 + 4 * version  # ISO/IEC 18004: 21 modules and 4 more a version


def test_a_host_of_twelve_characters_keeps_version_three() -> None:
    assert len("VANS.EXAMPLE") == 12
    assert symbol("HTTPS://VANS.EXAMPLE/7K3QX9F4WM/A1/").version == 3
    assert symbol("HTTPS://VANS1.EXAMPLE/7K3QX9F4WM/A1/").version == 4


def test_lower_case_needs_byte_mode() -> None:
    assert symbol("HTTPS://VANS.EXAMPLE/A1/").mode == "alphanumeric"
    assert symbol("HTTPS://VANS.EXAMPLE/a1/").mode == "byte"
