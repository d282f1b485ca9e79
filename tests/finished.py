"""The fixture manual rendered and filled, once per test run, and written to a folder where a test needs one."""

import tempfile
from functools import lru_cache
from pathlib import Path

from generator.fill import fill
from generator.model.manual import Manual
from generator.model.pages import Page
from generator.model.site import Edition, Finished, Rendered
from generator.render import render
from tests.fixture_manual import EDITION, FOLDER, fixture_manual

TEMPLATE = Path(__file__).parent.parent / "site_template"


def rendered_pages(*pages: Page) -> Rendered:
    """Return ``pages`` rendered with the shipped template, in a scratch folder of their own."""
    with tempfile.TemporaryDirectory() as scratch:
        return render(pages, TEMPLATE, Path(scratch))


@lru_cache(maxsize=1)
def rendered_fixture() -> Rendered:
    """Return the pages of the fixture manual, rendered."""
    return rendered_pages(*fixture_manual().pages)


@lru_cache(maxsize=4)
def finished_fixture(edition: Edition = EDITION) -> Finished:
    """Return the files of the fixture manual."""
    return fill(fixture_manual(), rendered_fixture(), edition, FOLDER)


def finished(manual: Manual, edition: Edition = EDITION) -> Finished:
    """Return the files of any manual."""
    return fill(manual, rendered_pages(*manual.pages), edition, FOLDER)


def write_files(files: Finished, folder: Path) -> Path:
    """Write the files of a manual below ``folder`` and return the manual's own folder."""
    root = folder / FOLDER
    for path, content in files.files.items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    return root
