"""A browser of its own, under nobody's remote control: a page beside the manual does what it is told and tells back.

Chromium under remote control (Playwright) hangs on the first load after a new worker took over, which no owner's
browser does; so what happens to editions is looked at from here.
"""

import itertools
import json
import queue
import subprocess
from pathlib import Path
from typing import Any

from tests.browser.conftest import FLAGS, chromium
from tests.browser.firefox import environment, firefox, profile
from tests.browser.wire import WireHost

# The manual is in the frame; what the page is told to do runs beside it and sees into it.
_PAGE = """<!doctype html><meta charset="utf-8"><title>desk</title>
<iframe width="390" height="844"></iframe><script type="module">
const frame = document.querySelector("iframe");
const sleep = time => new Promise(done => setTimeout(done, time));
const $ = selector => frame.contentDocument?.querySelector(selector);
const said = selector => $(selector)?.textContent.trim() || "";
async function until(test) { for (let i = 0; i < 600; i++) { if (test()) return; await sleep(50); } throw new Error(test + "; " + said("#ready")); }
async function open(path) { const loaded = new Promise(done => { frame.onload = done; }); frame.src = path; await loaded; }
async function update() {
  const kept = await frame.contentWindow.navigator.serviceWorker.getRegistration();
  try { await kept.update(); } catch { /* no signal */ }
  await until(() => !kept.installing && !kept.waiting);
}
const Run = (async () => {}).constructor;
for (;;) {
  const answer = await fetch("/desk/next").catch(() => null);
  if (!answer || answer.status !== 200) { await sleep(50); continue; }
  const { number, script } = await answer.json();
  const told = { number };
  try { told.value = await new Run("frame", "$", "said", "until", "open", "update", "sleep", script)(frame, $, said, until, open, update, sleep); }
  catch (error) { told.error = String(error); }
  await fetch("/desk/told", { method: "POST", body: JSON.stringify(told) });
}
</script>"""  # noqa: E501


class BareBrowser:
    """Headless Chromium or Firefox as an owner has it; sits at the desk of ``host``."""

    def __init__(self, name: str, host: WireHost, folder: Path) -> None:
        self._todo: queue.Queue[bytes] = queue.Queue()
        self._told: queue.Queue[dict[str, Any]] = queue.Queue()
        self._numbers = itertools.count(1)
        host.desk = self
        page = f"{host.address}desk/"
        if name == "chromium":
            command = [chromium(), *FLAGS, f"--user-data-dir={folder / 'profile'}", page]
        else:
            command = [str(firefox()), "--headless", "--no-remote", "--profile", str(profile(folder / "profile")), page]
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
        self._process = subprocess.Popen(command, env=environment(folder), **quiet)  # type: ignore[call-overload]

    def run(self, script: str, limit_s: float = 60) -> Any:
        """Run the body of a function in the page and return its value.

        It may use ``open(path)``, ``update()``, ``until(test)``, ``said(selector)``, ``$(selector)`` and ``frame``.
        """
        number = next(self._numbers)
        self._todo.put(json.dumps({"number": number, "script": script}).encode())
        try:
            told = self._told.get(timeout=limit_s)
        except queue.Empty:
            raise AssertionError(f"no answer within {limit_s} s to {script}") from None
        assert told["number"] == number and "error" not in told, told
        return told.get("value")

    def answer(self, name: str, said: bytes) -> bytes | None:
        """Serve the page, hand it what there is to do, take what it tells."""
        if name == "told":
            self._told.put(json.loads(said))
        elif name == "next":
            try:
                return self._todo.get(timeout=1)
            except queue.Empty:
                return None
        elif not name:
            return _PAGE.encode()
        return None

    def close(self) -> None:
        """End it."""
        self._process.terminate()
        self._process.wait(30)
