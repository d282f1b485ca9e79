"""The check digit of a chassis number of 17 signs. It is told, never demanded: only North America uses it.

The plate on the van decides; nothing here refuses a number.
"""

# 49 CFR 565.15(c), tables IV and V: values of the letters, weights by position; the ninth is the check digit.
_VALUES = {
    sign: value
    for value, signs in enumerate(("0", "1AJ", "2BKS", "3CLT", "4DMU", "5ENV", "6FW", "7GPX", "8HY", "9RZ"))
    for sign in signs
}
_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_LENGTH, _PLACE = 17, 8


def check_digit(chassis: str) -> str | None:
    """Return the check digit that a number of 17 signs would have, or None where it can have none."""
    if len(chassis) != _LENGTH or not set(chassis) <= set(_VALUES):
        return None
    total = sum(_VALUES[sign] * weight for sign, weight in zip(chassis, _WEIGHTS, strict=True))
    return "0123456789X"[total % 11]


def note(chassis: str) -> str:
    """Return what can be said of a chassis number by itself."""
    wanted = check_digit(chassis)
    if wanted is None:
        return f"{len(chassis)} signs, no check digit to compare"
    if chassis[_PLACE] == wanted:
        return f"17 signs, the ninth is the check digit of North America ({wanted})"
    return (
        f'17 signs, the ninth is "{chassis[_PLACE]}" where North America\'s check digit would be "{wanted}"; '
        "elsewhere there is none, so compare the number with the plate"
    )
