"""Formulas with a van's values put in: plain text, so that it is read on paper and aloud as on a screen.

Each line is a sum that can be followed on a pocket calculator; what is shown is rounded afterwards.
"""

from collections.abc import Iterable

from generator.compute.showing import text
from generator.units import Quantity, Rounding

TIMES, OVER, MINUS = " × ", " ÷ ", " \N{MINUS SIGN} "


def put(quantity: Quantity, unit: str, digits: int = 2) -> str:
    """Return a value as it is put in: nearest, since rounding to the safe side comes last."""
    return text(quantity, unit, Rounding.NEAREST, digits)


def times(*factors: str) -> str:
    """Return a product."""
    return TIMES.join(factors)


def added_up(first: str, more: Iterable[tuple[bool, str]]) -> str:
    """Return a sum; each further term comes with whether it is added or taken away."""
    return first + "".join((" + " if plus else MINUS) + term for plus, term in more)


def over(above: str, below: str, *, whole: bool = False) -> str:
    """Return a fraction; ``whole`` puts what is below in brackets."""
    return above + OVER + (f"({below})" if whole else below)


def equals(formula: str, value: str) -> str:
    """Return the line."""
    return f"{formula} = {value}"
