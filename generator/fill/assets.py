"""Gives the files that go out with every page a name that changes with their content.

What is in them was settled before; pages, worker and records keep their plain names.
"""

import hashlib
import re
from collections.abc import Mapping

from generator.model.manual import Manual

FOLDER = "assets"
SEARCH, PLAN, WORKER = "search.js", "plan.js", "sw.template.js"
LOST, NOT_YET = "404.html", "not-yet.html"  # answer a missing page, and one that is not on the phone yet
_STAY = {WORKER, LOST, NOT_YET, "lost.css", "lost.js"}  # built into other files


def hashed(assets: Mapping[str, bytes]) -> tuple[dict[str, str], dict[str, bytes]]:
    """Return paths by hole name ("asset/style.css"), and files by path ("assets/style.1f2e3d4c5b.css")."""
    names: dict[str, str] = {}
    files: dict[str, bytes] = {}
    for name in sorted(set(assets) - _STAY):
        stem, _, ending = name.rpartition(".")
        path = f"{FOLDER}/{stem}.{hashlib.sha256(assets[name]).hexdigest()[:10]}.{ending}"
        names[f"asset/{name}"], files[path] = path, assets[name]
    return names, files


def file_stem(manual: Manual) -> str:
    """Return the name of the single-file copy and the zip without ending: "marram-480-000417"."""
    model = re.sub(r"[^a-z0-9]+", "-", manual.model.lower()).strip("-") or "van"
    tail = re.sub(r"[^A-Za-z0-9]", "", manual.tail)
    return f"{model}-{tail}"
