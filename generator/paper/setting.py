"""What texts and nodes of one van need to become data: values, marks of pages, drawings, places to break a word.

How nodes and values become data is left to ``tree`` and ``figures``.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from generator.errors import Fault, PublishError
from generator.model.holes import HoleValue
from generator.model.paper import Picture

Data = dict[str, object]

_LONG_WORD = re.compile(r"\S{17,}")
_JOINT = re.compile(r"(?<=[/#-])")  # where an address is broken first
_BREAK = "\u200b"


def mark(path: str, anchor: str = "") -> str:
    """Return the name of a place in the booklet that page numbers are looked up for."""
    return f"{path}#{anchor}" if anchor else path


def breakable(words: str) -> str:
    """Return ``words`` with places to break where a word is too long for a line: an address at its slashes."""
    return _LONG_WORD.sub(_broken, words)


def _broken(word: re.Match[str]) -> str:
    start, slashes, rest = word[0].rpartition("://")
    parts = [part for part in _JOINT.split(rest) if part]
    return start + slashes + _BREAK.join(_BREAK.join(re.findall(".{1,16}", part)) for part in parts)


@dataclass(frozen=True, slots=True)
class Setting:
    """What the nodes of one van need.

    Args:
        values: What fills the holes, edition included.
        marks: Where the booklet has something, by link target; a table by the name of its hole.
        drawings: Pictures by hole name.
    """

    values: Mapping[str, HoleValue]
    marks: Mapping[str, str]
    drawings: Mapping[str, tuple[Picture, ...]]

    def text(self, name: str) -> str:
        """Return the text that fills a hole."""
        value = self.values.get(name)
        if not isinstance(value, str):
            raise PublishError(Fault(f'no text for "{name}"'))
        return breakable(value)

    def to(self, path: str, anchor: str = "") -> str | None:
        """Return the mark that a link leads to; None where paper has no such thing."""
        return self.marks.get(mark(path, anchor)) or self.marks.get(path)
