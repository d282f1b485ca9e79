"""Where a character was written: for the paper, whose typeface does not have every character.

Only asked for when something cannot be printed; reading a workspace does not wait for it.
"""

import unicodedata
from collections.abc import Container, Iterator, Mapping
from dataclasses import fields, is_dataclass

from generator.errors import Fault, Source
from generator.model.content import Workspace

_NOT_PRINTED = ("digest", "source")


def where_written(workspace: Workspace, characters: Container[str]) -> tuple[Fault, ...]:
    """Return a fault for each place in a workspace where one of ``characters`` stands, by file, line and column."""
    found = {
        (source, character): None
        for text, source in _texts(workspace, None)
        for character in text
        if character in characters and source is not None
    }
    return tuple(_fault(source, character) for source, character in sorted(found))


def _fault(source: Source, character: str) -> Fault:
    name = unicodedata.name(character, "a character without name").lower()
    message = f'"{character}" (U+{ord(character):04X}, {name}) cannot be printed: the typeface of the paper lacks it'
    return Fault(message, source, "write it in other letters")


def _texts(value: object, source: Source | None) -> Iterator[tuple[str, Source | None]]:
    """Yield every text inside a value with the nearest position above it."""
    if isinstance(value, str):
        yield value, source
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _texts(key, source)
            yield from _texts(inner, source)
    elif isinstance(value, tuple):
        for inner in value:
            yield from _texts(inner, source)
    elif is_dataclass(value):
        here = getattr(value, "source", source)
        for field in fields(value):
            if field.name not in _NOT_PRINTED:
                yield from _texts(getattr(value, field.name), here if isinstance(here, Source) else source)
