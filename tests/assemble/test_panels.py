"""Panels: what a block asks to be drawn is drawn as the kind says, at its place and in the lights; else it is told."""

from generator.assemble.panels import draw_panel
from generator.errors import Source
from generator.model import blocks as b
from generator.model import pages as p
from generator.model.panels import PanelDrawing

from .small_van import (
    block,
    call,
    caravan,
    content,
    control,
    faults,
    fitted,
    group,
    line,
    manual,
    page,
    place,
    step,
    steps,
)

AT = Source("content/blocks/a/b.md", 14, 4)


def heater(**more):
    controls = {
        "dial": control("control", name="Dial", positions=("off", "30", "70"), unit="degC", drawn="dial"),
        "lit": control("control", name="Lamp above the dial", lamp="green"),
        "failed": control("control", name="Lamp above the dial", lamp="red", shows="It gave up."),
        "beep": control("control", name="Beeper", sound="two beeps"),
    }
    more = {"panels": {"control": [["lit"], ["dial"]]}, "states": {"on": {"dial": "30", "lit": "lit"}}} | more
    return fitted("hot_water", at={"control": "H4"}, name="Water heater", controls=controls, **more)


def test_controls_of_one_name_are_one_thing_with_all_its_looks():
    drawing = draw_panel(heater(), "control")
    assert drawing.title == "Water heater: control"
    (lamp,), (dial,) = drawing.rows
    assert (lamp.form, [face.words for face in lamp.faces]) == ("lamp", ["green", "red"])
    assert (dial.form, dial.unit, [face.words for face in dial.faces]) == ("dial", "°C", ["off", "30", "70"])
    assert not any(face.marked for part in drawing.parts for face in part.faces)
    assert drawing.in_words == ("Lamp above the dial: green, red.", "Dial: off, 30, 70 °C.")


def test_a_state_sets_what_it_names():
    drawing = draw_panel(heater(), "on")
    assert [part.marked and part.marked.words for part in drawing.parts] == ["green", "30"]
    assert drawing.in_words == ("Lamp above the dial: green, red. Here: green.", "Dial: off, 30, 70 °C. Here: 30.")


def test_the_name_of_a_lamp_lights_it_and_nothing_else():
    assert [part.marked and part.marked.words for part in draw_panel(heater(), "failed").parts] == ["red", None]


def test_a_kind_draws_its_panels_states_and_lamps_and_no_sound():
    assert heater().kind.drawings == dict.fromkeys(("lit", "failed", "on", "control"), "control")


def test_a_drawing_stands_under_its_step_and_in_a_paragraph_of_its_own():
    body = [
        steps(step("Turn it.", line(call("drawing", "hot_water.on")))),
        b.Standalone(None, call("drawing", "hot_water.control"), AT),
    ]
    got = manual(content([block("a/b", *body)]), caravan(heater(), places=[place("H4", "Kitchen")]))
    made, alone = [node for node in page(got, "a-b.html").body if isinstance(node, p.Steps | p.FragmentHole)]
    assert made.items[0].pictures == (p.FragmentHole("drawing/hot_water.on"),)
    assert alone == p.FragmentHole("drawing/hot_water.control")
    assert isinstance(got.values["drawing/hot_water.on"], PanelDrawing)


def test_a_place_page_shows_the_panels_that_are_there():
    got = manual(
        content([block("a/b", steps("Look."))]), caravan(heater(), places=[place("H4", "Kitchen"), place("H5", "Bed")])
    )
    assert group(page(got, "H4/index.html"), "drawn")[1:] == (p.FragmentHole("drawing/hot_water.control"),)
    assert not any(isinstance(node, p.Group) and node.role == "drawn" for node in page(got, "H5/index.html").body)


def test_lights_and_sounds_shows_panels_on_which_something_lights():
    knob = fitted(
        "room_heater",
        at={"control": "H5"},
        controls={"knob": control("control", name="Knob", positions=("off", "on"))},
        panels={"control": [["knob"]]},
    )
    van = caravan(heater(), knob, places=[place("H4", "Kitchen"), place("H5", "Bed")])
    heading, where, drawing = group(
        page(manual(content([block("a/b", steps("Look."))]), van), "lights-and-sounds.html"), "drawn"
    )
    assert (heading.text, where.lines) == ("How they look", ((p.PlaceRef("H4", "Kitchen"),),))
    assert drawing == p.FragmentHole("drawing/hot_water.control")


def test_a_drawing_this_van_does_not_have_is_told_with_what_its_kind_has():
    made = content([block("a/b", steps(step("Turn it.", line(call("drawing", "hot_water.out", AT)))))])
    (fault,) = faults(made, caravan(heater(), places=[place("H4", "Kitchen")]))
    assert fault.startswith("content/blocks/a/b.md:14:4: error: asks for drawing hot_water.out, which this van")
    assert "hint: hot_water/plain has: lit, failed, on, control" in fault


def test_a_drawing_of_an_empty_slot_asks_for_a_guard():
    made = content([block("a/b", steps(step("Turn it.", line(call("drawing", "hot_water.on", AT)))))])
    (fault,) = faults(made, caravan())
    assert "which this van does not have" in fault


def test_a_panel_at_a_point_this_van_lacks_is_not_drawn():
    hand = {"ready": control("handset", name="Lamp of the handset", lamp="green")}
    mover = fitted("mover", controls=hand, panels={"handset": [["ready"]]}, points={"handset": "optional"})
    got = manual(content([block("a/b", steps("Look."))]), caravan(mover, places=[place("H4", "Kitchen")]))
    assert not [name for name in got.values if name.startswith("drawing/mover")]
