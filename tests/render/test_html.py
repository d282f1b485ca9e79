"""Nodes become HTML: everything escaped, holes kept, safety messages before what they belong to."""

import dataclasses

import pytest
from bs4 import BeautifulSoup
from markupsafe import Markup

from generator.errors import RenderError
from generator.model import pages as p
from generator.model.blocks import Text
from generator.render.html import body
from generator.render.template import read_template
from tests.finished import TEMPLATE
from tests.fixture_manual import FROST, GAS, ODD, SCALD, line, link, links, page, para

PICTURES = read_template(TEMPLATE).pictures
HOSTILE = """<script>alert(1)</script>" onload="x" 'y' &amp; {{ 7*7 }} {% x %} ]]> -->"""


def html(*nodes: p.Node, template: str = "topic", path: str = "a.html") -> BeautifulSoup:
    own = page(path, "Title", template, *nodes)
    return BeautifulSoup(str(body(dataclasses.replace(own, body=nodes), PICTURES)), "html.parser")


@pytest.mark.parametrize(
    "node",
    [
        p.Heading(2, HOSTILE, "a"),
        para(HOSTILE),
        para(line(p.Strong((Text(HOSTILE),)), p.Ref("b.html", "", (Text(HOSTILE),)))),
        para(line(p.PlaceRef("A1", HOSTILE))),
        p.Bullets(((line(HOSTILE),),)),
        p.Table((line("head"),), ((line(HOSTILE),),)),
        links(link("b.html", HOSTILE, HOSTILE)),
        p.Checks("c", (p.Check("c-1", line(HOSTILE), "b.html", ""),)),
        p.Steps((p.Step((), (line(HOSTILE),)),)),
    ],
)
def test_words_of_an_author_come_out_as_the_same_words(node: p.Node) -> None:
    made = html(node)
    assert HOSTILE in made.get_text()
    assert made.find("script") is None
    assert not [tag for tag in made.find_all(True) if any(name.startswith("on") for name in tag.attrs)]


def test_hostile_targets_stay_inside_their_attribute() -> None:
    made = html(links(link('x"><b>.html', "words")))
    assert made.find("b") is None
    assert made.a is not None and made.a["href"] == 'x"><b>.html'


def test_holes_are_written_by_kind() -> None:
    made = str(html(para(line(p.TextHole("van/name"), p.DialHole("dealer/phone"))), p.FragmentHole("table/room-left")))
    assert "\ue000t:van/name\ue001" in made
    assert "\ue000d:dealer/phone\ue001" in made
    assert "\ue000f:table/room-left\ue001" in made


def test_copies_are_linked_by_a_hole_for_their_name() -> None:
    assert 'href="../\ue000n:site/zip\ue001"' in str(html(links(link("site/zip", "All")), path="A1/index.html"))


@pytest.mark.parametrize("bad", ["\ue000t:van/name\ue001", "bell\x07", "\ue001"])
def test_a_character_that_marks_holes_or_cannot_be_printed_is_refused(bad: str) -> None:
    with pytest.raises(RenderError, match="cannot be printed"):
        html(para(bad))


def test_a_name_of_a_value_that_would_break_out_is_refused() -> None:
    with pytest.raises(RenderError, match="names a value that cannot be"):
        html(para(line(p.TextHole('x\ue001"><script>'))))


def test_messages_stand_before_the_step_in_the_reading_order() -> None:
    """ANSI Z535.6: an embedded message stands before the step it belongs to (shared safety notes, section 3)."""
    made = html(
        p.Steps((p.Step((), (line("First."),)), p.Step((SCALD,), (line("Turn the dial."), line("You see: steam.")))))
    )
    second = made.find_all("li")[1]
    assert second.get_text().index("scald") < second.get_text().index("Turn the dial.")
    assert [child.get("class") for child in second.find_all(["div", "p"], recursive=False)] == [
        ["safety", "safety--caution"],
        ["act"],
        ["see"],
    ]


def test_a_message_says_word_hazard_consequence_and_what_to_do_in_that_order() -> None:
    words = html(p.SafetyBox(GAS)).get_text()
    parts = [GAS.signal, GAS.hazard.value, GAS.consequence.value, GAS.avoid.value]
    assert [words.index(part) for part in parts] == sorted(words.index(part) for part in parts)


def test_the_alert_symbol_belongs_to_injury_only() -> None:
    """ANSI Z535.6: NOTICE carries no safety alert symbol, the other three words do."""
    assert html(p.SafetyBox(GAS)).select(".safety__word svg")
    assert not html(p.SafetyBox(FROST)).select(".safety__word svg")


def test_a_sign_has_its_meaning_in_words_and_an_unknown_one_no_picture() -> None:
    sign = html(p.SafetyBox(GAS)).select_one(".safety__sign")
    assert sign is not None and sign["aria-label"] == "Catches fire"
    odd = html(p.SafetyBox(ODD))
    assert not odd.select(".safety__sign")
    assert ODD.hazard.value in odd.get_text()


def test_the_emergency_block_can_be_pointed_at() -> None:
    with_heading = html(p.Group("emergency", (p.Heading(2, "Emergency", "emergency"),)))
    without = html(p.Group("emergency", (para("Out."),)))
    assert len(with_heading.find_all(id="emergency")) == 1
    assert len(without.find_all(id="emergency")) == 1


def test_the_first_cell_heads_its_row_and_columns_are_scoped() -> None:
    made = html(p.Table((line("A"), line("B")), ((line("1"), line("2")),)))
    assert [(cell.get_text(), cell["scope"]) for cell in made.find_all("th")] == [
        ("A", "col"),
        ("B", "col"),
        ("1", "row"),
    ]


def test_signals_are_laid_out_as_cards() -> None:
    made = html(p.Table((line("Where"), line("Colour")), ((line("H1"), line("red")),)), template="lights")
    assert made.find("table") is None
    assert [part.get_text() for part in made.find_all(["p", "dt", "dd"])] == ["H1", "Colour", "red"]


def test_telephone_links_hold_digits_only() -> None:
    made = html(para(line(p.Call("+64 (3) 555-0142", (Text("+64 (3) 555-0142"),)))))
    assert made.a is not None and made.a["href"] == "tel:+6435550142"


def test_every_picture_is_plain_drawing() -> None:
    for name, picture in PICTURES.items():
        made = BeautifulSoup(str(picture), "html.parser")
        assert {tag.name for tag in made.find_all(True)} <= {"svg", "path", "circle", "rect"}, name
        assert not [tag for tag in made.find_all(True) if {"id", "style", "href", "class"} & set(tag.attrs)], name
        assert isinstance(picture, Markup)


def test_every_sign_of_the_template_has_a_meaning() -> None:
    from generator.model.signs import MEANINGS, PICTOGRAMS

    assert set(PICTURES) - {"alert"} == {*MEANINGS, *PICTOGRAMS}
