"""Questions in owners' words find their page among the first three hits of a demo van."""

import tempfile
from functools import lru_cache
from pathlib import Path

import pytest

from generator.fill import fill
from generator.model.manual import Manual
from generator.pipeline.examining import examine_van
from generator.render import render
from tests.browser.conftest import OpenPhone
from tests.finished import TEMPLATE, write_files
from tests.fixture_manual import EDITION, FOLDER

pytestmark = pytest.mark.browser

WORKSPACE = TEMPLATE.parent
VAN = "van_specs/vans/marram-0417.yaml"
LEAST_SHARE = 0.9


@lru_cache(maxsize=1)
def demo() -> Manual:
    """Return the manual of the demo van."""
    manual = examine_van(WORKSPACE, Path(VAN)).manual
    assert manual is not None, "the demo van has no manual"
    return manual


def questions() -> list[tuple[str, str]]:
    lines = (Path(__file__).parent / "questions.txt").read_text("utf-8").splitlines()
    asked = [line.split(" | ") for line in lines if line and not line.startswith("#")]
    return [(question, f"{page}.html") for question, page in asked]


def test_every_answer_is_a_page_of_the_van() -> None:
    pages = {page.path for page in demo().pages}
    assert [(question, page) for question, page in questions() if page not in pages] == []


def test_most_questions_find_their_page_among_three(phone: OpenPhone, tmp_path: Path) -> None:
    manual = demo()
    with tempfile.TemporaryDirectory() as scratch:
        rendered = render(manual.pages, TEMPLATE, Path(scratch))
    root = write_files(fill(manual, rendered, EDITION, FOLDER), tmp_path)
    page = phone().page
    page.goto((root / "index.html").as_uri())
    missed = []
    for question, wanted in questions():
        page.fill("#find", question)
        hits = [link.get_attribute("href") or "" for link in page.locator("#found a").all()[:3]]
        if not any(hit.split("#")[0].endswith(f"/{wanted}") for hit in hits):
            missed.append((question, [hit.rsplit("/", 1)[-1] for hit in hits]))
    assert len(missed) <= len(questions()) * (1 - LEAST_SHARE), missed
