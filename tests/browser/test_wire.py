"""What the demo vans weigh on the way to a phone, against the budgets; and the largest of them without signal.

Weights are bytes of answers as a plain static host that compresses text with gzip sends them, file by file; packs go
as they are. A kilobyte is 1000 bytes, which is the stricter reading.
"""

import json
import random
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPhone
from tests.browser.demo_vans import SHEETS, Demo, published
from tests.browser.wire import WireHost, on_the_wire

pytestmark = pytest.mark.browser

CORE, TEXT, ALL = 80_000, 250_000, 2_500_000
WHOLE = "Ready without signal."


@dataclass(frozen=True)
class Weights:
    """Bytes of one van: before the phone has the core, all words, everything that is kept."""

    core: int
    text: int
    everything: int


def listed(folder: Path, name: str) -> list[list[object]]:
    """Return a list that stands in the worker."""
    found = re.search(rf"const {name} = (\[.*\]);", (folder / "sw.js").read_text("utf-8"))
    assert found is not None
    read: list[list[object]] = json.loads(found[1])
    return read


def weights(folder: Path) -> Weights:
    """Add up what the worker lists, and the page in hand, which the browser itself asked for: the heaviest there is."""
    sent = {
        path.relative_to(folder).as_posix(): len(on_the_wire(path.name, path.read_bytes()))
        for path in folder.rglob("*")
        if path.is_file()
    }
    packs = [sent[str(path)] for path in listed(folder, "PACKS")]
    alone = {str(path): later for path, _, later, *pack in listed(folder, "FILES") if not pack}
    in_hand = max(sent[str(path)] for path, _, _, *pack in listed(folder, "FILES") if pack)
    core = sent["sw.js"] + packs[0] + in_hand + sum(sent[path] for path, later in alone.items() if later == 0)
    index = next(sent[path] for path in alone if path.startswith("assets/search."))
    everything = sent["sw.js"] + sum(packs) + sum(sent[path] for path in alone)
    return Weights(core, sum(packs) + index + in_hand, everything + in_hand)


@pytest.fixture(scope="module")
def vans(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Demo]:
    """Return every demo van, published, by the name of its sheet."""
    return {van.sheet: van for van in published(tmp_path_factory.mktemp("demo"))}


@pytest.fixture
def host(vans: Mapping[str, Demo]) -> Iterator[WireHost]:
    host = WireHost(next(iter(vans.values())).folder.parent)
    host.start()
    yield host
    host.stop()


@pytest.fixture
def largest(vans: Mapping[str, Demo]) -> Demo:
    return max(vans.values(), key=lambda van: weights(van.folder).text)


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_van_stays_inside_the_budgets(vans: Mapping[str, Demo], sheet: str) -> None:
    found = weights(vans[sheet].folder)
    print(sheet, found)  # shown with -rP
    assert found.core <= CORE
    assert found.text <= TEXT
    assert found.everything <= ALL


def test_a_first_visit_weighs_what_was_added_up_and_asks_for_nothing_twice(
    phone: OpenPhone, host: WireHost, largest: Demo
) -> None:
    watched = phone(offline=False, service_workers="allow")
    page = visited(watched.page, host, largest, "mains-trips.html")
    host.quiet()
    root = largest.name + "/"
    later = next(i for i, path in enumerate(host.asked) if re.match(rf"{root}assets/(pages-[1-9]|plan)", path))
    core = sum(one.sent for one in host.answers if one.path in host.asked[:later])
    sent, reckoned = host.sent(), weights(largest.folder)
    print(f"core {core}, all {sent}, asked {len(host.asked)}; {reckoned}")
    assert core <= CORE and sent <= ALL
    assert core == pytest.approx(reckoned.core, rel=0.1)  # the page asks for its icons beside it
    assert sent == pytest.approx(reckoned.everything, rel=0.1)
    full = [one.path for one in host.answers if one.status == 200 and not one.path.endswith("/sw.js")]
    assert sorted(full) == sorted(set(full))
    assert all(path.startswith(root) for path in host.asked if path != "favicon.ico")
    assert {request.split("/")[2] for request in watched.asked} == {host.address.split("/")[2]}
    assert page.title()


