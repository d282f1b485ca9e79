"""What texts outside the body of a block may hold: names, plate texts, sentences.

They are shown as plain text everywhere, so signs that only markup needs are refused early, with a position.
"""

import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass

from generator.errors import Source
from generator.load.documents import unwanted
from generator.load.faults import Faults
from generator.model.sourced import Given

LONGEST_NAME = 60
LONGEST_PLATE = 40
_MARKUP = re.compile(r"[<>{}`\\]|\.\./|\*\*|\]\(")
_MARKUP_IN_WORDS = re.compile(r"[{}`]|\*\*|\]\(|</?[A-Za-z!]")
_NO_WORDS = ("body", "digest", "unit", "default", "source")  # fields that hold no text for a reader


def check_name(name: Given[str], faults: Faults) -> None:
    """Add a fault for a name that is too long, not printable, or holds markup."""
    _check(name, LONGEST_NAME, "name", faults)


def check_plate(text: Given[str], faults: Faults) -> None:
    """Add a fault for a plate text that is too long, not printable, or holds markup."""
    _check(text, LONGEST_PLATE, "plate text", faults)
    if not any(sign.isalnum() for sign in text.value):
        faults.add(f'"{text.value[:40]}" holds no letter or digit', text.source)


def _check(given: Given[str], longest: int, what: str, faults: Faults) -> None:
    text, at = given.value, given.source
    markup = _MARKUP.search(text)
    if len(text) > longest:
        faults.add(f"this {what} has {len(text)} characters, at most {longest} fit", at)
    elif unwanted(text):
        pass  # told when the file was read
    elif not text.isprintable():
        faults.add(f"this {what} holds a sign that cannot be printed", at, "write it on one line")
    elif markup:
        faults.add(f'a {what} cannot hold "{markup[0]}"', at, "plain words only, no markup and no paths")


def check_words(value: object, source: Source, faults: Faults) -> None:
    """Add a fault for markup in any text of a value read from a file: only bodies of blocks are Markdown.

    Args:
        value: A text, or a dataclass, tuple or mapping of values.
        source: Where to point for a text that has no position of its own.
        faults: Takes the faults.
    """
    if isinstance(value, str):
        markup = _MARKUP_IN_WORDS.search(value)
        if markup:
            hint = "only bodies of blocks hold calls, links and emphasis"
            faults.add(f'"{markup[0]}" does not work in this text', source, hint)
    elif isinstance(value, Mapping):
        for inner in value.values():
            check_words(inner, source, faults)
    elif isinstance(value, tuple):
        for inner in value:
            check_words(inner, source, faults)
    elif is_dataclass(value):
        here = getattr(value, "source", source)
        for name in (field.name for field in fields(value) if field.name not in _NO_WORDS):
            check_words(getattr(value, name), here if isinstance(here, Source) else source, faults)
