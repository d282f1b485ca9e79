"""Nodes to the frozen dataclasses of ``generator.model``, by their own type hints; unknown keys are refused.

Cross references between files are left to ``references``. This is a reader of our own rather than pydantic's
``TypeAdapter``, which was the first choice: nearly every class here holds its ``source`` and many an ``id`` that stand
nowhere in the mapping (they are its position, its key or its file name), and ``Given`` and ``Unit`` need a node's
position and unit in the middle of validation. With pydantic that takes hooks inside the model, a second walk that puts
positions into plain dictionaries, and a table that rewrites its messages: more code than reading the hints directly.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from datetime import date
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from generator import units
from generator.errors import Source, nearest
from generator.load.faults import Faults
from generator.load.nodes import Entries, Items, Node, Scalar
from generator.model.sourced import UNKNOWN, Given, Unit, Unknown

LONGEST_TEXT = 2_000  # characters of one value
_BOOLEANS = {"true": True, "yes": True, "false": False, "no": False}
_FieldReader = Callable[["Reader", Node], Any]


class Reader:
    """Reads nodes as values of a wanted type; what does not fit becomes a fault and reads as None.

    ``fields`` reads single fields in a way of their own, by (class, field name).
    """

    def __init__(self, faults: Faults, fields: Mapping[tuple[type, str], _FieldReader] | None = None) -> None:
        self.faults = faults
        self._fields = fields or {}

    def of(self, faults: Faults) -> "Reader":
        """Return a reader that reads alike and adds its faults to others."""
        return Reader(faults, self._fields)

    def read(self, node: Node, wanted: Any, unit: str = "") -> Any:
        """Return ``node`` as a ``wanted``, or None with a fault.

        Args:
            node: Where the value is written.
            wanted: A type as the fields of the model are annotated with.
            unit: Unit of the quantities inside, from a ``Unit`` annotation further out.
        """
        origin, args = get_origin(wanted), get_args(wanted)
        if origin is Annotated:
            marks = [mark.name for mark in args[1:] if isinstance(mark, Unit)]
            return self.read(node, args[0], marks[0] if marks else unit)
        if origin in (Union, UnionType):
            return self._union(node, args, unit)
        if origin is Given:
            value = self.read(node, args[0], unit)
            return None if value is None else Given(value, node.source)
        if origin is tuple:
            return self._tuple(node, args, unit)
        if origin is Literal:
            return self._choice(node, args)
        if isinstance(origin, type) and issubclass(origin, Mapping):
            return self._mapping(node, *args)
        if is_dataclass(wanted):
            return self.record(node, wanted)
        return self._scalar(node, wanted, unit)

    def record(self, node: Node, wanted: Any, **given: object) -> Any:
        """Return a mapping as a dataclass.

        Args:
            node: The mapping.
            wanted: The dataclass.
            given: Fields that are not read from the mapping, such as its ``id``.
        """
        if not isinstance(node, Entries):
            self.faults.add("a mapping belongs here", node.source, 'write "key: value" lines')
            return None
        accepted = {name: hint for name, hint in _hints(wanted).items() if name not in given and hint is not Source}
        values = dict(given)
        if "source" not in given and _hints(wanted).get("source") is Source:
            values["source"] = node.source
        for key, child in node.entries:
            if key.text not in accepted:
                self.faults.add(f'unknown key "{key.text}"', key.source, nearest(key.text, accepted))
            elif (value := self._field(child, wanted, key.text, accepted[key.text])) is not None:
                values[key.text] = value
        written = {key.text for key, _ in node.entries}
        lacking = [name for name in _required(wanted) if name not in values]
        for name in lacking:
            if name not in written:
                self.faults.add(f'"{name}" is missing', node.source)
        return None if lacking else wanted(**values)

    def _field(self, node: Node, wanted: type, name: str, hint: Any) -> Any:
        reader = self._fields.get((wanted, name))
        return reader(self, node) if reader else self.read(node, hint)

    def _union(self, node: Node, args: tuple[Any, ...], unit: str) -> Any:
        """Read an optional value, or a quantity that may be ``unknown``."""
        if Unknown in args:
            return UNKNOWN if isinstance(node, Scalar) and node.text == "unknown" else self.read(node, args[0], unit)
        (only,) = (arg for arg in args if arg is not NoneType)
        return self.read(node, only, unit)

    def _tuple(self, node: Node, args: tuple[Any, ...], unit: str) -> Any:
        """Read a list; things with an id may also be written as a mapping by id."""
        if isinstance(node, Entries) and _has_id(args[0]):
            return tuple(self._keyed(node, args[0]).values())
        if not isinstance(node, Items):
            self.faults.add("a list belongs here", node.source, "write [one, two]")
            return None
        if args[-1] is not Ellipsis and len(node.items) != len(args):
            self.faults.add(f"{len(args)} values belong here, not {len(node.items)}", node.source)
            return None
        values = [self.read(item, args[0], unit) for item in node.items]
        return None if args[-1] is not Ellipsis and None in values else tuple(v for v in values if v is not None)

    def _mapping(self, node: Node, key_type: Any, value_type: Any) -> Any:
        if not isinstance(node, Entries):
            self.faults.add("a mapping belongs here", node.source, 'write "key: value" lines')
            return None
        if _has_id(value_type):
            return self._keyed(node, value_type)
        pairs = ((self.read(key, key_type), self.read(value, value_type)) for key, value in node.entries)
        return {key: value for key, value in pairs if key is not None and value is not None}

    def _keyed(self, node: Entries, wanted: Any) -> dict[str, Any]:
        """Read a mapping of things by their id."""
        read = {key.text: self.record(child, wanted, id=key.text) for key, child in node.entries}
        return {key: value for key, value in read.items() if value is not None}

    def _choice(self, node: Node, choices: tuple[Any, ...]) -> Any:
        text = self.text(node)
        if text is None or text in choices:
            return text
        self.faults.add(f'"{text}" is not known here', node.source, nearest(text, choices))
        return None

    def text(self, node: Node) -> str | None:
        """Return the text of a scalar, or None with a fault where there is none or too much."""
        if not isinstance(node, Scalar):
            kind = "list" if isinstance(node, Items) else "mapping"
            self.faults.add(f"a single value belongs here, not a {kind}", node.source)
        elif not node.text:
            self.faults.add("nothing is written here", node.source, "write a value or delete the key")
        elif len(node.text) > LONGEST_TEXT:
            self.faults.add(f"{len(node.text)} characters are too many, at most {LONGEST_TEXT} fit", node.source)
        else:
            return node.text
        return None

    def _scalar(self, node: Node, wanted: Any, unit: str) -> Any:
        text = self.text(node)
        if text is None:
            return None
        if wanted is units.Quantity:
            return self.quantity(text, unit, node.source)
        if wanted is bool:
            return self._checked(_BOOLEANS.get(text.lower()), text, "yes or no", node.source)
        if wanted is int:
            whole = int(text) if re.fullmatch(r"-?[0-9]{1,6}", text) else None
            return self._checked(whole, text, "a whole number", node.source)
        if wanted is float:
            number = float(text) if re.fullmatch(r"[0-9]{1,6}(\.[0-9]{1,6})?", text) else None
            return self._checked(number, text, "a number", node.source)
        if wanted is date:
            return self._checked(_day(text), text, 'a day, such as "2026-11-20"', node.source)
        return text

    def quantity(self, text: str, unit: str, source: Source) -> Any:
        """Return the quantity in ``text``, or None with a fault."""
        try:
            return units.parse(text, unit)
        except units.UnitError as error:
            self.faults.add(str(error), source, error.hint)
            return None

    def _checked(self, value: Any, text: str, wanted: str, source: Source) -> Any:
        if value is None:
            self.faults.add(f'"{text[:40]}" is not {wanted}', source)
        return value


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text) if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text, re.ASCII) else None
    except ValueError:
        return None


@cache
def _hints(wanted: type) -> dict[str, Any]:
    return get_type_hints(wanted, include_extras=True)


@cache
def _required(wanted: type) -> tuple[str, ...]:
    has_default = (MISSING, MISSING)
    return tuple(f.name for f in fields(wanted) if (f.default, f.default_factory) == has_default)


def _has_id(wanted: Any) -> bool:
    return is_dataclass(wanted) and isinstance(wanted, type) and _hints(wanted).get("id") is str
