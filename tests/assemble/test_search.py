"""What search knows, and that it knows no value."""

from generator.model import blocks as b

from .small_van import (
    block,
    bullets,
    call,
    caravan,
    content,
    fitted,
    line,
    manual,
    message,
    number,
    numbers,
    opening,
    paragraph,
    place,
    published,
    section,
    step,
    steps,
    tied,
)


def entries(made, van=None, nums=None, previous=None):
    return {entry.title: entry for entry in manual(made, van, nums, previous).search}


def test_a_topic_is_found_by_title_words_plate_and_text():
    van = caravan(fitted("toilet", at={"cassette": "C1"}), places=[place("C1")])
    one = block(
        "toilet/empty",
        opening("At the end:", " an empty cassette."),
        steps("Check that nobody uses it.", step("Pull.", "You hear: a click.")),
        title="Empty the cassette",
        at=["toilet.cassette"],
        words=("dump", "black water"),
    )
    found = entries(content([one], [section("Toilet", ("t", ["toilet/empty"]))]), van)["Empty the cassette"]
    assert (found.path, found.anchor, found.section, found.plate) == ("t.html", "", "Toilet", "C1")
    assert found.words == ("dump", "black water")
    assert found.answer == "Check that nobody uses it."
    assert found.text == "At the end: an empty cassette. Check that nobody uses it. Pull. You hear: a click."


def test_the_answer_of_a_description_is_its_first_sentence():
    one = block("a/b", paragraph("It makes hot water. It holds much."), form="description", title="T")
    assert entries(content([one]))["T"].answer == "It makes hot water."
    one = block("a/b", bullets(("", "A list. And more.")), form="reference", title="T")
    assert entries(content([one]))["T"].answer == "A list."


def test_a_value_in_an_answer_leaves_an_ellipsis():
    one = block("a/b", steps(step(line("Pump to ", call("number", "tyre-pressure"), "."))), title="T")
    found = entries(content([one]), nums=numbers(number("tyre-pressure", "3.0 bar")))["T"]
    assert (found.answer, found.text) == ("Pump to ….", "Pump to ….")


def test_a_safety_message_is_never_cut_short_in_search():
    made = content([block("a/b", title="T", hazards=["scald"])], safety=[message("scald", words="Boiling water.")])
    assert "Boiling" not in entries(made)["T"].text


def test_topics_places_checklists_and_reference_pages_have_an_entry():
    van = caravan(fitted("hob", at={"hob": "H2"}, name="Hob"), places=[place("H2", "Kitchen", where="inside")])
    made = content(
        [block("hob/use", title="Use the hob", at=["hob.hob"], checklist="Gas off")],
        phases={"leaving": ("Leaving", ["hob/use"])},
    )
    got = entries(made, van)
    assert list(got) == [
        "Use the hob",
        "Kitchen",
        "Leaving",
        "Your numbers: how they were worked out",
        "All safety messages",
        "Notes and snags",
        "What changed",
        "About this manual",
    ]
    kitchen = got["Kitchen"]
    assert (kitchen.path, kitchen.plate, kitchen.section, kitchen.answer) == ("H2/index.html", "H2", "Inside", "Hob")
    assert kitchen.words == ("H2", "Hob")
    assert got["Leaving"].answer == "Gas off"


def test_the_code_of_a_place_that_was_taken_out_is_still_found():
    got = entries(content([block("a/b")]), previous=published(["B4/index.html", "x.html"]))
    assert got["Taken out of the van"].plate == "B4"
    assert "Taken out: x" not in got


def test_words_owners_use_alike_leave_out_what_is_not_fitted():
    asked = (("toilet", "loo", "wc"), ("bottle", "cylinder"), ("steadies", "legs"))
    made = content([block("a/b")], asked=asked, tied=[tied("gas", "bottle"), tied("toilet", "toilet")])
    assert manual(made).synonyms == (("loo", "wc"), ("steadies", "legs"))
    assert manual(made, caravan(traits=["gas", "toilet"])).synonyms == asked


def test_the_text_of_a_link_and_a_plate_is_searched():
    van = caravan(fitted("hob", at={"hob": "H2"}), places=[place("H2", "Kitchen")])
    link = b.TopicLink("a/b", (b.Text("the other page"),), line().source)
    made = content(
        [block("a/b"), block("a/c", steps(step(line("See ", link, " at ", call("place", "hob.hob")))), title="T")]
    )
    assert entries(made, van)["T"].text == "See the other page at H2 Kitchen"
