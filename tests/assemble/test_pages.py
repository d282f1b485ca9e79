"""The start page, place pages, checklists, lights, reference pages and stubs."""

from dataclasses import replace

from generator.assemble.words import all_inlines, all_nodes, plain, text_of
from generator.model import blocks as b
from generator.model import pages as p
from generator.model.content import LegalPoint
from generator.model.holes import Working
from generator.model.manual import LabelText
from generator.model.numbers import Verdict

from .small_van import (
    answer,
    block,
    caravan,
    content,
    control,
    faults,
    fitted,
    group,
    manual,
    message,
    number,
    numbers,
    page,
    place,
    published,
    section,
    table,
    tied,
)


def paths(nodes):
    return [item.path for node in all_nodes(nodes) if isinstance(node, p.Links) for item in node.items]


def titles(nodes):
    return [node.text for node in all_nodes(nodes) if isinstance(node, p.Heading)]


# --- start page

EMERGENCIES = [
    block(f"emergency/{name}", form="emergency", needs=["gas"] if "gas" in name else [])
    for name in ("fire", "carbon-monoxide", "electric-shock", "gas-smell", "gas-off", "burn")
]
EMERGENCY = section(
    "Emergency", *((f"e-{one.topic.value[10:]}", [one.topic.value]) for one in EMERGENCIES), role="emergency"
)


def test_the_start_page_shows_four_emergencies_and_turning_the_gas_off_by_itself():
    found = group(page(manual(content(EMERGENCIES, [EMERGENCY]), caravan(traits=["gas"])), "index.html"), "emergency")
    lists = [[item.path for item in node.items] for node in found if isinstance(node, p.Links)]
    assert lists == [
        ["e-carbon-monoxide.html", "e-fire.html", "e-electric-shock.html", "e-gas-smell.html"],
        ["e-gas-off.html"],
        ["contents.html"],
    ]


def test_a_van_without_gas_is_offered_no_gas_emergency():
    found = paths(group(page(manual(content(EMERGENCIES, [EMERGENCY])), "index.html"), "emergency"))
    assert found == ["e-carbon-monoxide.html", "e-fire.html", "e-electric-shock.html", "contents.html"]


def test_the_parts_of_the_start_page_stand_in_the_order_of_the_brief():
    van = caravan(
        fitted("fridge", at={"control": "H1"}, controls={"on": control("control", lamp="red")}), places=[place("H1")]
    )
    made = content(
        [*EMERGENCIES, block("fridge/run", checklist="Run it"), block("fridge/fails", form="fault")],
        [EMERGENCY, section("Fridge", ("fridge", ["fridge/run"]), ("fridge-fails", ["fridge/fails"]))],
        phases={"arriving": ("Arriving", ["fridge/run"])},
    )
    got = page(manual(made, van, numbers(number("payload"))), "index.html")
    roles = [node.role for node in got.body if isinstance(node, p.Group)]
    assert roles == ["emergency", "find", "van", "phases", "wrong", "numbers", "systems", "more", "dealer"]
    assert got.body[1] == p.Group("find", (p.Find(),))


def test_places_follow_the_drawing_outside_before_inside():
    van = caravan(places=[place("H1", where="inside"), place("B2"), place("A1")])
    found = group(page(manual(content([block("a/b")]), van), "index.html"), "van")
    assert found[1] == p.FragmentHole("drawing/van")
    assert paths(found) == ["B2/index.html", "A1/index.html", "H1/index.html"]
    assert titles(found) == ["The van", "Outside", "Inside"]


def test_faults_stand_by_section_after_lights_and_sounds():
    van = caravan(
        fitted("fridge", at={"control": "H1"}, controls={"on": control("control", lamp="red")}), places=[place("H1")]
    )
    made = content(
        [block("t/x", form="fault"), block("f/y", form="fault"), block("f/z")],
        [section("Fridge", ("y", ["f/y"]), ("z", ["f/z"])), section("Toilet", ("x", ["t/x"]))],
    )
    found = group(page(manual(made, van), "index.html"), "wrong")
    assert paths(found) == ["lights-and-sounds.html", "y.html", "x.html"]
    assert titles(found) == ["Something is not right", "Fridge", "Toilet"]


def test_key_numbers_are_verdicts_and_only_those_that_there_are():
    nums = numbers(number("battery-days"), number("payload"), number("wheel-nut-torque"))
    found = group(page(manual(content([block("a/b")]), nums=nums), "index.html"), "numbers")
    assert found[1:3] == (p.FragmentHole("verdict/payload"), p.FragmentHole("verdict/battery-days"))


# --- place pages


