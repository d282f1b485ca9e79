"""A plain static host that compresses as such hosts do, writes down what it sent, and can go out of reach.

What is sent counts as the bytes of the answer without its head lines.
"""

import gzip
import http.server
import threading
import time
from dataclasses import dataclass, field
from email.utils import formatdate, parsedate_to_datetime
from functools import partial
from pathlib import Path
from typing import Protocol
from urllib.parse import unquote, urlsplit

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".webmanifest": "application/manifest+json",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".webp": "image/webp",
    ".zip": "application/zip",
}
_COMPRESSED = {".html", ".css", ".js", ".json", ".webmanifest", ".svg"}
_PIECE = 2048  # bytes between two looks at whether the line is cut


def on_the_wire(path: str, content: bytes) -> bytes:
    """Return what a host that compresses text sends of a file: gzip -9 of it, or the file where that is of no use."""
    return gzip.compress(content, 9, mtime=0) if Path(path).suffix in _COMPRESSED else content


@dataclass(frozen=True)
class Answer:
    """One answer: the path in the library, its status, the bytes that were sent, and whether that was all of them."""

    path: str
    status: int
    sent: int
    whole: bool


@dataclass
class WireHost:
    """Serves a folder on this computer's own address.

    ``left`` is how many bytes still go out before the line is cut; None for a line that holds. While it is cut
    every connection is closed without a word.
    """

    library: Path
    left: int | None = None
    answers: list[Answer] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)  # paths in the order they were asked for
    desk: "Desk | None" = None  # is reached on a line that is cut, too
    lock: threading.Lock = field(default_factory=threading.Lock)
    server: http.server.ThreadingHTTPServer | None = None

    @property
    def address(self) -> str:
        """Where the library is served."""
        assert self.server is not None
        return f"http://127.0.0.1:{self.server.server_address[1]}/"

    def start(self) -> None:
        """Serve until ``stop``."""
        self.server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), partial(_Handler, self))
        self.server.daemon_threads = True
        threading.Thread(target=self.server.serve_forever, args=(0.05,), daemon=True).start()

    def stop(self) -> None:
        """End the server."""
        if self.server is not None:
            self.server.shutdown()
            self.server.server_close()

    def granted(self, wanted: int) -> int:
        """Take bytes from what may still go out, and return how many were left to take."""
        with self.lock:
            if self.left is None:
                return wanted
            given = min(wanted, self.left)
            self.left -= given
            return given

    @property
    def cut(self) -> bool:
        """Whether nothing goes out any more."""
        return self.left == 0

    def sent(self, since: int = 0) -> int:
        """Return the bytes that went out, of the answers from number ``since`` on."""
        return sum(answer.sent for answer in self.answers[since:])

    def quiet(self, seconds: float = 0.3, limit_s: float = 20) -> None:
        """Wait until nothing was asked for a while."""
        end, seen, since = time.monotonic() + limit_s, -1, time.monotonic()
        while time.monotonic() < end and time.monotonic() - since < seconds:
            if len(self.asked) + len(self.answers) != seen:
                seen, since = len(self.asked) + len(self.answers), time.monotonic()
            time.sleep(0.02)


class Desk(Protocol):
    """What answers below ``/desk/``: None for nothing there."""

    def answer(self, name: str, said: bytes) -> bytes | None:
        """Return the body of an answer."""
        ...


class _Handler(http.server.BaseHTTPRequestHandler):
    """Answers with files, their day for later questions, and 304 where that has not changed."""

    def __init__(self, host: WireHost, *args: object) -> None:
        self.host = host
        super().__init__(*args)  # type: ignore[arg-type]

    def do_GET(self) -> None:
        path = unquote(urlsplit(self.path).path).lstrip("/")
        if self.host.desk and path.startswith("desk/"):
            self._at_desk(path.removeprefix("desk/"))
            return
        self.host.asked.append(path)
        if self.host.cut:
            self.close_connection = True
            return
        file = self.host.library / path
        if file.is_dir():
            if not path.endswith("/"):
                self.send_response(301)
                self.send_header("Location", f"/{path}/")
                self.send_header("Content-Length", "0")
                self.end_headers()
                return
            path, file = f"{path}index.html", file / "index.html"
        if not file.is_file():
            self._lost(path)
            return
        self._file(path, file)

    def _lost(self, path: str) -> None:
        """Answer a missing page as a static host does: with the manual's own 404.html."""
        lost = next(self.host.library.glob("*/404.html"), None)
        self._send(path, 404, lost.read_bytes() if lost else b"", {"Content-Type": TYPES[".html"]})

    def do_POST(self) -> None:
        """Hear what a page tells at the desk."""
        self._at_desk(urlsplit(self.path).path.removeprefix("/desk/"))

    def _at_desk(self, name: str) -> None:
        said = self.rfile.read(int(self.headers.get("Content-Length", "0")))
        body = self.host.desk.answer(name, said) if self.host.desk else None
        self.send_response(204 if body is None else 200)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Cache-Control", "no-store")
        self.send_header("Content-Length", str(len(body or b"")))
        self.end_headers()
        self.wfile.write(body or b"")

    def _file(self, path: str, file: Path) -> None:
        changed = int(file.stat().st_mtime)
        head = {
            "Last-Modified": formatdate(changed, usegmt=True),
            "Content-Type": TYPES.get(file.suffix, "application/octet-stream"),
        }
        known = self.headers.get("If-Modified-Since")
        if known and int(parsedate_to_datetime(known).timestamp()) >= changed:
            self._send(path, 304, b"", head)
            return
        body = file.read_bytes()
        if "gzip" in self.headers.get("Accept-Encoding", ""):
            packed = on_the_wire(path, body)
            head |= {"Content-Encoding": "gzip", "Vary": "Accept-Encoding"} if packed is not body else {}
            body = packed
        self._send(path, 200, body, head)

    def _send(self, path: str, status: int, body: bytes, head: dict[str, str]) -> None:
        self.send_response(status)
        for name, value in head.items():
            self.send_header(name, value)
        if status != 304:
            self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        sent = 0
        while sent < len(body):
            given = self.host.granted(min(_PIECE, len(body) - sent))
            if not given:
                self.close_connection = True
                break
            try:
                self.wfile.write(body[sent : sent + given])
            except OSError:  # the browser did not want the rest
                break
            sent += given
        self.host.answers.append(Answer(path, status, sent, sent == len(body)))

    def log_message(self, format: str, *args: object) -> None:
        pass
