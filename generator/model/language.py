"""The rules that words are held to: what a writer may read and change in content/language.yaml.

How a rule is applied is left to ``language``.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from generator.errors import Source

Form = Literal["description", "procedure", "fault", "emergency", "reference"]
# What a text is: the first line of a step, a line under it, other text of a block, its title, its line on a checklist
# or walk-round, a sentence or control of a kind, a safety message.
Part = Literal["step", "more", "text", "title", "list", "say", "message"]
Check = Literal["sentence-length", "two-actions", "market-word", "unknown-name", "no-words", "reading-ease"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LanguageRule:
    """One thing that words may not do.

    A sentence breaks the rule where it holds one of ``words``, or one of each list of ``together`` in that order (in
    whatever order with ``any_order``), and none of ``unless``; what a negation in the same clause forbids breaks
    nothing. With ``needs`` only in a block that prints none of these safety messages. A star ends a word that may go
    on, a hash stands for a number, three dots for anything between. ``check`` names a rule that words cannot state.

    A warning is counted against ``budget``; more than that are refused. ``bad`` and ``good`` are its tests: a step, or
    a whole block that starts with ``---``.
    """

    id: str
    level: Literal["error", "warning"]
    says: str
    hint: str = ""
    words: tuple[str, ...] = ()
    together: tuple[tuple[str, ...], ...] = ()
    any_order: bool = False
    unless: tuple[str, ...] = ()
    check: Check | None = None
    needs: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    forms: tuple[Form, ...] = ()
    budget: int = 0
    bad: tuple[str, ...]
    good: tuple[str, ...]
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Language:
    """Rules by id, targets, and the words that checks must know.

    ``sentence`` is the most words of one (a colon ends a count), ``reading_ease`` the least score of a procedure
    (Flesch). ``negations`` forbid, ``verbs`` open an action, ``names`` are words with a capital that are nobody's,
    ``plain_words`` are trade words that every market understands.
    """

    sentence: int
    reading_ease: int
    negations: tuple[str, ...]
    verbs: tuple[str, ...]
    names: tuple[str, ...]
    plain_words: tuple[str, ...]
    rules: Mapping[str, LanguageRule]
    source: Source
