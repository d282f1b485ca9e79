"""What a manual owes: answers, hazards, links that land, holes that have a value, no hole in a name."""

import pytest

from generator.assemble.faults import Faults
from generator.assemble.links import check_links
from generator.errors import ContentError, Source
from generator.model import pages as p
from generator.model.blocks import Text

from .small_van import (
    block,
    caravan,
    content,
    faults,
    fitted,
    line,
    link,
    manual,
    message,
    number,
    numbers,
    place,
    step,
    steps,
)


def test_a_topic_that_a_kind_must_have_answered_and_is_not():
    van = caravan(fitted("fridge", "absorption", must_answer=["fridge/run", "fridge/fails"]))
    (fault,) = faults(content([block("fridge/run")]), van)
    assert "fridge/absorption needs topic fridge/fails, which no block answers in this van" in fault


def test_a_hazard_that_a_kind_brings_and_nothing_prints():
    van = caravan(fitted("hob", "two-gas", hazards=["fire", "scald"]))
    safety = [message("fire"), message("scald")]
    (fault,) = faults(content([block("hob/use", hazards=["scald"])], safety=safety), van)
    assert "hob/two-gas brings hazard fire, which nothing in this van prints" in fault
    one = block("hob/use", steps(step("Go.", safety=["fire"])), hazards=["scald"])
    assert faults(content([one], safety=safety), van) == []


@pytest.mark.parametrize("where", ["title", "checklist"])
def test_a_call_in_a_title_or_checklist_is_a_fault(where):
    (fault,) = faults(content([block("a/b", **{where: "Tank of {{ number('x') }}"})]))
    assert "cannot stand here" in fault


def test_all_faults_are_told_at_once_in_order_of_position():
    one = block("a/b", steps(step(line(link("x/y", at=Source("content/blocks/a/b.md", 20))))), hazards=["nothing"])
    two = block("a/c", steps(step(line(link("x/z", at=Source("content/blocks/a/b.md", 9))))))
    with pytest.raises(ContentError) as caught:
        manual(content([one, two]))
    assert [fault.source.line for fault in caught.value.faults] == [6, 9, 20]


# --- links, tried on pages by hand since a manual that is put together has none that are dead


def checked(*pages, values=()):
    faults_ = Faults()
    check_links(pages, dict.fromkeys(values, ""), faults_)
    try:
        faults_.raise_any()
    except ContentError as error:
        return [fault.message for fault in error.faults]
    return []


def by_hand(path, *body, title="T"):
    return p.Page(id=path, path=path, title=title, template="topic", language="en", body=body)


def test_dead_paths_and_anchors_are_found_wherever_links_stand():
    ref = p.Paragraph(((p.Strong((p.Ref("x.html", "", (Text("x"),)),)),),))
    row = p.Group("do", (p.Links((p.LinkItem("a.html", "there", "A"),)),))
    check = p.Checks("c", (p.Check("c-1", (Text("C"),), "y.html", ""),))
    plate = p.Paragraph(((p.PlaceRef("B2", "Locker"),),))
    assert checked(by_hand("a.html", ref, row, check, plate)) == [
        "page a.html links to x.html, which is not there",
        "page a.html links to B2/index.html, which is not there",
        "page a.html links to a.html#there, and a.html has no such anchor",
        "page a.html links to y.html, which is not there",
    ]


def test_links_that_land_are_no_fault():
    row = p.Links((p.LinkItem("a.html", "there", "A"), p.LinkItem("site/zip", "", "All pages")))
    assert checked(by_hand("a.html", p.Heading(2, "There", "there"), row)) == []


def test_a_hole_without_value_is_found_and_those_of_the_edition_are_not():
    line_ = (p.TextHole("number/x"), p.TextHole("edition/date"), p.DialHole("dealer/phone"))
    page = by_hand("a.html", p.Paragraph((line_,)), p.FragmentHole("table/y"))
    assert checked(page, values=["dealer/phone"]) == [
        "page a.html has a hole number/x without a value",
        "page a.html has a hole table/y without a value",
    ]


def test_pages_and_anchors_given_twice_are_found():
    page = by_hand("a.html", p.Heading(2, "A", "a"), p.Heading(2, "A", "a"))
    assert checked(page, by_hand("A.html")) == ["page a.html has two headings at #a", "two pages are called A.html"]


def test_no_value_stands_in_names_titles_or_search():
    """A value that is like no other text may turn up in the values only."""
    marks = ["271.5 kg", "Quayside Vans", "01632 960123", "Small 300", "000417", "37 kg"]
    van = caravan(fitted("hob", at={"hob": "H1"}), places=[place("H1", limit="37", label=True)])
    from .small_van import call

    one = block("hob/use", steps(step(line("Room: ", call("number", "payload")))), at=["hob.hob"], checklist="Look")
    made = content([one], phases={"leaving": ("Leaving", ["hob/use"])})
    got = manual(made, van, numbers(number("payload", "271.5 kg"), left={"H1": number("left", "37 kg")}))
    for mark in marks:
        assert mark not in repr(got.pages)
        assert mark not in repr(got.search)
        assert mark in repr(got.values)


def test_the_same_inputs_give_the_same_manual_and_print_what_they_printed():
    made = content([block("a/b"), block("c/d", needs=["gas"])])
    first, second = manual(made), manual(made)
    assert repr(first) == repr(second)
    assert first.blocks == {"a/b": "digest of a/b"}
    assert first.traits == ()
