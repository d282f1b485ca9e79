"""What three published demo vans say and do not say, read from the files an owner gets: pages, search index, labels."""

import re
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from bs4 import BeautifulSoup

from generator.model.release import Shelf
from generator.pipeline.checking import Judged
from generator.pipeline.publishing import publish_vans

ROOT = Path(__file__).parents[1]
SHEETS = {"tourer": "marram-0417", "teardrop": "sorrel-0032", "all-electric": "tansy-0108"}
GAS = r"gas|lpg|propane|butane|regulator|gas bottle"
TOILET = r"toilets?|cassettes?|flush tank"
MAINS_HEAT = r"mains heat\w*|room heater|convector|blower"


@pytest.fixture(scope="module")
def manuals(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Path]:
    """The published folder of each van, by a name of its own."""
    base = tmp_path_factory.mktemp("published")
    shelf = Shelf(library=base / "library", records=base / "records")
    sheets = [ROOT / f"van_specs/vans/{name}.yaml" for name in SHEETS.values()]
    made = [
        each
        for each in publish_vans(ROOT, sheets, shelf, date(2026, 11, 25), bytes(range(32)))
        if not isinstance(each, Judged)
    ]
    return {name: each.index.parent for name in SHEETS for each in made if SHEETS[name] in each.van.file}


def spoken(folder: Path) -> Iterator[tuple[str, str]]:
    """Yield name and words of every page, of the search index and of the label sheet."""
    for page in sorted(folder.rglob("*.html")):
        yield page.name, BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser").get_text(" ", strip=True)
    for index in folder.rglob("search*.js"):
        yield index.name, index.read_text(encoding="utf-8")
    sheet = folder.parents[1] / "records" / "paper" / folder.name / "labels.pdf"
    document = pypdfium2.PdfDocument(sheet)
    yield sheet.name, " ".join(page.get_textpage().get_text_range() for page in document)


def said(folder: Path, words: str) -> list[str]:
    """Return every place where any of ``words`` is said, with what stands round it."""
    pattern = re.compile(rf"\b(?:{words})\b", re.IGNORECASE)
    return [
        f"{name}: {text[max(0, hit.start() - 40) : hit.end() + 40]}"
        for name, text in spoken(folder)
        for hit in pattern.finditer(text)
    ]


def test_the_all_electric_van_says_nothing_of_gas(manuals: Mapping[str, Path]) -> None:
    assert said(manuals["all-electric"], GAS) == []


def test_the_teardrop_says_nothing_of_a_toilet_or_mains_heating(manuals: Mapping[str, Path]) -> None:
    assert said(manuals["teardrop"], TOILET) == []
    assert said(manuals["teardrop"], MAINS_HEAT) == []


def test_the_tourer_says_all_of_it(manuals: Mapping[str, Path]) -> None:
    """The search above can find: the tourer has gas, a toilet and mains heating."""
    for words in (GAS, TOILET, MAINS_HEAT):
        assert len(said(manuals["tourer"], words)) > 20


@pytest.mark.parametrize("van", SHEETS)
@pytest.mark.parametrize("page", ["carbon-monoxide-alarm", "fire", "electric-shock"])
def test_every_van_has_the_emergencies(van: str, page: str, manuals: Mapping[str, Path]) -> None:
    assert (manuals[van] / f"{page}.html").is_file()
    assert f'href="{page}.html"' in (manuals[van] / "index.html").read_text(encoding="utf-8")


def test_gas_smell_and_shut_off_stand_only_where_there_is_gas(manuals: Mapping[str, Path]) -> None:
    for page in ("gas-smell.html", "turn-the-gas-off.html"):
        assert (manuals["tourer"] / page).is_file() and (manuals["teardrop"] / page).is_file()
        assert not (manuals["all-electric"] / page).exists()


def test_a_van_speaks_the_words_of_its_market(manuals: Mapping[str, Path]) -> None:
    assert said(manuals["tourer"], "noseweight")
    assert said(manuals["tourer"], "toilet disposal point") and not said(manuals["tourer"], "dump point")


@pytest.mark.parametrize("van", SHEETS)
def test_the_full_chassis_is_nowhere(van: str, manuals: Mapping[str, Path]) -> None:
    chassis = re.search(r"^chassis: (\S+)", (ROOT / f"van_specs/vans/{SHEETS[van]}.yaml").read_text(), re.MULTILINE)
    assert chassis
    for path in manuals[van].rglob("*"):
        assert not path.is_file() or chassis[1].encode() not in path.read_bytes(), path
