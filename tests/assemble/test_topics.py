"""Safety messages before steps, emergency pages, what ends a page."""

import pytest

from generator.model import blocks as b
from generator.model import pages as p
from generator.model.content import EmergencyNumber

from .small_van import (
    answer,
    block,
    call,
    caravan,
    content,
    faults,
    fitted,
    group,
    line,
    link,
    manual,
    message,
    opening,
    page,
    paragraph,
    place,
    section,
    step,
    steps,
    tied,
)


def ids(nodes):
    return [node.message.id for node in nodes if isinstance(node, p.SafetyBox)]


# --- safety


def test_messages_stand_first_gravest_first_and_then_as_written():
    """The signal words in order of gravity are those of ANSI Z535.6."""
    safety = [message("n", "NOTICE"), message("w2"), message("c", "CAUTION"), message("d", "DANGER"), message("w1")]
    one = block("a/b", opening("At the end:", " done."), steps("Go."), hazards=["n", "w2", "c", "d", "w1"])
    found = answer(page(manual(content([one], safety=safety)), "a-b.html"))
    assert ids(found) == ["d", "w2", "w1", "c", "n"]
    assert [type(node) for node in found[5:]] == [p.Paragraph, p.Steps]


def test_a_fault_page_says_what_is_seen_then_its_messages_then_the_steps():
    one = block("a/b", opening("You see:", " a red lamp."), steps("Look."), form="fault", hazards=["scald"])
    found = answer(page(manual(content([one], safety=[message("scald")])), "a-b.html"))
    assert [type(node) for node in found] == [p.Paragraph, p.SafetyBox, p.Steps]


def test_a_plain_paragraph_of_a_fault_page_does_not_come_before_its_messages():
    one = block("a/b", paragraph("Turn it off."), steps("Look."), form="fault", hazards=["scald"])
    found = answer(page(manual(content([one], safety=[message("scald")])), "a-b.html"))
    assert isinstance(found[0], p.SafetyBox)


def test_a_message_of_one_step_stands_in_front_of_that_step():
    one = block("a/b", steps("One.", step("Two.", safety=["scald"])))
    (found,) = answer(page(manual(content([one], safety=[message("scald")])), "a-b.html"))
    assert [[one.id for one in item.safety] for item in found.items] == [[], ["scald"]]


def test_the_message_of_a_guarded_step_goes_with_it():
    one = block("a/b", steps("One.", step("Two.", when="gas", safety=["scald"])))
    got = manual(content([one], safety=[message("scald")]))
    assert ids(page(got, "safety.html").body) == []


@pytest.mark.parametrize("at", ["hazards", "step"])
def test_an_unknown_message_is_a_fault_not_a_gap(at):
    one = block("a/b", hazards=["scold"]) if at == "hazards" else block("a/b", steps(step("Go.", safety=["scold"])))
    (fault,) = faults(content([one], safety=[message("scald")]))
    assert 'error: no safety message "scold"\n  hint: did you mean "scald"?' in fault


# --- emergencies


def emergency(*body, **kwargs):
    sections = [section("Emergency", ("fire", ["emergency/fire"]), role="emergency")]
    return content(
        [block("emergency/fire", *body, form="emergency", title="Fire", **kwargs)], sections, safety=[message("x")]
    )


def test_an_emergency_page_starts_with_its_first_action():
    got = page(manual(emergency(steps("Get everyone out."), opening("Tell them:", " where you are."))), "fire.html")
    assert got.template == "emergency"
    assert got.body[0] == p.Steps((p.Step((), ((b.Text("Get everyone out."),),)),))


@pytest.mark.parametrize(
    ("body", "kwargs", "words"),
    [
        ([paragraph("Keep calm."), steps("Go.")], {}, "an emergency starts with its first action"),
        ([steps("Go.")], {"hazards": ["x"]}, "no safety message before its first action"),
        ([steps(step("Go.", safety=["x"]))], {}, "no safety message before its first action"),
    ],
)
def test_nothing_may_stand_before_the_first_action(body, kwargs, words):
    (fault,) = faults(emergency(*body, **kwargs))
    assert words in fault


