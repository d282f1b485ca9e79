"""Questions in owners' words find their page among the first three hits, in every demo van that has the page."""

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from generator.assemble import assemble
from generator.compute import compute
from generator.fill.search import search_script
from generator.load import load
from generator.model.manual import Manual
from generator.resolve import resolve
from tests.browser.conftest import OpenPhone
from tests.finished import TEMPLATE, finished_fixture, write_files

pytestmark = pytest.mark.browser

VANS = ("banksia-0215", "marram-0417", "marram-0431-nz", "samphire-0077", "sorrel-0032", "tansy-0108")
TOURER = VANS[1]
# Types each question as an owner does, and returns where the first hits lead.
ASK = """questions => questions.map(question => {
  const field = document.querySelector("#find");
  field.value = question;
  field.dispatchEvent(new Event("input"));
  return [...document.querySelectorAll("#found a")].slice(0, 3).map(link => link.getAttribute("href"));
})"""


@lru_cache(maxsize=1)
def demos() -> Mapping[str, Manual]:
    """Return the manual of every demo van."""
    workspace = load(TEMPLATE.parent, ())
    made = {}
    for van in VANS:
        caravan = resolve(workspace.vans[f"van_specs/vans/{van}.yaml"], workspace)
        made[van] = assemble(caravan, compute(caravan), workspace.content, workspace.catalogue, None)
    return made


def questions() -> list[tuple[str, frozenset[str]]]:
    lines = (Path(__file__).parent / "questions.txt").read_text("utf-8").splitlines()
    asked = [line.split(" | ") for line in lines if line and not line.startswith("#")]
    return [(question, frozenset(f"{page}.html" for page in pages.split(", "))) for question, pages in asked]


def opened(phone: OpenPhone, van: str, folder: Path) -> Page:
    """Return a start page that searches what search knows of ``van``; its other pages are not needed."""
    root = write_files(finished_fixture(), folder)
    (index,) = (root / "assets").glob("search.*.js")
    index.write_bytes(search_script(demos()[van]))
    page = phone().page
    page.goto((root / "index.html").as_uri())
    return page


def missed(found: Mapping[str, list[str]], pages: set[str]) -> list[tuple[str, list[str]]]:
    """Return the questions whose page is in the van and not among the hits."""
    hits = {question: {href.split("#")[0].rsplit("/", 1)[-1] for href in hrefs} for question, hrefs in found.items()}
    asked = [(question, wanted & pages) for question, wanted in questions()]
    return [(question, found[question]) for question, wanted in asked if wanted and not wanted & hits[question]]


def test_there_are_many_and_every_answer_is_a_page_of_some_van() -> None:
    pages = {page.path for van in VANS for page in demos()[van].pages}
    assert len(questions()) == len({question for question, _ in questions()}) >= 80
    assert [(question, wanted - pages) for question, wanted in questions() if wanted - pages] == []


@pytest.mark.parametrize("van", VANS)
def test_each_question_finds_its_page_among_three(phone: OpenPhone, tmp_path: Path, van: str) -> None:
    page = opened(phone, van, tmp_path)
    asked = [question for question, _ in questions()]
    found = dict(zip(asked, page.evaluate(ASK, asked), strict=True))
    assert missed(found, {page.path for page in demos()[van].pages}) == []


def test_a_wrong_answer_would_be_seen() -> None:
    found: dict[str, list[str]] = {question: ["file:///van/about.html"] for question, _ in questions()}
    pages = {page.path for page in demos()[TOURER].pages} - {"about.html"}
    assert len(missed(found, pages)) > 80


def test_a_code_is_found_however_it_is_typed(phone: OpenPhone, tmp_path: Path) -> None:
    page = opened(phone, TOURER, tmp_path)
    place = next(one for one in demos()[TOURER].search if one.path == "B2/index.html")
    for typed in ("B2", "b2", "b 2", "B-2", "b2.", "what is in b2", "b2 smells"):
        page.fill("#find", typed)
        expect(page.locator("#found .row__title").first).to_have_text(place.title)


@pytest.mark.parametrize("typed", ["toilet", "toilte", "tiolet", "toielt", "toilett", "toliet"])
def test_a_slip_leads_where_the_word_leads(phone: OpenPhone, tmp_path: Path, typed: str) -> None:
    """None may lead to tilting or to toil, which are as near to the stem of some of them."""
    page = opened(phone, TOURER, tmp_path)
    page.fill("#find", typed)
    expect(page.locator("#found .row__title").first).to_have_text("Use the toilet")


def test_the_first_line_of_the_answer_is_shown(phone: OpenPhone, tmp_path: Path) -> None:
    page = opened(phone, TOURER, tmp_path)
    page.fill("#find", "hitching up")
    answer = next(one.answer for one in demos()[TOURER].search if one.path == "couple-up.html")
    assert answer
    expect(page.locator("#found .row__note").first).to_contain_text(answer)


def test_words_of_no_page_offer_lights_and_sounds_and_the_dealer(phone: OpenPhone, tmp_path: Path) -> None:
    page = opened(phone, TOURER, tmp_path)
    page.fill("#find", "qwertyuiop")
    links = page.locator("#found a")
    expect(links).to_have_count(2)
    expect(links.nth(0)).to_contain_text("Lights and sounds")
    assert (links.nth(1).get_attribute("href") or "").startswith("tel:")
