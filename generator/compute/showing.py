"""Quantities as texts, rounded once to the safe side, and small pieces of sentences.

Which unit and which side a number wants stands in its declaration.
"""

import re

from generator.units import Quantity, Rounding, rounded, show, unit_text

_ZEROS = re.compile(r"(\d)\.0+(?=\D|$)|(\.\d*?[1-9])0+(?=\D|$)")
_MINUS_NOTHING = re.compile(r"\N{MINUS SIGN}(?=0(?:\.0*)?(?:[^\d.]|$))")
_MOST_DIGITS = 6


def text(quantity: Quantity, unit: str, rounding: Rounding, digits: int = 0) -> str:
    """Return ``quantity`` for a reader, without idle zeros: ``9 kg``, not ``9.0 kg``."""
    shown = _ZEROS.sub(lambda match: match[1] or match[2], show(quantity, unit, rounding, digits))
    return one_day(_MINUS_NOTHING.sub("", shown))


def up(quantity: Quantity, unit: str, digits: int = 0) -> str:
    """Return ``quantity`` rounded up: what is needed, what weighs."""
    return text(quantity, unit, Rounding.UP, digits)


def down(quantity: Quantity, unit: str, digits: int = 0) -> str:
    """Return ``quantity`` rounded down: a limit, what is left, how long it lasts."""
    return text(quantity, unit, Rounding.DOWN, digits)


def exact(quantity: Quantity, least: int = 0) -> str:
    """Return ``quantity`` as it was typed, in its own unit, with at least ``least`` decimals."""
    decimals = f"{float(quantity.magnitude):.{_MOST_DIGITS}f}".rstrip("0").partition(".")[2]
    return one_day(show(quantity, str(quantity.units), Rounding.NEAREST, max(len(decimals), least)))


def signed(quantity: Quantity, unit: str, digits: int = 0) -> str:
    """Return ``quantity`` with its sign, rounded away from zero: ``+5.7 kg``."""
    side = Rounding.UP if quantity.magnitude > 0 else Rounding.DOWN
    plus = "+" if rounded(quantity, unit, side, digits) > 0 else ""
    return plus + text(quantity, unit, side, digits)


def half_days(duration: Quantity) -> str:
    """Return ``duration`` in days, rounded down to half days."""
    halves = int(rounded(2 * duration, "day", Rounding.DOWN))
    if halves < 2:
        return "half a day" if halves else "less than half a day"
    return one_day(f"{halves / 2:g} {unit_text('day')}")


def whole_days(duration: Quantity) -> str:
    """Return ``duration`` in days, rounded down to whole days."""
    days = int(rounded(duration, "day", Rounding.DOWN))
    return down(duration, "day") if days else "less than 1 day"


def one_day(shown: str) -> str:
    """Return ``shown`` with "1 days" put right."""
    return "1 day" if shown == "1 days" else shown


def lower_first(name: str) -> str:
    """Return ``name`` for the middle of a sentence; an abbreviation keeps its capitals."""
    return name[:1].lower() + name[1:] if len(name) < 2 or name[1].islower() or name[1] == " " else name


def joined(parts: tuple[str, ...]) -> str:
    """Return ``parts`` as a reader lists them: "a, b and c"."""
    if len(parts) < 2:
        return "".join(parts)
    return ", ".join(parts[:-1]) + " and " + parts[-1]


def not_known(missing: tuple[str, ...]) -> str:
    """Return what stands in place of a number whose inputs are not known."""
    return "Not known: read " + joined(missing)
