"""Check digits of chassis numbers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from vininfo import Vin

from generator.commands.chassis import check_digit, note

SIGNS = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"


@pytest.mark.parametrize(
    ("chassis", "digit"),
    [
        ("1G4AH59H45G118341", "4"),  # worked example of 49 CFR 565.15(c)
        ("1M8GDM9AXKP042788", "X"),  # worked example, Wikipedia "Vehicle identification number"
        ("11111111111111111", "1"),  # the straight ones of the same article: every weight times 1 leaves 1
    ],
)
def test_known_numbers(chassis: str, digit: str) -> None:
    assert check_digit(chassis) == digit


@given(st.text(alphabet=SIGNS, min_size=14, max_size=14))
def test_the_digit_agrees_with_an_independent_library(rest: str) -> None:
    """The library vininfo verifies a checksum by itself; ZZ9 is nobody's, so it applies no maker's exception."""
    chassis = f"ZZ9{rest}"
    digit = check_digit(chassis)
    assert digit is not None
    verdicts = [Vin(chassis[:8] + each + chassis[9:]).verify_checksum(check_year=False) for each in "0123456789X"]
    assert verdicts == [each == digit for each in "0123456789X"]


@pytest.mark.parametrize(
    "chassis", ["SOR2-2026-0032", "", "1M8GDM9AXKP04278", "IM8GDM9AXKP042788", "1m8gdm9axkp042788"]
)
def test_numbers_of_another_form_have_none(chassis: str) -> None:
    assert check_digit(chassis) is None
    assert "no check digit to compare" in note(chassis)


def test_the_note_says_what_differs_and_demands_nothing() -> None:
    assert "the ninth is the check digit of North America (X)" in note("1M8GDM9AXKP042788")
    assert 'the ninth is "Z" where North America\'s check digit would be' in note("ZZ9MR48NZTH000417")
    assert "compare the number with the plate" in note("ZZ9MR48NZTH000417")
