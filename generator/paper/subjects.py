"""What a title is about: the names in it that an owner looks up, and how they are spelled in an index.

Titles are English, as all content is. Which pages a name leads to is left to ``index``.
"""

import re
from collections.abc import Iterator, Sequence

# Words of titles that nobody looks up: of grammar, of doing and of how something is.
_PASSED_OVER = """
a about all an and at back be before behind burnt by can chirps cold come comes dead does down drag drive
drop each empty evening every fails first for fresh from get go goes has hold hot how in into is it its last
left let lock look low manual may messages new no not of off on open or out place put ready right run runs
set shows shut slowly smells sooty sounds stays still stuck swapped sways swollen take that the this to
together tripped under unplugged up use van were wet what when where while will with work worked yellow you
your
"""
_NO_SUBJECT = frozenset(_PASSED_OVER.split())
_OBJECT = frozenset({"a", "an", "the", "up"})  # what stands behind the verb that a title opens with
_CAPITALS = ("ATM", "CO", "DAB", "EHU", "FM", "GCM", "GTW", "LED", "LPG", "MCB", "MTPLM", "RCD", "UK", "USB", "WC")
_SPELLED = {word.casefold(): word for word in _CAPITALS} | {"12v": "12 V", "kpa": "kPa", "bluetooth": "Bluetooth"}
_SHORTEST = 3  # letters of a word that says something by itself


def subjects_of(title: str) -> Iterator[str]:
    """Yield the names in a title, and of each its last word: "jockey wheel" and "wheel"."""
    for run in _runs(title):
        yield _spelled(run)
        yield from _spelled_alone(run[-1])


def words_of(title: str) -> Iterator[str]:
    """Yield every word of a title that may be a subject, and every row of such words."""
    for run in _runs(title):
        for first in range(len(run)):
            for end in range(first + 1, len(run) + 1):
                yield from _spelled_alone(run[first]) if end == first + 1 else (_spelled(run[first:end]),)


def usual_case(words: str) -> str:
    """Return ``words`` with short forms in capitals, however they were typed."""
    return " ".join(_SPELLED.get(word.casefold(), word) for word in words.split(" "))


def lowered(words: str) -> str:
    """Return a title as it stands within a line: no capital but in short forms."""
    return usual_case(words if words[:2].isupper() else words[:1].lower() + words[1:])


def _runs(title: str) -> Iterator[Sequence[str]]:
    """Yield the words of a title between those that are no subject; a verb it opens with is none."""
    for part in re.split(r"[:,;]", title):
        words = part.split()
        if len(words) > 1 and words[1] in _OBJECT:
            words = words[1:]
        run: list[str] = []
        for word in (*words, ""):
            if word and word.casefold() not in _NO_SUBJECT:
                run.append(word)
            elif run:
                yield run
                run = []


def _spelled(run: Sequence[str]) -> str:
    return " ".join(lowered(word) for word in run)


def _spelled_alone(word: str) -> Iterator[str]:
    if len(word) >= _SHORTEST or word.casefold() in _SPELLED:
        yield lowered(word)
