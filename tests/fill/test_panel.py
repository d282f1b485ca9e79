"""Drawings of panels: words for everything, nothing over the edge or over another label, ink alone, light to send."""

import gzip
import itertools
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from generator.assemble.panels import draw_panel
from generator.fill.panel import panel_figure, panel_picture
from generator.load import load
from generator.model.caravan import Equipment
from generator.model.panels import Face, PanelDrawing, Part

ROOT = Path(__file__).resolve().parents[2]
SIZE = 16.0  # of every letter, in units that are pixels where there is room


@cache
def shipped() -> dict[str, PanelDrawing]:
    """Return every drawing of every kind of the catalogue."""
    catalogue = load(ROOT, [ROOT / "van_specs/vans/sorrel-0032.yaml"]).catalogue
    made = {}
    for (slot, id_), kind in catalogue.kinds.items():
        at = dict.fromkeys(kind.points, "A1")
        one = Equipment(slot=catalogue.slots[slot], kind=kind, key=slot, at=at, source=kind.source)
        made |= {f"{slot}/{id_} {name}": draw_panel(one, name) for name in kind.drawings}
    return made


def tree(panel: PanelDrawing) -> ET.Element:
    return ET.fromstring(str(panel_figure(panel)))


def part(form: str, *faces: str, marked: str = "", name: str = "Thing") -> Part:
    return Part(name=name, form=form, faces=tuple(Face(words=one, marked=one == marked) for one in faces))  # type: ignore[arg-type]


def drawing(*parts: Part) -> PanelDrawing:
    return PanelDrawing(title="Heater: control", rows=(parts,))


def boxes(panel: PanelDrawing) -> list[tuple[float, float, float, float, str]]:
    """Return left, top, right, bottom of each label: half a letter's size wide for each letter, on the narrow side."""
    found = []
    for text in tree(panel).iter("text"):
        words, x, y = text.text or "", float(text.attrib["x"]), float(text.attrib["y"])
        width = len(words) * SIZE * (0.55 if text.attrib.get("font-weight") else 0.5)
        left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[text.attrib.get("text-anchor", "middle")] * width
        found.append((left, y - 0.7 * SIZE, left + width, y + 0.15 * SIZE, words))
    return found


def shapes(panel: PanelDrawing) -> str:
    return "".join(re.findall(r'<path d="[^"]*"', str(panel_figure(panel))))


# --- every drawing that is shipped ----------------------------------------------------------------------


def test_the_shipped_kinds_have_drawings() -> None:
    slots = {name.partition("/")[0] for name in shipped()}
    wanted = (
        "hot_water room_heater fridge panel consumer_unit solar mover toilet aircon inverter charger breakaway co_alarm"
    )
    assert set(wanted.split()) <= slots


def test_no_label_leaves_the_frame_or_lies_on_another() -> None:
    for name, panel in shipped().items():
        svg = tree(panel).find("svg")
        assert svg is not None
        width, height = (float(one) for one in svg.attrib["viewBox"].split()[2:])
        assert width <= 360, name  # as wide as the column of a phone
        labels = boxes(panel)
        for left, top, right, bottom, words in labels:
            assert left >= 0 and top >= 0 and right <= width and bottom <= height, (name, words)
        for one, other in itertools.combinations(labels, 2):
            apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
            assert apart, (name, one[4], other[4])


def test_every_label_is_read_at_the_size_of_the_text() -> None:
    """16 units; under the column of a step, the narrowest place, the drawing is 0.8 of its size or more: 12.8 px."""
    for name, panel in shipped().items():
        sizes = [float(one.attrib["font-size"]) for one in tree(panel).iter() if "font-size" in one.attrib]
        assert sizes == [SIZE], name


def test_every_drawing_is_light() -> None:
    for name, panel in shipped().items():
        assert len(gzip.compress(str(panel_figure(panel)).encode())) <= 1_200, name


def test_everything_on_a_panel_is_said_in_words() -> None:
    for name, panel in shipped().items():
        said = " ".join(item.text or "" for item in tree(panel).iter("li"))
        for one in panel.parts:
            assert one.name in said and all(face.words in said for face in one.faces), name


