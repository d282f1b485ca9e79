"""Load indices and speed symbols against the standards.

"Seen" was read in a published table, "memory" was not read again.
"""

from pathlib import Path

import pytest

from generator.compute.load_index import LOAD_KG, SPEED_KM_H
from generator.load import load

ROOT = Path(__file__).parents[2]

# ISO 4000-1 and ETRTO, load of one tyre in kg (seen).
SEEN = {
    **{68: 315, 70: 335, 72: 355, 74: 375, 75: 387, 77: 412, 79: 437, 80: 450, 82: 475, 84: 500, 86: 530},
    **{88: 560, 90: 600, 91: 615, 92: 630, 94: 670, 95: 690, 96: 710, 98: 750, 99: 775, 100: 800},
    **{102: 850, 104: 900, 106: 950, 108: 1000, 109: 1030, 110: 1060, 112: 1120, 114: 1180, 116: 1250},
    **{118: 1320, 120: 1400, 121: 1450, 123: 1550},
}


@pytest.mark.parametrize(("index", "load_kg"), SEEN.items())
def test_loads_of_the_published_table(index: int, load_kg: int) -> None:
    assert LOAD_KG[index] == load_kg


@pytest.mark.parametrize("index", LOAD_KG)
def test_each_load_lies_on_the_series_behind_the_standard(index: int) -> None:
    """45 x 10^(index/80) kg, the geometric series that ISO 4000-1 rounds; at most 1.8 % off (computed)."""
    assert LOAD_KG[index] == pytest.approx(45 * 10 ** (index / 80), rel=0.018)


def test_the_table_has_no_gap_and_rises() -> None:
    assert list(LOAD_KG) == list(range(60, 127))
    assert list(LOAD_KG.values()) == sorted(set(LOAD_KG.values()))


@pytest.mark.parametrize(
    ("symbol", "km_h"),
    [
        *(("L", 120), ("M", 130), ("N", 140), ("P", 150), ("Q", 160), ("R", 170), ("S", 180), ("T", 190)),  # seen
        *(("U", 200), ("H", 210), ("V", 240), ("W", 270), ("Y", 300)),  # seen
        *(("F", 80), ("G", 90), ("J", 100), ("K", 110)),  # UN R54, memory
    ],
)
def test_speed_symbols(symbol: str, km_h: int) -> None:
    assert SPEED_KM_H[symbol] == km_h


def test_letters_that_are_taken_for_digits_are_no_symbols() -> None:
    """I, O and X mean no speed (ISO 4000-1, memory); H stands out of the order of letters (seen)."""
    assert not {"I", "O", "X"} & set(SPEED_KM_H)
    assert SPEED_KM_H["U"] < SPEED_KM_H["H"] < SPEED_KM_H["V"]


def test_least_tread_by_market() -> None:
    """New Zealand 1.5 mm (seen). United Kingdom and European Union 1.6 mm (memory)."""
    trade = load(ROOT, None).content.terms.trade["tyre-tread"]
    assert (trade["nz"], trade["default"]) == ("1.5 mm", "1.6 mm")
