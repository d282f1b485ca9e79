"""JSON Schema (draft 2020-12) from the type hints of ``model``, as ``load.reader`` reads them.

One source of truth: what the reader accepts is what the schema accepts; ``tests/editor`` holds the two together.
"""

import inspect
import re
from collections.abc import Collection, Mapping
from dataclasses import MISSING, fields, is_dataclass
from datetime import date
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from generator.errors import Source
from generator.model.sourced import Given, Unit, Unknown
from generator.units import Quantity

Json = dict[str, Any]
Names = Mapping[tuple[str, str], Collection[str]]  # (class, field) -> what may stand there
DIALECT = "https://json-schema.org/draft/2020-12/schema"

# A scalar is read as text whatever it looks like: 0417 and yes are words where words belong.
_TEXT: Json = {"type": ["string", "number", "boolean"], "minLength": 1}
_WHOLE: Json = {"anyOf": [{"type": "integer"}, {"type": "string", "pattern": "^-?[0-9]{1,6}$"}]}
_NUMBER: Json = {"anyOf": [{"type": "number"}, {"type": "string", "pattern": r"^[0-9]{1,6}(\.[0-9]{1,6})?$"}]}
_DAY: Json = {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}
_YES: Json = {"anyOf": [{"type": "boolean"}, {"enum": ["true", "yes", "false", "no"]}]}


class Schemas:
    """Builds schemas; classes met on the way become definitions.

    Args:
        names: What may stand in a field, for completion; a field that is not among them takes any text.
        own: Schemas of fields that the reader reads in a way of their own, by (class, field).
    """

    def __init__(self, names: Names | None = None, own: Mapping[tuple[str, str], Json] | None = None) -> None:
        self._names, self._own = names or {}, own or {}
        self._definitions: dict[str, Json] = {}

    def document(self, wanted: Any, given: Collection[str] = (), title: str = "") -> Json:
        """Return the schema of a whole file.

        Args:
            wanted: The type the file is read as.
            given: Fields that do not stand in the file, such as its ``id``.
            title: What the file is.
        """
        self._definitions = {}
        top = self._record(wanted, given) if is_dataclass(wanted) else self._of(wanted)
        return {"$schema": DIALECT, "title": title, **top, "$defs": self._definitions}

    def _of(self, wanted: Any, unit: str = "", names: Collection[str] | None = None) -> Json:
        origin, args = get_origin(wanted), get_args(wanted)
        if origin is Annotated:
            marks = [mark.name for mark in args[1:] if isinstance(mark, Unit)]
            return self._of(args[0], marks[0] if marks else unit, names)
        if origin in (Union, UnionType):
            only = next(arg for arg in args if arg not in (NoneType, Unknown))
            inner = self._of(only, unit, names)
            return {"anyOf": [{"const": "unknown"}, inner]} if Unknown in args else inner
        if origin is Given:
            return self._of(args[0], unit, names)
        if origin is tuple:
            return self._tuple(args, unit, names)
        if origin is Literal:
            return {"enum": list(args)}
        if isinstance(origin, type) and issubclass(origin, Mapping):
            return self._mapping(args[1], names)
        if is_dataclass(wanted):
            return self._reference(wanted, ())
        return _scalar(wanted, unit, names)

    def _tuple(self, args: tuple[Any, ...], unit: str, names: Collection[str] | None) -> Json:
        items: Json = {"type": "array", "items": self._of(args[0], unit, names)}
        if args[-1] is not Ellipsis:
            return items | {"minItems": len(args), "maxItems": len(args)}
        if _has_id(args[0]):
            return {"anyOf": [items, self._keyed(args[0])]}
        return items

    def _mapping(self, value: Any, names: Collection[str] | None) -> Json:
        if _has_id(value):
            return self._keyed(value)
        inner = self._of(value)
        if names is not None:
            return {"type": "object", "properties": dict.fromkeys(names, inner), "additionalProperties": False}
        return {"type": "object", "additionalProperties": inner}

    def _keyed(self, value: Any) -> Json:
        return {"type": "object", "additionalProperties": self._reference(value, ("id",))}

    def _reference(self, wanted: Any, given: Collection[str]) -> Json:
        name = wanted.__name__ + "".join(f"-by-{one}" for one in given)
        if name not in self._definitions:
            self._definitions[name] = {}  # a class may hold itself
            self._definitions[name] = self._record(wanted, given)
        return {"$ref": f"#/$defs/{name}"}

    def _record(self, wanted: Any, given: Collection[str]) -> Json:
        hints = get_type_hints(wanted, include_extras=True)
        accepted = {name: hint for name, hint in hints.items() if name not in given and hint is not Source}
        required = [field.name for field in fields(wanted) if _is_required(field) and field.name in accepted]
        properties = {}
        for name, hint in accepted.items():
            own = self._own.get((wanted.__name__, name))
            known = self._names.get((wanted.__name__, name))
            properties[name] = own if own is not None else self._of(hint, names=known)
        schema: Json = {"type": "object", "properties": properties, "additionalProperties": False}
        if required:
            schema["required"] = required
        if said := inspect.getdoc(wanted):
            schema["description"] = re.sub(r"``", "", said.split("\n\n")[0].replace("\n", " "))
        return schema


def _scalar(wanted: Any, unit: str, names: Collection[str] | None) -> Json:
    if wanted is Quantity:
        return quantity(unit)
    if wanted is bool:
        return _YES
    if wanted is int:
        return _WHOLE
    if wanted is float:
        return _NUMBER
    if wanted is date:
        return _DAY
    return _TEXT if names is None else {"enum": sorted(names)}


def quantity(unit: str) -> Json:
    """Return the schema of a quantity; that the unit fits is left to the reader."""
    return {
        "type": "string",
        "pattern": r"^\s*[+-]?[0-9]+(\.[0-9]+)?\s*[A-Za-z%°µ][A-Za-z0-9/*%°µ ]*$",
        "description": f'a number and a unit, such as "1 {unit}"',
    }


def _is_required(field: Any) -> bool:
    return field.default is MISSING and field.default_factory is MISSING


def _has_id(wanted: Any) -> bool:
    return isinstance(wanted, type) and is_dataclass(wanted) and get_type_hints(wanted).get("id") is str
