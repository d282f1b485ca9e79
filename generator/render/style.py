"""Takes from a theme's style sheet the few rules that speak of what our pages hold.

Whose style sheet that is, ``site`` knows; our own style comes after it and wins.
"""

import re
from collections.abc import Iterable, Set

_RULE = re.compile(r"([^{};]+)\{([^{}]*)\}")
# Blocks of rules may stand in blocks of conditions, three deep at most.
_AT_BLOCK = re.compile(r"@[a-z-]+[^{};]*\{(?:[^{}]|\{(?:[^{}]|\{[^{}]*\})*\})*\}")
_TAG = re.compile(r"(?:^|[\s>+~(])([a-z][a-z0-9]*)")
_CLASS = re.compile(r"\.([\w-]+)")


def chosen_rules(css: str, scope: str, tags: Set[str]) -> str:
    """Return the rules of ``css`` inside ``scope`` that can match elements of ``tags``.

    ``:where`` takes their weight away, so that any rule of our own that comes after them wins.

    Args:
        css: A style sheet, minified or not; its ``@`` blocks are passed over.
        scope: The class that holds running text, without its dot.
        tags: Names of the elements our pages hold.
    """
    kept = []
    for selectors, declarations in _RULE.findall(_AT_BLOCK.sub("", css)):
        wanted = [one.strip() for one in selectors.split(",") if _speaks_of(one.strip(), scope, tags)]
        if wanted:
            kept.append(f":where({','.join(wanted)}){{{declarations}}}")
    return "\n".join(kept)


def _speaks_of(selector: str, scope: str, tags: Set[str]) -> bool:
    if not selector.startswith(f".{scope}") or "[" in selector or ":" in selector:
        return False
    return _only(_CLASS.findall(selector), {scope}) and _only(_TAG.findall(selector), tags)


def _only(found: Iterable[str], allowed: Set[str]) -> bool:
    return all(one in allowed for one in found)