def place_page(**kwargs):
    van = caravan(
        fitted("toilet", at={"cassette": "C1", "bowl": "H5"}, name="Toilet"),
        fitted("hob", at={"hob": "H2"}, name="Hob"),
        places=[
            place("A1", "Front locker", limit="60.9"),
            place("C1", "Toilet door", label=True, **kwargs),
            place("D1", "Step"),
            place("H2", "Kitchen", where="inside"),
            place("H5", "Washroom", where="inside"),
        ],
    )
    made = content(
        [
            block("toilet/empty", at=["toilet.cassette"], hazards=["hygiene", "fumes"], title="Empty the cassette"),
            block("toilet/stuck", at=["toilet.cassette"], form="fault"),
            block("toilet/about", at=["toilet.bowl", "toilet.cassette"], form="description"),
            block("hob/use", at=["hob.hob"]),
        ],
        safety=[message("hygiene", "CAUTION"), message("fumes", "WARNING")],
    )
    return manual(made, van, numbers(left={"A1": number("left-a1", "23 kg")}))


def test_a_place_page_says_what_can_be_done_what_goes_wrong_and_what_is_near():
    got = page(place_page(), "C1/index.html")
    assert (got.id, got.title, got.plate, got.template, got.root) == ("C1", "Toilet door", "C1", "place", "../")
    assert [node.role for node in got.body] == ["where", "here", "do", "wrong", "cautions", "read", "near", "dealer"]
    assert group(got, "do")[1].items == (
        p.LinkItem("toilet-empty.html", "", "Empty the cassette", "Read its WARNING first."),
    )
    assert paths(group(got, "wrong")) == ["toilet-stuck.html"]
    assert paths(group(got, "read")) == ["toilet-about.html"]
    assert paths(group(got, "near")) == ["A1/index.html", "D1/index.html"]
    assert [plain(item[0]) for item in group(got, "here")[1].items] == ["Toilet: cassette"]


def test_a_place_names_what_can_hurt_there_gravest_first_and_once():
    hazards = group(page(place_page(), "C1/index.html"), "cautions")[2].items
    assert [plain(item[0]) for item in hazards] == ["WARNING Hazard fumes.", "CAUTION Hazard hygiene."]
    assert group(page(place_page(), "H2/index.html"), "cautions") == ()


def test_a_place_of_nothing_says_so():
    got = page(place_page(), "D1/index.html")
    (said,) = [node for node in got.body if isinstance(node, p.Paragraph)]
    assert plain(said.lines[0]) == "No equipment of this van is here, and nothing is kept here."
    assert not any(isinstance(node, p.Paragraph) for node in page(place_page(), "A1/index.html").body)


def test_the_neighbours_of_the_last_place_outside_are_one_outside_and_the_first_inside():
    assert paths(group(page(place_page(), "D1/index.html"), "near")) == ["C1/index.html", "H2/index.html"]


def test_equipment_named_like_its_point_is_named_once():
    assert [plain(item[0]) for item in group(page(place_page(), "H2/index.html"), "here")[1].items] == ["Hob"]


def test_limit_and_room_left_are_holes_with_the_limit_rounded_down():
    got = place_page()
    lines = group(page(got, "A1/index.html"), "limit")[0].lines
    assert [one[1] for one in lines] == [p.TextHole("place/A1/limit"), p.TextHole("place/A1/left")]
    assert (got.values["place/A1/limit"], got.values["place/A1/left"]) == ("60 kg", "23 kg")
    assert "place/C1/limit" not in got.values


def test_the_drawing_of_a_place_stresses_it():
    got = place_page()
    drawing = got.values["drawing/place/C1"]
    assert (drawing.focus, drawing.width_m, drawing.axle_m) == ("C1", 2.23, 3.98)
    assert [one.code for one in drawing.places] == ["A1", "C1", "D1", "H2", "H5"]
    assert drawing.places[0].path == "A1/index.html"


def test_a_place_without_position_is_in_words_only():
    got = place_page(drawn=False)
    assert "drawing/place/C1" not in got.values
    assert group(page(got, "C1/index.html"), "where") == (p.Paragraph(((b.Text("Outside the van."),),)),)


def test_a_labelled_place_with_nothing_on_its_page_is_a_fault():
    van = caravan(places=[place("B4", "Bike locker", label=True), place("B5", label=True, limit="20"), place("B6")])
    (fault,) = faults(content([block("a/b")]), van)
    assert fault.startswith(
        'van_specs/vans/small.yaml:20:1: error: place B4 "Bike locker" has a label and nothing on its page'
    )


