"""The stage itself: all distinct pages of a run become HTML with holes in one build."""

import hashlib
import json
from collections.abc import Iterable
from pathlib import Path

from generator.model.digests import page_key
from generator.model.pages import Page
from generator.model.site import Rendered
from generator.render.html import body, has_group, has_search
from generator.render.site import Sheet, Site, build_site, tool_versions
from generator.render.template import STYLE, Template, read_template


def render(pages: Iterable[Page], template: Path, scratch: Path) -> Rendered:
    """Return every distinct page as HTML with holes, and the files that go out with every manual.

    Args:
        pages: Pages of any number of manuals; equal ones are rendered once.
        template: The template folder.
        scratch: An empty folder to work in.

    Raises:
        RenderError: the template is wrong, or a page holds what cannot be written.
    """
    kit = read_template(template)
    sheets = {page_key(page): page for page in pages}
    site = build_site({key: _sheet(page, kit) for key, page in sheets.items()}, template, scratch)
    pictures = {name: str(svg) for name, svg in kit.pictures.items()}
    return Rendered(pages=site.pages, assets=_assets(kit, site), toolchain=_toolchain(kit), pictures=pictures)


def _sheet(page: Page, kit: Template) -> Sheet:
    return Sheet(page, body(page, kit.pictures), has_search(page.body), has_group(page.body, "dealer"))


def _assets(kit: Template, site: Site) -> dict[str, bytes]:
    style = site.theme_rules.encode("utf-8") + b"\n" + kit.files[STYLE]
    alone = {name: html.encode("utf-8") for name, html in site.by_themselves.items()}
    return {**kit.files, STYLE: style, **alone}


def _toolchain(kit: Template) -> str:
    return hashlib.sha256(json.dumps([kit.digest, tool_versions()]).encode()).hexdigest()
