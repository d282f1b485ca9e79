"""The dealer's records as bytes: what is published, by chassis, for programs and for people.

Nothing is written here; ``publish`` puts all of them in place together.
"""

import html
import json
from collections.abc import Mapping
from dataclasses import replace

from generator.model.release import Release
from generator.model.site import PublishedVan, Records


def with_van(records: Records, van: PublishedVan) -> Records:
    """Return the records with this van in them."""
    return replace(
        records,
        folders={**records.folders, van.chassis: van.folder},
        vans={**records.vans, van.chassis: van},
    )


def history_file(release: Release) -> dict[str, bytes]:
    """Return what is kept of an edition for good: what was published, when and from what."""
    van = release.van
    history = {**_current(van), "made_from": release.made_from}
    return {f"editions/{van.folder}/{van.edition}.json": _json(history)}


def van_files(van: PublishedVan, records: Records) -> dict[str, bytes]:
    """Return the records that say what is online now, by path from the records folder.

    Args:
        van: The van in question.
        records: The records with this van already in them.
    """
    vans = [records.vans[chassis] for chassis in sorted(records.vans)]
    return {
        "folders.json": _json(records.folders),
        f"editions/{van.folder}/current.json": _json(_current(van)),
        "vans.json": _json([_listed(each) for each in vans]),
        "vans.html": _page(vans).encode(),
    }


def _current(van: PublishedVan) -> dict[str, object]:
    return {
        "chassis": van.chassis,
        "folder": van.folder,
        "edition": van.edition,
        "day": van.day.isoformat(),
        "digest": van.digest,
        "pages": list(van.pages),
        "places": van.places,
        "record": van.record,
        "model": van.model,
        "address": van.address,
        "paper": list(van.paper),
    }


def _listed(van: PublishedVan) -> dict[str, object]:
    return {
        "chassis": van.chassis,
        "model": van.model,
        "folder": van.folder,
        "address": van.address,
        "edition": van.edition,
        "day": van.day.isoformat(),
        "paper": [f"paper/{van.folder}/{name}" for name in van.paper],
    }


def _json(value: Mapping[str, object] | list[dict[str, object]] | Mapping[str, str]) -> bytes:
    return (json.dumps(value, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()


_HEAD = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>Published manuals</title>
<style>
body { margin: 2rem auto; padding: 0 1rem; max-width: 80rem; font: 1rem/1.5 system-ui, sans-serif; color: #1c1b19; background: #f7f5f0; }
div { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; padding: 0.5rem 1rem 0.5rem 0; border-bottom: 1px solid #6f6a62; vertical-align: top; white-space: nowrap; }
a { color: #5c2f5b; }
a:focus-visible { outline: 3px solid #1c1b19; outline-offset: 2px; }
code { font-size: 1rem; }
a span { position: absolute; clip-path: inset(50%); }
</style>
</head>
<body>
<main>
<h1>Published manuals</h1>
<p>These are the dealer's own records. They hold whole chassis numbers: keep them off the web.</p>
<div role="region" aria-label="Published manuals" tabindex="0">
<table>
<thead>
<tr><th scope="col">Chassis</th><th scope="col">Model</th><th scope="col">Edition</th><th scope="col">Published</th><th scope="col">Paper</th><th scope="col">Manual</th></tr>
</thead>
<tbody>
"""  # noqa: E501 (a line of HTML is a line)

_FOOT = """</tbody>
</table>
</div>
</main>
</body>
</html>
"""


def _page(vans: list[PublishedVan]) -> str:
    """Return the list of vans as a page that opens from the records folder."""
    return _HEAD + "".join(_row(van) for van in vans) + _FOOT


def _row(van: PublishedVan) -> str:
    chassis, model, address = (html.escape(text) for text in (van.chassis, van.model, van.address))
    paper = ", ".join(
        f'<a href="paper/{van.folder}/{name}">{name}<span> of {chassis[-6:]}</span></a>' for name in van.paper
    )
    return (
        f'<tr><th scope="row"><code>{chassis}</code></th><td>{model}</td><td>{van.edition}</td>'
        f'<td>{van.day.isoformat()}</td><td>{paper}</td><td><a href="{address}">{address}</a></td></tr>\n'
    )
