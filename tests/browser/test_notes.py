"""Notes on pages and snags by place: kept on the phone, offline, and sent by the owner only."""

from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Page, expect

from tests.browser.axe import findings
from tests.browser.conftest import OpenPhone, Watched

pytestmark = pytest.mark.browser


def opened(phone: OpenPhone, folder: Path, path: str, **settings: object) -> Watched:
    watched = phone(**settings)
    watched.page.goto((folder / path).as_uri())
    return watched


def note(page: Page, words: str) -> None:
    page.get_by_role("button", name="Keep a note on this page").click()
    page.get_by_label("Your note on this page").fill(words)
    expect(page.locator(".notes__said")).to_have_text("Kept on this phone.")


def snag(page: Page, place: str, words: str) -> None:
    page.get_by_label("Where").select_option(place)
    page.get_by_label("What is wrong").fill(words)
    page.get_by_role("button", name="Add to the list").click()


def test_a_note_is_there_again_and_goes_when_it_is_emptied(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water.html").page
    expect(page.get_by_label("Your note on this page")).to_be_hidden()
    note(page, "Hold it for ten seconds.")
    page.reload()
    expect(page.get_by_label("Your note on this page")).to_have_value("Hold it for ten seconds.")
    page.goto((folder / "snags.html").as_uri())
    expect(page.locator(".notes__pages")).to_contain_text("Hold it for ten seconds.")
    page.get_by_role("link", name="Heat the water on gas").click()
    page.get_by_label("Your note on this page").fill("")
    page.reload()
    expect(page.get_by_role("button", name="Keep a note on this page")).to_be_visible()


def test_an_emergency_page_and_the_start_page_ask_for_no_note(phone: OpenPhone, folder: Path) -> None:
    for path in ("gas-smell.html", "index.html"):
        page = opened(phone, folder, path).page
        expect(page.locator(".help")).to_be_visible()
        assert page.locator(".notes").count() == 0


def test_snags_stand_by_place_and_are_put_right_or_removed(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder, "snags.html")
    page = watched.page
    expect(page.get_by_text("No snag is noted.")).to_be_visible()
    page.get_by_role("button", name="Add to the list").click()
    expect(page.locator(".notes__said")).to_have_text("Say what is wrong first.")
    snag(page, "H3 Wardrobe", "Door does not stay shut")
    snag(page, "A1 Front gas locker", "Lid sticks <b>badly</b>")
    snag(page, "H3 Wardrobe", "Rail is loose")
    assert page.locator("main h3").all_inner_texts() == ["A1 Front gas locker", "H3 Wardrobe"]
    page.get_by_role("checkbox", name="Rail is loose").check()
    expect(page.get_by_role("checkbox", name="Rail is loose")).to_be_focused()
    page.reload()
    expect(page.get_by_role("checkbox", name="Rail is loose")).to_be_checked()
    expect(page.locator("main")).to_contain_text("Lid sticks <b>badly</b>")
    page.get_by_role("button", name="Remove: Rail is loose").click()
    assert page.locator(".checks label").count() == 2
    assert watched.elsewhere == []


def test_the_place_of_a_page_is_chosen_already(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "H3/index.html").page
    page.get_by_role("link", name="Notes and snags").click()
    expect(page.get_by_label("Where")).to_have_value("H3 Wardrobe")


def test_the_list_is_sent_with_van_places_and_pages(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water.html").page
    note(page, "Hold it for ten seconds.")
    page.goto((folder / "snags.html").as_uri())
    snag(page, "A1 Front gas locker", "Lid sticks & rattles")
    snag(page, "H3 Wardrobe", "Rail is loose")
    page.get_by_role("checkbox", name="Rail is loose").check()
    link = page.get_by_role("link", name="Send the list by mail").get_attribute("href") or ""
    sent = parse_qs(urlsplit(link).query)
    assert sent["subject"] == ["Snags: Marram 480"]
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save the list as a text file").click()
    assert saving.value.suggested_filename == "snags.txt"
    text = Path(saving.value.path()).read_text("utf-8")
    assert sent["body"] == [text.replace("\n", "\r\n")]
    head, snags, done, notes = text.split("\n\n")
    assert head == "Marram 480. Edition 2, 20 November 2026. Chassis ends 000417."
    assert snags.startswith("Snags\n- A1 Front gas locker: Lid sticks & rattles (20")
    assert done.startswith("Put right\n- H3 Wardrobe: Rail is loose (")
    assert notes == "Notes\n- H1 Heat the water on gas (hot-water.html): Hold it for ten seconds.\n"


def test_a_list_too_long_for_mail_is_saved(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "snags.html").page
    snag(page, "H3 Wardrobe", "word " * 500)
    expect(page.get_by_text("The list is too long for a mail link.")).to_be_visible()
    assert page.get_by_role("link", name="Send the list by mail").count() == 0


def test_a_browser_that_keeps_nothing_says_so(phone: OpenPhone, folder: Path) -> None:
    watched = phone()
    watched.page.add_init_script("Storage.prototype.setItem = () => { throw new Error('refused'); }")
    watched.page.goto((folder / "hot-water.html").as_uri())
    watched.page.get_by_role("button", name="Keep a note on this page").click()
    watched.page.get_by_label("Your note on this page").fill("Something")
    expect(watched.page.locator(".notes__said")).to_have_text("This browser cannot keep it. Write it on paper.")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_violation_with_notes_and_snags(phone: OpenPhone, folder: Path, scheme: str) -> None:
    page = opened(phone, folder, "hot-water.html", color_scheme=scheme).page
    note(page, "Hold it.")
    assert findings(page) == []
    page.goto((folder / "snags.html").as_uri())
    snag(page, "H3 Wardrobe", "Rail is loose")
    page.get_by_role("checkbox", name="Rail is loose").check()
    assert findings(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") == 390
