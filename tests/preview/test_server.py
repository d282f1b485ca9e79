"""The bench in the browser: loopback only, reload on save, switches, and an end of its own."""

import json
import re
import signal
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest

from generator.preview import Bench, View, serve

from ..test_cli import REPO, SORREL, TANSY, change, copied

BLOCK, PAGE = "content/blocks/gas/open.md", "open-the-gas.html"


@dataclass(frozen=True)
class Running:
    """A preview in a process of its own."""

    root: Path
    site: str  # ending in a slash
    process: "subprocess.Popen[str]"

    def get(self, path: str, **headers: str) -> tuple[int, str, str]:
        """Return status, text, and where a redirect leads; redirects are not followed."""
        request = urllib.request.Request(self.site + path, headers=headers)
        opener = urllib.request.build_opener(_Stay)
        try:
            with opener.open(request, timeout=60) as answer:
                return answer.status, answer.read().decode("utf-8", "replace"), answer.headers.get("Location", "")
        except urllib.error.HTTPError as error:
            return error.code, error.read().decode("utf-8"), error.headers.get("Location", "")

    def next_build(self, save: "tuple[str, str, str]") -> None:
        """Save a change as an editor does, and wait as a browser does until it is built."""
        epoch = self.get("livereload/0/1")[1]
        change(self.root / save[0], save[1], save[2])
        assert int(self.get(f"livereload/{epoch}/1")[1]) > int(epoch)


