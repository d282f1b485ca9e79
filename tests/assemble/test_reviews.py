"""Which blocks wait for review, what voids a review, and what the pages say."""

from dataclasses import replace
from datetime import date

import pytest

from generator.model import blocks as b
from generator.model.blocks import Block
from generator.model.content import Content
from generator.model.digests import page_key
from generator.model.holes import Notice
from generator.model.manual import Manual
from generator.model.reviews import Review, SafetyBlock
from generator.model.sourced import Given

from .small_van import (
    HERE,
    Part,
    block,
    call,
    caravan,
    content,
    fitted,
    line,
    manual,
    message,
    paragraph,
    step,
    steps,
)

DAY = date(2026, 11, 20)
WAIT = call("say", "heater.wait")
SCALD, HOT = message("scald"), message("hot")
VAN = caravan(fitted("heater", say={"wait": "Wait three minutes."}))


def made(*blocks: Block, **more: object) -> Content:
    return content(blocks, safety=[SCALD, HOT], **more)  # type: ignore[arg-type]


def line_of(*parts: Part) -> b.Step:
    """A step of one line."""
    return step(line(*parts))


def one(got: Manual) -> SafetyBlock:
    (found,) = got.safety
    return found


def reviewed(*blocks: SafetyBlock) -> tuple[Review, ...]:
    return tuple(Review(block=found.id, digest=found.digest, by="Robin Vale", on=DAY) for found in blocks)


@pytest.mark.parametrize(
    ("written", "why"),
    [
        (block("a/b", hazards=["scald", "hot"]), ("hazards scald, hot",)),
        (block("a/b", steps("One.", step("Two.", safety=["hot"]))), ("warns before a step: hot",)),
        (block("a/b", steps(step("Two.", safety=["hot"])), hazards=["scald"]), None),
        (block("a/b", form="emergency"), ("emergency",)),
        (block("a/b", form="fault"), ()),
    ],
)
def test_a_block_is_safety_critical_by_hazards_calls_or_form(written: Block, why: tuple[str, ...] | None) -> None:
    found = manual(made(written)).safety
    wanted = ("hazards scald", "warns before a step: hot") if why is None else why
    assert tuple(reason for each in found for reason in each.why) == wanted


def test_a_guard_that_leaves_the_step_out_does_not_make_a_block_harmless() -> None:
    """What is critical is a matter of the file, so that a writer can tell without a van."""
    got = manual(made(block("a/b", steps("One.", step("Two.", when="gas", safety=["scald"])))))
    assert one(got).why == ("warns before a step: scald",)


def test_without_a_review_every_page_waits() -> None:
    got = manual(made(block("a/b", hazards=["scald"]), block("c/d")))
    assert got.waiting == got.safety and one(got).review is None
    assert got.values["draft/notice"] == Notice(text="Draft: not yet checked by the dealer.")
    assert "has not yet checked the only text" in str(got.values["draft/state"])


def test_one_unreviewed_block_makes_the_whole_manual_a_draft() -> None:
    words = made(block("a/b", hazards=["scald"]), block("c/d", hazards=["scald"]))
    first, second = manual(words).safety
    got = manual(words, reviews=reviewed(first))
    assert got.waiting == (second,)
    assert got.values["draft/notice"] == Notice(text="Draft: not yet checked by the dealer.")
    assert "1 of the 2 texts" in str(got.values["draft/state"])


@pytest.mark.parametrize("where", ["records", "content"])
def test_a_review_of_these_words_takes_the_notice_off(where: str) -> None:
    words = made(block("a/b", hazards=["scald"]))
    reviews = reviewed(one(manual(words)))
    got = manual(words, reviews=reviews) if where == "records" else manual(replace(words, reviews=reviews))
    assert one(got).review == reviews[0] and not got.waiting
    assert got.values["draft/notice"] == Notice(text="")
    assert "raft" not in str(got.values["draft/state"])


def test_pages_are_the_same_reviewed_or_not() -> None:
    words = made(block("a/b", hazards=["scald"]), block("c/d", form="emergency"))
    draft = manual(words)
    done = manual(words, reviews=reviewed(*draft.safety))
    assert draft.waiting and not done.waiting
    assert [page_key(page) for page in draft.pages] == [page_key(page) for page in done.pages]


