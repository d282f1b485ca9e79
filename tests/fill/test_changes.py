"""What a new edition says has changed, from the records of two editions; and that saying so makes no edition."""

import dataclasses
import json
from datetime import date
from functools import lru_cache

from bs4 import BeautifulSoup

from generator.fill import fill
from generator.model import pages as p
from generator.model.manual import Manual
from generator.model.site import Edition, Finished, PublishedVan
from tests.finished import finished_fixture, rendered_pages
from tests.fixture_manual import (
    EDITION,
    FOLDER,
    NEXT_EDITION,
    VALUES,
    fixture_manual,
    number,
    page,
    para,
)

CHANGED = "what-changed.html"


def published(finished: Finished, edition: Edition = EDITION) -> PublishedVan:
    """Return what the records hold of a manual; the record as it is read back from JSON."""
    return PublishedVan(
        chassis="ZZ9MR48NZTH000417",
        folder=FOLDER,
        edition=edition.number,
        day=edition.day,
        digest=finished.digest,
        pages=(),
        places={},
        record=json.loads(json.dumps(dict(finished.record))),
    )


@lru_cache(maxsize=1)
def changed_manual() -> Manual:
    """Return the fixture with another payload, room, gas days, fridge, place name and procedure; a page more."""
    old = fixture_manual()
    pages = []
    for one in old.pages:
        if one.path == "hot-water.html":
            one = dataclasses.replace(one, body=(para("Other words."), *one.body[-1:]))
        if one.path == "A1/index.html":
            one = dataclasses.replace(one, title="Gas locker & front")
        if one.path == "snags.html":  # it leads to every place
            one = dataclasses.replace(one, body=one.body[-1:])
        if one.path != "C2/index.html":
            pages.append(one)
    pages.append(page("fridge.html", "Run the fridge", "topic", para("Turn it on."), topics=("fridge/run",)))
    values = {**VALUES, "number/gas-days-typical": "9 days", "place/A1/left": "11 kg"}
    values["verdict/gas-days-typical"] = number("gas-days-typical", "Days from one bottle", "9 days", "", "", None)
    home = dataclasses.replace(pages[0], body=tuple(_without_places(node) for node in pages[0].body))
    return dataclasses.replace(
        old,
        pages=(home, *pages[1:]),
        values={key: value for key, value in values.items() if key != "drawing/van"},
        equipment={"fridge": "Compressor fridge"},
    )


def _without_places(node: p.Node) -> p.Node:
    return p.Group("van", node.children[:1]) if isinstance(node, p.Group) and node.role == "van" else node


def made(previous: PublishedVan | None, edition: Edition = NEXT_EDITION) -> Finished:
    manual = changed_manual()
    return fill(manual, rendered_pages(*manual.pages), edition, FOLDER, previous)


def rows(finished: Finished) -> dict[str, list[str]]:
    """Return the rows of the page by heading."""
    main = BeautifulSoup(finished.files[CHANGED].decode(), "html.parser").main
    assert main is not None
    return {
        head.get_text(): [row.get_text(" ", strip=True) for row in head.find_next_sibling("ul").select("li")]  # type: ignore[union-attr]
        for head in main.select("h2[id^=changed]")
    }


def test_the_first_edition_says_so() -> None:
    finished = finished_fixture()
    assert "<p>This is the first edition.</p>" in finished.files[CHANGED].decode()
    assert finished.record["changes"] == {"since": None, "groups": ()}


def test_everything_that_differs_is_listed_old_and_new() -> None:
    found = rows(made(published(finished_fixture())))
    assert found == {
        "Equipment": ["New Compressor fridge"],
        "Places": ["Changed A1 Gas locker & front Before: Front gas locker", "Taken out C2 Rear left steady"],
        "Numbers": ["Changed Days from one bottle 9 days Before: 11 days"],
        "Room in places": ["Changed A1 Gas locker & front, room left 11 kg Before: 14 kg"],
        "Pages": ["Changed Heat the water on gas", "New Run the fridge"],
    }


def test_values_and_places_are_escaped_and_pages_linked() -> None:
    html = made(published(finished_fixture())).files[CHANGED].decode()
    assert '<a href="A1/index.html">A1 Gas locker &amp; front</a>' in html
    assert '<a href="fridge.html">Run the fridge</a>' in html
    assert "C2 Rear left steady</p>" in html  # no link to a page that is not there


def test_the_same_manual_has_the_same_digest_whatever_came_before() -> None:
    """Else the page would make a new edition of an unchanged manual, and that one another."""
    first = made(None, EDITION)
    second = made(published(finished_fixture()))
    third = made(published(second, NEXT_EDITION), Edition(number=4, day=date(2027, 2, 1)))
    assert first.digest == second.digest == third.digest
    assert first.files[CHANGED] != second.files[CHANGED]


def test_a_standing_edition_written_again_says_what_it_said() -> None:
    once = made(published(finished_fixture()))
    again = made(published(once, NEXT_EDITION))
    assert dict(again.files) == dict(once.files)


def test_an_edition_whose_lists_are_all_alike_says_so() -> None:
    record = published(made(None, EDITION))
    assert "are as they were." in made(record).files[CHANGED].decode()


def test_a_record_of_an_earlier_version_is_compared_as_far_as_it_goes() -> None:
    old = published(finished_fixture())
    kept = {key: value for key, value in old.record.items() if key in ("edition", "numbers", "places")}
    found = rows(made(dataclasses.replace(old, record=kept)))
    assert list(found) == ["Places", "Numbers"]


def test_the_single_file_says_it_too_without_links() -> None:
    finished = made(published(finished_fixture()))
    single = BeautifulSoup(finished.files[str(finished.record["single"])].decode(), "html.parser")
    part = single.select_one("#p-what-changed")
    assert part is not None
    assert [head.get_text() for head in part.select("h3")] == list(rows(finished))
    assert part.select(".changes a") == [] and part.select("h2")[0].get_text() == "What changed"


def test_the_worker_leads_to_the_page() -> None:
    assert 'const CHANGES = "what-changed.html";' in finished_fixture().files["sw.js"].decode()
