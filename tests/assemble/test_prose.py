"""Guards, links and calls of a block in one van."""

import pytest

from generator.assemble.words import plain
from generator.errors import Source
from generator.model import blocks as b
from generator.model import pages as p

from .small_van import (
    answer,
    block,
    bullets,
    call,
    caravan,
    content,
    faults,
    fitted,
    given,
    guard,
    line,
    link,
    manual,
    number,
    numbers,
    opening,
    page,
    paragraph,
    place,
    section,
    step,
    steps,
    table,
)

AT = Source("content/blocks/a/b.md", 14, 4)


def nodes(body, van=None, nums=None, **kwargs):
    return answer(page(manual(content([block("a/b", *body, **kwargs)]), van, nums), "a-b.html"))


def actions(node):
    return [plain(one.lines[0]) for one in node.items]


# --- guards


@pytest.mark.parametrize(
    ("when", "traits", "kept"),
    [
        ("gas", ["gas"], True),
        ("gas", [], False),
        ("not gas", ["gas"], False),
        ("not gas", [], True),
        ("gas, not mains", ["gas"], True),
        ("gas, not mains", ["gas", "mains"], False),
        ("gas, mains", ["gas"], False),
    ],
)
def test_a_guard_wants_all_its_traits_and_none_of_the_others(when, traits, kept):
    (found, *_) = nodes([steps("Always.", step("Sometimes.", when=when))], caravan(traits=traits))
    assert actions(found) == (["Always.", "Sometimes."] if kept else ["Always."])


def test_a_guarded_step_leaves_no_gap_in_the_numbers():
    """Steps carry no numbers of their own, so what is left is counted from one."""
    (found,) = nodes([steps("One.", step("Out.", when="gas"), "Two.")])
    assert actions(found) == ["One.", "Two."]


def test_a_guard_on_a_line_takes_that_line_only():
    (found,) = nodes([steps(step("Act.", line("You see: a lamp.", when="lamp"), "You hear: a click."))])
    assert [plain(one) for one in found.items[0].lines] == ["Act.", "You hear: a click."]


@pytest.mark.parametrize("body", ["paragraph", "step"])
def test_a_guard_on_the_first_line_takes_all_of_a_paragraph_or_step(body):
    entries = (line("First.", when="gas"), "Second.")
    made = paragraph(*entries) if body == "paragraph" else steps(step(*entries), "Kept.")
    found = nodes([steps("Always."), made])
    assert "Second." not in " ".join(plain(one) for node in found for one in m_lines(node))


def m_lines(node):
    from generator.assemble.words import lines_of

    return lines_of(node)


def test_lists_paragraphs_tables_and_headings_left_empty_are_dropped():
    row = b.Row(guard("gas"), ((b.Text("Gas"),), (b.Text("On"),)), AT)
    body = [
        steps("Always."),
        b.Subheading("Only with gas", AT),
        paragraph("Gas.", when="gas"),
        bullets(("gas", "Gas."), ("gas", "More.")),
        b.Table(((b.Text("What"),), (b.Text("How"),)), (row,), AT),
        steps(step("Gas.", when="gas")),
        b.Standalone(guard("gas"), call("table", "gas-hours"), AT),
    ]
    assert nodes(body) == (p.Steps((p.Step((), ((b.Text("Always."),),)),)),)


def test_a_guarded_row_goes_and_the_table_stays():
    head = ((b.Text("What"),), (b.Text("How"),))
    rows = (
        b.Row(None, ((b.Text("Mains"),), (b.Text("On"),)), AT),
        b.Row(guard("gas"), ((b.Text("Gas"),), (b.Text("On"),)), AT),
    )
    _, found = nodes([steps("Go."), b.Table(head, rows, AT)])
    assert found == p.Table(head, (((b.Text("Mains"),), (b.Text("On"),)),))


def test_a_guarded_bullet_goes_and_the_others_stay():
    _, found = nodes([steps("Go."), bullets(("gas", "Out."), ("", "In."))])
    assert found == p.Bullets((((b.Text("In."),),),))


def test_a_procedure_whose_steps_are_all_guarded_away_is_a_fault():
    made = content([block("a/b", steps(step("Gas.", when="gas")), title="Light it")])
    assert faults(made)[0].startswith('content/blocks/a/b.md:1:1: error: "Light it" has no step left in this van')


# --- links


def test_a_link_goes_to_a_page_of_its_own_without_anchor():
    made = content([block("a/b", steps(step(line("Go ", link("c/d"))))), block("c/d")])
    found = answer(page(manual(made), "a-b.html"))[0].items[0].lines[0]
    assert found == (b.Text("Go "), p.Ref("c-d.html", "", (b.Text("there"),)))


