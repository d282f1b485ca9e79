"""A pocket calculator for printed sums: it reads digits and signs alone, and knows how far each value may be rounded.

It shares no code with what writes the sums.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

_TOKEN = re.compile(
    r"\s*(?:(?P<number>\N{MINUS SIGN}?\d+(?:\.\d+)?)(?P<unit>\u00a0(?:[A-Za-zΩ°%²·/]+(?:\([A-Za-z²·/]+\))?)|°)?"
    r"|(?P<word>the least of|the greatest of|to the power of|ln of|sine of|and)|(?P<sign>[+×÷(),]|\N{MINUS SIGN}))"
)


@dataclass(frozen=True)
class Span:
    """A value between two bounds, since what is printed was rounded."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """What it is taken to be."""
        return (self.low + self.high) / 2

    @property
    def wide(self) -> float:
        """How far apart its bounds are."""
        return self.high - self.low


def _over(corners: Iterator[float] | list[float]) -> Span:
    every = list(corners)
    return Span(min(every), max(every))


def value(text: str, unit: str | None) -> Span:
    """Return a printed value; a plain whole number is exact, any other is right to half its last digit."""
    amount = float(text.replace("\N{MINUS SIGN}", "-"))
    decimals = len(text.partition(".")[2])
    half = 0.0 if not decimals and not unit else 0.5 * 10 ** -max(decimals, 2)
    scale = 0.01 if unit and unit.strip() == "%" else math.radians(1) if unit == "°" else 1.0
    return Span((amount - half) * scale, (amount + half) * scale)


def reckoned(text: str) -> Span:
    """Return what a sum comes to."""
    tokens: list[tuple[str, Span | str]] = []
    at = 0
    while at < len(text):
        found = _TOKEN.match(text, at)
        if found is None:
            raise ValueError(f"cannot read {text[at:]!r} of {text!r}")
        number = found["number"]
        # A minus is part of a value at the start of a sum, and a sign after one.
        if (
            number
            and number.startswith("\N{MINUS SIGN}")
            and tokens
            and tokens[-1][1] not in (*"(+×÷", "\N{MINUS SIGN}")
        ):
            tokens.append(("sign", "\N{MINUS SIGN}"))
            at = found.start("number") + 1
            continue
        if number:
            tokens.append(("value", value(number, found["unit"])))
        else:
            tokens.append(("word", found["word"]) if found["word"] else ("sign", found["sign"]))
        at = found.end()
    reader = _Reader(tokens)
    result = reader.picked()
    if reader.left:
        raise ValueError(f"{reader.left} left over in {text!r}")
    return result


class _Reader:
    def __init__(self, tokens: list[tuple[str, Span | str]]) -> None:
        self.left = tokens

    def _take(self, *wanted: str) -> str:
        if self.left and self.left[0][1] in wanted:
            return str(self.left.pop(0)[1])
        return ""

    def picked(self) -> Span:
        word = self._take("the least of", "the greatest of")
        if not word:
            return self._sum()
        found = [self._sum()]
        while self._take(",", "and"):
            found.append(self._sum())
        pick = min if "least" in word else max
        return Span(pick(each.low for each in found), pick(each.high for each in found))

    def _sum(self) -> Span:
        total = self._product()
        while sign := self._take("+", "\N{MINUS SIGN}"):
            more = self._product()
            total = (
                Span(total.low + more.low, total.high + more.high)
                if sign == "+"
                else Span(total.low - more.high, total.high - more.low)
            )
        return total

    def _product(self) -> Span:
        total = self._power()
        while sign := self._take("×", "÷"):
            more = self._power()
            if sign == "÷":
                if more.low <= 0 <= more.high:
                    raise ZeroDivisionError
                more = Span(1 / more.high, 1 / more.low)
            total = _over([a * b for a in (total.low, total.high) for b in (more.low, more.high)])
        return total

    def _power(self) -> Span:
        if self._take("ln of"):
            of = self._single()
            return Span(math.log(of.low), math.log(of.high))
        if self._take("sine of"):
            of = self._single()
            return Span(math.sin(of.low), math.sin(of.high))
        base = self._single()
        if not self._take("to the power of"):
            return base
        to = self._single()
        return _over([a**b for a in (base.low, base.high) for b in (to.low, to.high)])

    def _single(self) -> Span:
        if self._take("("):
            inside = self.picked()
            if not self._take(")"):
                raise ValueError(f"no bracket before {self.left}")
            return inside
        kind, token = self.left.pop(0)
        if kind != "value" or not isinstance(token, Span):
            raise ValueError(f"{token} where a value belongs")
        return token
