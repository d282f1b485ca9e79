"""One page of a manual by itself, for the writer who is looking at it; nothing here is published.

A manual that is published is filled whole, by ``stage``.
"""

from collections.abc import Mapping

from generator.fill.assets import PLAN, SEARCH, hashed
from generator.fill.changes import changes_list, changes_since
from generator.fill.holes import finish, settle
from generator.fill.pictures import picture_files
from generator.fill.planners import plan_script
from generator.fill.search import search_script
from generator.fill.stage import draw
from generator.model.manual import Manual
from generator.model.pages import Page
from generator.model.site import Edition

LATER = "not-in-the-preview.html"  # where single file and zip would be


def files_beside(manual: Manual, assets: Mapping[str, bytes]) -> tuple[Mapping[str, str], Mapping[str, bytes]]:
    """Return paths by hole name and files by path of everything a page fetches."""
    names, files = hashed({**assets, SEARCH: search_script(manual), PLAN: plan_script(manual)})
    return {**names, "site/single": LATER, "site/zip": LATER}, {**files, **picture_files(manual)}


def one_page(page: Page, html: str, manual: Manual, names: Mapping[str, str], edition: Edition) -> str:
    """Return one rendered page with every hole filled.

    Args:
        page: The page.
        html: What ``render`` made of it.
        manual: Where its values are.
        names: From ``files_beside``.
        edition: Printed on it.

    Raises:
        RenderError: a value is missing or of the wrong kind.
    """
    settled = settle(html, manual.values, names, page.root, draw, page.path)
    changes = changes_list(changes_since(None, edition.number, {}), 2, links=True)
    return finish(
        settled,
        {"edition/number": str(edition.number), "edition/date": edition.day_in_words, "edition/changes": changes},
    )
