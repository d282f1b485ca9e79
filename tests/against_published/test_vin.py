"""Check digits of chassis numbers against published examples, and against the library ``vininfo``."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from vininfo import Vin

from generator.commands.chassis import check_digit

SIGNS = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"


@pytest.mark.parametrize(
    ("chassis", "digit"),
    [
        ("1G4AH59H45G118341", "4"),  # sample of 49 CFR 565.15(c) (seen)
        ("1J9RP1A36A1644345", "6"),  # outline for new manufacturers of the NHTSA (seen)
        ("1M8GDM9AXKP042788", "X"),  # worked example, Wikipedia "Vehicle identification number" (seen)
        ("1FACP45EXLF192944", "X"),  # a public wiki on chassis numbers (seen)
        ("11111111111111111", "1"),  # test number of the same article (memory; computed: 89 = 8 x 11 + 1)
    ],
)
def test_published_numbers(chassis: str, digit: str) -> None:
    assert check_digit(chassis) == digit == chassis[8]
    assert Vin(chassis).verify_checksum(check_year=False)


@pytest.mark.parametrize("wrong", ["1M8GDM9A1KP042788", "1G4AH59H45G118314", "1J9RP1A36A1644354"])
def test_altered_numbers_are_told(wrong: str) -> None:
    """A changed check digit, and two neighbours exchanged (computed)."""
    assert check_digit(wrong) != wrong[8]
    assert not Vin(wrong).verify_checksum(check_year=False)


# Values of 49 CFR 565.15(c) table IV (seen), written out apart from the program's own.
VALUES = dict(
    zip("ABCDEFGHJKLMNPRSTUVWXYZ", (1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4, 5, 7, 9, 2, 3, 4, 5, 6, 7, 8, 9), strict=True)
)
VALUES |= {str(digit): digit for digit in range(10)}


@given(st.text(alphabet=SIGNS, min_size=17, max_size=17), st.integers(0, 16), st.sampled_from(SIGNS))
def test_one_misread_sign_is_noticed_where_its_value_differs(chassis: str, at: int, sign: str) -> None:
    """Eleven is prime and no weight but that of the check digit itself is nought, so no such slip stays hidden."""
    other = chassis[:at] + sign + chassis[at + 1 :]
    same = at == 8 or VALUES[chassis[at]] == VALUES[sign]
    assert (check_digit(chassis) == check_digit(other)) == same
