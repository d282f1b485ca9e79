"""Values go into holes escaped, or not at all."""

import dataclasses

import pytest
from bs4 import BeautifulSoup

from generator.errors import RenderError
from generator.model import pages as p
from generator.model.holes import HoleValue
from tests.finished import finished, finished_fixture
from tests.fixture_manual import VALUES, fixture_manual, home, line, page, para

HOSTILE = """<img src=x onerror=alert(1)> & "quoted" 'single' {{ 7*7 }} </title></script> ]]>"""


def filled(*nodes: p.Node, **values: HoleValue) -> BeautifulSoup:
    """Return a page of ``nodes`` filled; ``__`` in a name stands for its slash."""
    named = {name.replace("__", "/"): value for name, value in values.items()}
    own = page("own.html", "Own", "topic", *nodes)
    manual = fixture_manual(values={**VALUES, **named})
    made = finished(dataclasses.replace(manual, pages=(*manual.pages, own)))
    return BeautifulSoup(made.files["own.html"].decode(), "html.parser")


@pytest.mark.parametrize("name", ["van/name", "van/tail", "dealer/name"])
def test_hostile_names_come_out_as_the_same_words(name: str) -> None:
    made = filled(para(line(p.TextHole(name))), **{name.replace("/", "__"): HOSTILE})
    assert made.main is not None and HOSTILE in made.main.get_text()
    assert made.find("img") is None
    assert not [tag for tag in made.find_all(True) if any(attr.startswith("on") for attr in tag.attrs)]


def test_a_hostile_van_breaks_no_other_file() -> None:
    manual = fixture_manual(model=HOSTILE, values={**VALUES, "van/name": HOSTILE})
    made = finished(manual)
    for path, content in made.files.items():
        if path.endswith(".html"):
            assert BeautifulSoup(content.decode(), "html.parser").find("img") is None, path


def test_a_telephone_number_becomes_a_link_of_its_digits() -> None:
    made = filled(para(line(p.DialHole("dealer/phone"))), dealer__phone='+64 3 555 "0142"')
    assert made.main is not None
    link = made.main.select_one("p a.call")
    assert link is not None and link["href"] == "tel:+6435550142" and link.get_text() == '+64 3 555 "0142"'


def test_a_telephone_number_without_digits_stays_words() -> None:
    made = filled(para(line(p.DialHole("dealer/phone"))), dealer__phone="ask at the desk")
    assert made.main is not None and made.main.find("a", class_="call") is None


@pytest.mark.parametrize("bad", ["a\ue000b", "a\ue001", "a\x00b"])
def test_a_value_that_could_pass_for_a_hole_is_refused(bad: str) -> None:
    with pytest.raises(RenderError, match="cannot be printed"):
        filled(para(line(p.TextHole("van/name"))), van__name=bad)


def test_a_missing_value_is_a_fault_with_page_and_name() -> None:
    with pytest.raises(RenderError, match=r'own.html: no value for "number/none"'):
        filled(para(line(p.TextHole("number/none"))))


def test_a_drawing_where_text_goes_is_a_fault() -> None:
    with pytest.raises(RenderError, match='"drawing/van" is no text'):
        filled(para(line(p.TextHole("drawing/van"))))


def test_text_where_a_drawing_goes_is_a_fault() -> None:
    with pytest.raises(RenderError, match='"van/name" is text'):
        filled(p.FragmentHole("van/name"))


def test_all_faults_of_a_manual_are_told_at_once() -> None:
    pages = tuple(page(f"{n}.html", n, "topic", para(line(p.TextHole(f"number/{n}")))) for n in ("a", "b"))
    with pytest.raises(RenderError) as caught:
        finished(fixture_manual(pages=(home(), *pages)))
    told = {str(fault) for fault in caught.value.faults}
    assert {'error: a.html: no value for "number/a"', 'error: b.html: no value for "number/b"'} <= told


def test_no_hole_is_left_anywhere() -> None:
    for path, content in finished_fixture().files.items():
        if not path.endswith((".zip", ".png", ".bin")):
            assert "\ue000" not in content.decode() and "\ue001" not in content.decode(), path
