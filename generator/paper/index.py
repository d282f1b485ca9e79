"""The index of the booklet: chapters, titles, places, and what owners call things, with the pages that speak of it.

Page numbers are known to the template only; here stand the marks they are looked up for. What a title is about is left
to ``subjects``.
"""

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from generator.model.manual import Manual, SearchEntry
from generator.paper.setting import Data, Setting, breakable
from generator.paper.subjects import lowered, subjects_of, usual_case, words_of

_LONGEST = 28  # characters of what still is a name, and no sentence
_MOST_WORDS = 3
_ARTICLES = ("the ", "a ", "an ")
_WORKED_OUT = ": how "  # it was worked out
_OWN, _SPEAKS, _RECKONS = range(3)  # what is named so; what speaks of it; what works it out

Chapters = Iterable[tuple[str, str]]  # title and mark of each


@dataclass(slots=True)
class _Entry:
    words: str
    titled: bool
    to: dict[str, int] = field(default_factory=dict)  # rank by mark; a lower rank is named first

    @property
    def data(self) -> Data:
        """The words, and the marks by rank."""
        ranks = ([to for to, rank in self.to.items() if rank == one] for one in (_OWN, _SPEAKS, _RECKONS))
        return {"t": breakable(self.words), "to": list(ranks)}


class _Entries(dict[str, _Entry]):
    """Entries by what they are sorted by."""

    def put(self, words: str, to: str, rank: int, titled: bool = False) -> None:
        """Let ``words`` lead to a mark; where they are a title, they are spelled like it."""
        entry = self.setdefault(sort_key(words), _Entry(words, titled))
        if titled and not entry.titled:
            entry.words, entry.titled = words, True
        entry.to[to] = min(rank, entry.to.get(to, rank))

    def fold(self) -> None:
        """Make one entry of one thing and several: "tyre" and "tyres"."""
        for key in [key for key in self if f"{key}s" in self and not self[f"{key}s"].titled]:
            for to, rank in self.pop(f"{key}s").to.items():
                self[key].to[to] = min(rank, self[key].to.get(to, rank))


def index_of(manual: Manual, at: Setting, chapters: Chapters) -> list[Data]:
    """Return the entries by first letter, each with its own page first and those that work something out last."""
    entries = _Entries()
    for title, to in chapters:
        entries.put(title, to, _OWN, titled=True)
        for words in words_of(title):
            if " " not in words:
                entries.put(words, to, _SPEAKS)
    paths = [(page.title, at.to(page.path)) for page in manual.pages if page.template in ("topic", "emergency")]
    for title, path in paths:
        if path is not None:
            entries.put(title, path, _OWN, titled=True)
    printed = [(one, mark) for one in manual.search if (mark := at.to(one.path, one.anchor)) is not None]
    for found, to in printed:
        _enter(entries, found, to)
    for found, to in printed:
        if _is_topic(found):
            for words in words_of(found.title):
                if sort_key(words) in entries:
                    entries.put(words, to, _SPEAKS)
    entries.fold()
    letters: dict[str, list[Data]] = {}
    for key in sorted(entries):
        letters.setdefault(_letter(key), []).append(entries[key].data)
    return [{"t": letter, "x": some} for letter, some in letters.items()]


def _enter(entries: _Entries, found: SearchEntry, to: str) -> None:
    """Enter a page by its title, by what that is about, and by what owners call it."""
    rank = _SPEAKS if _is_topic(found) or _is_place(found) else _RECKONS
    entries.put(found.title.partition(_WORKED_OUT)[0], to, _OWN if _is_topic(found) else rank, titled=True)
    if _is_place(found):
        for part in found.words[1:]:  # behind its code: "Toilet: cassette"
            entries.put(lowered(part.partition(":")[0]), to, rank)
        return
    if _is_topic(found):
        for words in subjects_of(found.title):
            entries.put(words, to, rank)
    for words in _names(found):
        entries.put(usual_case(words), to, rank)


def _is_place(entry: SearchEntry) -> bool:
    return bool(entry.plate) and entry.path == f"{entry.plate}/index.html"


def _is_topic(entry: SearchEntry) -> bool:
    return entry.section not in ("", "Your numbers", "Checklists") and not _is_place(entry)


def _names(entry: SearchEntry) -> Iterator[str]:
    for words in entry.words:
        if len(words) <= _LONGEST and len(words.split()) <= _MOST_WORDS:
            yield words


def sort_key(words: str) -> str:
    """Return what entries are sorted by and told apart by: without case, accents, punctuation and an article."""
    plain = unicodedata.normalize("NFKD", words).casefold()
    for article in _ARTICLES:
        plain = plain.removeprefix(article)
    return " ".join("".join(c if c.isalnum() else " " for c in plain if not unicodedata.combining(c)).split()) or plain


def _letter(key: str) -> str:
    return key[0].upper() if key[:1].isalpha() else "0-9"
