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
from generator.model.pages import Node, Page


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
    kind: Any = type(value)
    if kind is str or value is None:
        return value
    if kind is tuple:
        return [_plain(one) for one in value]
    names = _names(kind)
    if names is not None:
        parts = [getattr(value, name) for name in names]
        return [kind.__name__, *[_plain(part) for part in parts if type(part) is not Source]]
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, (str, int)):
        return value
    raise TypeError(f"a page cannot hold a {kind.__name__}")


@cache
def _names(kind: type) -> tuple[str, ...] | None:
    """Return the fields of a dataclass."""
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else None