def test_after_the_actions_come_who_to_ring_and_where_the_shut_offs_outside_are():
    van = caravan(
        fitted("gas", at={"bottles": "A1", "shut_off": "B2"}),
        fitted("consumer_unit", at={"unit": "H1"}),
        places=[place("A1", "Gas locker"), place("B2"), place("H1", where="inside")],
    )
    got = page(manual(emergency(steps(step(line("Shut it at ", call("place", "gas.bottles"))))), van), "fire.html")
    ring = group(got, "call")[1].lines
    assert ring == ((b.Text("Fire, ambulance, police: "), p.Call("999", (b.Text("999"),))),)
    shut = [item[0][1].code for item in group(got, "shut-offs")[1].items]
    assert shut == ["A1", "B2"]  # nobody is sent back inside, to H1
    assert [node.role for node in got.body if isinstance(node, p.Group)] == ["call", "shut-offs", "dealer"]


def test_an_emergency_that_speaks_of_no_shut_off_lists_none():
    van = caravan(fitted("gas", at={"bottles": "A1"}), places=[place("A1")])
    assert group(page(manual(emergency(steps("Steer straight.")), van), "fire.html"), "shut-offs") == ()


def test_an_emergency_that_sends_to_the_gas_lists_the_shut_offs():
    van = caravan(fitted("gas", at={"bottles": "A1"}), places=[place("A1")])
    made = content(
        [
            block("emergency/fire", steps(step(line(link("emergency/gas-off")))), form="emergency"),
            block("emergency/gas-off", form="emergency"),
        ]
    )
    assert len(group(page(manual(made, van), "emergency-fire.html"), "shut-offs")) == 2


def test_an_emergency_page_has_no_plate_that_could_be_read_as_where_to_go():
    van = caravan(fitted("smoke_alarm", at={"alarm": "H1"}), places=[place("H1", where="inside")])
    got = manual(emergency(at=["smoke_alarm.alarm"]), van)
    assert page(got, "fire.html").plate == ""
    assert [entry.plate for entry in got.search if entry.title == "Fire"] == [""]


def test_a_number_for_what_is_not_fitted_is_left_out():
    numbers = (EmergencyNumber(name="Fire", number="999"), EmergencyNumber(name="Gas leak line", number="01632 960999"))
    made = emergency()
    made = content(made.blocks, made.outline.sections, tied=[tied("gas", "gas")])
    without = group(page(manual(made, caravan(emergency=numbers)), "fire.html"), "call")[1]
    with_gas = group(page(manual(made, caravan(emergency=numbers, traits=["gas"])), "fire.html"), "call")[1]
    assert (len(without.lines), len(with_gas.lines)) == (1, 2)


# --- the frame


def test_related_are_links_of_the_text_then_pages_of_the_section_at_most_four():
    names = ["s/a", "s/b", "s/c", "s/d", "s/e"]
    first = block("s/b", steps(step(line(link("o/x"), " ", link("s/d")))))
    made = content(
        [block("s/a"), first, *(block(name) for name in names[2:]), block("o/x")],
        [section("S", *((name.replace("/", "-"), [name]) for name in names)), section("O", ("o-x", ["o/x"]))],
    )
    got = manual(made)
    related = group(page(got, "s-b.html"), "related")[1].items
    assert [item.path for item in related] == ["o-x.html", "s-d.html", "s-c.html", "s-e.html"]


def test_every_page_ends_with_the_dealer_and_what_to_read_out():
    got = manual(content([block("a/b")]))
    for one in got.pages:
        assert isinstance(one.body[-1], p.Group)
        assert one.body[-1].role == "dealer"
        names = [
            inline.name for two in one.body[-1].children[1].lines for inline in two if not isinstance(inline, b.Text)
        ]
        assert names == ["dealer/name", "dealer/phone", "van/name", "van/tail", "edition/number"]


def test_a_topic_page_has_the_plate_of_its_first_point_and_the_way_back():
    van = caravan(fitted("toilet", at={"cassette": "C1"}), places=[place("C1")])
    made = content(
        [block("toilet/empty", at=["toilet.missing", "toilet.cassette"])], [section("Toilet", ("t", ["toilet/empty"]))]
    )
    got = page(manual(made, van), "t.html")
    assert got.plate == "C1"
    assert got.crumbs == (("Start", "index.html"), ("Toilet", "contents.html#toilet"))


@pytest.mark.parametrize(("form", "role"), [("fault", "fault"), ("procedure", "")])
def test_the_steps_of_a_fault_are_checks(form, role):
    one = block("a/b", opening("You see:", " a red lamp."), steps("Look.", "Listen."), form=form)
    found = answer(page(manual(content([one])), "a-b.html"))
    assert [node.role for node in found if isinstance(node, p.Steps)] == [role]
