"""Folding what is printed gives the pages in order, in parts that can be stapled."""

import math

import pypdfium2
from hypothesis import given
from hypothesis import strategies as st

from generator.paper.booklet import SIZES
from generator.paper.impose import MOST_PAGES, Part, imposed, mark, parts, sides
from generator.paper.readback import opening_pages
from tests.paper.printed import booklet_of, bookmarks, pages, squeezed

counts = st.integers(1, 400)
openings = st.lists(st.integers(1, 400), max_size=40)


def folded(part: Part) -> list[int]:
    """Return the pages of a part as a reader turns them: sheets laid into each other, then read from the outside in."""
    made = sides(part)
    sheets = [(made[n], made[n + 1]) for n in range(0, len(made), 2)]  # front (left, right), back (left, right)
    first_half = [page for front, back in sheets for page in (front[1], back[0])]
    second_half = [page for front, back in reversed(sheets) for page in (back[1], front[0])]
    return first_half + second_half


@given(counts, openings)
def test_every_page_once_and_in_order(count: int, at: list[int]) -> None:
    made = parts(count, sorted(at))
    read = [page for part in made for page in folded(part)]
    assert [page for page in read if page] == list(range(1, count + 1))


@given(counts, openings)
def test_parts_fold_flat_and_pages_stay_on_their_side(count: int, at: list[int]) -> None:
    for part in parts(count, sorted(at)):
        assert len(part.pages) <= MOST_PAGES and len(part.pages) % 4 == 0 == len(sides(part)) % 2
        assert all(page % 2 == (place + 1) % 2 for place, page in enumerate(part.pages) if page)
        assert part.pages.count(0) <= 4


def divided(pdf: bytes) -> tuple[Part, ...]:
    return parts(len(pages(pdf)), opening_pages(pdf, within_mm=SIZES["a5"]["top"]))


def test_parts_open_with_a_title() -> None:
    pdf = booklet_of("marram-0417")
    made = divided(pdf)
    assert len(made) > 1
    text = pages(pdf)
    for part in made[1:]:
        titles = [title for _, title, page in bookmarks(pdf) if page == part.first]
        assert any(squeezed(text[part.first - 1]).find(squeezed(title)) < 80 for title in titles), part
    assert len(made) <= math.ceil(len(text) / (MOST_PAGES - 1)) + 1


def test_a_side_shows_the_pages_it_says_and_where_it_belongs() -> None:
    pdf = booklet_of("sorrel-0032")
    made = divided(pdf)
    look: dict[str, object] = {"title": "t", "author": "a", "lang": "en", "region": "GB", "width": 148, "height": 210}
    sheet = imposed(pdf, made, look)
    how, back, *rest = pages(sheet)
    assert "staple twice" in how and all(f"pages {part.first} to {part.last}" in how for part in made) and not back
    wanted = [
        (n, side, at // 2, pair)
        for n, part in enumerate(made, 1)
        for at, pair in enumerate(sides(part))
        for side in [at % 2]
    ]
    # A reader of PDF may take a page number for a word of the line beside it, so it is counted only.
    single = [squeezed(text) for text in pages(pdf)]
    words_of = [text.removesuffix(str(page)) for page, text in enumerate(single, 1)]
    for text, (number, back_side, at, (left, right)) in zip(rest, wanted, strict=True):
        found = squeezed(text)
        words = "" if back_side else squeezed(mark(number, len(made), at + 1, made[number - 1].sheets))
        assert words in found
        assert all(words_of[page - 1] in found for page in (left, right) if page)
        assert len(found) == len(words) + sum(len(single[page - 1]) for page in (left, right) if page)
    page = pypdfium2.PdfDocument(sheet)[2]
    assert [round(side / 72 * 25.4) for side in page.get_size()] == [296, 210]
