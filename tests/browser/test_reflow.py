"""Every template keeps its words: narrow, zoomed to 200 %, and with text alone at 200 %."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import FLAGS, OpenPhone, chromium
from tests.browser.test_access import HEAVY, PAGES

pytestmark = pytest.mark.browser

# 1.4.10 asks for 320; 640 is 1280 at 200 % zoom (1.4.4), 256 x 512 a wide screen at 500 %.
WIDTHS = [256, 320, 390, 640, 768, 960, 1280]

# Words that stand outside the page or are cut by a box; tables may scroll inside a region of their own.
LOST = """() => {
  const wide = document.documentElement.scrollWidth, seen = innerWidth, lost = [];
  if (wide > seen) lost.push(`the page is ${wide} wide`);
  const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (words.nextNode()) {
    const node = words.currentNode, own = node.parentElement;
    if (!node.data.trim() || own.closest(".unseen, .skip, script, noscript, option, .scroll")) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) {
      if (box.width && (box.left < -1 || box.right > seen + 1)) lost.push(`outside: ${node.data.trim().slice(0, 60)}`);
    }
    for (let up = own; up !== document.body; up = up.parentElement) {
      const style = getComputedStyle(up);
      if (!["hidden", "clip"].includes(style.overflowX) || up.matches("svg, main")) continue;
      if (up.scrollWidth > up.clientWidth + 1) lost.push(`cut: ${node.data.trim().slice(0, 60)}`);
    }
  }
  for (const region of document.querySelectorAll(".scroll")) {
    if (region.tabIndex !== 0 || !region.getAttribute("aria-label")) lost.push("a table out of reach of the keyboard");
  }
  return [...new Set(lost)];
}"""


def lost_words(page: Page, folder: Path, widths: list[int]) -> dict[str, list[str]]:
    """Return what is lost by page and width."""
    found = {}
    for path in PAGES:
        name, _, anchor = path.partition("#")
        page.goto((folder / name).as_uri() + (f"#{anchor}" if anchor else ""))
        for width in widths if path != HEAVY else widths[:1]:
            page.set_viewport_size({"width": width, "height": 844})
            if what := page.evaluate(LOST):
                found[f"{path} at {width}"] = what
    return found


def test_nothing_is_lost_at_any_width(phone: OpenPhone, folder: Path) -> None:
    assert lost_words(phone().page, folder, WIDTHS) == {}


@pytest.fixture(scope="module")
def large_type(browser: Browser) -> Iterator[Browser]:
    """Return a browser whose reader has set text, and text alone, to 200 %."""
    flags = [*FLAGS, "--blink-settings=defaultFontSize=32"]
    started = browser.browser_type.launch(executable_path=chromium(), args=flags)
    yield started
    started.close()


def test_nothing_is_lost_with_text_at_200_percent(large_type: Browser, folder: Path) -> None:
    page = large_type.new_context(offline=True, service_workers="block").new_page()
    page.goto((folder / "index.html").as_uri())
    assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "32px"
    assert lost_words(page, folder, [390, 1280]) == {}


def test_nothing_is_lost_where_a_phone_scales_text_alone(phone: OpenPhone, folder: Path) -> None:
    """Unlike the reader's own size this leaves media queries as they are."""
    page = phone().page
    page.add_init_script(
        "addEventListener('DOMContentLoaded', () => { document.documentElement.style.fontSize = '200%'; })"
    )
    assert lost_words(page, folder, [390]) == {}


def test_a_page_too_wide_is_seen(phone: OpenPhone, folder: Path) -> None:
    """A check that cannot fail is none."""
    page = phone().page
    page.goto((folder / "numbers.html").as_uri())
    page.evaluate("document.querySelector('main h1').style.whiteSpace = 'nowrap'")
    page.evaluate("document.querySelector('main h1').append(' and a good many words more than fit on one line')")
    assert any(one.startswith("outside") for one in page.evaluate(LOST))
