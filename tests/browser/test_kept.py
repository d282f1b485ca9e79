"""The manual on a host: kept on the phone after one visit, a missing page answered, what was changed refused."""

import json
import shutil
import zlib
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.conftest import FLAGS, OpenPhone, Watched, chromium
from tests.browser.wire import WireHost
from tests.fixture_manual import FOLDER, fixture_manual

pytestmark = pytest.mark.browser
WHOLE = "Ready without signal."


def visited(phone: OpenPhone, host: WireHost, path: str = "hot-water.html") -> Watched:
    """Open one page and wait until the phone has everything."""
    watched = phone(offline=False, service_workers="allow")
    watched.page.goto(f"{host.address}{FOLDER}/{path}")
    expect(watched.page.locator("#ready")).to_have_text(WHOLE, timeout=20_000)
    return watched


def test_one_visit_to_one_page_keeps_the_whole_manual(phone: OpenPhone, host: WireHost) -> None:
    watched = visited(phone, host)
    root = f"{host.address}{FOLDER}/"
    host.stop()
    watched.page.context.set_offline(True)
    watched.complaints.clear()
    for page in fixture_manual().pages:
        watched.page.goto(root + page.path)
        expect(watched.page.locator("#ready")).to_have_text(WHOLE)
        assert watched.page.title().endswith("Marram 480")
    # The worker asks whether there is a newer edition; without signal the browser notes that it could not.
    assert [one for one in watched.complaints if "sw.js" not in one and "ERR_INTERNET_DISCONNECTED" not in one] == []


def test_without_signal_find_answers_and_labels_open(phone: OpenPhone, host: WireHost) -> None:
    watched = visited(phone, host)
    root = f"{host.address}{FOLDER}/"
    host.stop()
    watched.page.context.set_offline(True)
    watched.page.goto(root)
    watched.page.fill("#find", "red lamp")
    watched.page.locator("#found a").first.click()
    expect(watched.page.locator("h1")).to_have_text("H1 Water heater: red lamp")
    for address in ("A1/", "A1", "A1/?from=label#top"):
        watched.page.goto(root + address)
        expect(watched.page.locator("h1")).to_have_text("A1 Front gas locker")
        assert watched.page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(247, 245, 240)"


def test_a_label_opens_its_place_with_and_without_the_last_slash_on_a_phone_that_never_was_here(
    phone: OpenPhone, host: WireHost
) -> None:
    page = phone(offline=False).page
    for address in ("A1/", "A1", "A1/?from=label#top"):
        page.goto(f"{host.address}{FOLDER}/{address}")
        expect(page.locator("h1")).to_have_text("A1 Front gas locker")
        assert page.url.split("?")[0].endswith(f"/{FOLDER}/A1/")  # so that what the page names is found


def test_each_van_can_be_put_on_the_home_screen_as_an_app_of_its_own(
    browser: Browser, host: WireHost, tmp_path: Path
) -> None:
    """Chromium's own judgement of manifest, icons and origin; it judges nothing in a window that keeps nothing."""
    context = browser.browser_type.launch_persistent_context(tmp_path, executable_path=chromium(), args=FLAGS)
    page = context.new_page()
    page.goto(f"{host.address}{FOLDER}/hot-water.html")
    asked = context.new_cdp_session(page)
    assert asked.send("Page.getInstallabilityErrors")["installabilityErrors"] == []
    assert asked.send("Page.getAppId")["appId"] == f"{host.address}{FOLDER}/"
    context.close()


@pytest.mark.parametrize("signal", [True, False])
@pytest.mark.parametrize("missing", ["nothing.html", "Z9/", "deep/er/nothing.html"])
def test_a_missing_page_leads_back_from_any_depth(phone: OpenPhone, host: WireHost, missing: str, signal: bool) -> None:
    watched = visited(phone, host)
    watched.page.context.set_offline(not signal)
    watched.page.goto(f"{host.address}{FOLDER}/{missing}")
    expect(watched.page.locator("h1")).to_have_text("This page is not in this manual")
    assert watched.page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(247, 245, 240)"
    watched.page.get_by_role("link", name="Start").click()
    watched.page.wait_for_url(f"**/{FOLDER}/index.html")


def test_a_missing_page_leads_back_where_the_library_is_not_at_the_root(phone: OpenPhone, host: WireHost) -> None:
    shutil.move(host.library / FOLDER, host.library / "vans" / FOLDER)
    lost = (host.library / "vans" / FOLDER / "404.html").read_bytes()
    (host.library / "elsewhere").mkdir()
    (host.library / "elsewhere" / "404.html").write_bytes(lost)  # what the host answers with
    page = phone(offline=False).page
    page.goto(f"{host.address}vans/{FOLDER}/Z9/nothing.html")
    page.get_by_role("link", name="Start").click()
    page.wait_for_url(f"**/vans/{FOLDER}/index.html")


def packs(host: WireHost) -> list[Path]:
    """Return the pages in packs, those of the first visit's core first."""
    return sorted((host.library / FOLDER / "assets").glob("pages-*.bin"))


def test_a_first_visit_cut_short_says_so_and_is_finished_later(phone: OpenPhone, host: WireHost) -> None:
    packs(host)[1].unlink()  # so that pages are asked for one by one
    away = host.library / FOLDER / "numbers.html"
    kept = away.read_bytes()
    away.unlink()
    watched = phone(offline=False, service_workers="allow")
    watched.page.goto(f"{host.address}{FOLDER}/index.html")
    expect(watched.page.locator("#ready")).to_have_text(
        "Part of this manual is on this phone. Open it in signal to finish.", timeout=20_000
    )
    watched.page.context.set_offline(True)
    watched.page.goto(f"{host.address}{FOLDER}/gas-smell.html")
    expect(watched.page.locator("h1")).to_have_text("Gas smell")
    for address in ("numbers.html", "numbers"):
        watched.page.goto(f"{host.address}{FOLDER}/{address}")
        expect(watched.page.locator("h1")).to_have_text("This page is not on this phone yet")
    watched.page.get_by_role("link", name="Start").click()
    watched.page.wait_for_url(f"**/{FOLDER}/index.html")
    away.write_bytes(kept)
    watched.page.context.set_offline(False)
    watched.page.reload()
    expect(watched.page.locator("#ready")).to_have_text(WHOLE, timeout=20_000)


@pytest.mark.parametrize("changed", ["page", "page in a pack", "cut pack"])
def test_a_file_that_was_changed_on_the_way_is_refused(phone: OpenPhone, host: WireHost, changed: str) -> None:
    pack = packs(host)[1]
    if changed == "page":
        pack.unlink()
        (host.library / FOLDER / "numbers.html").write_text("<p>not what was published</p>", "utf-8")
    elif changed == "page in a pack":
        lines, pages = json.loads(zlib.decompress(pack.read_bytes()))
        pages["numbers.html"] = ["<p>not what was published</p>"]
        pack.write_bytes(zlib.compress(json.dumps([lines, pages]).encode()))
    else:
        pack.write_bytes(pack.read_bytes()[:-100])
    watched = phone(offline=False, service_workers="allow")
    watched.page.goto(f"{host.address}{FOLDER}/index.html")
    expect(watched.page.locator("#ready")).to_contain_text("Part of this manual", timeout=20_000)
