"""The digest of a page's structure: the key that rendered pages are shared and cached under.

Where something was written in the sources is left out: moving a line in a file changes no page.
"""

import hashlib
import json
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any

from generator.errors import Source
from generator.model.manual import Node, Page


def page_key(page: Page, toolchain: str = "") -> str:
    """Return the sha256 of everything in ``page``, in hexadecimal digits.

    Args:
        page: The page.
        toolchain: Digest of template and library versions (``Rendered.toolchain``); with it the key holds for
            rendered HTML kept from one run to the next.
    """
    canonical = json.dumps([toolchain, _plain(page)], ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(canonical.encode("utf-8", "surrogatepass")).hexdigest()


def nodes_key(nodes: tuple[Node, ...]) -> str:
    """Return the sha256 of what stands in ``nodes``, in hexadecimal digits."""
    canonical = json.dumps(_plain(nodes), ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(canonical.encode("utf-8", "surrogatepass")).hexdigest()


def _plain(value: Any) -> Any:
    """Return ``value`` as what JSON holds; the class name keeps ``Strong`` apart from ``Emphasis``."""
    if value is None or isinstance(value, str | int):
        return value
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if isinstance(value, Enum):
        return value.value
    if is_dataclass(value) and not isinstance(value, type):
        parts = [getattr(value, name) for name in _names(type(value))]
        return [type(value).__name__, *[_plain(part) for part in parts if not isinstance(part, Source)]]
    raise TypeError(f"a page cannot hold a {type(value).__name__}")


@cache
def _names(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))
