"""Draws the app icons once: a van from above on a square-cut plate. Run by hand; the results are kept.

    python site_template/tools/draw_icons.py

The SVG is written as text; the PNGs are sampled from the same shapes, without any imaging library.
"""

import struct
import zlib
from pathlib import Path

INK, GROUND = (28, 27, 25), (247, 245, 240)
FOLDER = Path(__file__).parent.parent / "icons"
SAMPLES = 4  # per pixel and direction

# Rectangles in a field of 64 x 64: x, y, width, height, corner radius, light or dark; later ones lie on top.
SHAPES = (
    (0, 0, 64, 64, 0, False),
    (30, 7, 4, 12, 1, True),  # coupling and drawbar
    (20, 17, 24, 39, 4, True),  # body
    (23, 20, 18, 33, 2, False),  # floor
    (16, 34, 4, 9, 1, True),  # wheels
    (44, 34, 4, 9, 1, True),
    (27, 27, 10, 7, 1, True),  # a code plate on it
    (27, 39, 10, 7, 1, True),
)


def light(x: float, y: float) -> bool:
    """Return whether the point is light."""
    found = False
    for left, top, width, height, radius, is_light in SHAPES:
        dx = max(left + radius - x, x - (left + width - radius), 0)
        dy = max(top + radius - y, y - (top + height - radius), 0)
        inside = left <= x <= left + width and top <= y <= top + height
        if inside and dx * dx + dy * dy <= radius * radius + 1e-9:
            found = is_light
    return found


def png(size: int) -> bytes:
    """Return the icon as an 8-bit RGB PNG (PNG specification, second edition)."""
    step = 64 / (size * SAMPLES)
    rows = []
    for y in range(size):
        row = bytearray(b"\0")
        for x in range(size):
            points = ((x * SAMPLES + i + 0.5, y * SAMPLES + j + 0.5) for i in range(SAMPLES) for j in range(SAMPLES))
            share = sum(light(px * step, py * step) for px, py in points) / SAMPLES**2
            row += bytes(round(dark + (bright - dark) * share) for dark, bright in zip(INK, GROUND, strict=True))
        rows.append(bytes(row))
    header = struct.pack(">IIBBBBB", size, size, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", header), (b"IDAT", zlib.compress(b"".join(rows), 9)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, data) for kind, data in chunks)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def svg() -> str:
    """Return the icon as SVG."""
    shapes = "".join(
        f'<rect x="{x}" y="{y}" width="{w}" height="{h}" rx="{r}" fill="#{"F7F5F0" if is_light else "1C1B19"}"/>'
        for x, y, w, h, r, is_light in SHAPES
    )
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64">{shapes}</svg>\n'


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    (FOLDER / "icon.svg").write_text(svg(), encoding="utf-8")
    for size in (192, 512):
        (FOLDER / f"icon-{size}.png").write_bytes(png(size))
