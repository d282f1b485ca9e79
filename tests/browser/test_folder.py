"""The manual opened from a folder, with no network: everything works and nothing is asked for elsewhere."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import OpenPhone, Watched
from tests.browser.wire import WireHost
from tests.fixture_manual import FOLDER, fixture_manual

pytestmark = pytest.mark.browser


def opened(phone: OpenPhone, folder: Path, path: str = "index.html", **settings: object) -> Watched:
    watched = phone(**settings)
    watched.page.goto((folder / path.split("#")[0]).as_uri() + (f"#{path.split('#')[1]}" if "#" in path else ""))
    return watched


def first_hit(watched: Watched) -> str:
    return watched.page.locator("#found a").first.get_attribute("href") or ""


def test_every_page_opens_without_a_word_or_a_request_elsewhere(phone: OpenPhone, folder: Path) -> None:
    watched = phone()
    for page in fixture_manual().pages:
        watched.page.goto((folder / page.path).as_uri())
        expect(watched.page.locator("h1")).to_have_count(1)
        expect(watched.page.locator("#ready")).to_have_text("This copy is on this device.")
    assert watched.elsewhere == []
    assert watched.complaints == []
    assert len(watched.asked) > 2 * len(fixture_manual().pages)


@pytest.mark.parametrize(
    ("question", "path"),
    [
        ("red light on water heater", "hot-water-red-lamp.html"),
        ("RED LAMP", "hot-water-red-lamp.html"),
        ("won't light", "hot-water-red-lamp.html"),
        ("wont ignite", "hot-water-red-lamp.html"),
        ("there is a clicking noise", "hot-water-red-lamp.html"),
        ("clickng", "hot-water-red-lamp.html"),
        ("how do i have a warm shower?", "hot-water.html"),
        ("smell of gas", "gas-smell.html"),
        ("gass smel", "gas-smell.html"),
        ("refridgerator", "B3/index.html"),
        ("fridge", "B3/index.html"),
        ("b2", "B2/index.html"),
        (" B 2 ", "B2/index.html"),
        ("steady", "C2/index.html"),
        ("steadies rear", "C2/index.html"),
    ],
)
def test_a_question_finds_its_page_first(phone: OpenPhone, folder: Path, question: str, path: str) -> None:
    watched = opened(phone, folder)
    watched.page.fill("#find", question)
    assert first_hit(watched).endswith(path)
    assert watched.complaints == []


def test_an_exact_code_opens_its_place_with_one_key(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder)
    watched.page.fill("#find", "a1")
    watched.page.press("#find", "Enter")
    watched.page.wait_for_url("**/A1/index.html")
    expect(watched.page.locator("h1")).to_have_text("A1 Front gas locker")


def test_a_hit_shows_plate_title_section_and_answer(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder)
    watched.page.fill("#find", "red lamp")
    hit = watched.page.locator("#found li").first
    expect(hit.locator(".plate")).to_have_text("H1")
    expect(hit.locator(".row__title")).to_have_text("Water heater: red lamp")
    expect(hit.locator(".row__note")).to_have_text("Hot water: Smell gas? Touch no switch.")


def test_nothing_found_offers_signals_and_dealer(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder)
    watched.page.fill("#find", "xyzzy")
    expect(watched.page.locator("#found-count")).to_have_text(
        "No page has 'xyzzy'. Try what you see: a colour, a sound, a part."
    )
    hrefs = [link.get_attribute("href") or "" for link in watched.page.locator("#found a").all()]
    assert hrefs[0].endswith("lights-and-sounds.html") and hrefs[1] == "tel:035550142"


def test_a_code_of_another_van_is_told(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder)
    watched.page.fill("#find", "B9")
    expect(watched.page.locator("#found-count")).to_contain_text("This van has no place B9.")


def test_a_hostile_question_stays_words(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder)
    watched.page.fill("#find", "<img src=x onerror=alert(1)>")
    expect(watched.page.locator("#found-count")).to_contain_text("<img src=x onerror=alert(1)>")
    assert watched.complaints == []


def test_find_in_the_rail_leads_to_the_field(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder, "A1/index.html")
    watched.page.click(".rail >> text=Find")
    expect(watched.page.locator("#find")).to_be_focused()


def test_ticks_are_kept_counted_and_cleared_after_asking(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder, "checklist-arriving.html")
    page = watched.page
    expect(page.locator(".ticks")).to_have_text("5 of 5 left")
    page.check("text=Level the van")
    page.check("text=Open the gas")
    expect(page.locator(".ticks")).to_have_text("3 of 5 left")
    page.goto((folder / "index.html").as_uri())
    expect(page.locator(".group--phases .row__note").first).to_have_text("5 checks, 2 ticked")
    page.go_back()
    page.reload()
    expect(page.locator(".ticks")).to_have_text("3 of 5 left")
    page.click("text=Clear the ticks")
    page.click("text=Keep them")
    expect(page.locator(".ticks")).to_have_text("3 of 5 left")
    page.click("text=Clear the ticks")
    page.click("text=Clear all ticks")
    expect(page.locator(".ticks")).to_have_text("5 of 5 left")
    page.click("text=Bring them back")
    expect(page.locator(".ticks")).to_have_text("3 of 5 left")
    page.click("text=Clear the ticks")
    page.click("text=Clear all ticks")
    expect(page.get_by_text("All ticks are cleared.")).to_be_visible()
    page.check("text=Level the van")
    expect(page.locator(".ticks")).to_have_text("4 of 5 left")
    expect(page.get_by_text("All ticks are cleared.")).to_have_count(0)
    assert watched.complaints == []


def test_one_step_at_a_time_starts_with_the_messages_and_keeps_those_of_a_step(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder, "hot-water.html")
    page = watched.page
    page.get_by_role("button", name="One step at a time").click()
    view, following = page.locator(".stepper"), page.get_by_role("button", name="Next", exact=True)
    expect(view.locator(".stepper__count")).to_have_text("Before you start")
    expect(view.locator(".safety")).to_have_count(2)
    seen = []
    for _ in range(5):
        following.click()
        seen.append((view.locator(".stepper__count").inner_text(), view.locator(".safety").count()))
    assert seen == [(f"Step {n} of 5", 1 if n == 4 else 0) for n in range(1, 6)]
    following.click()
    expect(view.locator(".undo")).to_be_visible()
    page.get_by_role("button", name="Done").click()
    expect(page.get_by_role("button", name="One step at a time")).to_be_focused()
    assert watched.complaints == []


def test_a_fault_is_found_check_by_check_and_ends_with_the_dealer(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder, "hot-water-red-lamp.html")
    page, view = watched.page, watched.page.locator(".stepper")
    page.get_by_role("button", name="Find the fault, one check at a time").click()
    expect(view.locator(".stepper__count")).to_have_text("Before you start")
    expect(view.locator(".safety")).to_have_count(1)
    expect(page.get_by_role("button", name="Fixed", exact=True)).to_be_hidden()
    page.get_by_role("button", name="Next", exact=True).click()
    for check in range(1, 5):
        expect(view.locator(".stepper__count")).to_have_text(f"Step {check} of 4")
        assert view.get_by_role("button", name="The check says stop").count() == (1 if check == 4 else 0)
        page.get_by_role("button", name="Not fixed", exact=True).click()
    expect(view.locator(".stepper__count")).to_have_text("Not fixed: your dealer")
    expect(view).to_contain_text("Tell them: red lamp again after checking cover, gas and water.")
    expect(view).to_contain_text("Marram 480, chassis ending 000417, edition 2.")
    assert view.locator(".call").get_attribute("href") == "tel:035550142"
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map(one => one.id)")
    assert len(ids) == len(set(ids))
    page.get_by_role("button", name="Back").click()
    expect(view.locator(".stepper__count")).to_have_text("Step 4 of 4")
    assert watched.complaints == []


def test_a_fault_ends_with_a_fix_or_a_stop(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water-red-lamp.html").page
    view = page.locator(".stepper")
    page.get_by_role("button", name="Find the fault, one check at a time").click()
    page.get_by_role("button", name="Next", exact=True).click()
    page.get_by_role("button", name="Not fixed", exact=True).click()
    page.get_by_role("button", name="Fixed", exact=True).click()
    expect(view.locator(".stepper__count")).to_have_text("Fixed")
    expect(view).not_to_contain_text("Stop here")
    page.get_by_role("button", name="Back").click()
    expect(view.locator(".stepper__count")).to_have_text("Step 2 of 4")
    page.get_by_role("button", name="Not fixed", exact=True).click()
    page.get_by_role("button", name="Not fixed", exact=True).click()
    page.get_by_role("button", name="The check says stop").click()
    expect(view.locator(".stepper__count")).to_have_text("Stop here")
    expect(view).to_contain_text("Do not try again. Call your dealer.")
    expect(view.locator(".call")).to_be_visible()
    page.get_by_role("button", name="Done").click()
    expect(page.get_by_role("button", name="Find the fault, one check at a time")).to_be_focused()


def test_checks_under_a_heading_of_their_own_start_with_the_messages_above_it(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water-red-lamp.html").page
    page.evaluate(
        """() => {
          const head = document.createElement("h2");
          head.textContent = "It clicks";
          document.querySelector(".onebyone").before(head);
        }"""
    )
    page.get_by_role("button", name="Find the fault, one check at a time").click()
    expect(page.locator(".stepper__count")).to_have_text("Before you start")
    expect(page.locator(".stepper .safety__word")).to_have_text("WARNING")


def test_without_script_the_checks_of_a_fault_are_a_list(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, "hot-water-red-lamp.html", java_script_enabled=False).page
    assert page.locator("ol.steps > li").count() == 4
    assert page.get_by_role("button").count() == 0


def test_one_view_of_the_van_at_a_time(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder).page
    expect(page.locator("#van-outside")).to_be_visible()
    expect(page.locator("#van-inside")).to_be_hidden()
    page.click(".van__pick >> text=Inside")
    expect(page.locator("#van-inside")).to_be_visible()
    expect(page.locator("#van-outside")).to_be_hidden()


def test_a_code_in_the_drawing_leads_to_its_place(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder).page
    page.get_by_role("link", name="B2 Mains inlet").first.click()
    page.wait_for_url("**/B2/index.html")


def test_without_script_pages_links_and_boxes_work(phone: OpenPhone, folder: Path) -> None:
    watched = opened(phone, folder, java_script_enabled=False)
    page = watched.page
    expect(page.locator(".find")).to_be_hidden()
    expect(page.locator("noscript")).to_be_visible()
    page.get_by_role("link", name="Arriving on a pitch").click()
    page.check("text=Level the van")
    expect(page.locator(".reset")).to_be_hidden()


def test_the_whole_manual_in_one_file_works_alone(phone: OpenPhone, folder: Path, tmp_path: Path) -> None:
    alone = tmp_path / "copy.html"
    alone.write_bytes((folder / "marram-480-000417.html").read_bytes())
    watched = phone(java_script_enabled=False)
    watched.page.goto(alone.as_uri())
    watched.page.get_by_role("link", name="Water heater: red lamp").first.click()
    expect(watched.page.locator("#p-hot-water-red-lamp > h2")).to_be_in_viewport()
    assert watched.asked == [alone.as_uri()]
    assert watched.complaints == []
    ground = watched.page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert ground == "rgb(247, 245, 240)"  # its style is allowed and applied


NARROW = (
    "index.html index.html#van-inside hot-water.html numbers.html safety.html A1/index.html lights-and-sounds.html "
    "checklist-arriving.html gas-smell.html contents.html aerial.html 404.html not-yet.html marram-480-000417.html"
)


@pytest.mark.parametrize("path", NARROW.split())
def test_nothing_is_wider_than_a_small_phone(phone: OpenPhone, folder: Path, path: str) -> None:
    """WCAG 2.2, 1.4.10: no scrolling in two directions at 320 CSS pixels; tables scroll by themselves."""
    page = opened(phone, folder, path, viewport={"width": 320, "height": 640}).page
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_focus_is_never_under_the_rail(phone: OpenPhone, folder: Path) -> None:
    """WCAG 2.2, 2.4.11: what has the focus is not hidden by fixed parts."""
    page = opened(phone, folder, "hot-water.html").page
    for _ in range(30):
        page.keyboard.press("Tab")
        hidden = page.evaluate(
            """() => {
              const at = document.activeElement, rail = document.querySelector(".rail");
              if (at === document.body || rail.contains(at)) return "";
              const box = at.getBoundingClientRect();
              return box.bottom > rail.getBoundingClientRect().top + 1 || box.top < -1 ? at.outerHTML : "";
            }"""
        )
        assert hidden == ""


def test_the_rail_is_not_fixed_on_a_low_screen(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder, viewport={"width": 700, "height": 400}).page
    assert page.evaluate("getComputedStyle(document.querySelector('.rail')).position") == "static"


def test_print_shows_both_views_and_no_rail(phone: OpenPhone, folder: Path) -> None:
    page = opened(phone, folder).page
    page.emulate_media(media="print")
    for wanted in ("#van-outside", "#van-inside", ".foot"):
        expect(page.locator(wanted)).to_be_visible()
    for unwanted in (".rail", ".find", ".van__pick"):
        expect(page.locator(unwanted)).to_be_hidden()
    outside, inside = (page.locator(one).bounding_box() for one in ("#van-outside", "#van-inside"))
    assert outside and inside and outside["y"] == inside["y"] and outside["x"] < inside["x"]


def test_a_folder_offers_no_zip_of_itself(phone: OpenPhone, folder: Path, host: WireHost) -> None:
    """The zip holds all but itself."""
    page = opened(phone, folder).page
    expect(page.locator("a[href$='.zip']")).to_have_count(0)
    expect(page.get_by_role("link", name="Keep a copy: the whole manual in one file")).to_have_count(1)
    page = phone(offline=False).page
    page.goto(f"{host.address}{FOLDER}/")
    expect(page.locator("a[href$='.zip']")).to_have_count(1)
