"""Serves the bench on this machine alone, on the development server of MkDocs: it watches, builds and tells browsers.

Pages come from ``bench``, never from the disk. Nothing but GET is answered, and only under a name of this machine.
"""

import json
import logging
import threading
import time
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from http.cookies import CookieError, SimpleCookie
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, quote

from markupsafe import Markup
from mkdocs.livereload import LiveReloadServer

from generator.errors import Fault, ManualError
from generator.preview import chrome
from generator.preview.bench import Bench, Shown
from generator.preview.views import View, view_named

log = logging.getLogger(__name__)
HOST = "127.0.0.1"
WATCHED = ("content", "van_specs", "site_template")
_POLL_S = 0.1  # how often the files are looked at
_SETTLE_S = 0.05  # how long they have to be still
_TYPES = {
    ".html": "text/html",
    ".css": "text/css",
    ".js": "text/javascript",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".webp": "image/webp",
    ".json": "application/json",
}
_SCHEME = "lockerleaf-scheme"

Answer = tuple[str, list[tuple[str, str]], bytes]


class PreviewServer(LiveReloadServer):
    """Answers with pages of a bench; stops by itself when nobody has asked for a page for a while.

    Args:
        bench: Makes the pages.
        first: The view that the bare address leads to.
        port: 0 takes any free one.
        idle_s: Seconds without a request for a page, or a save, after which it stops.
        told: Gets the address once it can be opened.
    """

    def __init__(self, bench: Bench, first: View, port: int, idle_s: float, told: Callable[[str], None]) -> None:
        super().__init__(self._build, HOST, port, str(bench.root), polling_interval=_POLL_S)
        self.build_delay = _SETTLE_S
        self._bench, self._first, self._told = bench, first, told
        self._looked_at: tuple[View, str] = (first, "index.html")
        self._idle_s, self._used = idle_s, time.monotonic()
        for folder in WATCHED:
            if (bench.root / folder).is_dir():
                self.watch(str(bench.root / folder))

    # --- life ---------------------------------------------------------------------------------------

    def server_activate(self) -> None:
        """Say where to look, once the port is known."""
        super().server_activate()
        self._told(f"http://{HOST}:{self.server_address[1]}/{self._first.name}/index.html")
        threading.Thread(target=self._watch_idle, daemon=True).start()

    def _watch_idle(self) -> None:
        while (left := self._used + self._idle_s - time.monotonic()) > 0:
            time.sleep(min(left, 5) + 0.01)
        log.info("stopped, nobody has looked for a while")
        self.shutdown()

    def _build(self) -> None:
        """Make the page that is looked at; called when files have changed."""
        self._used = time.monotonic()
        self._bench.refresh()
        view, path = self._looked_at
        try:
            changed = self._bench.changed_since(view, self._bench.build - 1)
            self._bench.page(view, path if path in changed or not changed else changed[0])
        except Exception as error:  # whatever it is, it is told on the page that is asked for next
            log.debug("%s", error)

    # --- requests -----------------------------------------------------------------------------------

    def serve_request(self, environ: Mapping[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        """Answer one request."""
        path = str(environ["PATH_INFO"]).encode("latin-1").decode("utf-8", "replace")
        if environ["REQUEST_METHOD"] != "GET" or not self._is_ours(str(environ.get("HTTP_HOST", ""))):
            status, headers, body = _plain("403 Forbidden", "This preview is for this machine alone.")
        elif path.startswith("/livereload/"):
            return super().serve_request(environ, start_response)
        else:
            status, headers, body = self._caught(path, environ)
        headers += [("Content-Length", str(len(body))), ("Cache-Control", "no-store"), *_GUARDS]
        start_response(status, headers)
        return [body]

    def _caught(self, path: str, environ: Mapping[str, Any]) -> Answer:
        try:
            return self._answer(path, environ)
        except Exception as error:  # a server goes on; the writer is told that it is our fault
            log.exception("%s cannot be answered", path)
            return _plain("500 Internal Server Error", f"This is a bug of ours ({type(error).__name__}: {error}).")

    def _is_ours(self, host: str) -> bool:
        """A page elsewhere that has its own name point here is refused (DNS rebinding)."""
        return host in {f"{name}:{self.server_address[1]}" for name in (HOST, "localhost")}

    def _answer(self, path: str, environ: Mapping[str, Any]) -> Answer:
        asked = {key: values[0] for key, values in parse_qs(str(environ.get("QUERY_STRING", ""))).items()}
        scheme = _scheme(str(environ.get("HTTP_COOKIE", "")))
        if path == "/":
            return _redirect(f"/{self._first.name}/index.html")
        head, _, rest = path.lstrip("/").partition("/")
        if head == "-":
            return self._own(rest, asked, scheme)
        view = view_named(head)
        if view is None:
            return _plain("404 Not Found", "There is no such van.")
        return self._of_view(view, rest or "index.html", scheme)

    def _of_view(self, view: View, path: str, scheme: str) -> Answer:
        path = f"{path}index.html" if path.endswith("/") else path
        if not path.endswith(".html"):
            found = self._bench.file(view, path)
            if found is None:
                return _plain("404 Not Found", "There is no such file in a preview.")
            if path.endswith(".css"):
                found = chrome.colours(found.decode("utf-8"), scheme).encode("utf-8")
            return "200 OK", [("Content-Type", _type(path))], found
        self._used, self._looked_at = time.monotonic(), (view, path)
        return "200 OK", [("Content-Type", _type(path))], self._html(view, path, scheme).encode("utf-8")

    def _html(self, view: View, path: str, scheme: str) -> str:
        shown = self._bench.shown(view)
        try:
            found = self._bench.page(view, path)
        except ManualError as error:
            return chrome.bare("This page cannot be made", self._around(view, path, _with(shown, error), scheme))
        if found is None:
            title = "This van has no such page" if shown.manual else "This van cannot be made yet"
            link = Markup('<p><a href="/{}/index.html">Its start page</a></p>').format(view.name)
            return chrome.bare(title, self._around(view, path, shown, scheme), link if shown.manual else Markup(""))
        page, html = found
        return chrome.framed(html, self._around(view, path, shown, scheme, self._bench.judged(view, page)))

    def _around(self, view: View, path: str, shown: Shown, scheme: str, judged: tuple[Any, ...] = ()) -> chrome.Around:
        return chrome.Around(
            view=view,
            path=path,
            shown=shown,
            vans=tuple(self._bench.vans()),
            markets=sorted(shown.workspace.markets) if shown.workspace else (),
            scheme=scheme,
            judged=judged,
            found_in={file: self._bench.vans_with(view, file) for file in shown.elsewhere},
        )

    # --- the bench's own addresses ------------------------------------------------------------------

    def _own(self, name: str, asked: Mapping[str, str], scheme: str) -> Answer:
        if (file := chrome.own_file(name)) is not None:
            return "200 OK", [("Content-Type", _type(name))], file
        if name == "now":
            return self._now(asked)
        if name == "go":
            return self._go(asked)
        if name == "mix":
            return self._mix(asked, scheme)
        return _plain("404 Not Found", "There is nothing here.")

    def _now(self, asked: Mapping[str, str]) -> Answer:
        """Say which build this is, and where to look when the asking page has not changed and another has."""
        view, path, build = view_named(asked.get("view", "")), asked.get("path", ""), asked.get("build", "")
        go = ""
        if view is not None and build.isdecimal() and int(build) < self._bench.build:
            changed = self._bench.changed_since(view, int(build))
            if changed and path not in changed:
                go = f"/{view.name}/{quote(changed[0])}"
        body = json.dumps({"build": self._bench.build, "go": go}).encode()
        return "200 OK", [("Content-Type", _type("now.json"))], body

    def _go(self, asked: Mapping[str, str]) -> Answer:
        """Switch van, market and colours; the same page is shown where the other van has it."""
        van = view_named(asked.get("van", "")) or self._first
        market = asked.get("market", "")
        if van.van:
            view = View(van=van.van, market=market if market.isalpha() and market.islower() else "")
        else:
            view = View(market=market or van.market, axles=van.axles, kinds=van.kinds)
        shown = self._bench.shown(view)
        path = asked.get("path", "")
        if path not in shown.keys:
            path = "index.html"
        status, headers, body = _redirect(f"/{quote(view.name, safe='@+.')}/{quote(path)}")
        scheme = asked.get("scheme", "")
        headers.append(
            ("Set-Cookie", f"{_SCHEME}={scheme if scheme in ('light', 'dark') else ''}; Path=/; SameSite=Strict")
        )
        return status, headers, body

    def _mix(self, asked: Mapping[str, str], scheme: str) -> Answer:
        """Let a van be put together, or lead to the one that was."""
        kinds = tuple((key[5:], value) for key, value in asked.items() if key.startswith("slot.") and value)
        if "market" in asked:
            view = view_named(
                View(market=asked["market"], axles=2 if asked.get("axles") == "2" else 1, kinds=kinds).name
            )
            return (
                _redirect(f"/{quote(view.name, safe='@+.')}/index.html") if view else _plain("400 Bad Request", "No.")
            )
        view = view_named(asked.get("from", "")) or self._first
        shown = self._bench.shown(view)
        around = self._around(view, "index.html", shown, scheme)
        if shown.workspace is None:
            return "200 OK", [("Content-Type", _type("mix.html"))], chrome.bare("No catalogue", around).encode("utf-8")
        equipment = shown.caravan.equipment if shown.caravan else ()
        fitted = {one.slot.id: one.kind.id for one in equipment}
        form = chrome.picker(_like(view, shown), shown.workspace.catalogue, sorted(shown.workspace.markets), fitted)
        html = chrome.bare("Put a van together", around, form)
        return "200 OK", [("Content-Type", _type("mix.html"))], html.encode("utf-8")


def _like(view: View, shown: Shown) -> View:
    """Return a view with the market and the axles that its van has."""
    if shown.caravan is None:
        return view
    return replace(view, market=shown.caravan.market.id, axles=2 if "twin-axle" in shown.caravan.traits else 1)


_GUARDS = [
    ("X-Content-Type-Options", "nosniff"),
    ("X-Frame-Options", "DENY"),
    ("Referrer-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
]


def _type(path: str) -> str:
    kind = _TYPES.get(Path(path).suffix, "application/octet-stream")
    return f"{kind}; charset=utf-8" if kind.startswith("text/") else kind


def _plain(status: str, words: str) -> Answer:
    return status, [("Content-Type", "text/plain; charset=utf-8")], words.encode()


def _redirect(to: str) -> Answer:
    return "302 Found", [("Location", to)], b""


def _scheme(cookies: str) -> str:
    try:
        found = SimpleCookie(cookies).get(_SCHEME)
    except CookieError:
        return ""
    return found.value if found else ""


def _with(shown: Shown, error: ManualError) -> Shown:
    return replace(shown, faults=(*shown.faults, *error.faults))


def serve(bench: Bench, first: View, port: int, idle_s: float, told: Callable[[str], None]) -> None:
    """Serve until Ctrl-C, or until nobody has looked for ``idle_s`` seconds.

    Args:
        bench: Makes the pages.
        first: The view that the bare address leads to.
        port: 0 takes any free one.
        idle_s: Seconds without a request for a page, or a save, after which it stops.
        told: Gets the address once it can be opened.

    Raises:
        ManualError: the port is taken.
    """
    server = PreviewServer(bench, first, port, idle_s, told)
    try:
        server.serve()  # type: ignore[no-untyped-call]
    except KeyboardInterrupt:
        pass
    except OSError as error:
        raise ManualError(
            Fault(f"port {port} cannot be opened: {error.strerror}", hint="choose another --port")
        ) from error
    finally:
        server.shutdown()
        bench.close()