def test_a_link_to_a_topic_among_others_goes_to_its_heading():
    made = content(
        [
            block("a/b", steps(step(line(link("hot-water/on-gas"))))),
            block("hot-water/on-gas"),
            block("hot-water/on-mains"),
        ],
        [
            section("One", ("ab", ["a/b"])),
            section("Two", ("hot-water", ["hot-water/on-gas", "hot-water/on-mains"]), page_title="Heat the water"),
        ],
    )
    got = manual(made)
    ref = answer(page(got, "ab.html"))[0].items[0].lines[0][0]
    assert (ref.path, ref.anchor) == ("hot-water.html", "hot-water-on-gas")
    headings = [node for node in page(got, "hot-water.html").body if isinstance(node, p.Heading)]
    assert headings == [
        p.Heading(2, "Title of hot-water/on-gas", "hot-water-on-gas"),
        p.Heading(2, "Title of hot-water/on-mains", "hot-water-on-mains"),
    ]
    assert page(got, "hot-water.html").title == "Heat the water"


def test_the_only_topic_answered_on_a_page_gives_it_its_title_and_no_anchor():
    made = content(
        [
            block("a/b", steps(step(line(link("h/mains"))))),
            block("h/gas", needs=["gas"]),
            block("h/mains", title="On mains"),
        ],
        [section("One", ("ab", ["a/b"])), section("Two", ("h", ["h/gas", "h/mains"]), page_title="Heat")],
    )
    got = manual(made)
    assert page(got, "h.html").title == "On mains"
    assert answer(page(got, "ab.html"))[0].items[0].lines[0][0].anchor == ""


def test_a_link_to_what_this_van_lacks_says_which_guard_is_missing():
    made = content([block("a/b", steps(step(line(link("gas/open", at=AT))))), block("gas/open", needs=["gas"])])
    assert faults(made) == [
        "content/blocks/a/b.md:14:4: error: links to gas/open, which this van does not have (Small 300, 000417): "
        '"there"\n  hint: guard the line with {gas}'
    ]


def test_the_hint_takes_the_block_that_asks_for_least():
    blocks = [
        block("a/b", steps(step(line(link("w/fill"))))),
        block("w/fill", needs=["water", "water-tank"], without=["gas"], name="w/fill-tank"),
        block("w/fill", needs=["water"], name="w/fill-barrel"),
    ]
    (fault,) = faults(content(blocks), caravan(traits=["gas"]))
    assert fault.endswith("hint: guard the line with {water}")


def test_the_hint_takes_what_all_blocks_ask_for_so_that_none_of_them_is_lost():
    blocks = [
        block("a/b", steps(step(line(link("w/heat"))))),
        block("w/heat", needs=["heater", "tank"], name="w/heat-tank"),
        block("w/heat", needs=["heater", "instant"], name="w/heat-instant"),
    ]
    (fault,) = faults(content(blocks))
    assert fault.endswith("hint: guard the line with {heater}")


def test_a_link_to_a_topic_that_nobody_wrote_says_so():
    made = content([block("a/b", steps(step(line(link("a/c")))))])
    assert faults(made)[0].endswith("hint: no block answers it")


def test_a_guarded_link_is_no_fault():
    made = content(
        [block("a/b", steps("Go.", step(line(link("gas/open"), when="gas")))), block("gas/open", needs=["gas"])]
    )
    assert faults(made) == []


def test_a_subheading_has_an_anchor_of_its_own_and_goes_down_a_level_among_other_topics():
    body = (steps("Go."), b.Subheading("In winter", AT), paragraph("Cold."))
    (heading,) = (node for node in nodes(body) if isinstance(node, p.Heading))
    assert heading == p.Heading(2, "In winter", "in-winter")
    made = content([block("a/b", *body), block("a/c", *body)], [section("S", ("p", ["a/b", "a/c"]), page_title="Both")])
    found = [node for node in page(manual(made), "p.html").body if isinstance(node, p.Heading) and node.level == 3]
    assert [node.anchor for node in found] == ["a-b-in-winter", "a-c-in-winter"]


# --- calls


def test_a_number_becomes_a_hole_and_its_value_stands_apart():
    made = content([block("a/b", steps(step(line("Room: ", call("number", "payload"), "."))))])
    got = manual(made, nums=numbers(number("payload", "168 kg")))
    assert answer(page(got, "a-b.html"))[0].items[0].lines[0] == (
        b.Text("Room: "),
        p.TextHole("number/payload"),
        b.Text("."),
    )
    assert got.values["number/payload"] == "168 kg"