def test_only_labelled_places_get_a_label():
    van = caravan(places=[place("B5", "Side locker", label=True, limit="20"), place("B6")])
    assert manual(content([block("a/b")]), van).labels == (LabelText(code="B5", name="Side locker", path="B5/"),)


# --- checklists


def checklists():
    return content(
        [
            block("mains/connect", checklist="Connect the lead", needs=["mains"]),
            block("gas/open", checklist="Open the gas"),
            block("pitch/level", checklist="Level it"),
            block("pitch/steadies"),
        ],
        phases={
            "leaving": ("Leaving", ["gas/open"]),
            "arriving": ("Arriving", ["pitch/level", "mains/connect", "pitch/steadies", "gas/open"]),
            "empty": ("Nothing", ["mains/connect"]),
        },
    )


def test_a_checklist_keeps_the_order_of_its_phase_and_what_is_fitted():
    got = page(manual(checklists()), "arriving.html")
    assert got.body[0] == p.Checks(
        "arriving",
        (
            p.Check("arriving-pitch-level", (b.Text("Level it"),), "pitch-level.html", ""),
            p.Check("arriving-gas-open", (b.Text("Open the gas"),), "gas-open.html", ""),
        ),
    )
    assert got.template == "checklist"


def test_the_start_page_has_the_phases_in_the_order_of_the_outline_with_their_checks():
    found = group(page(manual(checklists()), "index.html"), "phases")[1].items
    assert [(item.path, item.note) for item in found] == [("leaving.html", "1 check"), ("arriving.html", "2 checks")]


def test_a_phase_without_a_line_has_no_page():
    assert "empty.html" not in [one.path for one in manual(checklists()).pages]


# --- lights and sounds


def lights(means="fridge/fails"):
    van = caravan(
        fitted(
            "fridge",
            at={"control": "H3"},
            controls={
                "power": control("control", name="Lamp", lamp="yellow", shows="It cools."),
                "failed": control("control", name="Lamp", lamp="red", shows="It gave up.", means=means),
                "dial": control("control", positions=("off", "1")),
            },
        ),
        fitted(
            "co_alarm",
            at={"alarm": "H1"},
            controls={"beep": control("alarm", sound="four beeps"), "lamp": control("alarm", lamp="green")},
        ),
        places=[place("H1", where="inside"), place("H3", where="inside")],
    )
    return content([block("fridge/fails", form="fault", title="Fridge fails")]), van


def test_lights_stand_by_place_then_colour_and_lead_to_their_topic():
    found = answer(page(manual(*lights()), "lights-and-sounds.html"))
    assert titles(found) == ["Lamps", "Sounds"]
    rows = [[plain(cell) for cell in row] for row in found[1].rows]
    assert rows == [
        ["H1 Place H1", "Green: Co alarm", ""],
        ["H3 Place H3", "Red: Lamp", "It gave up. Fridge fails"],
        ["H3 Place H3", "Yellow: Lamp", "It cools."],
    ]
    assert found[1].rows[1][2][1] == p.Ref("fridge-fails.html", "", (b.Text("Fridge fails"),))


def test_a_signal_whose_name_says_what_shows_is_named_once():
    names = {
        "Green lamp that blinks": {"lamp": "green"},
        "Loud sound that repeats": {"sound": "loud and repeated"},
        "Letter H beside a zone": {"message": "H"},
        "Needle of the gauge": {"message": "Needle outside the green field"},
    }
    controls = {f"c{number}": control("box", name=name, **said) for number, (name, said) in enumerate(names.items())}
    van = caravan(fitted("co_alarm", at={"box": "H1"}, controls=controls), places=[place("H1", where="inside")])
    found = answer(page(manual(content([block("a/b")]), van), "lights-and-sounds.html"))
    assert [plain(row[1]) for node in found if isinstance(node, p.Table) for row in node.rows] == [
        "Green lamp that blinks",
        "Letter H beside a zone",
        "Needle outside the green field: Needle of the gauge",
        "Loud sound that repeats",
    ]


def test_a_lamp_that_means_what_no_page_answers_is_a_fault():
    (fault,) = faults(*lights("fridge/fail"))
    assert fault.startswith("content/equipment/k.yaml:12:1: error: means fridge/fail, which this van does not have")


def test_a_van_without_lamps_has_no_such_page():
    got = manual(content([block("a/b")]))
    assert "lights-and-sounds.html" not in [one.path for one in got.pages]


# --- reference pages


