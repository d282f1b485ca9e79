"""Headless Chromium with a fresh profile, and a finished manual in a folder and on a host."""

import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Request, sync_playwright

from tests.browser.wire import WireHost
from tests.finished import finished_fixture, write_files

FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE = {"width": 390, "height": 844}


def chromium() -> str:
    """Return where Chromium is; without it nothing here can be judged."""
    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if found is None:
        pytest.fail("the browser tests need Chromium: install it and put it on PATH")
    return found


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium(), args=FLAGS)
        yield started
        started.close()


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of the finished fixture manual."""
    return write_files(finished_fixture(), tmp_path_factory.mktemp("library"))


@dataclass
class Watched:
    """A page with what it asked for and complained of."""

    page: Page
    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    @property
    def elsewhere(self) -> list[str]:
        """Requests that are for no file."""
        return [address for address in self.asked if not address.startswith(("file:", "data:"))]


def watch(context: BrowserContext) -> Watched:
    """Open a page whose requests and complaints are kept."""
    page = context.new_page()
    watched = Watched(page)
    page.on("request", lambda request: watched.asked.append(request.url))
    page.on("requestfailed", lambda request: _failed(request, watched))
    page.on("pageerror", lambda error: watched.complaints.append(f"error: {error}"))
    page.on("console", lambda said: watched.complaints.append(f"{said.type}: {said.text}"))
    return watched


def _failed(request: Request, watched: Watched) -> None:
    """Leaving a page drops what it was still loading; that is no failure."""
    if request.failure != "net::ERR_ABORTED":
        watched.complaints.append(f"failed: {request.url}")


OpenPhone = Callable[..., Watched]


@pytest.fixture
def phone(browser: Browser) -> Iterator[OpenPhone]:
    """Return a function that opens a phone-sized page without network."""
    contexts = []

    def open_phone(**settings: object) -> Watched:
        given = {"viewport": PHONE, "offline": True, "service_workers": "block", **settings}
        context = browser.new_context(**given)  # type: ignore[arg-type]
        contexts.append(context)
        return watch(context)

    yield open_phone
    for context in contexts:
        context.close()


@pytest.fixture
def host(tmp_path: Path) -> Iterator[WireHost]:
    """Return a running host whose library holds the finished fixture manual."""
    write_files(finished_fixture(), tmp_path / "library")
    host = WireHost(tmp_path / "library")
    host.start()
    yield host
    host.stop()
