"""Notes on pages and snags by place: kept on the phone, offline, and sent by the owner only."""

import json
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import FilePayload, Page, expect

from generator.model.site import Edition
from tests.browser.axe import findings
from tests.browser.conftest import OpenPhone, Watched
from tests.browser.wire import WireHost
from tests.finished import finished_fixture, write_files
from tests.fixture_manual import EDITION, FOLDER

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
    expect(page.get_by_text("Say what is wrong first.")).to_be_visible()
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


@pytest.mark.parametrize("address", ["A1/", "A1/?from=label#top", "A1/index.html"])
def test_a_note_is_there_by_label_and_by_link(phone: OpenPhone, host: WireHost, address: str) -> None:
    page = phone(offline=False).page
    page.goto(f"{host.address}{FOLDER}/{address}")
    note(page, "Key is in the drawer.")
    for other in ("A1/", "A1/index.html"):
        page.goto(f"{host.address}{FOLDER}/{other}")
        expect(page.get_by_label("Your note on this page")).to_have_value("Key is in the drawer.")
    page.goto(f"{host.address}{FOLDER}/snags.html")
    assert page.locator(".notes__pages a").evaluate_all("links => links.map(one => one.href)") == [
        f"{host.address}{FOLDER}/A1/index.html"
    ]


def test_the_place_of_a_page_is_chosen_already(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "H3/index.html").page
    page.get_by_role("link", name="Notes and snags").click()
    expect(page.get_by_label("Where")).to_have_value("H3 Wardrobe")


def test_the_list_is_sent_with_van_places_and_pages(phone: OpenPhone, folder: Path) -> None:
    page = phone(timezone_id="Pacific/Auckland").page
    page.clock.set_fixed_time("2026-11-24T20:00:00Z")  # 25 November in the morning there
    page.goto((folder / "hot-water.html").as_uri())
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
    assert snags == "Snags\n- A1 Front gas locker: Lid sticks & rattles (25 November 2026)"
    assert done == "Put right\n- H3 Wardrobe: Rail is loose (25 November 2026)"
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


def test_notes_outlive_an_edition(phone: OpenPhone, tmp_path: Path) -> None:
    folder = write_files(finished_fixture(), tmp_path)
    page = opened(phone, folder, "hot-water.html").page
    note(page, "Hold it for ten seconds.")
    page.goto((folder / "snags.html").as_uri())
    snag(page, "H3 Wardrobe", "Rail is loose")
    write_files(finished_fixture(Edition(number=EDITION.number + 1, day=EDITION.day)), tmp_path)
    page.reload()
    expect(page.locator(".top__edition")).to_contain_text("Edition 3")
    expect(page.locator(".checks")).to_contain_text("Rail is loose")
    page.get_by_role("link", name="Heat the water on gas").click()
    expect(page.get_by_label("Your note on this page")).to_have_value("Hold it for ten seconds.")


def saved_copy(page: Page) -> Path:
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save a copy for another phone").click()
    return Path(saving.value.path())


def test_a_copy_is_added_to_what_another_phone_holds(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water.html").page
    note(page, "Hold it for ten seconds.")
    page.goto((folder / "snags.html").as_uri())
    snag(page, "H3 Wardrobe", "Rail is loose")
    copy = saved_copy(page)
    other = opened(phone, folder, "snags.html").page
    snag(other, "A1 Front gas locker", "Lid sticks")
    for _ in range(2):  # reading it twice adds nothing
        other.get_by_label("Read a copy that was saved there").set_input_files(copy)
        expect(other.get_by_text("Read: 1 on the list of snags, 1 notes on pages.")).to_be_visible()
        assert other.locator("main h3").all_inner_texts() == ["A1 Front gas locker", "H3 Wardrobe"]
        assert other.locator(".checks label").count() == 2
    expect(other.locator(".notes__pages")).to_contain_text("Hold it for ten seconds.")


COPY: dict[str, object] = {"of": "lockerleaf notes", "van": "Chassis ends 000417.", "snags": [], "notes": {}}
HOSTILE = {"title": "Click", "text": "me"}
HOSTILE_COPY = {
    **COPY,
    "snags": [{"place": 1}],
    "notes": {"javascript:alert(1)": HOSTILE, "//elsewhere.example/a.html": HOSTILE},
}


@pytest.mark.parametrize(
    ("copy", "told"),
    [
        ("no json", "That file holds no notes of this van."),
        ({**COPY, "van": "Chassis ends 999999."}, "That file holds no notes of this van."),
        ({**COPY, "snags": 7}, "That file holds no notes of this van."),
        (HOSTILE_COPY, "Read: 0 on the list of snags, 0 notes on pages."),
    ],
    ids=["no-copy", "other-van", "broken", "hostile"],
)
def test_a_copy_of_something_else_changes_nothing(phone: OpenPhone, folder: Path, copy: object, told: str) -> None:
    watched = opened(phone, folder, "snags.html")
    body = (copy if isinstance(copy, str) else json.dumps(copy)).encode()
    file: FilePayload = {"name": "notes-copy.json", "mimeType": "application/json", "buffer": body}
    watched.page.get_by_label("Read a copy that was saved there").set_input_files(file)
    expect(watched.page.get_by_text(told)).to_be_visible()
    expect(watched.page.get_by_text("No snag is noted.")).to_be_visible()
    expect(watched.page.get_by_text("No page has a note.")).to_be_visible()
    assert watched.complaints == []


def test_all_is_cleared_on_purpose_and_can_be_brought_back(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "snags.html").page
    expect(page.get_by_role("button", name="Clear all notes and snags")).to_be_hidden()
    snag(page, "H3 Wardrobe", "Rail is loose")
    page.get_by_role("button", name="Clear all notes and snags").click()
    page.get_by_role("button", name="Keep them").click()
    expect(page.locator(".checks")).to_contain_text("Rail is loose")
    page.get_by_role("button", name="Clear all notes and snags").click()
    page.get_by_role("button", name="Clear all", exact=True).click()
    expect(page.get_by_text("No snag is noted.")).to_be_visible()
    page.get_by_role("button", name="Bring them back").click()
    expect(page.locator(".checks")).to_contain_text("Rail is loose")
    page.get_by_role("button", name="Clear all notes and snags").click()
    page.get_by_role("button", name="Clear all", exact=True).click()
    page.reload()
    expect(page.get_by_text("No snag is noted.")).to_be_visible()


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
