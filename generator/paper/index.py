"""The index of the booklet: what owners call things, with the pages that speak of it.

Page numbers are known to the template only; here stand the marks they are looked up for.
"""

import unicodedata
from collections.abc import Iterable

from generator.model import manual as m
from generator.paper.setting import Data, Setting, breakable

_LONGEST = 28  # characters of what still is a name, and no sentence
_MOST_WORDS = 3


def index_of(manual: m.Manual, at: Setting) -> list[Data]:
    """Return the entries by first letter; places stand by their codes in a part of their own."""
    entries: dict[str, dict[str, None]] = {}
    spelled: dict[str, str] = {}
    for found in manual.search:
        to = at.to(found.path, found.anchor)
        if to is None or (found.plate and found.path == f"{found.plate}/index.html"):
            continue
        for words in _names(found):
            key = sort_key(words)
            spelled.setdefault(key, words)
            entries.setdefault(key, {})[to] = None
    letters: dict[str, list[Data]] = {}
    for key in sorted(entries):
        letters.setdefault(_letter(key), []).append({"t": breakable(spelled[key]), "to": list(entries[key])})
    return [{"t": letter, "x": found} for letter, found in letters.items()]


def _names(entry: m.SearchEntry) -> Iterable[str]:
    for words in entry.words:
        if len(words) <= _LONGEST and len(words.split()) <= _MOST_WORDS:
            yield words


def sort_key(words: str) -> str:
    """Return what entries are sorted by and told apart by: without case, accents and punctuation."""
    plain = unicodedata.normalize("NFKD", words).casefold()
    return " ".join("".join(c if c.isalnum() else " " for c in plain if not unicodedata.combining(c)).split()) or plain


def _letter(key: str) -> str:
    return key[0].upper() if key[:1].isalpha() else "0-9"
