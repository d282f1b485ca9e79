"""Firefox: the manual from a folder, its one-file copy, over a host, and with that host gone."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.browser.firefox import Firefox, firefox
from tests.browser.wire import WireHost
from tests.fixture_manual import FOLDER, fixture_manual

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(firefox() is None, reason="Firefox is not installed: nothing is known of it on this computer"),
]

READY = "document.querySelector('#ready').textContent"
HITS = "[...document.querySelectorAll('#found a')].map(one => one.getAttribute('href'))"
GROUND = "getComputedStyle(document.body).backgroundColor"


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    started = Firefox(tmp_path_factory.mktemp("firefox"))
    yield started
    started.close()


def found(browser: Firefox, question: str) -> list[str]:
    browser.run("document.querySelector('#find').focus()")
    browser.type(question)
    hits: list[str] = browser.wait(HITS)
    return hits


def test_from_a_folder_every_page_opens_and_find_answers(browser: Firefox, folder: Path) -> None:
    browser.complaints.clear()
    for page in fixture_manual().pages:
        browser.open((folder / page.path).as_uri())
        assert browser.wait(f"{READY} === 'This copy is on this device.'")
        assert browser.run("document.querySelectorAll('h1').length") == 1
    browser.open((folder / "index.html").as_uri())
    assert found(browser, "red light on water heter")[0].endswith("hot-water-red-lamp.html")
    assert browser.run(GROUND) == "rgb(247, 245, 240)"
    assert browser.complaints == []


def test_the_one_file_copy_is_read_alone(browser: Firefox, folder: Path, tmp_path: Path) -> None:
    browser.complaints.clear()
    (tmp_path / "copy.html").write_bytes((folder / "marram-480-000417.html").read_bytes())
    browser.open((tmp_path / "copy.html").as_uri())
    assert browser.run(GROUND) == "rgb(247, 245, 240)"  # its style is allowed by its hash
    browser.run("document.querySelector('a[href=\"#p-hot-water-red-lamp\"]').click()")
    assert browser.wait("Math.abs(document.querySelector('#p-hot-water-red-lamp').getBoundingClientRect().top) < 300")
    assert browser.complaints == []


def test_after_one_visit_all_is_there_with_the_host_gone(browser: Firefox, host: WireHost) -> None:
    browser.asked.clear()
    browser.complaints.clear()
    root = f"{host.address}{FOLDER}/"
    browser.open(root + "hot-water.html")
    assert browser.wait(f"{READY} === 'Ready without signal.'")
    assert browser.complaints == []
    host.stop()
    for page in fixture_manual().pages:
        browser.open(root + page.path)
        assert browser.wait(f"{READY} === 'Ready without signal.'")
    browser.open(root)
    assert found(browser, "gass smel")[0].endswith("gas-smell.html")
    for address in ("A1/", "A1", "A1/?from=label#top"):
        browser.open(root + address)
        assert browser.run("document.querySelector('h1').textContent") == "A1 Front gas locker"
    browser.open(root + "nothing.html")
    assert browser.run("document.querySelector('h1').textContent") == "This page is not in this manual"
    assert browser.run(GROUND) == "rgb(247, 245, 240)"
    assert len(browser.asked) > len(fixture_manual().pages)
    assert [address for address in browser.asked if not address.startswith((root, "data:"))] == []
