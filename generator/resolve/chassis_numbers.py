"""The check digit of chassis numbers of 17 signs, which some markets use and others ignore; told, never demanded.

Which letters may stand in a chassis number is checked by ``load``.
"""

# 49 CFR 565.15(c): the value of each letter, and the weight of each position (0 for the check digit's own, the ninth).
_VALUES = {
    **{digit: int(digit) for digit in "0123456789"},
    **dict(zip("ABCDEFGH", range(1, 9), strict=True)),
    **dict(zip("JKLMN", range(1, 6), strict=True)),
    **{"P": 7, "R": 9},
    **dict(zip("STUVWXYZ", range(2, 10), strict=True)),
}
_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_CHECK_AT = 8


def check_digit(chassis: str) -> str | None:
    """Return the check digit that belongs at the ninth place, or None for a number of another form.

    Args:
        chassis: The whole chassis number; its own ninth sign does not matter.

    Formula: the sum of value times weight over the 17 signs, modulo 11; 10 is written X.
    Source: 49 CFR 565.15(c).
    """
    if len(chassis) != len(_WEIGHTS) or any(sign not in _VALUES for sign in chassis):
        return None
    rest = sum(_VALUES[sign] * weight for sign, weight in zip(chassis, _WEIGHTS, strict=True)) % 11
    return "X" if rest == 10 else str(rest)


def has_check_digit(chassis: str) -> bool:
    """Return whether the ninth sign is the check digit of the others."""
    return check_digit(chassis) is not None and check_digit(chassis) == chassis[_CHECK_AT]
