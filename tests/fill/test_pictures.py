"""Pictures in finished manuals: drawings in the page's ink, photographs as files, in the one-file copy within it."""

import re
import shutil
from datetime import date
from pathlib import Path

import pytest

from generator.fill import fill
from generator.model.site import Edition, Finished
from generator.pipeline.examining import examine_van
from generator.render import render

from ..load.test_pictures import photograph

ROOT = Path(__file__).parents[2]
MARRAM = "van_specs/vans/marram-0417.yaml"


@pytest.fixture(scope="module")
def finished(tmp_path_factory: pytest.TempPathFactory) -> Finished:
    """The tourer with a photograph of its own coupling in place of one drawing."""
    root = tmp_path_factory.mktemp("pictures")
    for folder in ("content", "van_specs", "site_template"):
        shutil.copytree(ROOT / folder, root / folder)
    (root / "van_specs/pictures").mkdir(exist_ok=True)
    (root / "van_specs/pictures/own.jpg").write_bytes(photograph())
    sheet = root / MARRAM
    own = '\npictures: {coupling.locked: {file: own.jpg, alt: "The head of \\"this\\" van & <no other>."}}\n'
    sheet.write_text(sheet.read_text("utf-8") + own, "utf-8")
    examined = examine_van(root, sheet)
    manual = examined.manual
    assert manual is not None, examined.faults
    rendered = render(manual.pages, root / "site_template", root / "scratch")
    return fill(manual, rendered, Edition(number=1, day=date(2026, 11, 25)), "ABCDEFGHJK")


def page(finished: Finished, name: str) -> str:
    return finished.files[name].decode("utf-8")


def test_a_drawing_stands_in_its_step_with_its_words(finished: Finished) -> None:
    html = page(finished, "couple-up.html")
    step = next(part for part in html.split("<li>") if "until it stays open" in part)
    assert '<figure class="picture"><svg role="img" aria-label="The handle of the coupling head stands up.' in step
    assert 'stroke="currentColor"' in step and "style=" not in step


def test_a_photograph_is_a_file_with_its_words_and_sides(finished: Finished) -> None:
    html = page(finished, "couple-up.html")
    found = re.search(r'<img src="(assets/picture\.[0-9a-f]{10}\.webp)" alt="([^"]*)" width="960" height="720"', html)
    assert found and found[2] == "The head of &#34;this&#34; van &amp; &lt;no other&gt;."
    assert finished.files[found[1]][:4] == b"RIFF" and len(finished.files[found[1]]) <= 40_000
    assert found[1] in page(finished, "sw.js")  # kept on the phone with everything else


def test_the_one_file_copy_holds_its_photographs(finished: Finished) -> None:
    (name,) = [path for path in finished.files if path.startswith("marram-480") and path.endswith(".html")]
    html = page(finished, name)
    assert 'src="data:image/webp;base64,' in html and "assets/picture" not in html