class _Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *_: object) -> None:
        return None


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    root = copied(tmp_path_factory.mktemp("preview") / "desk", SORREL, TANSY)
    words = [sys.executable, "-m", "generator", "preview", SORREL, "--workspace", str(root)]
    with subprocess.Popen(words, cwd=REPO, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            address = process.stdout.readline().strip()
            assert re.fullmatch(r"http://127\.0\.0\.1:\d+/sorrel-0032/index\.html", address)
            yield Running(root, address.removesuffix("sorrel-0032/index.html"), process)
        finally:
            process.terminate()


def test_the_bare_address_leads_to_the_van(running: Running) -> None:
    assert running.get("")[2] == "/sorrel-0032/index.html"
    status, html, _ = running.get("sorrel-0032/index.html")
    assert status == 200 and "lockerleaf-bench" in html and "No faults." in html


def test_what_pages_fetch_is_there(running: Running) -> None:
    html = running.get(f"sorrel-0032/{PAGE}")[1]
    for path in re.findall(r'(?:href|src)="(assets/[^"]+)"', html):
        assert running.get(f"sorrel-0032/{path}")[0] == 200, path
    for path in re.findall(r'(?:href|src)="/(-/[^"]+\.(?:css|js))"', html):
        assert running.get(path)[0] == 200, path
    assert running.get("sorrel-0032/sw.js")[0] == 404  # nothing of a preview is kept in a browser


def test_a_save_is_told_and_the_changed_page_is_where_to_go(running: Running) -> None:
    build = json.loads(running.get("-/now?view=sorrel-0032&path=index.html&build=0")[1])["build"]
    running.get("sorrel-0032/index.html")
    running.next_build((BLOCK, "**At the end:**", "Freshly saved words.\n\n**At the end:**"))
    now = json.loads(running.get(f"-/now?view=sorrel-0032&path=index.html&build={build}")[1])
    assert now == {"build": build + 1, "go": f"/sorrel-0032/{PAGE}"}
    assert "Freshly saved words." in running.get(now["go"][1:])[1]
    stay = json.loads(running.get(f"-/now?view=sorrel-0032&path={PAGE}&build={build}")[1])
    assert stay["go"] == ""


def test_a_fault_stands_in_the_page_with_file_and_line(running: Running) -> None:
    running.get(f"sorrel-0032/{PAGE}")
    running.next_build((BLOCK, "form: procedure", "form: <b>"))
    html = running.get(f"sorrel-0032/{PAGE}")[1]
    assert f"<code>{BLOCK}:4:" in html and "The page below is as it was before." in html
    assert "&#34;&lt;b&gt;&#34; is not known here" in html and 'is not known here" <b>' not in html
    running.next_build((BLOCK, "form: <b>", "form: procedure"))
    assert "No faults." in running.get(f"sorrel-0032/{PAGE}")[1]


def test_van_market_and_colours_are_switched(running: Running) -> None:
    to = running.get("-/go?van=tansy-0108&market=nz&scheme=dark&path=A1/index.html")[2]
    assert to == "/tansy-0108@nz/A1/index.html"
    assert running.get("-/go?van=tansy-0108&market=&path=hob.html/none")[2] == "/tansy-0108/index.html"
    html = running.get(to[1:], Cookie="lockerleaf-scheme=dark")[1]
    assert '<meta name="color-scheme" content="dark">' in html and '<option value="nz" selected>' in html
    style = next(path for path in re.findall(r'href="\.\./(assets/[^"]+\.css)"', html))
    css = {
        scheme: running.get(f"tansy-0108@nz/{style}", Cookie=f"lockerleaf-scheme={scheme}")[1]
        for scheme in ("dark", "light", "")
    }
    assert "prefers-color-scheme: dark" in css[""] and "prefers-color-scheme" not in css["dark"] + css["light"]
    assert "(min-width: 0px)" in css["dark"] and "(min-width: 99999px)" in css["light"]


def test_a_van_is_put_together_on_a_page(running: Running) -> None:
    html = running.get("-/mix?from=sorrel-0032")[1]
    assert '<option value="single-ring" selected>' in html  # what the van has is chosen first
    assert '<option value="uk" selected>' in html and '<option value="1" selected>' in html
    assert '<option value="nz" selected>' in running.get("-/mix?from=sorrel-0032@nz")[1]
    to = running.get("-/mix?market=uk&axles=1&slot.oven=gas&slot.hob=")[2]
    assert to == "/mix@uk+1+oven.gas/index.html"
    assert "Use the oven" in running.get("mix@uk+1+oven.gas/oven.html")[1]
    wrong = running.get("mix@uk+1+oven.coal/index.html")
    assert wrong[0] == 200 and "the catalogue has no oven/coal" in wrong[1] and "as it was before" not in wrong[1]


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:1", "localhost.evil.example"])
def test_another_name_is_refused(host: str, running: Running) -> None:
    assert running.get("sorrel-0032/index.html", Host=host)[0] == 403


@pytest.mark.parametrize(
    "path",
    ["../etc/passwd", "sorrel-0032/../../x", "-/secret", "%2e%2e/x", "sorrel-0032/assets/../../x.css", "nothing"],
)
def test_nothing_else_is_served(path: str, running: Running) -> None:
    status, text, _ = running.get(path)
    assert status in (200, 404) and "root:" not in text
    assert status == 404 or "no build sheet is called" in text or "This van has no such page" in text


def test_only_this_machine_can_reach_it(running: Running) -> None:
    port = int(running.site.rstrip("/").rpartition(":")[2])
    lines = Path("/proc/net/tcp").read_text().splitlines() if Path("/proc/net/tcp").exists() else []
    listening = [line.split()[1] for line in lines if line.split()[3] == "0A"]
    assert not lines or [one for one in listening if one.endswith(f":{port:04X}")] == [f"0100007F:{port:04X}"]


def test_ctrl_c_stops_it_quietly(tmp_path: Path) -> None:
    root = copied(tmp_path / "desk", SORREL)
    words = [sys.executable, "-m", "generator", "preview", SORREL, "--workspace", str(root)]
    with subprocess.Popen(words, cwd=REPO, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None and process.stdout.readline().startswith("http://127.0.0.1:")
            process.send_signal(signal.SIGINT)
            out, err = process.communicate(timeout=30)
        finally:
            process.kill()
    assert (process.returncode, err) == (0, "") and "Preview stopped." in out


def test_it_stops_by_itself(tmp_path: Path) -> None:
    root = copied(tmp_path / "desk", SORREL)
    told: list[str] = []
    bench = Bench(root, root / "site_template", [], date(2026, 11, 25))
    began = time.monotonic()
    thread = threading.Thread(target=serve, args=(bench, View(van="sorrel-0032"), 0, 1.5, told.append))
    thread.start()
    thread.join(30)
    assert not thread.is_alive() and told and 1 < time.monotonic() - began < 20


def test_a_taken_port_is_told(running: Running, tmp_path: Path) -> None:
    port = running.site.rstrip("/").rpartition(":")[2]
    words = [sys.executable, "-m", "generator", "preview", SORREL, "--workspace", str(running.root), "--port", port]
    done = subprocess.run(words, cwd=REPO, capture_output=True, text=True, timeout=60)
    assert done.returncode == 1 and f"port {port} cannot be opened" in done.stderr


def test_nothing_to_show_is_a_wrong_command(tmp_path: Path) -> None:
    done = subprocess.run([sys.executable, "-m", "generator", "preview"], cwd=REPO, capture_output=True, text=True)
    assert done.returncode == 2 and "name a build sheet, or kinds with --fit" in done.stderr


def test_a_build_sheet_that_is_not_there_is_told_at_once() -> None:
    words = [sys.executable, "-m", "generator", "preview", "van_specs/vans/none-such.yaml"]
    done = subprocess.run(words, cwd=REPO, capture_output=True, text=True, timeout=60)
    assert done.returncode == 1 and "none-such.yaml:1:1: error: this build sheet is missing" in done.stderr