def visited(page: Page, host: WireHost, van: Demo, path: str) -> Page:
    """Open one page and wait until the phone has the whole manual."""
    page.goto(f"{host.address}{van.name}/{path}")
    expect(page.locator("#ready")).to_have_text(WHOLE, timeout=60_000)
    return page


def test_after_one_deep_page_the_largest_van_is_all_there_without_signal(
    phone: OpenPhone, host: WireHost, largest: Demo
) -> None:
    watched = phone(offline=False, service_workers="allow")
    page = visited(watched.page, host, largest, "mains-trips.html")
    root = f"{host.address}{largest.name}/"
    host.stop()
    page.context.set_offline(True)
    record = json.loads((largest.folder / "edition.json").read_text("utf-8"))
    paths = sorted(one["path"] for one in record["pages"])
    for path in random.Random(6).sample(paths, 10):  # never visited
        page.goto(root + path)
        expect(page.locator("h1")).to_have_count(1)
        expect(page.locator("#ready")).to_have_text(WHOLE)
    page.goto(root)
    page.fill("#find", "red lamp on the water heater")
    page.locator("#found a").first.click()
    page.wait_for_url("**/hot-water-red-lamp.html")
    page.goto(root + "A1/")
    expect(page.locator("main figure svg").first).to_be_visible()
    page.goto(root + "index.html")
    page.locator(".van svg a[href$='A1/index.html']").first.click()
    page.wait_for_url("**/A1/index.html")
    for path in ("plan-loading.html", "plan-car.html", "plan-days.html", "plan-mains.html"):
        page.goto(root + path)
        expect(page.locator(".plan__verdict")).not_to_be_empty()
    page.goto(root + "plan-loading.html")
    page.get_by_label(re.compile("^A1 ")).first.fill("900")
    expect(page.locator(".plan__verdict")).to_contain_text("Over the limit")
    strange = [one for one in watched.complaints if "sw.js" not in one and "ERR_INTERNET_DISCONNECTED" not in one]
    assert strange == []


def test_two_vans_on_one_host_keep_apart(phone: OpenPhone, host: WireHost, vans: Mapping[str, Demo]) -> None:
    one, two = vans["sorrel-0032"], vans["tansy-0108"]
    page = phone(offline=False, service_workers="allow").page
    visited(page, host, one, "before-towing.html")
    page.locator("[data-check]").first.check()
    page.get_by_role("button", name="Keep a note on this page").click()
    page.get_by_label("Your note on this page").fill("Ours squeaks")
    visited(page, host, two, "before-towing.html")
    expect(page.locator("[data-check]").first).not_to_be_checked()
    expect(page.get_by_role("button", name="Keep a note on this page")).to_be_visible()
    assert page.evaluate(
        "async () => (await navigator.serviceWorker.getRegistrations()).map(one => one.scope).sort()"
    ) == (sorted(f"{host.address}{van.name}/" for van in (one, two)))
    assert len(names(page)) == 2 and all(any(van.name in name for name in names(page)) for van in (one, two))
    page.evaluate(
        """async name => {
          for (const key of await caches.keys()) if (key.includes(name)) await caches.delete(key);
          await (await navigator.serviceWorker.getRegistration()).unregister();
        }""",
        two.name,
    )
    host.stop()
    page.context.set_offline(True)
    page.goto(f"{host.address}{one.name}/before-towing.html")
    expect(page.locator("#ready")).to_have_text(WHOLE)
    expect(page.locator("[data-check]").first).to_be_checked()
    expect(page.get_by_label("Your note on this page")).to_have_value("Ours squeaks")


def names(page: Page) -> list[str]:
    found: list[str] = page.evaluate("caches.keys()")
    return found
