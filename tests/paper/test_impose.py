"""Folding what is printed gives the pages in order, in parts that can be stapled."""

import math

import pypdfium2
from hypothesis import given
from hypothesis import strategies as st

from generator.paper.impose import MOST_PAGES, Part, imposed, parts, sides
from generator.paper.readback import titled_pages
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


def test_parts_open_with_chapters() -> None:
    pdf = booklet_of("marram-0417")
    made = parts(len(pages(pdf)), titled_pages(pdf))
    opening = {page for level, _, page in bookmarks(pdf) if level == 0} | {1}
    assert all(part.first in opening for part in made)
    assert len(made) <= math.ceil(len(pages(pdf)) / (MOST_PAGES - 1)) + 1


def test_a_side_shows_the_pages_it_says() -> None:
    pdf = booklet_of("sorrel-0032")
    made = parts(len(pages(pdf)), titled_pages(pdf))
    look: dict[str, object] = {"title": "t", "author": "a", "lang": "en", "region": "GB", "width": 148, "height": 210}
    sheet = imposed(pdf, made, look)
    wanted = [side for part in made for side in sides(part)]
    single = [squeezed(text) for text in pages(pdf)]
    for text, (left, right) in zip(pages(sheet), wanted, strict=True):
        found = squeezed(text)
        assert all(single[page - 1] in found for page in (left, right) if page)
        assert len(found) == sum(len(single[page - 1]) for page in (left, right) if page)
    page = pypdfium2.PdfDocument(sheet)[0]
    assert [round(side / 72 * 25.4) for side in page.get_size()] == [296, 210]
