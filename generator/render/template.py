"""Reads the template folder: the files that go out with every manual, the pictures inlined into pages, its digest.

The page templates themselves are read by ``site``.
"""

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup

from generator.errors import Fault, RenderError

STYLE, SCRIPT, WORKER = "style.css", "van.js", "sw.template.js"
_NEEDED = (STYLE, SCRIPT, WORKER, "main.html", "404.html", "not-yet.html")
_GOES_OUT = {".css", ".js", ".png", ".svg"}
_TRIMMED = {".css", ".js"}
_COMMENT = re.compile(r"^[ \t]*/\*(?:(?!\*/).)*\*/[ \t]*$", re.DOTALL | re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Template:
    """One template folder as read. ``files`` go out (by name), ``pictures`` are inlined (by stem)."""

    folder: Path
    files: Mapping[str, bytes]
    pictures: Mapping[str, Markup]
    digest: str


def read_template(folder: Path) -> Template:
    """Read the template in ``folder``.

    Raises:
        RenderError: a file that every manual needs is missing.
    """
    missing = [name for name in _NEEDED if not (folder / name).is_file()]
    if missing:
        raise RenderError(
            *(Fault(f'the template has no "{name}"', hint=f"looked in {folder.name}/") for name in missing)
        )
    return Template(folder, _files(folder), _pictures(folder), _digest(folder))


def _files(folder: Path) -> dict[str, bytes]:
    found = [path for path in (*folder.iterdir(), *(folder / "icons").glob("*")) if path.suffix in _GOES_OUT]
    return {path.name: _trimmed(path) for path in sorted(found)}


def _trimmed(path: Path) -> bytes:
    """Return a file as it goes out: scripts and style without indentation and comments on lines of their own."""
    if path.suffix not in _TRIMMED:
        return path.read_bytes()
    text = _COMMENT.sub("", path.read_text(encoding="utf-8"))
    lines = (line.strip() for line in text.splitlines())
    return "\n".join(line for line in lines if line and not line.startswith("//")).encode("utf-8") + b"\n"


def _pictures(folder: Path) -> dict[str, Markup]:
    """The pictures are ours and part of the template: they are markup, not text to escape."""
    found = sorted((folder / "signs").glob("*.svg"))
    return {path.stem: Markup(path.read_text(encoding="utf-8").strip()) for path in found}


def _digest(folder: Path) -> str:
    digest = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            content = path.read_bytes()
            digest.update(f"{path.relative_to(folder).as_posix()}\0{len(content)}\0".encode())
            digest.update(content)
    return digest.hexdigest()