def test_a_table_and_a_drawing_become_fragments():
    body = [
        steps("Go."),
        b.Standalone(None, call("table", "gas-hours"), AT),
        b.Standalone(None, call("drawing", "van"), AT),
    ]
    got = manual(content([block("a/b", *body)]), nums=numbers(tables=[table("gas-hours")]))
    assert answer(page(got, "a-b.html"))[1:] == (p.FragmentHole("table/gas-hours"), p.FragmentHole("drawing/van"))
    assert got.values["table/gas-hours"] == table("gas-hours")


def test_a_term_is_the_word_of_the_market_or_the_one_for_every_market():
    trade = {"lead": {"uk": "hook-up lead", "default": "lead"}, "pitch": {"nz": "site", "default": "pitch"}}
    body = [steps(step(line(call("term", "lead"), ", ", call("term", "pitch"))))]
    made = content([block("a/b", *body)], trade=trade)
    assert plain(answer(page(manual(made), "a-b.html"))[0].items[0].lines[0]) == "hook-up lead, pitch"


def test_a_place_becomes_a_plate_and_a_say_the_sentence_of_the_kind():
    van = caravan(
        fitted("toilet", at={"cassette": "C1"}, say={"latch": "Lift the latch."}), places=[place("C1", "Toilet door")]
    )
    body = [steps(step(line(call("say", "toilet.latch"))), step(line("Open ", call("place", "toilet.cassette"))))]
    (found,) = nodes(body, van)
    assert found.items[0].lines == ((b.Text("Lift the latch."),),)
    assert found.items[1].lines[0][1] == p.PlaceRef("C1", "Toilet door")


@pytest.mark.parametrize(
    ("name", "argument", "words", "hint"),
    [
        ("number", "paylod", "asks for number paylod", 'did you mean "payload"?'),
        ("place", "toilet.flush", "asks for point toilet.flush", "toilet/plain has: cassette"),
        ("say", "toilet.flush", "asks for sentence toilet.flush", "toilet/plain has: latch"),
        ("term", "led", 'no trade word "led" for market uk', 'did you mean "lead"?'),
    ],
)
def test_a_call_for_what_is_not_there_is_a_fault_at_its_line(name, argument, words, hint):
    van = caravan(fitted("toilet", at={"cassette": "C1"}, say={"latch": "Lift."}), places=[place("C1")])
    made = content([block("a/b", steps(step(line(call(name, argument, AT)))))], trade={"lead": {"default": "lead"}})
    (fault,) = faults(made, van, numbers(number("payload")))
    assert fault.startswith(f"content/blocks/a/b.md:14:4: error: {words}")
    assert fault.endswith(f"hint: {hint}")


def test_an_optional_point_that_the_van_does_not_give_says_so():
    van = caravan(
        fitted("taps", at={"kitchen": "H1"}, points={"kitchen": "required", "washroom": "optional"}),
        places=[place("H1")],
    )
    made = content([block("a/b", steps(step(line(call("place", "taps.washroom", AT)))))])
    assert faults(made, van)[0].endswith('"washroom" is optional and this van does not give it')


def test_an_unknown_table_is_a_fault():
    made = content([block("a/b", steps("Go."), b.Standalone(None, call("table", "gas-hour", AT), AT))])
    (fault,) = faults(made, nums=numbers(tables=[table("gas-hours")]))
    assert fault == (
        'content/blocks/a/b.md:14:4: error: no table gas-hour for this van\n  hint: did you mean "gas-hours"?'
    )


def test_a_sentence_of_a_kind_that_holds_a_call_is_a_fault_in_the_kind():
    van = caravan(fitted("toilet", say={"latch": "Lift {{ place('toilet.cassette') }}."}))
    made = content([block("a/b", steps(step(line(call("say", "toilet.latch")))))])
    assert faults(made, van) == [
        f"{given('', 9).source}: error: a sentence of a kind holds a call\n  hint: write plain words"
    ]


# --- roles


@pytest.mark.parametrize(
    ("words", "role"),
    [
        ("Put it back:", "undo"),
        ("Tell the dealer:", "note"),
        ("Stop here.", "stop"),
        ("At the end:", "lead"),
        ("Watch:", ""),
    ],
)
def test_a_paragraph_takes_its_role_from_its_first_strong_words(words, role):
    _, found = nodes([steps("Go."), opening(words, " and so on.")])
    assert (type(found), found.role) == (p.Paragraph, role)