def test_the_safety_page_explains_its_words_before_the_first_message_and_groups_by_section():
    made = content(
        [block("g/a", hazards=["burn", "blast"]), block("w/b", hazards=["burn"])],
        [section("Gas", ("a", ["g/a"])), section("Water", ("b", ["w/b"]))],
        safety=[message("burn", "CAUTION"), message("blast", "DANGER"), message("unused")],
    )
    found = answer(page(manual(made), "safety.html"))
    assert [plain(row[0]) for row in found[1].rows] == ["DANGER", "WARNING", "CAUTION", "NOTICE"]
    shown = [node.text if isinstance(node, p.Heading) else node.message.id for node in found[2:]]
    assert shown == ["Gas", "blast", "burn", "Water", "burn"]


def test_the_numbers_page_leads_to_a_page_for_each_group_that_works_it_out():
    nums = numbers(number("payload"), number("battery-days", group="12 V"), tables=[table("gas-hours", "Gas")])
    got = manual(content([block("a/b")]), nums=nums)
    found = answer(page(got, "numbers.html"))
    assert found[1:3] == (p.Heading(2, "Against their limits", "limits"), p.FragmentHole("verdicts"))
    assert found[4:] == (
        p.Heading(2, "Masses", "masses"),
        p.FragmentHole("summary/masses"),
        p.Heading(2, "12 V", "12-v"),
        p.FragmentHole("summary/12-v"),
        p.Heading(2, "Gas", "gas"),
        p.FragmentHole("summary/gas"),
    )
    assert p.FragmentHole("working/12-v") in page(got, "numbers-12-v.html").body
    assert got.values["summary/12-v"].path == "numbers-12-v.html"
    assert got.values["summary/12-v"].numbers == got.values["working/12-v"].numbers
    assert got.values["working/12-v"] == Working(numbers=(number("battery-days", group="12 V"),))
    assert got.values["working/gas"].tables == (table("gas-hours", "Gas"),)


def test_verdicts_come_gravest_first_with_the_page_of_their_working():
    judged = {"a": Verdict.WITHIN, "b": None, "c": Verdict.OVER, "d": Verdict.CLOSE, "e": Verdict.OVER}
    nums = numbers(*(replace(number(id, group="Gas"), verdict=verdict) for id, verdict in judged.items()))
    got = manual(content([block("a/b")]), nums=nums).values["verdicts"].numbers
    assert [(path, one.id) for path, one in got] == [("numbers-gas.html", id) for id in ("c", "e", "d", "a")]


def test_the_pages_of_masses_and_ball_load_say_the_trade_word_of_the_market():
    nums = numbers(number("payload", group="Masses"), number("max-ball-load", group="Ball load"))

    def leads(**trade: dict[str, str]) -> list[str]:
        words = {name.replace("_", "-"): words for name, words in trade.items()}
        got = manual(content([block("a/b")], trade=words), nums=nums)
        return [text_of(page(got, f"numbers-{group}.html").body[:1]) for group in ("masses", "ball-load")]

    masses, ball = leads(max_laden_name={"uk": "MTPLM"}, ball_load={"uk": "noseweight"})
    assert masses.endswith("Plates and papers call the heaviest the van may be MTPLM.")
    assert ball.endswith("The ball load is also called noseweight.")
    # A market without a word of its own is told of none.
    assert all(lead.endswith("the plate wins.") for lead in leads(ball_load={"uk": "ball load"}))


def test_search_leads_to_a_number_that_owners_ask_for_and_to_no_value():
    got = manual(content([block("a/b")]), nums=numbers(number("payload"), number("tyre-load")))
    (entry,) = (one for one in got.search if one.anchor)
    assert (entry.path, entry.anchor, entry.section) == ("numbers-masses.html", "payload", "Your numbers")
    assert "payload" in entry.words and not entry.answer and not entry.text


def test_search_finds_a_group_of_numbers_by_the_titles_of_its_numbers():
    got = manual(content([block("a/b")]), nums=numbers(number("battery-days", group="12 V")))
    entry = next(one for one in got.search if one.path == "numbers-12-v.html")
    assert number("battery-days").title in entry.text
    assert "payload" in next(one for one in got.search if one.path == "numbers.html").words
    assert entry.words == ()


def test_all_systems_lists_every_page_by_section():
    made = content([block("a/b"), block("a/c")], [section("One", ("p", ["a/b"])), section("Two", ("q", ["a/c"]))])
    got = page(manual(made, caravan(places=[place("B1")])), "contents.html")
    assert titles(answer(got))[:2] == ["One", "Two"]
    assert {"p.html", "q.html", "B1/index.html", "numbers.html", "about.html"} <= set(paths(got.body))


