"""One step at a time: its address, the phone's own Back, the screen kept awake, emergencies, and the words to say."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPhone, Watched

pytestmark = pytest.mark.browser

FAULT, STEPS = "Find the fault, one check at a time", "One step at a time"
# Stands in for what a test machine without a screen refuses; it counts what is asked for and given back.
FAKE_LOCK = """
  self.locks = [];
  const request = async kind => {
    if (kind !== "screen") throw new Error("no such lock");
    const lock = { released: false, release: async () => { lock.released = true; } };
    locks.push(lock);
    return lock;
  };
  Object.defineProperty(navigator, "wakeLock", { value: { request } });
"""
REFUSING = """
  const request = async () => { throw new Error("refused"); };
  Object.defineProperty(navigator, "wakeLock", { value: { request } });
"""
ABSENT = """Object.defineProperty(navigator, "wakeLock", { value: undefined });"""


def opened(phone: OpenPhone, folder: Path, path: str, script: str = "") -> Watched:
    watched = phone()
    if script:
        watched.page.add_init_script(script)
    file, _, mark = path.partition("#")
    watched.page.goto((folder / file).as_uri() + (f"#{mark}" if mark else ""))
    return watched


def count(page: Page, words: str) -> None:
    expect(page.locator(".stepper__count")).to_have_text(words)


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


# --- awake ----------------------------------------------------------------------------------------------


def released(page: Page) -> list[bool]:
    """Return for each lock that was asked for whether it was given back."""
    found: list[bool] = page.evaluate("locks.map(lock => lock.released)")
    return found


def test_the_screen_is_kept_awake_while_steps_are_read(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water.html", FAKE_LOCK).page
    assert released(page) == []
    press(page, STEPS)
    press(page, "Next")
    assert released(page) == [False]
    press(page, "All steps")
    assert released(page) == [True]
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert released(page) == [True]


def test_a_lock_the_phone_took_back_is_asked_for_again(phone: OpenPhone, folder: Path) -> None:
    """A phone releases it when the page is hidden; one that is still held is not asked for twice."""
    page = opened(phone, folder, "hot-water.html", FAKE_LOCK).page
    press(page, STEPS)
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert released(page) == [False]
    page.evaluate("locks[0].released = true; document.dispatchEvent(new Event('visibilitychange'))")
    assert released(page) == [True, False]
    page.go_back()
    assert released(page) == [True, True]


def test_a_lock_that_comes_too_late_is_given_back(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water.html", FAKE_LOCK).page
    page.evaluate("for (const one of ['.onebyone', '.stepper__top']) document.querySelector(one + ' button').click()")
    assert released(page) == [True]


@pytest.mark.parametrize("script", [REFUSING, ABSENT], ids=["refused", "absent"])
def test_without_it_steps_are_read_all_the_same(phone: OpenPhone, folder: Path, script: str) -> None:
    watched = opened(phone, folder, "hot-water.html", script)
    press(watched.page, STEPS)
    press(watched.page, "Next")
    count(watched.page, "Step 1 of 5")
    press(watched.page, "All steps")
    assert watched.complaints == []


# --- addresses ------------------------------------------------------------------------------------------


def test_the_phones_own_back_goes_back_one_question_and_then_to_the_list(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water-red-lamp.html").page
    press(page, FAULT)
    press(page, "Next")
    press(page, "Not fixed")
    count(page, "Step 2 of 4")
    assert page.url.endswith("hot-water-red-lamp.html#check-2")
    page.go_back()
    count(page, "Step 1 of 4")
    press(page, "Fixed")
    count(page, "Fixed")
    page.go_back()
    count(page, "Step 1 of 4")
    page.go_back()
    count(page, "Before you start")
    page.go_back()
    expect(page.get_by_role("button", name=FAULT)).to_be_focused()
    assert page.url.endswith("hot-water-red-lamp.html")


def test_leaving_the_steps_leaves_no_trace_in_the_way_back(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "index.html").page
    page.goto((folder / "hot-water.html").as_uri())
    press(page, STEPS)
    press(page, "Next")
    press(page, "All steps")
    expect(page.get_by_role("button", name=STEPS)).to_be_focused()
    page.wait_for_url("**/hot-water.html")
    page.go_back()
    page.wait_for_url("**/index.html")


def test_an_address_leads_to_a_check_with_the_messages_before_it(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water-red-lamp.html#check-3").page
    count(page, "Step 3 of 4")
    expect(page.locator(".stepper .safety")).to_have_count(1)
    press(page, "Not fixed")
    expect(page.locator(".stepper .safety")).to_have_count(0)
    press(page, "Back")
    press(page, "Back")
    count(page, "Step 2 of 4")
    page.reload()
    count(page, "Step 2 of 4")
    press(page, "All steps")
    expect(page.get_by_role("heading", level=1)).to_have_text("H1 Water heater: red lamp")


# Takes the second message from the top of a page; the one in front of a later step stays.
LATER_ONLY = """
  const take = () => document.querySelectorAll("main > .safety + .safety").forEach(one => one.remove());
  new MutationObserver(take).observe(document, { childList: true, subtree: true });
