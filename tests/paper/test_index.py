"""The index names every title, what titles are about, and what owners call things, most to the point first."""

import pytest

from generator.paper.index import sort_key
from generator.paper.subjects import subjects_of, usual_case
from tests.paper.printed import VANS, document_of, manual_of

Index = dict[str, tuple[str, list[list[str]]]]  # words as printed and marks by rank, by what they are sorted by


def index(van: str) -> Index:
    entries = [entry for letter in document_of(van)["index"] for entry in letter["x"]]  # type: ignore[attr-defined]
    return {sort_key(entry["t"]): (entry["t"], entry["to"]) for entry in entries}


@pytest.mark.parametrize("van", VANS)
def test_each_title_of_a_topic_page_and_place_is_in_it_with_its_own_page(van: str) -> None:
    found, manual = index(van), manual_of(van)
    pages = {page.path: page for page in manual.pages if page.template in ("topic", "emergency", "place")}
    missing = []
    for page in pages.values():
        printed, (own, speaks, _) = found[sort_key(page.title)]
        if page.path not in (speaks if page.template == "place" else own):
            missing.append((page.title, printed))
    for topic in (one for one in manual.search if one.path in pages and pages[one.path].template != "place"):
        _, (own, *_) = found[sort_key(topic.title)]
        if (f"{topic.path}#{topic.anchor}" if topic.anchor else topic.path) not in own:
            missing.append((topic.title, topic.path))
    assert len(pages) > 60 and missing == []


def test_plain_words_of_what_a_van_has_are_in_it() -> None:
    wanted = (
        *("fire", "carbon monoxide", "gas smell", "electric shock", "burn", "emergency", "fridge", "toilet", "oven"),
        *("grill", "hob", "heating", "water", "waste", "mains", "consumer unit", "control panel", "parking brake"),
        *("radio", "wheel"),
    )
    found = index("marram-0417")
    assert [words for words in wanted if words not in found] == []


def test_what_is_named_so_comes_first_and_what_is_worked_out_last() -> None:
    found = index("marram-0417")
    assert found["smoke alarm"][1][0] == ["smoke-alarm.html"] and "fire.html" in found["smoke alarm"][1][1]
    _, (_, speaks, reckons) = found["ball load"]
    assert "ball-load.html" in speaks and "numbers-ball-load.html" in reckons


def test_short_forms_keep_their_capitals() -> None:
    found = index("marram-0417")
    assert [found[words][0] for words in ("rcd", "mcb", "ehu", "lpg", "wc", "co alarm", "mtplm", "gtw")] == [
        *("RCD", "MCB", "EHU", "LPG", "WC", "CO alarm", "MTPLM", "GTW")
    ]
    assert usual_case("led light, usb socket") == "LED light, USB socket"


def test_one_thing_and_several_are_one_entry() -> None:
    found = index("marram-0417")
    assert "tyre" in found and "tyres" not in found


@pytest.mark.parametrize(
    ("title", "wanted"),
    [
        ("Put the jockey wheel down", ["jockey wheel", "wheel"]),
        ("Light a gas ring", ["gas ring", "ring"]),
        ("Test the RCD", ["RCD", "RCD"]),
        ("Burn or scald", ["burn", "burn", "scald", "scald"]),
        ("Hitch up", []),
    ],
)
def test_titles_are_about_their_names(title: str, wanted: list[str]) -> None:
    assert list(subjects_of(title)) == wanted
