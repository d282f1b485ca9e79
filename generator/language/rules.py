"""Rules that words alone can state: one of a list, or one of each of several lists in order, unless excused."""

import re
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import permutations

from generator.model.language import LanguageRule

# A hash in a rule stands for a number, in digits or as a word.
_NUMBER = (
    r"(?:\d+(?:[.,]\d+)?|one|two|three|four|five|six|seven|eight|nine|ten|fifteen|twenty|thirty|forty|sixty"
    r"|half a|a few)"
)

_CLAUSE = re.compile(r"[:;]")


def broken(rule: LanguageRule, text: str, negations: tuple[str, ...]) -> Iterator[str]:
    """Yield the words of a sentence that break ``rule``; nothing for a rule with a check of its own."""
    if rule.unless and _pattern(rule.unless, ()).search(text):
        return
    for match in _pattern(rule.words, rule.together, rule.any_order).finditer(text):
        clause = _CLAUSE.split(text[: match.start()])[-1] + match.group()
        if not (rule.level == "error" and _pattern(negations, ()).search(clause)):
            yield match.group()


@cache
def _pattern(words: tuple[str, ...], together: tuple[tuple[str, ...], ...], any_order: bool = False) -> re.Pattern[str]:
    """Match one of ``words``, or one of each list of ``together``, in order or in any, with anything between."""
    either = [any_of(words)] if words else []
    orders: Iterable[tuple[tuple[str, ...], ...]] = permutations(together) if any_order else [together]
    either += [".*?".join(map(any_of, lists)) for lists in orders if lists]
    return re.compile("|".join(either) or r"(?!)", re.IGNORECASE)


@cache
def any_of(words: tuple[str, ...]) -> str:
    """Return a pattern for any of ``words`` as whole words, longest first."""
    longest_first = sorted(words, key=len, reverse=True)
    return rf"(?<![\w-])(?:{'|'.join(map(_word, longest_first))})(?![\w-])"


def _word(word: str) -> str:
    parts = (
        ".*?" if part == "..." else re.escape(part).replace(r"\*", r"[\w-]*").replace(r"\#", _NUMBER)
        for part in word.split()
    )
    return r"\s+".join(parts)
