"""Firefox without a driver program: it speaks WebDriver BiDi itself, over a socket on this computer.

Only what the tests need of https://www.w3.org/TR/webdriver-bidi/ is here: open, evaluate, type, see what is asked for.
"""

import contextlib
import itertools
import json
import os
import re
import shutil
import subprocess
import time
from pathlib import Path
from typing import Any

from websockets.sync.client import connect

# A profile that asks nothing of the world: whatever is not this computer goes to a port where nobody listens.
_PREFERENCES: dict[str, object] = {
    "app.normandy.enabled": False,
    "app.update.disabledForTesting": True,
    "browser.aboutwelcome.enabled": False,
    "browser.newtabpage.enabled": False,
    "browser.region.network.url": "",
    "browser.safebrowsing.downloads.enabled": False,
    "browser.safebrowsing.malware.enabled": False,
    "browser.safebrowsing.phishing.enabled": False,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.homepage_override.mstone": "ignore",
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "dom.push.connection.enabled": False,
    "extensions.getAddons.cache.enabled": False,
    "extensions.systemAddon.update.enabled": False,
    "media.gmp-manager.updateEnabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "network.prefetch-next": False,
    "network.proxy.type": 1,
    "network.proxy.http": "127.0.0.1",
    "network.proxy.http_port": 9,
    "network.proxy.ssl": "127.0.0.1",
    "network.proxy.ssl_port": 9,
    "network.proxy.no_proxies_on": "127.0.0.1",
    "services.settings.server": "data:,",
    "toolkit.telemetry.enabled": False,
    "toolkit.telemetry.server": "",
    "ui.prefersReducedMotion": 1,
}


def firefox() -> str | None:
    """Return where Firefox is, or nothing."""
    return shutil.which("firefox-esr") or shutil.which("firefox")


def environment(folder: Path) -> dict[str, str]:
    """Return the environment of a Firefox that writes nothing but below ``folder``."""
    return {**os.environ, "HOME": str(folder), "MOZ_CRASHREPORTER_DISABLE": "1"}


def profile(folder: Path) -> Path:
    """Make a fresh profile in ``folder``."""
    folder.mkdir(parents=True)
    lines = [f"user_pref({json.dumps(name)}, {json.dumps(value)});" for name, value in _PREFERENCES.items()]
    (folder / "user.js").write_text("\n".join(lines) + "\n", "utf-8")
    return folder


class Firefox:
    """One window of a running Firefox."""

    def __init__(self, folder: Path) -> None:
        self.asked: list[str] = []
        self.complaints: list[str] = []
        self._log = folder / "firefox.log"
        self._numbers = itertools.count(1)
        command = [str(firefox()), "--headless", "--no-remote", "--profile", str(profile(folder / "profile"))]
        with self._log.open("wb") as log:
            self._process = subprocess.Popen(
                [*command, "--remote-debugging-port=0", "about:blank"], stdout=log, stderr=log, env=environment(folder)
            )
        self._open = contextlib.ExitStack()
        self._socket = self._open.enter_context(connect(f"{self._address()}/session", max_size=None, open_timeout=60))
        self._ask("session.new", capabilities={})
        events = ["network.beforeRequestSent", "log.entryAdded"]
        self._ask("session.subscribe", events=events)
        self._window = self._ask("browsingContext.getTree")["contexts"][0]["context"]

    def open(self, address: str) -> None:
        """Open a page and wait until it is loaded."""
        self._ask("browsingContext.navigate", context=self._window, url=address, wait="complete")

    def run(self, script: str) -> Any:
        """Return the value of an expression in the page, awaited; text, numbers, lists of those."""
        target = {"context": self._window}
        told = self._ask("script.evaluate", expression=script, target=target, awaitPromise=True)
        if told["type"] != "success":
            raise AssertionError(told["exceptionDetails"]["text"])
        return _plain(told["result"])

    def wait(self, script: str, limit_s: float = 30) -> Any:
        """Return the value of an expression as soon as it is one that counts as true."""
        end = time.monotonic() + limit_s
        while time.monotonic() < end:
            if found := self.run(script):
                return found
            time.sleep(0.1)
        raise AssertionError(f"not within {limit_s} s: {script}; the page says: {self.run('document.body.innerText')}")

    def type(self, words: str) -> None:
        """Press the keys of ``words``, wherever the focus is."""
        keys = [{"type": kind, "value": key} for key in words for kind in ("keyDown", "keyUp")]
        self._ask(
            "input.performActions", context=self._window, actions=[{"type": "key", "id": "keys", "actions": keys}]
        )

    def close(self) -> None:
        """End it."""
        self._open.close()
        self._process.terminate()
        self._process.wait(30)

    def _address(self) -> str:
        end = time.monotonic() + 90
        while time.monotonic() < end and self._process.poll() is None:
            found = re.search(r"WebDriver BiDi listening on (ws://\S+)", self._log.read_text("utf-8", "replace"))
            if found:
                return found[1]
            time.sleep(0.1)
        raise AssertionError(f"Firefox did not start: {self._log.read_text('utf-8', 'replace')[-2000:]}")

    def _ask(self, method: str, **params: object) -> Any:
        number = next(self._numbers)
        self._socket.send(json.dumps({"id": number, "method": method, "params": params}))
        while True:
            told = json.loads(self._socket.recv(timeout=60))
            if told["type"] == "event":
                self._hear(told["method"], told["params"])
            elif told["id"] == number:
                if told["type"] == "error":
                    raise AssertionError(f"{method}: {told['error']}: {told['message']}")
                return told["result"]

    def _hear(self, event: str, told: dict[str, Any]) -> None:
        if event == "network.beforeRequestSent":
            self.asked.append(told["request"]["url"])
        elif told["level"] in ("error", "warn"):
            self.complaints.append(told["text"])


def _plain(value: dict[str, Any]) -> Any:
    """Return a remote value as Python has it."""
    if value["type"] == "array":
        return [_plain(one) for one in value["value"]]
    return value.get("value")
