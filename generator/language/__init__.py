"""The stage that judges words: rules of language and safety, each with its position.

``language`` is the one public function. The rules are the writers' own, in content/language.yaml.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.errors import Fault, Level, Source
from generator.language.asked import Asked, asked_for
from generator.language.checks import SENTENCES, Bound, Found, bound, hardest_line, no_words, reading_ease
from generator.language.rules import broken
from generator.language.texts import TITLE, Written, of_block, of_kind, of_message, of_picture, sentences
from generator.model.blocks import Block, Steps
from generator.model.catalogue import Catalogue
from generator.model.content import Content, Terms
from generator.model.language import Language, LanguageRule
from generator.model.quotes import LONGEST_QUOTE

__all__ = ["Asked", "Hit", "Judgement", "asked_for", "judge_block", "language"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hit:
    """A rule that is broken somewhere."""

    rule: str
    fault: Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """Every hit in the order of files, the score of each procedure, and what is over budget.

    ``faults`` are what stops publication: errors, and one for each rule whose warnings are more than its budget.
    """

    hits: tuple[Hit, ...]
    ease: Mapping[str, float]  # block id -> Flesch's score
    over: Mapping[str, Fault]  # rule -> what is said where its warnings are more than its budget

    @property
    def faults(self) -> tuple[Fault, ...]:
        """What stops publication."""
        return (*self.errors, *self.over.values())

    @property
    def errors(self) -> tuple[Fault, ...]:
        """The hits that stop publication."""
        return tuple(hit.fault for hit in self.hits if hit.fault.level is Level.ERROR)

    @property
    def warnings(self) -> tuple[Fault, ...]:
        """The hits that count against budgets."""
        return tuple(hit.fault for hit in self.hits if hit.fault.level is Level.WARNING)

    @property
    def summary(self) -> str:
        """How the words came out, in a line."""
        count = len(self.warnings)
        places = "1 place" if count == 1 else f"{count} places"
        found = f"{places} of style, within budget" if count else "nothing to mend"
        hardest = f"; reading ease {min(self.ease.values()):.0f} or better" if self.ease else ""
        return f"words: {found}{hardest}"

    def only(self, asked: Asked) -> "Judgement":
        """Return what is said of some rules and files."""
        hits = tuple(hit for hit in self.hits if asked.holds(hit.rule, hit.fault.source))
        rules = {hit.rule for hit in hits}
        return Judgement(
            hits=hits,
            ease={id_: score for id_, score in self.ease.items() if f"content/blocks/{id_}.md" in asked.files},
            over={rule: fault for rule, fault in self.over.items() if rule in rules},
        )


def language(content: Content, catalogue: Catalogue) -> Judgement:
    """Judge every word of content and catalogue; nothing is found where the content has no rules."""
    rules = content.language
    if rules is None:
        return Judgement(hits=(), ease={}, over={})
    hits = list(dict.fromkeys(_all_hits(content, catalogue, rules)))  # a fragment stands in several blocks
    hits.sort(key=lambda hit: (hit.fault.source or Source(""), hit.rule))
    scores = ((block.id, reading_ease(block, rules, content.terms)) for block in content.blocks)
    return Judgement(
        hits=tuple(hits),
        ease={id_: score for id_, score in scores if score is not None},
        over=dict(_over_budget(hits, rules)),
    )


def _over_budget(hits: Iterable[Hit], rules: Language) -> Iterator[tuple[str, Fault]]:
    for id_, count in Counter(hit.rule for hit in hits).items():
        rule = rules.rules[id_]
        if rule.level == "warning" and count > rule.budget:
            places = "1 place breaks" if count == 1 else f"{count} places break"
            hint = f"lockerleaf language {id_} lists them; mend the words, not the budget"
            yield id_, Fault(f"{places} the rule {id_}, its budget is {rule.budget}", rule.source, hint)


def _all_hits(content: Content, catalogue: Catalogue, rules: Language) -> Iterator[Hit]:
    by = bound(rules, content.terms)
    for block in content.blocks:
        yield from _judged_block(block, by)
    for kind in catalogue.kinds.values():
        yield from _judged(of_kind(kind), by, None)
    for picture in content.pictures.values():
        yield from _judged(of_picture(picture), by, None)
    for message in content.safety.values():
        yield from _judged(of_message(message), by, None)


def judge_block(block: Block, terms: Terms, rules: Language) -> Iterator[Hit]:
    """Yield what breaks a rule in one block."""
    yield from _judged_block(block, bound(rules, terms))


def _judged_block(block: Block, by: Bound) -> Iterator[Hit]:
    yield from _judged(of_block(block, by.terms), by, block)
    for rule in by.language.rules.values():
        if rule.check == "no-words":
            yield from (_hit(rule, found, block.title.source) for found in no_words(block))
        if rule.check == "reading-ease":
            score = reading_ease(block, by.language, by.terms)
            if score is not None and score < by.language.reading_ease:
                line = hardest_line(block, by.terms)
                words = f"{score:.0f}, at least {by.language.reading_ease}"
                yield _hit(rule, Found(line.text, words), line.at)


def _judged(lines: Iterable[Written], by: Bound, block: Block | None) -> Iterator[Hit]:
    rules = [rule for rule in by.language.rules.values() if _concerns(rule, block)]
    for sentence in sentences(lines):
        for rule in rules:
            if rule.parts and sentence.line.part not in rule.parts:
                continue
            check = SENTENCES.get(rule.check) if rule.check else None
            if check:
                found = check(sentence, by)
            else:
                found = (Found(words) for words in broken(rule, sentence.text, by.language.negations))
            yield from (_hit(rule, one, sentence.line.where(one.words)) for one in found)


def _concerns(rule: LanguageRule, block: Block | None) -> bool:
    """Return whether a rule asks anything of the sentences of a block, or of texts beside the blocks."""
    if rule.check and rule.check not in SENTENCES:
        return False
    if rule.forms and block is not None and block.form not in rule.forms:
        return False
    return not (rule.needs and (block is None or _prints(block) & set(rule.needs)))


def _prints(block: Block) -> set[str]:
    """Return the messages a block prints anywhere."""
    steps = (step for node in block.body if isinstance(node, Steps) for step in node.items)
    return {given.value for given in block.hazards} | {given.value for step in steps for given in step.safety}


def _hit(rule: LanguageRule, found: Found, at: Source) -> Hit:
    words, more = _quoted(found.words), _quoted(found.more)
    message, hint = (text.replace("<words>", words).replace("<more>", more) for text in (rule.says, rule.hint))
    return Hit(rule=rule.id, fault=Fault(f"{message} ({rule.id})", at, hint, Level(rule.level)))


def _quoted(text: str) -> str:
    """Return words as they are told: on one line, without the sign that opens a link, not too long."""
    words = " ".join(text.replace(TITLE, "").split())
    return words if len(words) <= LONGEST_QUOTE else words[:LONGEST_QUOTE].rsplit(" ", 1)[0] + " ..."
