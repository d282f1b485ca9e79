"""YAML text to a tree of nodes that keep line and column; every scalar stays the text that was typed.

What a node must hold is left to ``reader``. The tree is built from parser events rather than by ``yaml.compose``:
events come one by one, so depth is bounded before anything recurses, and an alias is refused before it is followed.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import yaml

from generator.errors import Source
from generator.load.documents import unwanted
from generator.load.faults import Faults

DEEPEST = 20  # levels of nesting
_LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_TAB, _TAB_HINT = "found character that cannot start any token", "indent with spaces, not tabs; quote text with @ or %"
_QUOTES_HINT = 'put text that holds ": ", " #" or starts with a sign between quotes'


@dataclass(frozen=True, slots=True)
class Scalar:
    """A piece of text; ``plain`` says it stood without quotes."""

    text: str
    source: Source
    plain: bool = True


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    items: tuple["Node", ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Entries:
    """A mapping in the order written, each key once."""

    entries: tuple[tuple[Scalar, "Node"], ...]
    source: Source

    def get(self, key: str) -> "Node | None":
        """Return the value of a key."""
        return next((value for scalar, value in self.entries if scalar.text == key), None)


Node = Scalar | Items | Entries


class _RefusedError(Exception):
    """The rest of the file cannot be read."""

    def __init__(self, message: str, source: Source, hint: str = "") -> None:
        super().__init__(message)
        self.message, self.source, self.hint = message, source, hint


def read_nodes(file: str, text: str, faults: Faults, first_line: int = 1) -> Node | None:
    """Return the one YAML document in ``text``, or None with a fault.

    Args:
        file: Name for faults.
        text: YAML, with plain line feeds.
        faults: Takes syntax errors, aliases, tags, repeated keys and too deep nesting.
        first_line: Line of the file at which ``text`` starts.
    """
    try:
        return _Composer(file, text, faults, first_line).document()
    except _RefusedError as refused:
        faults.add(refused.message, refused.source, refused.hint)
        return None


class _Composer:
    """Builds nodes from the events of one text."""

    def __init__(self, file: str, text: str, faults: Faults, first_line: int) -> None:
        self._file, self._faults, self._first = file, faults, first_line
        self._events = self._read(text)

    def _read(self, text: str) -> Iterator[yaml.Event]:
        try:
            yield from yaml.parse(text, Loader=_LOADER)
        except yaml.MarkedYAMLError as error:
            mark = error.problem_mark or error.context_mark
            problem = error.problem or error.context or "cannot be read"
            hint = _TAB_HINT if problem == _TAB else _QUOTES_HINT
            raise _RefusedError(f"this is not YAML: {problem}", self._at(mark), hint) from error
        except (yaml.YAMLError, UnicodeError) as error:
            raise _RefusedError("this is not YAML", self._at(None)) from error

    def _at(self, mark: Any) -> Source:
        if mark is None:
            return Source(self._file, self._first)
        return Source(self._file, mark.line + self._first, mark.column + 1)

    def document(self) -> Node:
        """Return the root of the only document."""
        next(self._events)  # start of the stream
        if isinstance(next(self._events), yaml.StreamEndEvent):
            raise _RefusedError("nothing is written here", Source(self._file, self._first))
        root = self._node(next(self._events), 1)
        if isinstance(root, Scalar) and not root.text:
            raise _RefusedError("nothing is written here", root.source)
        next(self._events)  # end of the document
        after = next(self._events)
        if not isinstance(after, yaml.StreamEndEvent):
            raise _RefusedError("a second document starts here", self._at(after.start_mark), 'remove the "---"')
        return root

    def _node(self, event: yaml.Event, depth: int) -> Node:
        source = self._at(event.start_mark)
        self._refuse_extras(event, source, depth)
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, source)
        if isinstance(event, yaml.SequenceStartEvent):
            return Items(tuple(self._items(depth)), source)
        return Entries(tuple(self._entries(depth)), source)

    def _refuse_extras(self, event: yaml.Event, source: Source, depth: int) -> None:
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _RefusedError("aliases (& and *) are not read", source, "write the value out, or put it in quotes")
        if getattr(event, "tag", None):
            raise _RefusedError("tags (!) are not read", source, "put the text in quotes")
        if depth > DEEPEST:
            raise _RefusedError(f"this is nested more than {DEEPEST} levels deep", source)

    def _scalar(self, event: yaml.ScalarEvent, source: Source) -> Scalar:
        bad = unwanted(event.value)
        if bad:
            self._faults.add(f"the character {bad[1]} may not stand in a text", source, "delete it")
        return Scalar(event.value.strip(), source, event.style in (None, ""))

    def _items(self, depth: int) -> Iterator[Node]:
        while not isinstance(event := next(self._events), yaml.SequenceEndEvent):
            yield self._node(event, depth + 1)

    def _entries(self, depth: int) -> Iterator[tuple[Scalar, Node]]:
        seen: dict[str, Source] = {}
        while not isinstance(event := next(self._events), yaml.MappingEndEvent):
            key = self._node(event, depth + 1)
            if not isinstance(key, Scalar):
                raise _RefusedError("a key must be a word", key.source, "put braces and brackets in quotes")
            value = self._node(next(self._events), depth + 1)
            if key.text in seen:
                self._faults.add(f'"{key.text}" is written twice', key.source, f"first on line {seen[key.text].line}")
            else:
                seen[key.text] = key.source
                yield key, value
