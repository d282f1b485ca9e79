"""The whole manual by keys alone: what has the focus is seen, comes in order, and lets go again (WCAG 2.2 2.1, 2.4)."""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPhone
from tests.browser.test_access import HEAVY, PAGES

pytestmark = pytest.mark.browser

# Everything the Tab key must come to.
REACHABLE = """() => {
  const all = [...document.querySelectorAll("a[href], button, input, select, textarea, [tabindex='0']")];
  self.inReach = all.filter(node => node.checkVisibility({ visibilityProperty: true }) && !node.disabled);
  return inReach.length;
}"""
# A ring of 3 px; round a link in a drawing it is drawn as the stroke of what is hit.
FOCUS = """() => {
  const node = document.activeElement;
  if (node === document.body) return null;
  const drawn = node.querySelector(".van__hit"), style = getComputedStyle(drawn || node);
  const ring = drawn ? [style.stroke, style.strokeWidth] : [style.outlineStyle, style.outlineWidth];
  const rail = document.querySelector(".rail, .stepper__foot"), box = node.getBoundingClientRect();
  const covers = rail && getComputedStyle(rail).position === "fixed" && !rail.contains(node);
  const foot = covers ? rail.getBoundingClientRect().top : innerHeight;
  return {
    number: inReach.indexOf(node),
    name: node.outerHTML.slice(0, 90),
    ring: ring[0] !== "none" && parseFloat(ring[1]) >= 3,
    inView: box.top >= -1 && (box.bottom <= foot + 1 || box.height > foot) && box.right <= innerWidth + 1,
  };
}"""


def walk(page: Page, most: int = 1000) -> list[dict[str, Any]]:
    """Press Tab until the focus leaves the page; return what had it."""
    steps = []
    while len(steps) < most:
        page.keyboard.press("Tab")
        focus = page.evaluate(FOCUS)
        if focus is None:
            break
        steps.append(focus)
    return steps


@pytest.mark.parametrize("path", [path for path in PAGES if path != HEAVY and "#" not in path])
def test_tab_comes_to_everything_in_order_and_leaves_again(phone: OpenPhone, folder: Path, path: str) -> None:
    page = phone().page
    page.goto((folder / path).as_uri())
    count = page.evaluate(REACHABLE)
    steps = walk(page, count + 3)
    assert [step["number"] for step in steps] == list(range(count))
    assert [step["name"] for step in steps if not step["ring"]] == []
    assert [step["name"] for step in steps if not step["inView"]] == []


@pytest.mark.parametrize("path", ["index.html", "A1/index.html", "hot-water.html"])
def test_focus_is_seen_on_a_wide_screen(phone: OpenPhone, folder: Path, path: str) -> None:
    page = phone(viewport={"width": 1280, "height": 800}).page
    page.goto((folder / path).as_uri())
    steps = walk(page, page.evaluate(REACHABLE) + 3)
    assert [step["name"] for step in steps if not (step["ring"] and step["inView"])] == []


def test_focus_is_seen_in_the_whole_manual(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.goto((folder / HEAVY).as_uri())
    assert page.evaluate(REACHABLE) > 60
    steps = walk(page, 60)
    assert [step["number"] for step in steps] == list(range(60))
    assert [step["name"] for step in steps if not (step["ring"] and step["inView"])] == []


def test_a_lost_ring_and_a_covered_link_are_seen(phone: OpenPhone, folder: Path) -> None:
    """A check that cannot fail is none."""
    page = phone().page
    page.goto((folder / "contents.html").as_uri())
    page.evaluate("document.querySelector('main a').style.outline = 'none'")
    page.evaluate("document.querySelector('.help a').style.cssText = 'position: fixed; bottom: 0'")
    page.evaluate(REACHABLE)
    steps = walk(page)
    assert sum(not step["ring"] for step in steps) == 1
    assert sum(not step["inView"] for step in steps) == 1


def test_the_view_inside_goes_on_with_its_codes(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.goto((folder / "index.html").as_uri())
    page.get_by_role("link", name="Inside", exact=True).focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('.van__view--inside') !== null")


def test_the_first_key_leads_past_the_top_to_the_text(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.goto((folder / "hot-water.html").as_uri())
    page.keyboard.press("Tab")
    expect(page.locator(".skip")).to_be_focused()
    expect(page.locator(".skip")).to_be_in_viewport()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('main') !== null")


def test_search_is_used_with_keys_alone(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.goto((folder / "index.html").as_uri() + "#find")
    field, hits = page.locator("#find"), page.locator("#found a")
    expect(field).to_be_focused()
    page.keyboard.type("gas")
    assert hits.count() > 2
    page.keyboard.press("ArrowDown")
    expect(hits.nth(0)).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(hits.nth(1)).to_be_focused()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    expect(field).to_be_focused()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Escape")
    expect(field).to_be_focused()
    page.keyboard.press("Escape")
    expect(field).to_have_value("")
    expect(hits).to_have_count(0)
    page.keyboard.type("gas")
    page.keyboard.press("ArrowDown")
    target = hits.first.get_attribute("href") or ""
    page.keyboard.press("Enter")
    page.wait_for_url(target)


def test_the_last_hit_keeps_the_focus(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.goto((folder / "index.html").as_uri() + "#find")
    page.keyboard.type("gas")
    hits = page.locator("#found a")
    for _ in range(hits.count() + 2):
        page.keyboard.press("ArrowDown")
    expect(hits.last).to_be_focused()


def test_steps_are_read_one_at_a_time_with_keys_alone(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.goto((folder / "hot-water.html").as_uri())
    opener = page.get_by_role("button", name="One step at a time")
    opener.focus()
    page.keyboard.press("Enter")
    expect(page.locator(".stepper")).to_be_focused()
    page.evaluate(REACHABLE)
    names = []
    for _ in range(8):
        page.keyboard.press("Tab")
        focus = page.evaluate(FOCUS)
        assert focus["ring"] and focus["inView"]
        names.append(page.evaluate("document.activeElement.textContent"))
        if names[-1] == "Next":
            break
    page.keyboard.press("Enter")
    expect(page.locator(".stepper__count")).to_have_text("Step 1 of 5")
    page.keyboard.press("Escape")
    expect(opener).to_be_focused()


def test_a_checklist_is_ticked_and_cleared_with_keys_alone(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.goto((folder / "checklist-arriving.html").as_uri())
    page.locator("[data-check]").first.focus()
    page.keyboard.press("Space")
    expect(page.locator(".ticks")).to_have_text("4 of 5 left")
    page.get_by_role("button", name="Clear the ticks").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Clear all ticks")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator(".ticks")).to_have_text("5 of 5 left")
    expect(page.get_by_role("button", name="Bring them back")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator(".ticks")).to_have_text("4 of 5 left")
    expect(page.get_by_role("button", name="Clear the ticks")).to_be_focused()
