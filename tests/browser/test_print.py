"""A page printed from the browser: words alone, and a message never on another sheet than what it is before."""

from pathlib import Path

import pypdfium2
import pytest

from tests.browser.conftest import OpenPhone

pytestmark = pytest.mark.browser


LOWERED = """px => {
  const space = document.createElement("p"), message = document.querySelector("main > .safety");
  space.style.height = px + "px";
  if (message) message.before(space);
}"""


def printed(phone: OpenPhone, folder: Path, path: str, lower_px: int = 0) -> list[str]:
    """Return the words of each A4 sheet; ``lower_px`` is an empty paragraph before the first message."""
    page = phone(color_scheme="dark").page
    page.goto((folder / path).as_uri())
    page.evaluate(LOWERED, lower_px)
    sheets = pypdfium2.PdfDocument(page.pdf(format="A4"))
    return [" ".join(sheet.get_textpage().get_text_bounded().split()) for sheet in sheets]


def sheets_of(words: str, sheets: list[str]) -> list[int]:
    """Return the numbers of the sheets that say ``words``."""
    return [number for number, text in enumerate(sheets) if words in text]


@pytest.mark.parametrize("lower_px", range(0, 1000, 125))
def test_a_message_stands_on_the_sheet_of_what_it_is_before(phone: OpenPhone, folder: Path, lower_px: int) -> None:
    sheets = printed(phone, folder, "hot-water.html", lower_px)
    above, step = sheets_of("enough to scald", sheets)[0], sheets_of("enough to scald", sheets)[-1]
    assert sheets_of("next spark", sheets) == [above]
    assert sheets_of("At the end:", sheets) == [above]
    assert sheets_of("Open a hot tap", sheets) == [above]
    assert sheets_of("to 60.", sheets) == [step]


def test_a_sheet_has_the_words_and_no_way_about(phone: OpenPhone, folder: Path) -> None:
    [*_, last] = sheets = printed(phone, folder, "hot-water.html")
    whole = " ".join(sheets)
    assert "Put it back:" in whole and "WARNING" in whole and "edition 2" in last
    for left_out in ("Emergency", "One step at a time", "To the text", "Keep a note", "Read next"):
        assert left_out not in whole


def test_a_checklist_is_printed_with_its_boxes(phone: OpenPhone, folder: Path) -> None:
    [sheet] = printed(phone, folder, "checklist-arriving.html")
    assert "Level the van" in sheet and "How" not in sheet and "5 of 5 left" not in sheet


def test_what_is_folded_is_printed(phone: OpenPhone, folder: Path) -> None:
    page = phone().page
    page.goto((folder / "numbers-masses.html").as_uri())
    page.evaluate("document.querySelector('main').append(document.createElement('details'))")
    assert page.locator("details[open]").count() == 0
    page.pdf()
    assert page.locator("details[open]").count() == 1
