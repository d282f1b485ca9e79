"""Pages in packs: all of them, once each, those wanted at once in the first, none larger than a cut may cost."""

import json
import zlib

from generator.fill.packs import packs


def held(content: bytes) -> dict[str, str]:
    """Return the pages of a pack, put together as the worker does."""
    lines, pages = json.loads(zlib.decompress(content))
    return {
        path: "".join(lines[piece] if isinstance(piece, int) else piece for piece in pieces)
        for path, pieces in pages.items()
    }


def test_what_is_wanted_at_once_is_the_first_pack_and_the_rest_keeps_its_order() -> None:
    pages = {f"{letter}.html": letter.encode() for letter in "cabd"}
    first, rest = packs(pages, {"b.html", "d.html"})
    assert (first.pages, rest.pages) == (("b.html", "d.html"), ("c.html", "a.html"))
    assert held(rest.content) == {"c.html": "c", "a.html": "a"}


def test_a_pack_holds_300_kB_of_text_at_most_and_a_longer_page_is_one_by_itself() -> None:
    pages = {
        "start.html": b"",
        **{f"{number}.html": b"x" * 140_000 for number in range(3)},
        "long.html": b"y" * 400_000,
    }
    made = packs(pages, {"start.html"})
    assert [pack.pages for pack in made[1:]] == [("0.html", "1.html"), ("2.html",), ("long.html",)]


def test_a_pack_is_named_after_what_is_in_it() -> None:
    one, two = (packs({"a.html": text}, set())[1] for text in (b"one", b"two"))
    assert one.path != two.path and one.path.startswith("assets/pages-1.") and one.path.endswith(".bin")


def test_letters_of_any_script_and_quotes_come_back_as_they_went_in() -> None:
    text = '<p class="a">Whakarāpopototanga \u2028 \\ "x" \U0001f525</p>'
    assert held(packs({"a.html": text.encode()}, set())[1].content) == {"a.html": text}


def test_a_line_that_repeats_stands_in_a_pack_once() -> None:
    pages = {"a.html": b"one\nshared\nend", "b.html": b"shared\ntwo\nthree\nend"}
    [_, pack] = packs(pages, set())
    assert json.loads(zlib.decompress(pack.content)) == [
        ["shared\n", "end"],
        {"a.html": ["one\n", 0, 1], "b.html": [0, "two\nthree\n", 1]},
    ]
    assert held(pack.content) == {path: text.decode() for path, text in pages.items()}
