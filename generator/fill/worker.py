"""Writes the service worker and the web app manifest.

What a browser keeps is listed with a hash each, so a half finished upload or an old copy is refused.
"""

import base64
import hashlib
import json
from collections.abc import Mapping

from generator.fill.assets import FOLDER, LOST
from generator.model.manual import Manual

MANIFEST = "app.webmanifest"
_FIRST_TEMPLATES = {"home", "emergency", "safety"}
_PLACEHOLDERS = ("VERSION", "PREFIX", "FILES", "EDITION", "CHANGES")


def worker(source: str, files: Mapping[str, bytes], manual: Manual, folder: str, edition: int) -> bytes:
    """Return ``sw.js``.

    Args:
        source: The worker's template with ``@@NAME@@`` where data goes.
        files: Every file the browser is to keep.
        manual: The manual, for the pages that are kept first.
        folder: Names the caches of this van; all vans of a host share its storage.
        edition: Number of the edition, for the words about a newer one.
    """
    listed = json.dumps(_listed(files, manual), separators=(",", ":"))
    changes = "what-changed.html" if "what-changed.html" in files else ""
    data = {
        "VERSION": json.dumps(hashlib.sha256((source + listed).encode()).hexdigest()[:16]),
        "PREFIX": json.dumps(f"lockerleaf-{folder}-"),
        "FILES": listed,
        "EDITION": json.dumps(edition),
        "CHANGES": json.dumps(changes),
    }
    for name in _PLACEHOLDERS:
        source = source.replace(f"@@{name}@@", data[name])
    return source.encode("utf-8")


def _listed(files: Mapping[str, bytes], manual: Manual) -> list[list[object]]:
    """Path, sha256 in base64, and 0 for what a first visit takes at once, 1 for the rest."""
    first = {page.path for page in manual.pages if page.template in _FIRST_TEMPLATES} | {LOST, MANIFEST}
    return [
        [
            path,
            base64.b64encode(hashlib.sha256(files[path]).digest()).decode(),
            0 if path in first or _in_shell(path) else 1,
        ]
        for path in sorted(files)
    ]


def _in_shell(path: str) -> bool:
    return path.startswith(f"{FOLDER}/") and path.endswith((".css", ".js"))


def app_manifest(manual: Manual, names: Mapping[str, str]) -> bytes:
    """Return the web app manifest; "./" makes each van an app of its own."""
    sizes = {"asset/icon-192.png": "192x192", "asset/icon-512.png": "512x512"}
    app = {
        "name": f"{manual.model} manual",
        "short_name": manual.model,
        "id": "./",
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