def test_a_van_without_anything_critical_is_no_draft() -> None:
    got = manual(made(block("a/b")))
    assert not got.safety and got.values["draft/notice"] == Notice(text="")


# --- what voids a review


def spoken(*body: b.Node, **more: object) -> Content:
    """One block with a hazard; without a body it is a step that the heater says."""
    return made(block("a/b", *(body or (steps(line_of(WAIT)),)), hazards=["scald"]), **more)


def test_editing_a_block_voids_its_review() -> None:
    words = spoken()
    reviews = reviewed(one(manual(words, VAN)))
    assert not manual(words, VAN, reviews=reviews).waiting
    edited = replace(words, blocks=(replace(words.blocks[0], digest="other bytes"),))
    assert manual(edited, VAN, reviews=reviews).waiting


@pytest.mark.parametrize("part", ["signal", "hazard", "consequence", "avoid", "sign"])
def test_editing_a_message_voids_the_reviews_of_the_blocks_that_print_it(part: str) -> None:
    words = made(block("a/b", hazards=["scald"]), block("c/d", steps(step("Go.", safety=["scald"]))), block("e/f"))
    reviews = reviewed(*manual(words).safety)
    changed = {"signal": "DANGER", "sign": "W017"}.get(part, Given("Other words.", HERE))
    edited = replace(words, safety={**words.safety, "scald": replace(SCALD, **{part: changed})})
    assert [found.id for found in manual(edited, reviews=reviews).waiting] == ["a/b", "c/d"]


def test_a_message_that_moves_in_its_file_voids_nothing() -> None:
    words = made(block("a/b", hazards=["scald"]))
    reviews = reviewed(one(manual(words)))
    moved = replace(words, safety={**words.safety, "scald": replace(SCALD, source=HERE)})
    assert not manual(moved, reviews=reviews).waiting


def test_another_sentence_of_the_fitted_kind_voids_the_review() -> None:
    words = spoken()
    found = one(manual(words, VAN))
    assert found.sentences == ("content/given.yaml",)  # where the small van's sentences stand
    shorter = caravan(fitted("heater", say={"wait": "Wait one minute."}))
    assert manual(words, shorter, reviews=reviewed(found)).waiting


@pytest.mark.parametrize(
    "part",
    [
        steps(line_of("Now ", WAIT)),
        paragraph(line("Now ", WAIT)),
        paragraph(line(b.Strong((WAIT,)))),
        paragraph(line(b.Emphasis((b.Strong((WAIT,)),)))),
        paragraph(line(b.TopicLink("a/b", (WAIT,), HERE))),
        b.Bullets((b.Bullet(None, (line(WAIT),), HERE),), HERE),
        b.Table(((b.Text("When"),), (WAIT,)), (), HERE),
        b.Table(((b.Text("When"),),), (b.Row(None, ((b.Text("Hot"), WAIT),), HERE),), HERE),
    ],
)
def test_a_sentence_counts_wherever_it_is_called(part: b.Node) -> None:
    assert one(manual(spoken(part, steps("Go.")), VAN)).sentences == ("content/given.yaml",)


def test_another_trade_word_voids_the_review() -> None:
    body = steps(line_of("Turn off the ", call("term", "tap"), "."))
    words = spoken(body, trade={"tap": {"default": "tap"}})
    reviews = reviewed(one(manual(words, VAN)))
    assert not manual(words, VAN, reviews=reviews).waiting
    assert manual(spoken(body, trade={"tap": {"default": "faucet"}}), VAN, reviews=reviews).waiting


def test_a_value_voids_nothing() -> None:
    """The van's name is a value: it is not written in the block."""
    words = spoken()
    reviews = reviewed(one(manual(words, VAN)))
    assert not manual(words, replace(VAN, model="Other 300"), reviews=reviews).waiting


def test_a_review_of_one_block_says_nothing_of_another() -> None:
    words = made(block("a/b", hazards=["scald"]))
    found = one(manual(words))
    assert manual(words, reviews=reviewed(replace(found, id="c/d"))).waiting
