"""The van drawing: well-formed, named, linked, where the build sheet says, and nothing made up."""

import dataclasses
import itertools
import xml.etree.ElementTree as ET

import pytest

from generator.fill.drawing import van_figure, whereabouts
from generator.model.holes import DrawnPlace, VanDrawing
from tests.fixture_manual import drawing

HOSTILE = """<script>x</script>" onload='y' & ]]>"""


def tree(van: VanDrawing, root: str = "") -> ET.Element:
    """Parse as XML: stricter than a browser."""
    return ET.fromstring(str(van_figure(van, root)))


def place(code: str, name: str, behind_m: float, left_m: float, where: str = "outside") -> DrawnPlace:
    side = "inside" if where == "inside" else "outside"
    return DrawnPlace(
        code=code, name=name, where=side, behind_coupling_m=behind_m, left_m=left_m, path=f"{code}/index.html"
    )


def test_each_place_is_a_named_link_to_its_page() -> None:
    van = drawing()
    links = {link.get("aria-label"): link.get("href") for link in tree(van, "../").iter("a") if link.get("aria-label")}
    assert links == {f"{one.code} {one.name}": f"../{one.path}" for one in van.places}


def test_outside_and_inside_are_drawings_of_their_own_with_a_name() -> None:
    pictures = list(tree(drawing()).iter("svg"))
    assert [picture.get("role") for picture in pictures] == ["group", "group"]
    assert [picture.get("aria-label") for picture in pictures] == [
        "Outside of the van from above, 11 places",
        "Inside of the van from above, 6 places",
    ]


def test_outside_is_a_square_and_inside_a_ring() -> None:
    """Told apart by shape, not by colour (WCAG 2.2, 1.4.1)."""
    made = tree(drawing())
    outside, inside = made.iter("svg")
    assert len(outside.findall(".//rect[@class='van__spot']")) == 11
    assert not outside.findall(".//circle")
    assert len(inside.findall(".//circle[@class='van__ring']")) == 6


def test_markers_lie_to_scale() -> None:
    """Front up, left of travel left: equal distances on the van are equal distances in the drawing."""
    van = dataclasses.replace(
        drawing(), places=(place("A1", "a", 1, 0), place("D1", "d", 2, 1), place("B1", "b", 3, -1))
    )
    spots = [
        (float(spot.get("x") or 0), float(spot.get("y") or 0))
        for spot in tree(van).findall(".//rect[@class='van__spot']")
    ]
    (ax, ay), (dx, dy), (bx, by) = spots
    assert ay < dy < by and dx < ax < bx
    assert ax - dx == pytest.approx(bx - ax, abs=0.2)
    assert dy - ay == pytest.approx(by - dy, abs=0.2)
    assert ax - dx == pytest.approx(dy - ay, abs=0.2)  # one metre across is one metre along


def test_a_stray_position_is_drawn_at_the_rim() -> None:
    van = dataclasses.replace(drawing(), places=(place("C1", "c", 99, -99),))
    made = tree(van)
    spot = made.find(".//rect[@class='van__spot']")
    height = float((next(made.iter("svg")).get("viewBox") or "").split()[3])
    assert spot is not None and 0 < float(spot.get("x") or 0) < 360 and float(spot.get("y") or 0) < height


def test_hit_areas_are_44_high_and_do_not_overlap() -> None:
    """WCAG 2.2, 2.5.8 asks for 24; the brief for 44."""
    van = drawing()
    for picture in tree(van).iter("svg"):
        hits = [
            (float(hit.get("x") or 0), float(hit.get("y") or 0), float(hit.get("height") or 0))
            for hit in picture.findall(".//rect[@class='van__hit']")
        ]
        assert all(height >= 44 for _, _, height in hits)
        for side in {x for x, _, _ in hits}:
            tops = sorted(y for x, y, _ in hits if x == side)
            assert all(below - above >= 44 - 0.11 for above, below in itertools.pairwise(tops))


def test_many_places_are_split_from_front_to_rear() -> None:
    places = tuple(place(f"D{n}", f"Locker {n}", 1 + n / 10, 1) for n in range(30))
    made = tree(dataclasses.replace(drawing(), places=places))
    assert [len(picture.findall(".//a")) for picture in made.iter("svg")] == [18, 12]


def test_hostile_names_stay_names() -> None:
    made = tree(dataclasses.replace(drawing(), places=(place("A1", HOSTILE, 1, 0),)))
    assert [link.get("aria-label") for link in made.iter("a")] == [f"A1 {HOSTILE}"]
    assert not list(made.iter("script"))


def test_nothing_is_taken_from_elsewhere() -> None:
    for element in tree(drawing()).iter():
        assert element.tag in {"div", "p", "a", "figure", "figcaption", "svg", "g", "path", "rect", "circle", "text"}
        assert not {"style", "onload", "onclick"} & set(element.attrib)


def test_one_place_in_focus_is_one_picture_with_words() -> None:
    made = tree(drawing("B2"))
    picture = next(made.iter("svg"))
    assert picture.get("role") == "img"
    assert picture.get("aria-label") == "B2: Outside, on the right, 4.9 m behind the coupling."
    assert [text.text for text in picture.iter("text")][-1] == "B2"
    assert not list(made.iter("a"))


@pytest.mark.parametrize(
    ("behind_m", "left_m", "words"),
    [
        (0, 0, "Outside, at the coupling."),
        (2, 0.1, "Outside, in the middle, 2.0 m behind the coupling."),
        (2, 1, "Outside, on the left, 2.0 m behind the coupling."),
        (2, -1, "Outside, on the right, 2.0 m behind the coupling."),
    ],
)
def test_whereabouts_in_words(behind_m: float, left_m: float, words: str) -> None:
    assert str(whereabouts(drawing(), place("X1", "x", behind_m, left_m))) == words


@pytest.mark.parametrize(("axles", "wheels"), [(1, 2), (2, 4)])
def test_each_axle_has_two_wheels(axles: int, wheels: int) -> None:
    made = tree(dataclasses.replace(drawing(), axles=axles, places=(place("A1", "a", 1, 0),)))
    assert len(made.findall(".//rect[@class='van__wheel']")) == wheels


def test_a_van_without_drawn_places_has_an_empty_drawing() -> None:
    assert not list(tree(dataclasses.replace(drawing(), places=())).iter("svg"))
