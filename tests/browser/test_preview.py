"""A writer's browser beside the editor: it shows what was saved, where it is wrong, and other vans and colours."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from ..test_cli import REPO, SORREL, TANSY, change, copied

pytestmark = pytest.mark.browser
BLOCK = "content/blocks/gas/open.md"
LONG_MS = 30_000


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return copied(tmp_path_factory.mktemp("writer") / "desk", SORREL, TANSY)


@pytest.fixture(scope="module")
def address(desk: Path) -> Iterator[str]:
    words = [sys.executable, "-m", "generator", "preview", SORREL, "--workspace", str(desk)]
    with subprocess.Popen(words, cwd=REPO, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        yield process.stdout.readline().strip()
        process.terminate()


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[tuple[Page, list[str]]]:
    """A page on the start page of the van, and what it complained of."""
    context = browser.new_context(color_scheme="light")
    page = context.new_page()
    page.set_default_timeout(LONG_MS)
    complaints: list[str] = []
    page.on("console", lambda told: complaints.append(told.text) if "Content Security" in told.text else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.goto(address)
    yield page, complaints
    context.close()


def test_a_save_opens_the_page_it_changed_and_faults_stand_in_it(page: tuple[Page, list[str]], desk: Path) -> None:
    shown, complaints = page
    expect(shown.get_by_text("No faults.")).to_be_visible()
    change(desk / BLOCK, "**At the end:**", "Words of the browser test.\n\n**At the end:**")
    shown.wait_for_url("**/sorrel-0032/open-the-gas.html", timeout=LONG_MS)
    expect(shown.get_by_text("Words of the browser test.")).to_be_visible()
    change(desk / BLOCK, "form: procedure", "form: prosedure")
    fault = shown.locator(".bench__faults code")
    expect(fault).to_have_text(f"{BLOCK}:4:7", timeout=LONG_MS)
    expect(shown.get_by_text('"prosedure" is not known here')).to_be_visible()
    change(desk / BLOCK, "form: prosedure", "form: procedure")
    expect(shown.get_by_text("No faults.")).to_be_visible(timeout=LONG_MS)
    assert complaints == []


def test_van_market_and_colours_are_switched_on_the_page(page: tuple[Page, list[str]]) -> None:
    shown, complaints = page
    ground = "getComputedStyle(document.body).backgroundColor"
    light = shown.evaluate(ground)
    shown.locator(".bench select[name=van]").select_option("tansy-0108")
    shown.locator(".bench select[name=market]").select_option("nz")
    shown.locator(".bench select[name=scheme]").select_option("dark")
    shown.get_by_role("button", name="Show", exact=True).click()
    shown.wait_for_url("**/tansy-0108@nz/index.html")
    assert shown.evaluate(ground) != light
    expect(shown.locator(".bench select[name=scheme]")).to_have_value("dark")
    shown.get_by_role("link", name="Other equipment").click()
    shown.locator("select[name='slot.oven']").select_option("gas")
    shown.get_by_role("button", name="Show this van").click()
    shown.wait_for_url("**/mix@nz+1+*oven.gas*/index.html")
    assert complaints == []
