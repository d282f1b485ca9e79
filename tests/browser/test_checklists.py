"""Checklists: ticks outlive the browser, and a printed list has its boxes."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import FLAGS, OpenPhone, chromium

pytestmark = pytest.mark.browser

LIST = "checklist-arriving.html"
MARK = "box => getComputedStyle(box, '::before').backgroundColor"


def test_ticks_outlive_a_closed_browser(browser: Browser, folder: Path, tmp_path: Path) -> None:
    def ticked(act: str) -> list[bool]:
        """Open the browser anew on one profile, tick, and close it again."""
        context = browser.browser_type.launch_persistent_context(
            tmp_path / "profile", executable_path=chromium(), args=FLAGS
        )
        page = context.new_page()
        page.goto((folder / LIST).as_uri())
        if act:
            page.check(f"text={act}")
        found = [box.is_checked() for box in page.get_by_role("checkbox").all()]
        context.close()
        return found

    first = ticked("Level the van")
    assert first.count(True) == 1
    assert ticked("") == first


def test_a_browser_that_keeps_no_ticks_says_so(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.add_init_script("Storage.prototype.setItem = () => { throw new Error('refused'); }")
    page.goto((folder / LIST).as_uri())
    page.check("text=Level the van")
    expect(page.locator(".ticks")).to_contain_text("left. This browser cannot keep it. Write it on paper.")


def printed(phone: OpenPhone, folder: Path) -> Page:
    page = phone().page
    page.goto((folder / LIST).as_uri())
    page.check("text=Level the van")
    page.emulate_media(media="print")
    return page


def test_a_printed_list_has_boxes_and_shows_what_is_ticked(phone: OpenPhone, folder: Path) -> None:
    page = printed(phone, folder)
    boxes = page.get_by_role("checkbox").all()
    assert len(boxes) == 5
    for box in boxes:
        expect(box).to_be_visible()
        assert box.evaluate("box => getComputedStyle(box).borderTopWidth") == "2px"
    # Ink on white: a mark in the colour of the ground would not be seen.
    marked = [box for box in boxes if box.is_checked()]
    assert [box.evaluate(MARK) for box in marked] == ["rgb(0, 0, 0)"]
    assert [box.evaluate("box => getComputedStyle(box).backgroundColor") for box in marked] == ["rgba(0, 0, 0, 0)"]


def test_what_only_a_screen_needs_is_not_printed(phone: OpenPhone, folder: Path) -> None:
    page = printed(phone, folder)
    for words in (".rail", ".ticks", ".reset"):
        expect(page.locator(words)).to_be_hidden()