"""


@pytest.mark.parametrize(("script", "at_the_top"), [("", 2), (LATER_ONLY, 1)])
def test_an_address_leads_to_a_step_with_each_message_it_passes_by(
    phone: OpenPhone, folder: Path, script: str, at_the_top: int
) -> None:
    """Who comes in behind a step has not read the message in front of it; one of the top, too, is said once."""
    page = opened(phone, folder, "hot-water.html#step-5", script).page
    count(page, "Step 5 of 5")
    expect(page.locator(".stepper .safety")).to_have_count(2)
    press(page, "Back")
    expect(page.locator(".stepper .safety")).to_have_count(1)
    for _ in range(4):
        press(page, "Back")
    count(page, "Before you start")
    expect(page.locator(".stepper .safety")).to_have_count(at_the_top)


def test_an_address_of_no_check_shows_the_whole_page(phone: OpenPhone, folder: Path) -> None:
    for mark in ("#check-99x", "#step-2", "#check-2-1"):
        page = opened(phone, folder, f"hot-water-red-lamp.html{mark}").page
        expect(page.locator("ol.steps").first).to_be_visible()
        expect(page.locator(".stepper")).to_have_count(0)


def test_an_address_typed_on_the_page_itself_and_the_phones_forward_open_their_step(
    phone: OpenPhone, folder: Path
) -> None:
    page = opened(phone, folder, "hot-water.html").page
    page.goto((folder / "hot-water.html").as_uri() + "#step-3")
    count(page, "Step 3 of 5")
    page = opened(phone, folder, "hot-water.html").page
    press(page, STEPS)
    page.go_back()
    expect(page.locator(".stepper")).to_have_count(0)
    page.go_forward()
    count(page, "Before you start")
    press(page, "Next")
    page.go_back()
    count(page, "Before you start")
    page.go_back()
    expect(page.locator(".stepper")).to_have_count(0)


@pytest.mark.parametrize(
    ("pressed", "title", "before"),
    [
        (("The check says stop",), "Stop here", "Step 4 of 4"),
        (("Not fixed",), "Not fixed: your dealer", "Step 4 of 4"),
        (("Back", "Fixed"), "Fixed", "Step 3 of 4"),
    ],
)
def test_an_end_is_there_again_when_the_phone_dropped_the_page(
    phone: OpenPhone, folder: Path, pressed: tuple[str, ...], title: str, before: str
) -> None:
    page = opened(phone, folder, "hot-water-red-lamp.html").page
    press(page, FAULT)
    for name in ("Next", "Not fixed", "Not fixed", "Not fixed", *pressed):
        press(page, name)
    said = page.locator(".stepper").inner_text()
    page.reload()
    count(page, title)
    assert page.locator(".stepper").inner_text() == said
    press(page, "Back")
    count(page, before)


def test_an_end_of_no_check_shows_where_the_checks_begin(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder, "hot-water-red-lamp.html#check-stop-99")
    count(watched.page, "Before you start")
    assert watched.complaints == []


# --- help -----------------------------------------------------------------------------------------------


def test_emergencies_are_one_tap_from_a_step(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water.html#step-2").page
    link = page.locator(".stepper").get_by_role("link", name="Emergency")
    box = link.bounding_box()
    assert box and box["height"] >= 48 and box["y"] < 100
    link.click()
    page.wait_for_url("**/index.html#emergency")
    page.go_back()
    count(page, "Step 2 of 5")


def test_the_words_for_the_dealer_name_van_page_place_and_what_was_seen(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water-red-lamp.html").page
    seen = page.locator("main > p.lead").inner_text()
    press(page, FAULT)
    for name in ("Next", "Not fixed", "Not fixed", "Not fixed"):
        press(page, name)
    act = page.locator(".stepper .act").inner_text()
    press(page, "The check says stop")
    said = page.locator(".stepper .say li").all_inner_texts()
    assert said[0] == "What: Water heater: red lamp"
    assert said[1].startswith("Where: H1")
    assert seen in said
    assert said[-1] == f"Stopped at: Step 4 of 4: {act}"
    expect(page.locator(".stepper")).to_contain_text("Marram 480, chassis ending 000417, edition 2.")
    press(page, "Back")
    press(page, "Not fixed")
    expect(page.locator(".stepper .say")).to_contain_text("Checks: all 4 done")
    page.get_by_role("link", name="Note it on your list of snags").click()
    expect(page.get_by_label("What is wrong")).to_have_value("Water heater: red lamp")
