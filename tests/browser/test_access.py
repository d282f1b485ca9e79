"""axe-core finds nothing on any template, by day and by night: WCAG 2.2 A/AA, target size, best practice."""

from pathlib import Path

import pytest

from generator.fill import fill
from tests.browser.axe import COLOURS, OPTIONS, findings
from tests.browser.conftest import OpenPhone
from tests.finished import rendered_fixture, write_files
from tests.fixture_manual import BEFORE, EDITION, FOLDER, fixture_manual

pytestmark = pytest.mark.browser

PAGES = [
    "index.html",
    "index.html#van-inside",
    "hot-water.html",
    "hot-water-red-lamp.html",
    "gas-smell.html",
    "A1/index.html",
    "checklist-arriving.html",
    "contents.html",
    "numbers.html",
    "numbers-masses.html",
    "lights-and-sounds.html",
    "safety.html",
    "what-changed.html",
    "snags.html",
    "plan-loading.html",
    "plan-car.html",
    "plan-days.html",
    "plan-mains.html",
    "aerial.html",
    "404.html",
    "not-yet.html",
    "not-yet.html",
    "marram-480-000417.html",
]

HEAVY = "marram-480-000417.html"  # the whole manual: seconds for each look
WIDTHS = [320, 390, 640, 768, 1280]  # 640 is 1280 at 200 % zoom


@pytest.mark.parametrize("path", PAGES)
def test_no_violation(phone: OpenPhone, folder: Path, path: str) -> None:
    """Everything by day at every width; by night what changes: the colours, and at one width everything."""
    page = phone().page
    name, _, anchor = path.partition("#")
    page.goto((folder / name).as_uri() + (f"#{anchor}" if anchor else ""))
    found = {}
    for width in [390] if path == HEAVY else WIDTHS:
        page.set_viewport_size({"width": width, "height": 844})
        page.emulate_media(color_scheme="light")
        found[f"{width} light"] = findings(page)
        page.emulate_media(color_scheme="dark")
        found[f"{width} dark"] = findings(page, OPTIONS if width == 390 else COLOURS)
    assert {where: what for where, what in found.items() if what} == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_violation_with_results_shown(phone: OpenPhone, folder: Path, scheme: str) -> None:
    page = phone(color_scheme=scheme).page
    page.goto((folder / "index.html").as_uri())
    page.fill("#find", "gas")
    assert page.locator("#found a").count() > 1
    assert findings(page) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_violation_in_a_list_of_changes(phone: OpenPhone, tmp_path: Path, scheme: str) -> None:
    files = fill(fixture_manual(), rendered_fixture(), EDITION, FOLDER, BEFORE)
    page = phone(color_scheme=scheme).page
    page.goto((write_files(files, tmp_path) / "what-changed.html").as_uri())
    assert page.locator(".changes li").count() == 3
    assert findings(page) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_violation_one_step_at_a_time(phone: OpenPhone, folder: Path, scheme: str) -> None:
    page = phone(color_scheme=scheme).page
    page.goto((folder / "hot-water.html").as_uri())
    page.get_by_role("button", name="One step at a time").click()
    assert findings(page) == []
    page.get_by_role("button", name="Next", exact=True).click()
    assert findings(page) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_violation_while_a_fault_is_found(phone: OpenPhone, folder: Path, scheme: str) -> None:
    page = phone(color_scheme=scheme).page
    page.goto((folder / "hot-water-red-lamp.html").as_uri())
    page.get_by_role("button", name="Find the fault, one check at a time").click()
    for name in ("Next", "Not fixed", "Not fixed", "Not fixed", "The check says stop", "Back", "Not fixed"):
        assert findings(page) == []
        page.get_by_role("button", name=name, exact=True).click()
    assert findings(page) == []


def test_axe_sees_a_mistake(phone: OpenPhone, folder: Path) -> None:
    """A check that cannot fail is none."""
    page = phone().page
    page.goto((folder / "index.html").as_uri())
    page.evaluate("document.querySelector('.rail').append(document.createElement('button'))")
    assert any(one.startswith("button-name") for one in findings(page))


CONTRAST = """() => {
  const luminance = colour => {
    const parts = colour.match(/[0-9.]+/g).slice(0, 3).map(part => part / 255);
    const [r, g, b] = parts.map(part => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const probe = document.body.appendChild(document.createElement("p"));
  const shown = name => { probe.style.color = `var(--${name})`; return luminance(getComputedStyle(probe).color); };
  const ratio = (a, b) => (Math.max(shown(a), shown(b)) + 0.05) / (Math.min(shown(a), shown(b)) + 0.05);
  const pairs = {};
  for (const text of ["ink", "quiet", "link"])
    for (const ground of ["ground", "panel", "field"]) pairs[`${text} on ${ground}`] = ratio(text, ground);
  return pairs;
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_text_keeps_seven_to_one_for_sunlight(phone: OpenPhone, folder: Path, scheme: str) -> None:
    """Contrast by the WCAG 2.2 formula (relative luminance), 7:1 as in 1.4.6."""
    page = phone(color_scheme=scheme).page
    page.goto((folder / "index.html").as_uri())
    pairs = page.evaluate(CONTRAST)
    assert len(pairs) == 9
    assert {pair: ratio for pair, ratio in pairs.items() if ratio < 7} == {}


@pytest.mark.parametrize("colours", ["none", "active"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(
    ("words", "ground"),
    [(".van__code", ".van__plate"), (".van__code--framed", ".van__frame"), (".van__words", "body")],
)
def test_words_in_the_drawing_stand_out(
    phone: OpenPhone, folder: Path, scheme: str, colours: str, words: str, ground: str
) -> None:
    """In the page's own colours and in those a reader has forced on all pages."""
    page = phone(color_scheme=scheme, forced_colors=colours).page
    page.goto((folder / "index.html").as_uri())
    fills = page.evaluate(
        """([words, ground]) => [words, ground].map(selector => {
          const style = getComputedStyle(document.querySelector(selector));
          return selector === "body" ? style.backgroundColor : style.fill;
        })""",
        [words, ground],
    )
    light, dark = sorted((_luminance(colour) for colour in fills), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 7


def _luminance(colour: str) -> float:
    """Relative luminance of ``rgb(r, g, b)`` (WCAG 2.2)."""
    parts = [int(part) / 255 for part in colour.removeprefix("rgb(").removesuffix(")").split(",")]
    r, g, b = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b
