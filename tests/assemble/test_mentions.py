"""Nothing printed speaks of what is not fitted."""

import pytest

from generator.errors import Source
from generator.model import blocks as b
from generator.model.blocks import Walkround

from .small_van import (
    block,
    call,
    caravan,
    content,
    control,
    faults,
    fitted,
    line,
    message,
    paragraph,
    place,
    section,
    step,
    steps,
    tied,
)

GAS = tied("gas", "gas", "gas bottle", "LPG")
AT = Source("content/blocks/a/b.md", 14)


def found(one, van=None, **kwargs):
    return faults(content([one], tied=[GAS], **kwargs), van)


def test_a_word_in_the_body_is_a_fault_at_its_line():
    assert found(block("a/b", steps(step(line("Shut the Gas Bottle.", at=AT))))) == [
        'content/blocks/a/b.md:14:1: error: speaks of "Gas Bottle", but this van has no trait gas (Small 300, 000417): '
        '"Shut the Gas Bottle."\n'
        '  hint: guard it with {gas}, or state in the block why it may stand: allow: {gas: "why"}'
    ]


def test_with_the_trait_it_may_be_said():
    assert found(block("a/b", steps("Shut the gas.")), caravan(traits=["gas"])) == []


def test_a_guarded_line_may_say_it():
    assert found(block("a/b", steps(step("Shut it.", line("Gas too.", when="gas"))))) == []


def test_an_allowance_of_the_block_lets_it_stand():
    assert found(block("a/b", steps("Shut the gas."), allow={"gas": "every van has this page"})) == []


@pytest.mark.parametrize("words", ["Gasket.", "Biogas.", "gassy"])
def test_only_whole_words_count(words):
    assert found(block("a/b", steps(words))) == []


@pytest.mark.parametrize("words", ["gas", "Gas-fired.", "(gas)", "the gas  bottle", "lpg"])
def test_upper_case_punctuation_and_spaces_do_not_hide_a_word(words):
    assert len(found(block("a/b", steps(words)))) == 1


@pytest.mark.parametrize(
    "one",
    [
        block("a/b", title="Gas heating"),
        block("a/b", checklist="Gas off"),
        block("a/b", walk=Walkround(line="Show the gas")),
        block("a/b", words=("gas",)),
        block("a/b", steps("Go."), b.Subheading("With gas", AT)),
        block("a/b", steps("Go."), paragraph(line("Some ", b.Strong((b.Text("gas"),)), " here."))),
        block("a/b", steps("Go."), b.Table(((b.Text("Gas"),),), (b.Row(None, ((b.Text("1"),),), AT),), AT)),
    ],
)
def test_every_printed_text_of_a_block_is_looked_at(one):
    assert len(found(one)) == 1


def test_a_safety_message_is_looked_at_where_it_is_printed():
    gassy = message("burn", words="Gas burns.")
    (fault,) = found(block("a/b", hazards=["burn"]), safety=[gassy])
    assert fault.startswith("content/safety/burn.yaml:2:1:")
    assert found(block("a/b"), safety=[gassy]) == []
    assert found(block("a/b", hazards=["burn"], allow={"gas": "why"}), safety=[gassy]) == []


def test_sentences_trade_words_and_lamps_of_a_kind_are_looked_at():
    van = caravan(fitted("hob", at={"hob": "H1"}, say={"light": "Light the gas."}), places=[place("H1")])
    assert len(found(block("a/b", steps(step(line(call("say", "hob.light"))))), van)) == 1
    assert len(found(block("a/b", steps(step(line(call("term", "fuel"))))), trade={"fuel": {"default": "gas"}})) == 1
    lamp = {"on": control("hob", lamp="red", shows="The gas is on.")}
    van = caravan(fitted("hob", at={"hob": "H1"}, controls=lamp), places=[place("H1")])
    assert found(block("a/b"), van)[0].startswith("content/equipment/k.yaml:12:1:")


def test_titles_of_sections_and_phases_are_looked_at():
    made = content([block("a/b", checklist="Go")], [section("Gas", ("p", ["a/b"]))], tied=[GAS])
    assert len(faults(made)) == 1
    phases = {"on": ("Gas on", ["a/b"])}
    assert len(faults(content([block("a/b", checklist="Go")], tied=[GAS], phases=phases))) == 1
    assert faults(content([block("a/b")], tied=[GAS], phases=phases)) == []


def test_names_of_places_are_the_build_sheets_own():
    assert found(block("a/b"), caravan(places=[place("A1", "Old gas locker")])) == []
