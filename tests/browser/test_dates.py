"""Dates that lie behind are told by the phone's own clock, in words and with what to do; the file holds the date."""

from datetime import datetime
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.axe import findings
from tests.browser.conftest import OpenPhone

pytestmark = pytest.mark.browser


def opened(phone: OpenPhone, folder: Path, day: str, **settings: object) -> Page:
    page = phone(**settings).page
    page.clock.set_fixed_time(datetime.fromisoformat(day))
    page.goto((folder / "numbers-dates.html").as_uri())
    return page


def when(page: Page, what: str) -> str:
    cell = page.locator("tr", has=page.get_by_role("rowheader", name=what)).locator("td").first
    return " ".join(cell.inner_text().split())  # a value and its unit are held together by a space of their own


def behind(page: Page) -> list[str]:
    return page.locator(".passed li").all_inner_texts()


def test_a_date_ahead_or_of_today_stands_alone(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "2027-01-31T23:00")
    assert when(page, "Test of the RCD") == "31 January 2027, then every 3 months"
    assert behind(page) == []


def test_a_date_that_has_passed_says_what_to_do_and_when_it_comes_again(phone: OpenPhone, folder: Path) -> None:
    """The last day of January and every third month: 30 April, for lack of a 31st."""
    page = opened(phone, folder, "2027-02-01T00:30")
    assert when(page, "Test of the RCD") == "31 January 2027, then every 3 months That date has passed."
    assert when(page, "Gas hose") == "15 June 2031, then every 5 years"
    assert when(page, "Smoke alarm") == "By the date on it"
    assert behind(page) == ["Test of the RCD: 31 January 2027. Press its test button. Next: 30 April 2027."]
    expect(page.locator(".passed > p")).to_have_text(
        "That date has passed for what follows. Done since? Then wait for the next date."
        " Not done, or not sure? Do as it says, or ring your dealer."
    )
    assert findings(page) == []


def test_years_later_the_next_date_lies_ahead(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "2041-08-01T12:00")
    assert [each.rsplit(". ", 1)[1] for each in behind(page)] == ["Next: 31 October 2041.", "Next: 15 June 2046."]


def test_without_script_the_date_stands(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "2041-08-01T12:00", java_script_enabled=False)
    assert when(page, "Gas hose") == "15 June 2031, then every 5 years"
    assert behind(page) == []
