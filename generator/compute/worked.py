"""Formulas that are written down while they are worked out: each term holds its value and the sum it came from.

What is printed is therefore what was reckoned. How a sum is set on a page is left to later stages.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, reduce

from generator.model.numbers import Formula, Fraction, Worked
from generator.units import Quantity, Unit, unit_text

TIMES, PLUS, MINUS = " × ", " + ", " \N{MINUS SIGN} "
# How tightly a term holds together: one of fewer is put in brackets beside one of more.
_PICKED, _SUM, _PRODUCT, _POWER, _SINGLE = range(5)
_DIGITS = 2
_BELOW = "\N{MINUS SIGN}"


@cache
def _unit(unit: str) -> Unit:
    return Quantity(1.0, unit).units


@cache
def _factor(have: Unit, want: Unit) -> float | None:
    """Return how many of ``want`` one of ``have`` is; None for temperatures, which have no factor.

    Raises:
        pint.DimensionalityError: they measure different things.
    """
    return float(Quantity(1.0, have).to(want).magnitude) if _plain(have) and _plain(want) else None


@cache
def _plain(unit: Unit) -> bool:
    """Return whether ``unit`` starts from nothing, as degrees Celsius do not."""
    return float(Quantity(0.0, unit).to_base_units().magnitude) == 0


@cache
def _unit_of(one: Unit, other: Unit, above: bool) -> Unit:
    """Return the unit of a product, or of a quotient."""
    if not (_plain(one) and _plain(other)):
        raise ValueError(f"{one} and {other}: a temperature can be added or taken away, not multiplied")
    return (Quantity(1.0, one) * Quantity(1.0, other) if above else Quantity(1.0, one) / Quantity(1.0, other)).units


@dataclass(frozen=True, slots=True)
class Term:
    """A quantity and how it was worked out; sums, products and quotients of terms write themselves down.

    Units are reckoned by pint, once for each pair: a van has thousands of terms.
    """

    magnitude: float
    unit: Unit
    formula: Formula
    binds: int = _SINGLE

    @property
    def value(self) -> Quantity:
        """The quantity."""
        return Quantity(self.magnitude, self.unit)

    def __add__(self, more: "Term") -> "Term":
        formula = (*self._in(_SUM), *more._signed(PLUS, MINUS, _SUM))
        return self._with(more, 1.0, formula)

    def __sub__(self, less: "Term") -> "Term":
        formula = (*self._in(_SUM), *less._signed(MINUS, PLUS, _PRODUCT))
        return self._with(less, -1.0, formula)

    def __mul__(self, factor: "Term") -> "Term":
        formula = (*self._in(_PRODUCT), TIMES, *factor._in(_PRODUCT))
        return Term(self.magnitude * factor.magnitude, _unit_of(self.unit, factor.unit, True), formula, _PRODUCT)

    def __truediv__(self, below: "Term") -> "Term":
        brackets = self.binds < _PRODUCT, below.binds < _SINGLE
        formula = (Fraction(self.formula, below.formula, brackets),)
        return Term(self.magnitude / below.magnitude, _unit_of(self.unit, below.unit, False), formula, _PRODUCT)

    @property
    def single(self) -> bool:
        """Whether nothing was worked out: the term is one value as it was put in."""
        return len(self.formula) == 1 and isinstance(self.formula[0], str)

    def to(self, unit: str) -> "Term":
        """Return the same sum with its value in ``unit``."""
        return Term(_in(self.magnitude, self.unit, unit), _unit(unit), self.formula, self.binds)

    def _with(self, other: "Term", sign: float, formula: Formula) -> "Term":
        factor = _factor(other.unit, self.unit)
        if factor is None:  # two temperatures, or a temperature and a difference
            value = self.value + other.value if sign > 0 else self.value - other.value
            return Term(float(value.magnitude), value.units, formula, _SUM)
        return Term(self.magnitude + sign * factor * other.magnitude, self.unit, formula, _SUM)

    def _signed(self, sign: str, other: str, least: int) -> Formula:
        """Return this behind a sign; a value below zero takes the other sign: "5 kg - 2 kg", not "5 kg + (-2 kg)"."""
        first = self.formula[0]
        if isinstance(first, str) and first.startswith(_BELOW):
            if len(self.formula) == 1:
                return (other, first.removeprefix(_BELOW))
            return (sign, *self._in(_PRODUCT))
        return (sign, *self._in(least))

    def _in(self, least: int) -> Formula:
        return self.formula if self.binds >= least else ("(", *self.formula, ")")


def put(quantity: Quantity, unit: str, digits: int = _DIGITS) -> Term:
    """Return a value as it is put in: in ``unit`` and nearest, since rounding to the safe side comes last."""
    magnitude = _in(float(quantity.magnitude), quantity.units, unit)
    written = _written(magnitude, unit, digits)
    return Term(magnitude, _unit(unit), (written,), _SUM if written.startswith(_BELOW) else _SINGLE)


def whole(count: float) -> Term:
    """Return a plain number."""
    return put(Quantity(float(count), ""), "", 6)


def summed(terms: Iterable[Term]) -> Term:
    """Return the sum of ``terms``, one at least."""
    return reduce(lambda one, more: one + more, terms)


def less(first: Term, terms: Iterable[Term]) -> Term:
    """Return ``first`` with each of ``terms`` taken away."""
    return reduce(lambda left, taken: left - taken, terms, first)


def least(*terms: Term) -> Term:
    """Return the least of ``terms``, with all of them in sight."""
    return _picked("the least of ", min(terms, key=_size), terms)


def most(*terms: Term) -> Term:
    """Return the greatest of ``terms``, with all of them in sight."""
    return _picked("the greatest of ", max(terms, key=_size), terms)


def smaller(one: Term, other: Term) -> Term:
    """Return that of two terms which is less; the other is left out of sight."""
    return min(one, other, key=_size)


def power(base: Term, exponent: Term) -> Term:
    """Return a number to the power of another."""
    value = math.pow(_number(base), _number(exponent))
    formula = (*base._in(_SINGLE), " to the power of ", *exponent._in(_SINGLE))
    return Term(value, _unit(""), formula, _POWER)


def logarithm(term: Term) -> Term:
    """Return the natural logarithm of a number."""
    return Term(math.log(_number(term)), _unit(""), ("ln of ", *term._in(_SINGLE)), _POWER)


def sine(angle: Term) -> Term:
    """Return the sine of an angle."""
    value = math.sin(_in(angle.magnitude, angle.unit, "rad"))
    return Term(value, _unit(""), ("sine of ", *angle._in(_SINGLE)), _POWER)


def line(term: Term, unit: str, label: str = "", digits: int = _DIGITS) -> Worked:
    """Return the sum with its result in ``unit``, to be followed on a pocket calculator."""
    result = _written(_in(term.magnitude, term.unit, unit), unit, digits)
    return Worked(label=label, formula=term.formula, result=result)


def lines(of: Iterable[tuple[str, Term]], unit: str, digits: int = _DIGITS) -> tuple[Worked, ...]:
    """Return a labelled line for each term; one that is a bare value has nothing to show."""
    return tuple(line(term, unit, label, digits) for label, term in of if not term.single)


def _picked(words: str, value: Term, terms: tuple[Term, ...]) -> Term:
    if len(terms) == 1:
        return terms[0]
    formula: list[str | Fraction] = [words]
    for at, term in enumerate(terms):
        formula += ([", " if at < len(terms) - 1 else " and "] if at else []) + list(term._in(_SUM))
    return Term(value.magnitude, value.unit, tuple(formula), _PICKED)


def _size(term: Term) -> Quantity:
    return term.value


def _number(term: Term) -> float:
    return _in(term.magnitude, term.unit, "")


def _in(magnitude: float, have: Unit, unit: str) -> float:
    """Return a magnitude in another unit."""
    factor = _factor(have, _unit(unit))
    return float(Quantity(magnitude, have).to(unit).magnitude) if factor is None else magnitude * factor


def _written(magnitude: float, unit: str, digits: int) -> str:
    """Return a value to the nearest of ``digits`` decimals, without idle zeros: "3.98 m", "50 %"."""
    amount = f"{magnitude:.{digits}f}"
    if "." in amount:
        amount = amount.rstrip("0").rstrip(".")
    if amount == "-0":
        amount = "0"
    shown = unit_text(unit) if unit else ""
    if shown == "days" and amount == "1":
        shown = "day"
    gap = "" if shown in ("", "°") else "\N{NO-BREAK SPACE}"
    return f"{amount.replace('-', _BELOW)}{gap}{shown}"
