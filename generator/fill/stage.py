"""The stage itself: rendered pages and one van's values become every file of its manual, in memory.

Order matters: names of assets carry their content, pages name assets, the worker lists pages, the zip holds all.
"""

import re
from collections.abc import Mapping

from markupsafe import Markup

from generator.errors import Fault, RenderError
from generator.fill.archive import archive
from generator.fill.assets import LOST, NOT_YET, PLAN, SEARCH, WORKER, file_stem, hashed
from generator.fill.changes import as_data, changes_list, changes_since
from generator.fill.drawing import van_figure
from generator.fill.holes import finish, printable, settle
from generator.fill.links import check_links
from generator.fill.numbers import data_table, number_panel, summary, verdicts, working
from generator.fill.packs import packs
from generator.fill.panel import panel_figure
from generator.fill.pictures import inlined, picture_figure, picture_files
from generator.fill.planners import plan_script
from generator.fill.record import RECORD, as_json, digest, edition_record
from generator.fill.search import search_script
from generator.fill.single import single_file, style_source
from generator.fill.worker import MANIFEST, app_manifest, first_pages, worker
from generator.model.changes import Changes
from generator.model.digests import page_key
from generator.model.holes import HoleValue, Notice, Summary, VanDrawing, Verdicts, Working
from generator.model.manual import Manual
from generator.model.numbers import DataTable, Number
from generator.model.panels import PanelDrawing
from generator.model.pictures import Picture
from generator.model.site import Edition, Finished, PublishedVan, Rendered


def fill(
    manual: Manual, rendered: Rendered, edition: Edition, folder: str, previous: PublishedVan | None = None
) -> Finished:
    """Return every file of one manual; the only way from a page to a file.

    Args:
        manual: The manual.
        rendered: Pages with holes, among them all of ``manual``.
        edition: Number and day, printed on every page and left out of the digest.
        folder: The manual's folder in the library.
        previous: What the records hold of it, for the page that says what changed; left out of the digest too.

    Raises:
        RenderError: a value is missing or of the wrong kind, a link is dead, something would be fetched from elsewhere.
    """
    stem = file_stem(manual)
    names, assets = hashed({**rendered.assets, SEARCH: search_script(manual), PLAN: plan_script(manual)})
    names |= {"site/single": f"{stem}.html", "site/zip": f"{stem}.zip"}
    settled = _settled(manual, rendered, names, folder)
    kept_out = names["site/single"]
    plain = {**assets, **picture_files(manual), MANIFEST: app_manifest(manual, names)}
    record = edition_record(manual, edition, {"single": names["site/single"], "zip": names["site/zip"]})
    changes = changes_since(previous, edition.number, record)
    record["changes"] = as_data(changes)
    finished = {
        path: finish(html, _of_edition(edition, changes, alone=path == kept_out)).encode("utf-8")
        for path, html in settled.items()
    }
    pages = {path: content for path, content in finished.items() if path != kept_out}
    packed = packs(pages, first_pages(manual))
    source = rendered.assets[WORKER].decode("utf-8")
    files = {
        **plain,
        **finished,
        "sw.js": worker(source, {**plain, **pages}, packed, manual, folder, edition),
        RECORD: as_json(record),
    }
    files[names["site/zip"]] = archive(files, stem)
    files |= {pack.path: pack.content for pack in packed}
    faults = check_links(files, folder)
    if faults:
        raise RenderError(*faults)
    unnumbered = {path: html.encode("utf-8") for path, html in settled.items()} | {WORKER: rendered.assets[WORKER]}
    return Finished(files=files, digest=digest({**plain, **unnumbered}), record=record)


def _of_edition(edition: Edition, changes: Changes, *, alone: bool) -> dict[str, str | Markup]:
    """Return what fills the holes of the edition; in the file that stands ``alone`` headings are one level down."""
    return {
        "edition/number": str(edition.number),
        "edition/date": edition.day_in_words,
        "edition/changes": changes_list(changes, 3 if alone else 2, links=not alone),
    }


def _settled(manual: Manual, rendered: Rendered, names: Mapping[str, str], folder: str) -> dict[str, str]:
    """Return every HTML file with all holes filled but those of the edition."""
    pages: dict[str, str] = {}
    faults: list[Fault] = []
    for page in manual.pages:
        html = rendered.pages.get(page_key(page))
        if html is None:
            faults.append(Fault(f"{page.path}: the page was not rendered"))
            continue
        try:
            pages[page.path] = settle(html, manual.values, names, page.root, draw, page.path)
        except RenderError as error:
            faults += error.faults
    if faults:
        raise RenderError(*faults)
    style = rendered.assets["style.css"].decode("utf-8")
    in_order = [(page, pages[page.path]) for page in manual.pages]
    alone = single_file(in_order, style, manual.model, manual.tail)
    pages[names["site/single"]] = inlined(alone, picture_files(manual))
    return pages | {path: _by_itself(path, manual, rendered, folder) for path in (LOST, NOT_YET)}


def _by_itself(path: str, manual: Manual, rendered: Rendered, folder: str) -> str:
    """Return a page that is served at any address; its policy names the hashes of its own style and script."""
    html = rendered.assets[path].decode("utf-8")
    own = {"site/language": manual.language, "site/folder": folder}
    for name, tag in (("lost/style", "style"), ("lost/script", "script")):
        found = re.search(rf"<{tag}>(.*?)</{tag}>", html, re.DOTALL)
        own[name] = style_source(found.group(1) if found else "").strip("'").removeprefix("sha256-")
    return settle(html, {**manual.values, **own}, {}, "", draw, path)


def draw(value: HoleValue, root: str) -> Markup:
    """Return a fragment as HTML."""
    match value:
        case Number():
            return number_panel(value)
        case DataTable():
            return data_table(value)
        case Working():
            return working(value)
        case Summary():
            return summary(value, root)
        case Verdicts():
            return verdicts(value, root)
        case VanDrawing():
            return van_figure(value, root)
        case PanelDrawing():
            return panel_figure(value)
        case Picture():
            return picture_figure(value, root)
        case Notice(text=text):
            return Markup('<p class="draft">{}</p>').format(printable(text)) if text else Markup("")
        case _:
            raise TypeError(f"no fragment is drawn from a {type(value).__name__}")