def test_colour_and_style_are_left_to_the_page() -> None:
    """Ink alone: it holds on dark ground, on paper, and where a browser brings its own colours."""
    for panel in shipped().values():
        for element in tree(panel).iter():
            assert "style" not in element.attrib and "id" not in element.attrib  # ids would stand twice in one file
            assert element.attrib.get("fill", "none") in ("none", "currentColor")
            assert element.attrib.get("stroke", "none") in ("none", "currentColor")


# --- one thing at a time -------------------------------------------------------------------------------


def test_a_drawing_has_a_name_says_that_it_is_a_sketch_and_what_is_set() -> None:
    made = tree(drawing(part("dial", "off", "gas", marked="gas", name="Knob")))
    svg = made.find("svg")
    assert svg is not None and svg.attrib["role"] == "img"
    assert (svg.findtext("title"), svg.findtext("desc")) == ("Heater: control", "A sketch, not to scale. Knob: gas.")
    assert "go by its labels" in (made.findtext("figcaption") or "")


@pytest.mark.parametrize("form", ["dial", "switch", "breaker", "keys"])
def test_a_marked_position_is_framed_and_heavy_and_no_other(form: str) -> None:
    made = tree(drawing(part(form, "off", "on", marked="on")))
    heavy = [one.text for one in made.iter("text") if one.attrib.get("font-weight") == "700"]
    assert heavy == ["on"]


@pytest.mark.parametrize(
    "form", ["dial", "switch", "breaker", "breakers", "lamp", "display", "window", "gauge", "meter"]
)
def test_another_state_is_another_picture(form: str) -> None:
    faces = ("red", "green")
    drawn = {shapes(drawing(part(form, *faces, marked=one))) for one in faces}
    assert len(drawn) == 2 or form in ("display", "window")  # those say it in words
    said = {tuple(one.text for one in tree(drawing(part(form, *faces, marked=one))).iter("text")) for one in faces}
    assert len(said) == 2 or form not in ("display", "window")


def test_colours_of_lamps_differ_in_shape_too() -> None:
    drawn = [
        shapes(drawing(part("lamp", colour))) for colour in ("red", "green", "blue", "amber", "flashing red", "white")
    ]
    assert len(set(drawn)) == len(drawn)


def test_a_lamp_has_its_colour_beside_it_as_a_word() -> None:
    assert [one.text for one in tree(drawing(part("lamp", "red", "green"))).iter("text")] == ["red", "green", "Thing"]


def test_of_a_row_of_breakers_one_has_tripped() -> None:
    up, tripped = (shapes(drawing(part("breakers", "off", "on", marked=one))) for one in ("on", "off"))
    levers = [re.findall(r"M[\d. ]+h14v22", one) for one in (up, tripped)]
    assert [len(one) for one in levers] == [3, 3]
    assert len(set(levers[0]) - set(levers[1])) == 1


def test_what_the_drawing_is_not_about_is_quiet() -> None:
    made = tree(drawing(part("lamp", "red", marked="red", name="Lamp"), part("dial", "off", "on", name="Knob")))
    assert [one.text for one in made.iter("text") if one.attrib.get("class") == "panel__quiet"] == ["Knob"]


def test_a_row_breaks_where_a_phone_ends() -> None:
    parts = [part("keys", "forwards", "backwards", name=f"Buttons {n}") for n in range(4)]
    svg = tree(drawing(*parts)).find("svg")
    assert svg is not None and float(svg.attrib["width"]) <= 360


def test_words_of_a_kind_are_escaped() -> None:
    hostile = '</text><script>&"'
    made = tree(drawing(part("switch", hostile, "on", marked=hostile, name=hostile)))
    assert not list(made.iter("script"))
    assert [one.text for one in made.iter("text")].count(hostile) >= 1


def test_paper_gets_the_same_drawing_with_all_of_it_in_words() -> None:
    panel = replace(drawing(part("switch", "off", "on", marked="on", name="Pump")), title="12 V panel")
    picture = panel_picture(panel)
    assert picture.caption == "12 V panel. Pump: off, on. Here: on."
    assert picture.svg in str(panel_figure(panel)) and picture.width == float(
        ET.fromstring(picture.svg).attrib["width"]
    )


def test_at_rest_a_switch_stands_at_off() -> None:
    """Of car, off and van it would otherwise show the one that empties the car's battery."""
    rest, off = (shapes(drawing(part("switch", "car", "off", "van", marked=one))) for one in ("", "off"))
    assert re.findall(r"M5 [\d.]+h20", rest) == re.findall(r"M5 [\d.]+h20", off) != []
