"""A newer edition on the host, and an older one: taken whole or not at all, and the page in hand stays whole.

What is on the host counts: where the dealer puts the edition before back, phones go back to it too.
"""

import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from generator.model.manual import SearchEntry
from generator.model.site import Edition, Finished
from tests.browser.bare import BareBrowser
from tests.browser.demo_vans import WORKSPACE, published
from tests.browser.firefox import firefox
from tests.browser.wire import WireHost
from tests.finished import finished, finished_fixture, write_files
from tests.fixture_manual import FOLDER, NEXT_EDITION, fixture_manual, para

pytestmark = pytest.mark.browser

CHANGED = "hot-water.html"  # from one edition to the next
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
    """Return a later edition; one page has one more word, which is found, so that pages name another search index."""
    manual = fixture_manual()
    added = SearchEntry(path=CHANGED, anchor="", title=word, section="Hot water")
    pages = tuple(
        replace(each, body=(*each.body, para(word))) if each.path == CHANGED else each for each in manual.pages
    )
    return finished(fixture_manual(pages=pages, search=(*manual.search, added)), edition)


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
    four, asked = newer(Edition(number=4, day=date(2027, 2, 1)), "Boiler"), len(host.asked)
    put(host, four)
    browser.run('await update(); await until(() => said("#ready").startsWith("Edition 4 is ready."));')
    # All its pages name another edition, many another search index; that alone is not worth asking for them.
    [index] = [path for path in four.files if path.startswith("assets/search.")]
    assert {path.removeprefix(f"{FOLDER}/") for path in host.asked[asked:]} == {"sw.js", index, CHANGED}
    assert page_in_hand_is_whole(browser, host)  # of edition 2, which was kept before edition 3 was
    assert opened(browser, "numbers.html") == "Edition 4"


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """Return a workspace of the demo vans in which something may be changed."""
    for name in ("content", "van_specs", "site_template"):
        shutil.copytree(WORKSPACE / name, tmp_path / "bench" / name)
    return tmp_path / "bench"


def test_where_one_step_of_a_demo_van_changed_little_else_is_asked_for(bench: Path, tmp_path: Path) -> None:
    [van] = published(tmp_path, ["marram-0417"], workspace=bench)
    host = WireHost(van.folder.parent)
    host.start()
    browser = BareBrowser("chromium", host, tmp_path)
    browser.run(f'await open("/{van.name}/index.html"); {READY}')
    host.quiet()
    visit, asked = host.sent(), len(host.asked)
    block = bench / "content/blocks/hob/lid.md"
    block.write_text(block.read_text("utf-8").replace("Lower the lid gently.", "Lower the lid slowly."), "utf-8")
    published(tmp_path, ["marram-0417"], date(2026, 12, 1), bench)
    browser.run('await update(); await until(() => said("#ready").startsWith("Edition 2 is ready."));')
    browser.close()
    update = host.sent() - visit
    host.stop()
    print(f"first visit {visit}, one step changed {update} bytes")  # shown with -rP
    paths = {path.removeprefix(f"{van.name}/") for path in host.asked[asked:] if not path.endswith("/sw.js")}
    [index] = [path.relative_to(van.folder).as_posix() for path in van.folder.glob("assets/search.*")]
    assert paths == {"hob.html", "what-changed.html", index}


def page_in_hand_is_whole(browser: BareBrowser, host: WireHost) -> bool:
    """Return whether all that the open page names still comes, though the host has another edition."""
    found: bool = browser.run(
        'const named = [...frame.contentDocument.querySelectorAll("script[src], link[href]")]; '
        "const came = await Promise.all(named.map(one => frame.contentWindow.fetch(one.src || one.href))); "
        "return came.length > 5 && came.every(one => one.ok);"
    )
    return found
