"""Line drawings: SVG of few elements and no colour, so that they take the ink of page and paper.

Anything else that SVG can hold is refused: scripts, styles, links, text, pictures, fonts, ids.
"""

import re
import xml.etree.ElementTree as ElementTree
from html import escape

_SPACE = "{http://www.w3.org/2000/svg}"
_SHAPES = ("g", "path", "line", "polyline", "polygon", "circle", "ellipse", "rect")
_LENGTHS = ("x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "width", "height", "stroke-width")
_FORMS = {
    **dict.fromkeys(_LENGTHS, r"-?[0-9.]+"),
    "d": r"[A-Za-z0-9., \n-]+",
    "points": r"[0-9., \n-]+",
    "transform": r"[a-z]+\([0-9., -]+\)",
    "fill": r"none|currentColor",
    "stroke": r"none|currentColor",
    "stroke-linecap": r"butt|round|square",
    "stroke-linejoin": r"miter|round|bevel",
    "stroke-dasharray": r"[0-9., ]+",
    "fill-rule": r"nonzero|evenodd",
}
_VIEW = re.compile(r"0 0 ([0-9]{1,4}) ([0-9]{1,4})")
_DEEPEST = 8


class PictureError(ValueError):
    """A file is no picture that can be printed; ``hint`` says what would be."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.hint = hint


def read_drawing(data: bytes) -> tuple[bytes, int, int]:
    """Return a drawing written anew from what it may hold, with its size.

    Raises:
        PictureError: it is no SVG, or holds something else.
    """
    text = data.decode("utf-8", "replace")
    if re.search(r"<!(?:DOCTYPE|ENTITY|\[)", text, re.IGNORECASE):
        raise PictureError("a drawing has no DOCTYPE and no entities", "save it as plain SVG")
    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError as error:
        raise PictureError(f"this is no SVG: {error}") from error
    view = _VIEW.fullmatch(root.get("viewBox", ""))
    if root.tag != f"{_SPACE}svg" or view is None:
        raise PictureError('a drawing is an <svg> with viewBox="0 0 WIDTH HEIGHT"', "whole numbers, at most 9999")
    if (root.text or "").strip():
        raise PictureError("a drawing holds no text", "say it in the block")
    inner = "".join(_written(child, 1) for child in root)
    ink = 'fill="none" stroke="currentColor" stroke-width="2" stroke-linecap="round" stroke-linejoin="round"'
    return f'<svg viewBox="{view[0]}"><g {ink}>{inner}</g></svg>'.encode(), int(view[1]), int(view[2])


def _written(element: ElementTree.Element, depth: int) -> str:
    name = element.tag.removeprefix(_SPACE) if isinstance(element.tag, str) else ""
    if name not in _SHAPES or depth > _DEEPEST:
        raise PictureError(f"a drawing cannot hold <{name or '?'}>", f"only {', '.join(_SHAPES)}")
    if (element.text or "").strip() or (element.tail or "").strip():
        raise PictureError("a drawing holds no text", "say it in the block")
    for attribute, value in element.attrib.items():
        if attribute not in _FORMS or not re.fullmatch(_FORMS[attribute], value):
            hint = "colours are none or currentColor; no id, class or style"
            raise PictureError(f'a drawing cannot hold {attribute}="{value[:30]}"', hint)
    shown = "".join(f' {attribute}="{escape(value)}"' for attribute, value in element.attrib.items())
    inner = "".join(_written(child, depth + 1) for child in element)
    return f"<{name}{shown}>{inner}</{name}>" if inner or name == "g" else f"<{name}{shown}/>"
