"""Labels for engravers: Typst's SVG made plain, in millimetres, with nothing that a machine must look up.

Letters come as outlines already; here pictures within the picture and repeated glyphs become paths in their places.
"""

import base64
import re
import xml.etree.ElementTree as ET
from copy import deepcopy

_SVG, _XLINK = "http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"
_HREF = f"{{{_XLINK}}}href"
_MM = 25.4 / 72  # a point
_EMBEDDED = "data:image/svg+xml;base64,"


def plain_svg(svg: bytes) -> bytes:
    """Return an SVG of Typst's with only groups and paths in it, its size in millimetres."""
    root = ET.fromstring(svg)
    glyphs = {symbol.get("id", ""): list(symbol) for symbol in root.iter(_tag("symbol"))}
    for defs in root.findall(_tag("defs")):
        root.remove(defs)
    _flatten(root, glyphs)
    for side in ("width", "height"):
        points = float((root.get(side) or "0").removesuffix("pt"))
        root.set(side, f"{points * _MM:.4f}".rstrip("0").rstrip(".") + "mm")
    ET.register_namespace("", _SVG)
    written: bytes = ET.tostring(root, encoding="utf-8")
    return written + b"\n"


def _tag(name: str) -> str:
    return f"{{{_SVG}}}{name}"


def _flatten(parent: ET.Element, glyphs: dict[str, list[ET.Element]]) -> None:
    for number, child in enumerate(list(parent)):
        if child.tag == _tag("use"):
            parent[number] = _used(child, glyphs)
        elif child.tag == _tag("image"):
            parent[number] = _embedded(child)
        else:
            _flatten(child, glyphs)


def _used(use: ET.Element, glyphs: dict[str, list[ET.Element]]) -> ET.Element:
    """Return the glyph that is used, moved to where it is used."""
    group = ET.Element(_tag("g"), {"transform": f"translate({use.get('x', '0')} {use.get('y', '0')})"})
    for name in ("fill", "fill-rule"):
        if value := use.get(name):
            group.set(name, value)
    group.extend(deepcopy(part) for part in glyphs[(use.get(_HREF) or "").removeprefix("#")])
    return group


def _embedded(image: ET.Element) -> ET.Element:
    """Return the drawing inside an image, scaled to the image's size."""
    inner = ET.fromstring(base64.b64decode((image.get(_HREF) or "").removeprefix(_EMBEDDED)))
    x, y, width, height = (float(part) for part in re.split(r"[ ,]+", inner.get("viewBox") or "0 0 1 1"))
    across, down = float(image.get("width") or 1) / width, float(image.get("height") or 1) / height
    move = f"{image.get('transform', '')} scale({across:.9g} {down:.9g}) translate({-x:g} {-y:g})"
    group = ET.Element(_tag("g"), {"transform": move.strip()})
    group.extend(list(inner))
    return group
