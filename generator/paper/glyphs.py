"""Which characters paper can show: those that both cuts of the typeface have.

Checked before anything is set, because Typst names neither the file nor the line of a text it cannot print.
"""

from generator.errors import Fault, PublishError

# Ranges of Open Sans 1.10 as shipped, hexadecimal; a test holds them to the fonts themselves.
_RANGES = """
    20-7e a0-17f 192 1a0-1a1 1af-1b0 1f0 1fa-1ff 218-21b 237 2bc
    2c6-2c7 2c9 2d8-2dd 2f3 300-301 303 309 30f 323 384-38a
    38c 38e-3a1 3a3-3ce 3d1-3d2 3d6 400-486 488-513 1e00-1e01 1e3e-1e3f 1e80-1e85
    1ea0-1ef9 1f4d 2000-200b 2013-2015 2017-201e 2020-2022 2026 2030 2032-2033 2039-203a
    203c 2044 2070 2074-2079 207f 20a3-20a4 20a7 20ab-20ac 2105 2113
    2116 2120 2122 2126 212e 215b-215e 2202 2206 220f 2211-2212
    221a 221e 222b 2248 2260 2264-2265 25ca fb00-fb04
"""
_WHITE = "\n\t\u200b"  # told apart from glyphs: line ends, tabs, and where a word may be broken


class GlyphError(PublishError):
    """Texts hold characters that paper cannot show; who read the texts can say where they were written."""

    def __init__(self, characters: frozenset[str]) -> None:
        named = ", ".join(f'"{one}" (U+{ord(one):04X})' for one in sorted(characters))
        super().__init__(Fault(f"paper cannot show {named}: its typeface has no such character"))
        self.characters = characters


def _read(ranges: str) -> frozenset[str]:
    parts = (part.partition("-") for part in ranges.split())
    return frozenset(chr(code) for low, _, high in parts for code in range(int(low, 16), int(high or low, 16) + 1))


PRINTABLE = _read(_RANGES) | frozenset(_WHITE)


def check_glyphs(text: str) -> None:
    """Refuse a text with a character that paper cannot show.

    Raises:
        GlyphError: with all of them.
    """
    lost = frozenset(text) - PRINTABLE
    if lost:
        raise GlyphError(lost)
