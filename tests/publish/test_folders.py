"""Folder names."""

import re

from hypothesis import given
from hypothesis import strategies as st

from generator.publish.folders import ALPHABET, LENGTH, folder_name

SECRET = bytes(range(32))


def test_a_name_is_the_first_fifty_bits_of_the_hmac() -> None:
    """RFC 4231, test case 2: key "Jefe" gives 5bdcc146bf60754e...; fifty bits, five a character."""
    bits = f"{0x5BDCC146BF60754E:064b}"[:50]
    expected = "".join(ALPHABET[int(bits[at : at + 5], 2)] for at in range(0, 50, 5))
    assert folder_name("what do ya want for nothing?", {}, b"Jefe") == expected


def test_the_alphabet_has_32_signs_without_those_taken_for_others() -> None:
    assert len(ALPHABET) == len(set(ALPHABET)) == 32
    assert not set("01IO") & set(ALPHABET)
    assert ALPHABET.upper() == ALPHABET


@given(
    chassis=st.text(alphabet="ABCDEFGHJKLMNPRSTUVWXYZ0123456789-", min_size=3, max_size=17), key=st.binary(min_size=32)
)
def test_a_name_is_ten_signs_and_the_same_every_time(chassis: str, key: bytes) -> None:
    name = folder_name(chassis, {}, key)
    assert re.fullmatch(f"[{ALPHABET}]{{{LENGTH}}}", name)
    assert folder_name(chassis, {}, key) == name


def test_the_record_wins_over_the_secret() -> None:
    assert folder_name("A", {"A": "7K3QX9F4WM"}, SECRET) == "7K3QX9F4WM"
    assert folder_name("A", {"A": "7K3QX9F4WM"}, b"another") == "7K3QX9F4WM"


def test_a_collision_takes_the_next_name_and_always_the_same() -> None:
    first = folder_name("A", {}, SECRET)
    second = folder_name("A", {"B": first}, SECRET)
    third = folder_name("A", {"B": first, "C": second}, SECRET)
    assert len({first, second, third}) == 3
    assert folder_name("A", {"B": first}, SECRET) == second


def test_another_secret_gives_another_name() -> None:
    assert folder_name("A", {}, SECRET) != folder_name("A", {}, bytes(32))
