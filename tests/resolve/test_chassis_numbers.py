"""Check digits against the regulation's own example, known numbers, and a library that was written by others."""

import pytest
import vininfo
from hypothesis import given
from hypothesis import strategies as st

from generator.resolve.chassis_numbers import check_digit, has_check_digit

# 1G4AH59H45G118341: worked example of 49 CFR 565.15(c). The two others are widely used to try out implementations.
KNOWN = {"1G4AH59H45G118341": "4", "1M8GDM9AXKP042788": "X", "11111111111111111": "1"}


@pytest.mark.parametrize(("number", "digit"), KNOWN.items())
def test_known_numbers(number: str, digit: str) -> None:
    assert check_digit(number) == digit == number[8]
    assert has_check_digit(number)


@given(st.text("0123456789ABCDEFGHJKLMNPRSTUVWXYZ", min_size=17, max_size=17))
def test_same_as_the_library(number: str) -> None:
    assert has_check_digit(number) == vininfo.Vin(number).verify_checksum(check_year=False)


@given(st.sampled_from(sorted(KNOWN)), st.integers(0, 16), st.sampled_from("0123456789"))
def test_another_digit_anywhere_is_noticed(number: str, place: int, digit: str) -> None:
    """The weights are no multiples of 11, so a changed digit always changes the rest."""
    if number[place].isdecimal() and number[place] != digit:
        assert not has_check_digit(number[:place] + digit + number[place + 1 :])


@pytest.mark.parametrize("number", ["", "SOR2-2026-0032", "1G4AH59H45G11834", "IG4AH59H45G118341", "1g4ah59h45g118341"])
def test_other_plate_texts_have_none(number: str) -> None:
    assert check_digit(number) is None and not has_check_digit(number)
