"""Writes the service worker and the web app manifest.

What a browser keeps is listed with a hash each, so a half finished upload or an old copy is refused.
"""

import base64
import hashlib
import json
from collections.abc import Mapping, Sequence, Set

from generator.fill.assets import FOLDER, LOST, NOT_YET
from generator.fill.packs import Pack
from generator.model.manual import Manual
from generator.model.site import Edition

MANIFEST = "app.webmanifest"
_FIRST_TEMPLATES = {"home", "emergency"}
_ON_THEIR_OWN_PAGES = ("plan.", "planners.")  # scripts that no other page asks for
_PLACEHOLDERS = ("VERSION", "PREFIX", "FILES", "PACKS", "EDITION", "DAY", "CHANGES")
_DIGITS = 16  # of base64, 96 of the 256 bits: light, and still no other content can be made to fit


def first_pages(manual: Manual) -> Set[str]:
    """Return the pages that a first visit takes at once: start, emergencies, and what answers a missing page."""
    return {page.path for page in manual.pages if page.template in _FIRST_TEMPLATES} | {LOST, NOT_YET}


def worker(
    source: str, files: Mapping[str, bytes], packed: Sequence[Pack], manual: Manual, folder: str, edition: Edition
) -> bytes:
    """Return ``sw.js``.

    Args:
        source: The worker's template with ``@@NAME@@`` where data goes.
        files: Every file the browser is to keep.
        packed: Its pages in packs; those of the first pack are taken at once.
        manual: The manual, for the pages that are kept first.
        folder: Names the caches of this van; all vans of a host share its storage.
        edition: For the words about a newer one, and for pages that differ from those before in nothing else.
    """
    listed = json.dumps(_listed(files, packed), separators=(",", ":"))
    paths = json.dumps([pack.path for pack in packed], separators=(",", ":"))
    changes = "what-changed.html" if "what-changed.html" in files else ""
    data = {
        "VERSION": json.dumps(hashlib.sha256((source + listed + paths).encode()).hexdigest()[:16]),
        "PREFIX": json.dumps(f"lockerleaf-{folder}-"),
        "FILES": listed,
        "PACKS": paths,
        "EDITION": json.dumps(edition.number),
        "DAY": json.dumps(edition.day_in_words),
        "CHANGES": json.dumps(changes),
    }
    for name in _PLACEHOLDERS:
        source = source.replace(f"@@{name}@@", data[name])
    return source.encode("utf-8")


def digest_of(content: bytes) -> str:
    """Return what the worker compares: the first digits of the sha256 in base64."""
    return base64.b64encode(hashlib.sha256(content).digest()).decode()[:_DIGITS]


def _listed(files: Mapping[str, bytes], packed: Sequence[Pack]) -> list[list[object]]:
    """Path, digest, 0 for what a first visit takes at once or 1 for the rest, and the number of a page's pack."""
    number = {path: pack for pack, each in enumerate(packed) for path in each.pages}
    listed: list[list[object]] = [
        [path, digest_of(files[path]), 0 if _in_shell(path) else 1] for path in sorted(files) if path not in number
    ]
    return listed + [[path, digest_of(files[path]), min(pack, 1), pack] for path, pack in number.items()]


def _in_shell(path: str) -> bool:
    name = path.removeprefix(f"{FOLDER}/")
    return path == MANIFEST or (name.endswith((".css", ".js")) and not name.startswith(_ON_THEIR_OWN_PAGES))


def app_manifest(manual: Manual, names: Mapping[str, str]) -> bytes:
    """Return the web app manifest; its start address makes each van an app of its own.

    An "id" is read from the root of the host (Web Application Manifest, "id member"); all vans would be one app.
    """
    sizes = {"asset/icon-192.png": "192x192", "asset/icon-512.png": "512x512"}
    app = {
        "name": f"{manual.model} manual",
        "short_name": manual.model,
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "lang": manual.language,
        "background_color": "#F7F5F0",
        "theme_color": "#F7F5F0",
        "icons": [
            {"src": names[name], "sizes": size, "type": "image/png", "purpose": "any"} for name, size in sizes.items()
        ],
    }
    return (json.dumps(app, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()
