"""Takes from a theme's style sheet the few rules that speak of what our pages hold.

Whose style sheet that is, ``site`` knows; our own style comes after it and wins.
"""

import re
from collections.abc import Iterable, Set

_RULE = re.compile(r"([^{};]+)\{([^{}]*)\}")
_AT_BLOCK = re.compile(r"@[a-z-]+[^{};]*\{(?:[^{}]|\{[^{}]*\})*\}")
_TAG = re.compile(r"(?:^|[\s>+~(])([a-z][a-z0-9]*)")
_CLASS = re.compile(r"\.([\w-]+)")


def chosen_rules(css: str, scope: str, tags: Set[str]) -> str:
    """Return the rules of ``css`` inside ``scope`` that can match elements of ``tags``.

    Args:
        css: A style sheet, minified or not; its ``@`` blocks are passed over.
        scope: The class that holds running text, without its dot.
        tags: Names of the elements our pages hold.
    """
    kept = []
    for selectors, declarations in _RULE.findall(_AT_BLOCK.sub("", css)):
        wanted = [one.strip() for one in selectors.split(",") if _speaks_of(one.strip(), scope, tags)]
        if wanted:
            kept.append(f"{','.join(wanted)}{{{declarations}}}")
    return "\n".join(kept)


def _speaks_of(selector: str, scope: str, tags: Set[str]) -> bool:
    if not selector.startswith(f".{scope}") or "[" in selector or ":" in selector:
        return False
    return _only(_CLASS.findall(selector), {scope}) and _only(_TAG.findall(selector), tags)


def _only(found: Iterable[str], allowed: Set[str]) -> bool:
    return all(one in allowed for one in found)


def layered(theme_rules: str, own: str) -> str:
    """Return one style sheet in which our own rules win over the theme's whatever their order or weight."""
    return f"@layer theme{{\n{theme_rules}\n}}\n{own}"