def test_the_page_about_the_manual_says_how_far_it_was_checked_and_what_wins_over_it():
    got = page(manual(content([block("a/b")])), "about.html")
    text = text_of(got.body)
    assert p.TextHole("draft/state") in all_inlines(got.body) and "raft" not in text
    assert "The plates and labels on the van win over this manual." in text
    assert "Work that needs a licence belongs to the licensed trade." in text


def test_points_of_law_are_printed_with_source_unless_they_concern_what_is_not_fitted():
    legal = (
        LegalPoint(id="speed", text="At most 90 km/h.", source="road code", read_on="2026-11-01"),
        LegalPoint(id="gas", text="Have the gas checked.", source="gas code", read_on="2026-11-01"),
    )
    made = content([block("a/b")], tied=[tied("gas", "gas")])
    text = text_of(page(manual(made, caravan(legal=legal)), "about.html").body)
    assert "At most 90 km/h. Source: road code; read 2026-11-01." in text
    assert "gas" not in text
    assert "Have the gas checked." in text_of(
        page(manual(made, caravan(legal=legal, traits=["gas"])), "about.html").body
    )


# --- stubs


def test_pages_and_places_of_the_last_edition_that_are_gone_keep_a_stub():
    made = content(
        [block("a/b"), block("f/x", needs=["fridge"], title="Run the fridge")],
        [section("S", ("p", ["a/b"]), ("fridge", ["f/x"]))],
    )
    previous = published(
        ["index.html", "p.html", "fridge.html", "old-name.html", "B4/index.html"], {"B4": "Bike locker"}
    )
    got = manual(made, previous=previous)
    stubs = [one for one in got.pages if one.template == "gone"]
    assert [(one.path, one.title, one.plate) for one in stubs] == [
        ("B4/index.html", "Taken out of the van", "B4"),
        ("fridge.html", "Taken out: Run the fridge", ""),
        ("old-name.html", "Taken out: old name", ""),
    ]
    assert paths(answer(stubs[0])) == ["index.html", "index.html", "index.html", "contents.html"]
    assert [item.anchor for item in answer(stubs[0])[1].items] == ["", "find", "van", ""]


def test_publishing_again_unchanged_gives_the_same_stubs():
    made = content([block("a/b")])
    first = manual(made, previous=published(["index.html", "B4/index.html"], {"B4": "Bike locker"}))
    # The second edition's record no longer knows the name of the place.
    second = manual(made, previous=published([one.path for one in first.pages]))
    assert second == first


def test_the_page_of_a_place_that_is_gone_says_where_its_parts_are_now():
    made = content([block("a/b")])
    shelf, hatch = place("B4", name="Old hatch"), place("C1", name="Cassette hatch")
    drain = fitted("heater", at={"drain": "B4"}, points={"drain": "required"})
    before = manual(made, caravan(drain, fitted("toilet", at={"cassette": "B4"}), places=[shelf, hatch]))
    record = {"stood": before.stood}
    moved = caravan(fitted("toilet", at={"cassette": "C1"}), places=[hatch])

    def stub(record):
        previous = replace(published(["B4/index.html"]), record=record)
        got = manual(made, moved, previous=previous)
        return got, page(got, "B4/index.html")

    got, gone = stub(record)
    rows = [item for node in all_nodes(gone.body) if isinstance(node, p.Links) for item in node.items]
    assert (rows[0].path, rows[0].title, rows[0].note, rows[0].plate) == (
        ("C1/index.html", "Toilet: cassette", "Now at C1 Cassette hatch", "C1")
    )
    assert "Heater: drain: no longer in this van." in text_of(gone.body)
    assert titles(gone.body)[0] == "What was here"
    again, same = stub({"stood": got.stood})
    assert same == gone and again.stood == got.stood


def test_a_place_that_is_back_has_its_page_again():
    previous = published(["B4/index.html"], {"B4": "Bike locker"})
    got = manual(content([block("a/b")]), caravan(places=[place("B4")]), previous=previous)
    assert [one.template for one in got.pages if one.path == "B4/index.html"] == ["place"]


# --- planners


def test_a_planner_stands_where_the_van_has_a_use_for_it():
    nums = numbers(number("payload"), tables=[table("room-left"), table("car-must-allow"), table("mains-loads")])
    got = manual(content([block("a/b")]), nums=nums)
    assert [one.path for one in got.pages if one.template == "planner"] == ["plan-loading.html", "plan-car.html"]
    assert paths(group(page(got, "index.html"), "numbers"))[:2] == ["plan-loading.html", "plan-car.html"]
    holes = [node.name for node in page(got, "plan-loading.html").body[0].children if isinstance(node, p.FragmentHole)]
    assert holes == ["verdict/payload", "table/room-left"]
