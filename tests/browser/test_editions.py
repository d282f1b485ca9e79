"""A newer edition on the host, and an older one: taken whole or not at all, and the page in hand stays whole.

What is on the host counts: where the dealer puts the edition before back, phones go back to it too.
"""

import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from generator.model.manual import SearchEntry
from generator.model.site import Edition, Finished
from tests.browser.bare import BareBrowser
from tests.browser.firefox import firefox
from tests.browser.wire import WireHost
from tests.finished import finished, finished_fixture, write_files
from tests.fixture_manual import FOLDER, NEXT_EDITION, fixture_manual

pytestmark = pytest.mark.browser

READY = 'await until(() => said("#ready") === "Ready without signal."); '
SHOWN = 'return said(".top__edition").slice(0, 9);'
BROWSERS = [
    "chromium",
    pytest.param("firefox", marks=pytest.mark.skipif(firefox() is None, reason="Firefox is not installed")),
]


@pytest.fixture(params=BROWSERS)
def browser(request: pytest.FixtureRequest, host: WireHost, tmp_path: Path) -> Iterator[BareBrowser]:
    started = BareBrowser(request.param, host, tmp_path)
    yield started
    started.close()


def put(host: WireHost, edition: Finished) -> None:
    """Put an edition online in place of what is there."""
    shutil.rmtree(host.library / FOLDER, ignore_errors=True)
    write_files(edition, host.library)


def newer(edition: Edition, word: str) -> Finished:
    """Return a later edition; it finds one more word, so its pages name another search index."""
    added = SearchEntry(path="hot-water.html", anchor="", title=word, section="Hot water")
    return finished(fixture_manual(search=(*fixture_manual().search, added)), edition)


def opened(browser: BareBrowser, path: str) -> str:
    """Open a page, wait until all is kept, and return the edition it shows."""
    shown: str = browser.run(f'await open("/{FOLDER}/{path}"); {READY} {SHOWN}')
    return shown


def every_page_is_of(browser: BareBrowser, host: WireHost, edition: str) -> None:
    """Hold that without signal each page opens, of this edition, with its style."""
    host.left = 0
    for page in fixture_manual().pages:
        told = browser.run(
            f'await open("/{FOLDER}/{page.path}"); '
            'const ground = frame.contentWindow.getComputedStyle($("body")).backgroundColor; '
            'return [said(".top__edition").slice(0, 9), ground];'
        )
        assert told == [edition, "rgb(247, 245, 240)"], page.path
    host.left = None


def test_editions_come_and_go_whole(browser: BareBrowser, host: WireHost) -> None:
    two, three = finished_fixture(), newer(NEXT_EDITION, "Geyser")
    assert opened(browser, "index.html") == "Edition 2"

    for stopped in (["sw.js"], ["sw.js", *(path for path in three.files if path.startswith("assets/s"))]):
        for path in stopped:  # an upload that stopped half way
            (host.library / FOLDER / path).write_bytes(three.files[path])
        browser.run("await update(); await sleep(200);")
        assert opened(browser, "numbers.html") == "Edition 2"
    every_page_is_of(browser, host, "Edition 2")

    assert opened(browser, "index.html") == "Edition 2"
    put(host, three)
    told = browser.run(
        'await update(); await until(() => said("#ready").startsWith("Edition 3")); '
        'return [said("#ready"), said(".top__edition").slice(0, 9)];'
    )
    assert told == ["Edition 3 is ready. What changed. Read it now.", "Edition 2"]
    assert page_in_hand_is_whole(browser, host)
    every_page_is_of(browser, host, "Edition 3")

    assert opened(browser, "index.html") == "Edition 3"
    put(host, two)
    browser.run('await update(); await until(() => said("#ready").startsWith("Edition 2 is ready."));')
    assert page_in_hand_is_whole(browser, host)
    every_page_is_of(browser, host, "Edition 2")
    asked = len(host.asked)
    assert opened(browser, "numbers.html") == "Edition 2"
    assert [path for path in host.asked[asked:] if not path.endswith("sw.js")] == []
    assert browser.run("return (await caches.keys()).length;") == 2  # what is shown, and what was before

    assert opened(browser, "index.html") == "Edition 2"
    put(host, newer(Edition(number=4, day=date(2027, 2, 1)), "Boiler"))
    browser.run('await update(); await until(() => said("#ready").startsWith("Edition 4 is ready."));')
    assert page_in_hand_is_whole(browser, host)  # of edition 2, which was kept before edition 3 was
    assert opened(browser, "numbers.html") == "Edition 4"


def page_in_hand_is_whole(browser: BareBrowser, host: WireHost) -> bool:
    """Return whether all that the open page names still comes, though the host has another edition."""
    found: bool = browser.run(
        'const named = [...frame.contentDocument.querySelectorAll("script[src], link[href]")]; '
        "const came = await Promise.all(named.map(one => frame.contentWindow.fetch(one.src || one.href))); "
        "return came.length > 5 && came.every(one => one.ok);"
    )
    return found
