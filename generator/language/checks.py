"""Rules that words alone cannot state: lengths, actions of a step, words of a market, unknown names, reading ease."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from generator.language.reading import counts
from generator.language.rules import any_of
from generator.language.texts import GAP, TITLE, Sentence, Written, of_body
from generator.model.blocks import Block
from generator.model.content import Terms
from generator.model.language import Check, Language

_WORD = re.compile(r"[^\W_]+(?:[-'’][^\W_]+)*")
_CAPITAL = re.compile(r"[A-Z][A-Za-z]*(?:[-'’][A-Za-z]+)*")
_OPENS = re.compile(rf"(?:^|[:(\"“.!?{TITLE}{GAP}])\s*$")
_NO_ACTION = ("go to", "go on", "look", "watch", "listen", "wait", "stop", "see", "read")  # need no hands


@dataclass(frozen=True, slots=True)
class Found:
    """What breaks a rule: the words, and more that the rule's message may name."""

    words: str
    more: str = ""


@dataclass(frozen=True, slots=True)
class Bound:
    """The rules with what checks look for, put together once for many sentences."""

    language: Language
    terms: Terms
    actions: str  # pattern of the verbs that need hands
    names: frozenset[str]
    market: tuple[tuple[str, re.Pattern[str]], ...]  # term -> the words that differ between markets


def bound(language: Language, terms: Terms) -> Bound:
    """Put together what the checks look for."""
    actions = any_of(tuple(verb for verb in language.verbs if verb not in _NO_ACTION))
    market = []
    for term, words in terms.trade.items():
        differing = tuple(word for word in dict.fromkeys(words.values()) if word not in language.plain_words)
        if differing and len(set(words.values())) > 1:
            market.append((term, re.compile(any_of(differing), re.IGNORECASE)))
    return Bound(language, terms, actions, frozenset(language.names), tuple(market))


Of = Callable[[Sentence, Bound], Iterator[Found]]


def sentence_length(sentence: Sentence, by: Bound) -> Iterator[Found]:
    """A sentence, or what stands on one side of its colon, of more words than the target."""
    length = max(len(_WORD.findall(part)) for part in re.split(r":\s", sentence.text))
    if length > by.language.sentence:
        yield Found(sentence.text, f"{length} words, at most {by.language.sentence}")


def two_actions(sentence: Sentence, by: Bound) -> Iterator[Found]:
    """A second thing to do, in the first line of a step."""
    if sentence.line.part != "step":
        return
    verbs = by.actions
    lead = re.match(rf"(?:[^.,:]*[:,] )?(?:slowly |gently |then )?{verbs}", sentence.text, re.IGNORECASE)
    # What ends the sentence is no second verb: "wipe it clean and dry".
    second = re.search(rf"(?:, then|,? and(?: then)?|\. Then) {verbs}(?!\.?$)", sentence.text, re.IGNORECASE)
    if lead and second:
        yield Found(second.group().strip(", "), sentence.text)
    earlier = sentence.line.text[: sentence.line.text.find(sentence.text)]
    if lead and re.match(verbs, sentence.text, re.IGNORECASE) and re.match(verbs, earlier, re.IGNORECASE):
        yield Found(sentence.text, sentence.line.text)


def market_word(sentence: Sentence, by: Bound) -> Iterator[Found]:
    """A trade word that another market has another word for, typed instead of called."""
    if sentence.line.one_market:
        return
    typed = sentence.line.typed or sentence.line.text
    for term, words in by.market:
        yield from (Found(match.group(), term) for match in words.finditer(sentence.text) if match.group() in typed)


def unknown_name(sentence: Sentence, by: Bound) -> Iterator[Found]:
    """A word with a capital inside a sentence that is on no list: it may be a maker's name."""
    for match in _CAPITAL.finditer(sentence.text):
        if match.group() not in by.names and not _OPENS.search(sentence.text[: match.start()]):
            yield Found(match.group())


SENTENCES: Mapping[Check, Of] = {
    "sentence-length": sentence_length,
    "two-actions": two_actions,
    "market-word": market_word,
    "unknown-name": unknown_name,
}


def no_words(block: Block) -> Iterator[Found]:
    """A page that people look for, without the words they type."""
    if block.form in ("procedure", "fault", "emergency") and not block.words:
        yield Found(block.id)


def reading_ease(block: Block, language: Language, terms: Terms) -> float | None:
    """Return Flesch's score of a procedure's text, or None for another block or one without words."""
    if block.form not in ("procedure", "emergency", "fault"):
        return None
    text = "\n".join(line.text.replace(GAP, "").replace(TITLE, "") for line in of_body(block, terms))
    found = counts(text)
    return found.ease if found else None


def hardest_line(block: Block, terms: Terms) -> Written:
    """Return the line of a block with words that brings its score down most: the furthest from 100, times its words."""

    def weight(line: Written) -> float:
        found = counts(line.text)
        return (100 - found.ease) * found.words if found else 0.0

    return max(of_body(block, terms), key=weight)
