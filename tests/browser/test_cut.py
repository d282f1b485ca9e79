"""A download cut at random points: what the phone had still opens, and the rest comes without asking twice."""

import json
import random
import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Error, Page, expect

from tests.browser.conftest import OpenPhone
from tests.browser.demo_vans import Demo, published
from tests.browser.wire import WireHost, on_the_wire

pytestmark = pytest.mark.browser

CUTS = 20
WHOLE = "Ready without signal."
PART = "Part of this manual is on this phone. Open it in signal to finish."
NOTHING = "Not on this phone yet. Open it in signal."
IN_HAND = "hob.html"  # the page that is opened first

# A browser that tells the page of a first visit in an order of the test's: it can fail before or after the page
# knows of it, and what it told of its progress can come last.
HEARD = """
const worker = Object.assign(new EventTarget(), { state: "installing" });
const registration = Object.assign(new EventTarget(), { active: null, waiting: null, installing: worker });
const container = Object.assign(new EventTarget(), {
  controller: null, ready: new Promise(() => {}),
  register: async () => registration, getRegistration: async () => registration,
});
Object.defineProperty(navigator, "serviceWorker", { value: container });
const events = {
  gone: () => { worker.state = "redundant"; registration.installing = null; },
  told: () => worker.dispatchEvent(new Event("statechange")),
  progress() {
    const data = { type: "loading", have: 8, total: 109, edition: 1 };
    container.dispatchEvent(new MessageEvent("message", { data }));
  },
};
"""

# Every file that is kept, with the digest of what is there.
KEPT = """async () => {
  const found = {};
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
      const bytes = await (await cache.match(request)).arrayBuffer();
      found[request.url] = btoa(String.fromCharCode(...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))));
    }
  }
  return found;
}"""


@pytest.fixture(scope="module")
def van(tmp_path_factory: pytest.TempPathFactory) -> Demo:
    """Return the smallest demo van, published."""
    [van] = published(tmp_path_factory.mktemp("cut"), ["sorrel-0032"])
    return van


@pytest.fixture
def host(van: Demo) -> Iterator[WireHost]:
    host = WireHost(van.folder.parent)
    host.start()
    yield host
    host.stop()


def listed(van: Demo, name: str) -> list[list[str]]:
    found = re.search(rf"const {name} = (\[.*\]);", (van.folder / "sw.js").read_text("utf-8"))
    assert found is not None
    read: list[list[str]] = json.loads(found[1])
    return read


def weight(van: Demo) -> int:
    """Return about how many bytes a visit takes that is not cut."""
    paths = {"sw.js", IN_HAND, *map(str, listed(van, "PACKS"))}
    paths |= {path for path, _, _, *pack in listed(van, "FILES") if not pack}
    return sum(len(on_the_wire(path, (van.folder / path).read_bytes())) for path in paths)


def kept(page: Page, host: WireHost, van: Demo) -> set[str]:
    """Return what the phone has, having held each file to its digest."""
    root, should = f"{host.address}{van.name}/", {path: digest for path, digest, *_ in listed(van, "FILES")}
    found = {url.removeprefix(root): digest for url, digest in page.evaluate(KEPT).items() if "?" not in url}
    assert {path: digest[:16] for path, digest in found.items()} == {path: should[path] for path in found}
    return set(found)


def visited_until_cut(page: Page, host: WireHost, van: Demo) -> str:
    """Open the manual on a line that will be cut, and return what the page says then; nothing where it cannot."""
    try:
        page.goto(f"{host.address}{van.name}/{IN_HAND}", wait_until="commit")
        page.wait_for_load_state(timeout=10_000)
    except Error:
        assert host.cut
        return ""
    came = {one.path.split("/assets/")[-1].split(".")[0] for one in host.answers if one.whole}
    if not came >= {"parts", "van"}:
        return ""  # the page came, what speaks did not
    expect(page.locator("#ready")).to_have_text(re.compile(f"^({WHOLE}|{PART}|{NOTHING})"), timeout=30_000)
    host.quiet(0.2)
    return page.locator("#ready").inner_text()


@pytest.mark.parametrize("share", [random.Random(f"cut {number}").random() for number in range(CUTS)])
def test_a_download_cut_anywhere_is_resumed(phone: OpenPhone, host: WireHost, van: Demo, share: float) -> None:
    page = phone(offline=False, service_workers="allow").page
    host.left = int(share * weight(van))
    said = visited_until_cut(page, host, van)
    assert host.cut and said != WHOLE
    root = f"{host.address}{van.name}/"
    before = kept(page, host, van) if said else set()
    if said == PART:
        opens_what_it_has(page, root, before)
    host.left, start = None, len(host.answers)
    page.goto(root + IN_HAND)
    expect(page.locator("#ready")).to_have_text(WHOLE, timeout=60_000)
    assert kept(page, host, van) == {path for path, *_ in listed(van, "FILES")}
    again = {answer.path.removeprefix(f"{van.name}/") for answer in host.answers[start:] if answer.status == 200}
    # Before a worker is there, the browser itself asks for the page in hand and for what that page loads.
    assert again & before <= (set() if said == PART else {IN_HAND})
    packs = [answer.path for answer in host.answers if answer.path.endswith(".bin") and answer.whole]
    assert sorted(packs) == sorted(set(packs))


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ([], ["progress", "gone", "told"]),
        ([], ["gone", "told", "progress"]),
        (["gone"], ["progress"]),
        (["gone"], []),
        (["gone"], ["told", "progress"]),
    ],
)
def test_a_first_visit_that_failed_is_told_in_whatever_order_it_is_heard(
    phone: OpenPhone, host: WireHost, van: Demo, before: list[str], after: list[str]
) -> None:
    page = phone(offline=False).page
    page.add_init_script(f"{HEARD}for (const one of {json.dumps(before)}) events[one](); self.events = events;")
    page.goto(f"{host.address}{van.name}/{IN_HAND}")
    expect(page.locator("#ready")).to_have_text(NOTHING if before else "Loading onto this phone, 0 %. Stay in signal.")
    page.evaluate("names => names.forEach(one => events[one]())", after)
    expect(page.locator("#ready")).to_have_text(NOTHING)


def opens_what_it_has(page: Page, root: str, paths: set[str]) -> None:
    """Hold that start, an emergency and a page that came open without signal, and that one that did not says so."""
    came = sorted(path for path in paths if path.endswith(".html") and path not in ("404.html", "not-yet.html"))
    for path in ("index.html", "fire.html", IN_HAND, came[-1]):
        page.goto(root + path)
        expect(page.locator("#ready")).to_have_text(PART)
        assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(247, 245, 240)"
    if "about.html" not in paths:
        page.goto(root + "about.html")
        expect(page.locator("h1")).to_have_text("This page is not on this phone yet")
