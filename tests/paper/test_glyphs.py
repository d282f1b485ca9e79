"""What paper can show is what its typeface has; what it cannot show is told with its line."""

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from generator.load import load
from generator.load.written import where_written
from generator.paper.glyphs import PRINTABLE, GlyphError, check_glyphs
from tests.paper.printed import ROOT

FONTS = ROOT / "generator/paper/fonts"


def test_the_table_is_what_both_shipped_cuts_have() -> None:
    """FontTools reads the fonts themselves."""
    cuts = [set(TTFont(path).getBestCmap()) for path in sorted(FONTS.glob("*.ttf"))]
    assert len(cuts) == 2
    shown = {chr(code) for code in cuts[0] & cuts[1] if code >= 0x20 and code not in (0xFEFF, 0xFFFC, 0xFFFD)}
    assert shown | {"\n", "\t", "\u200b"} == PRINTABLE


@pytest.mark.parametrize("text", ["Māori Ōtaki Übergröße Ελληνικά Кириллица", "74 kg, −36 °C, 2 m², 9 N·m, ½ – “x” …"])
def test_letters_of_the_markets_can_be_shown(text: str) -> None:
    check_glyphs(text)


@pytest.mark.parametrize(
    ("text", "told"), [("a → b", "U+2192"), ("CO₂", "U+2082"), ("漢", "U+6F22"), ("x\ufe0f", "U+FE0F")]
)
def test_what_cannot_be_shown_is_named(text: str, told: str) -> None:
    with pytest.raises(GlyphError, match=told.replace("+", r"\+")):
        check_glyphs(text)


def test_the_line_it_was_written_on_is_found(tmp_path: Path) -> None:
    small = ROOT / "tests/small"
    for path in sorted(small.rglob("*")):
        if path.is_file():
            target = tmp_path / path.relative_to(small)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(path.read_bytes())
    block = next(iter(sorted((tmp_path / "content/blocks").rglob("*.md"))))
    lines = block.read_text("utf-8").split("\n")
    last = max(number for number, line in enumerate(lines) if line.strip())
    lines[last] += " CO₂"
    block.write_text("\n".join(lines), "utf-8")
    (fault,) = where_written(load(tmp_path, None), "₂→")
    assert fault.source is not None
    assert (fault.source.file, fault.source.line) == (block.relative_to(tmp_path).as_posix(), last + 1)
    assert "U+2082, subscript two" in fault.message
