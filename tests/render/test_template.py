"""What leaves the template folder: scripts and style without what only we read, everything else as it is."""

from pathlib import Path

import pytest

from generator.render.template import read_template
from tests.finished import TEMPLATE

NEEDED = ("style.css", "van.js", "sw.template.js", "main.html", "404.html", "not-yet.html")


def sent(folder: Path, name: str, text: str) -> str:
    """Return what goes out for a file of the template."""
    for needed in NEEDED:
        (folder / needed).write_text("", "utf-8")
    (folder / name).write_text(text, "utf-8")
    return read_template(folder).files[name].decode()


def test_comments_on_lines_of_their_own_and_indentation_stay_at_home(tmp_path: Path) -> None:
    script = """/* What this is. */
    "use strict";
      // Why.
      const a = "/* no comment */", b = 'https://x'; // kept

    /* over
       two lines */
    f(a /* kept */, b);
"""
    assert sent(tmp_path, "van.js", script) == (
        '"use strict";\nconst a = "/* no comment */", b = \'https://x\'; // kept\nf(a /* kept */, b);\n'
    )


def test_code_between_two_comments_stays(tmp_path: Path) -> None:
    assert (
        sent(tmp_path, "style.css", "/* a */ p { x: y }\nq { x: y }\n/* b */\n") == "/* a */ p { x: y }\nq { x: y }\n"
    )


@pytest.mark.parametrize("script", sorted(TEMPLATE.glob("*.js")), ids=lambda path: path.name)
def test_no_script_has_a_text_over_several_lines_whose_indentation_would_count(script: Path) -> None:
    code = [line for line in script.read_text("utf-8").splitlines() if not line.strip().startswith("//")]
    assert [line for line in code if line.count("`") % 2] == []


def test_one_script_alone_reads_and_writes_what_a_browser_keeps() -> None:
    """A second one could name a key its own way, and an owner's notes would be lost to the other."""
    keeps = [path.name for path in sorted(TEMPLATE.glob("*.js")) if "localStorage" in path.read_text("utf-8")]
    assert keeps == ["parts.js"]


def test_pictures_go_out_as_they_are() -> None:
    icon = TEMPLATE / "icons/icon.svg"
    assert read_template(TEMPLATE).files["icon.svg"] == icon.read_bytes()
