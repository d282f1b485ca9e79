"""Writes sums with a van's values put in as HTML: quotients as fractions, which are read aloud as "a ÷ b".

Plain elements and hidden signs instead of MathML: old telephones, and screen readers without an add-on, read it too.
"""

from markupsafe import Markup

from generator.fill.holes import printable
from generator.model.numbers import Formula, Fraction, Worked

_ITEM = Markup('<li class="sum">{}{} = <strong>{}</strong></li>')
_FRACTION = Markup(
    '<span class="fraction"><span class="fraction__above">{}</span>{}<span class="fraction__below">{}</span>{}</span>'
)


def sums(worked: tuple[Worked, ...]) -> Markup:
    """Return a list of sums, what each is of before it."""
    if not worked:
        return Markup("")
    return Markup('<ul class="worked" role="list">\n{}\n</ul>').format(Markup("\n").join(_sum(one) for one in worked))


def folded(worked: tuple[Worked, ...]) -> Markup:
    """Return the sums of a table under a line that opens them; print shows them all."""
    if not worked:
        return Markup("")
    said = "How the rows were worked out" if len(worked) > 1 else "How it was worked out"
    return Markup('<details class="sums">\n<summary>{}</summary>\n{}\n</details>').format(said, sums(worked))


def _sum(one: Worked) -> Markup:
    label = Markup('<span class="sum__of">{}: </span>').format(printable(one.label)) if one.label else Markup("")
    return _ITEM.format(label, formula(one.formula), printable(one.result))


def formula(parts: Formula) -> Markup:
    """Return a formula; its text without any style is the formula on one line."""
    return Markup("").join(printable(part) if isinstance(part, str) else _fraction(part) for part in parts)


def _fraction(fraction: Fraction) -> Markup:
    above, below = fraction.brackets
    return _FRACTION.format(
        _unseen("(" if above else "") + formula(fraction.above),
        _unseen((")" if above else "") + " ÷ " + ("(" if below else "")),
        formula(fraction.below),
        _unseen(")" if below else ""),
    )


def _unseen(signs: str) -> Markup:
    """The line of a fraction says it to the eye; these say it to the ear, and where there is no style."""
    return Markup('<span class="unseen">{}</span>').format(signs) if signs else Markup("")
