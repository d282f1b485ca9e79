"""The rules of language and safety: content/language.yaml. A workspace may have none.

How they are applied is left to ``language``; that their examples hold is a test.
"""

from pathlib import Path

from generator.load.faults import Faults
from generator.load.inline import TRAIT
from generator.load.reader import Reader
from generator.load.sources import read_record
from generator.model.language import Language, LanguageRule

FILE = "content/language.yaml"


def read_language(root: Path, faults: Faults) -> Language | None:
    """Return the rules, each checked for what it says of itself."""
    path = root / FILE
    language = read_record(root, path, Language, Reader(faults)) if path.exists() else None
    for rule in language.rules.values() if language else ():
        _check(rule, faults)
    return language


def _check(rule: LanguageRule, faults: Faults) -> None:
    if not TRAIT.fullmatch(rule.id):
        faults.add(f'"{rule.id}" is no name for a rule', rule.source, "write kebab-case")
    if bool(rule.check) == bool(rule.words or rule.together):
        faults.add("a rule has words, or a check", rule.source, 'give it "words" or "together", or else "check"')
    if any(not word.strip("* ") for word in (*rule.words, *rule.unless, *(w for part in rule.together for w in part))):
        faults.add("a star alone is no word", rule.source)
    if not all(rule.together):
        faults.add("a list of words is empty", rule.source)
    if not rule.bad or not rule.good:
        faults.add("a rule has a bad and a good example", rule.source, "they are its tests")
    if rule.budget < 0 or (rule.budget and rule.level == "error"):
        faults.add("only warnings have a budget", rule.source, "leave it out")
