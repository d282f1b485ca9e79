"""Writes the search index as a script, so that it loads from a folder as well as from a host.

Ranking is the page script's; here words are only cut, folded and counted once.
"""

import json
import re
import unicodedata
from collections.abc import Iterable, Sequence

from generator.model.manual import Manual, SearchEntry

# Words that say nothing of what is asked. The page script leaves the same words out of a question.
_STOP_WORDS = """
a an and are as at be but by do does for from has have how i if in into is it its me my not of on or our so that the
their them then there this to was we what when where which who why will with work working works you your
"""
STOP = frozenset(_STOP_WORDS.split())
_WORD = re.compile(r"[a-z0-9]+")


def search_script(manual: Manual) -> bytes:
    """Return the script that assigns the index of ``manual``."""
    lights = next((page.path for page in manual.pages if page.template == "lights"), "")
    index = {
        "entries": [_entry(entry) for entry in manual.search],
        **_running_text(manual.search),
        "synonyms": [list(group) for group in manual.synonyms],
        "stop": sorted(STOP),
        "lights": lights,
    }
    text = json.dumps(index, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return f"self.lockerleaf={text};\n".encode()


def _entry(entry: SearchEntry) -> list[object]:
    words = ",".join(dict.fromkeys(" ".join(tokens([phrase])) for phrase in entry.words))
    return [entry.path, entry.anchor, entry.title, entry.section, entry.plate, words, entry.answer]


def _running_text(entries: Sequence[SearchEntry]) -> dict[str, str]:
    """Return each word of the running text once, and beside it the entries it stands in, as steps from one to the next.

    By entry the same would weigh twice as much on the way to the phone. Words that stand in another field are left out.
    """
    places: dict[str, list[int]] = {}
    for number, entry in enumerate(entries):
        known = set(tokens([entry.title, entry.section, entry.plate, *entry.words, entry.answer]))
        for word in set(tokens([entry.text])) - known - STOP:
            places.setdefault(word, []).append(number)
    words = sorted(places)
    return {"words": " ".join(words), "where": " ".join(_steps(places[word]) for word in words)}


def _steps(numbers: Sequence[int]) -> str:
    """Return one letter for each step, "#" being none."""
    return "".join(chr(ord("#") + number - before) for before, number in zip([0, *numbers], numbers, strict=False))


def tokens(texts: Iterable[str]) -> list[str]:
    """Return the words of ``texts``, lower case, without accents; the page script cuts a question alike."""
    plain = unicodedata.normalize("NFKD", " ".join(texts)).lower()
    if not plain.isascii():
        plain = "".join(char for char in plain if not unicodedata.combining(char) and char != "’")
    return _WORD.findall(plain.replace("'", ""))
