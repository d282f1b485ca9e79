"""The content and build sheets that come with the program, put together for each demo van."""

from itertools import takewhile
from pathlib import Path

import pytest

from generator.assemble import assemble
from generator.assemble.words import all_inlines, all_nodes, plain, text_of
from generator.compute import compute
from generator.load import load
from generator.model import pages as p
from generator.model.content import SIGNALS
from generator.resolve import resolve

ROOT = Path(__file__).resolve().parents[2]
VANS = sorted(path.relative_to(ROOT).as_posix() for path in (ROOT / "van_specs/vans").glob("*.yaml"))


@pytest.fixture(scope="module")
def workspace():
    return load(ROOT)


@pytest.fixture(scope="module", params=VANS, ids=[Path(name).stem for name in VANS])
def made(request, workspace):
    """A van and its manual; putting it together checks links, holes, hazards and words."""
    van = resolve(workspace.vans[request.param], workspace)
    return van, assemble(van, compute(van), workspace.content, workspace.catalogue, None)


def forms(workspace, page):
    return {block.form for block in workspace.content.blocks if block.id in page.blocks}


def test_every_topic_page_has_an_answer_and_no_message_after_its_first_step(made, workspace):
    for page in made[1].pages:
        if page.template != "topic":
            continue
        assert text_of(node for node in page.body if not isinstance(node, p.Group)), page.path
        stepped = False
        for node in page.body:
            stepped = isinstance(node, p.Steps) or (stepped and not (isinstance(node, p.Heading) and node.level == 2))
            assert not (stepped and isinstance(node, p.SafetyBox)), page.path


def test_messages_in_a_row_stand_gravest_first(made):
    for page in made[1].pages:
        row: list[int] = []
        for node in all_nodes(page.body):
            row = [*row, SIGNALS.index(node.message.signal)] if isinstance(node, p.SafetyBox) else []
            assert row == sorted(row), page.path
            for step in node.items if isinstance(node, p.Steps) else ():
                own = [SIGNALS.index(message.signal) for message in step.safety]
                assert own == sorted(own), page.path


def test_few_messages_stand_before_step_1(made):
    """Owner site brief: the first view holds the safety message and step 1; each other message waits for its own step.

    A dragging brake has three: traffic, hot metal and the wish to look under the van are there before any check.
    """
    for page in made[1].pages:
        above = list(takewhile(lambda node: not isinstance(node, p.Steps), page.body))
        if len(above) < len(page.body):
            messages = [node.message.id for node in above if isinstance(node, p.SafetyBox)]
            assert len(messages) <= (3 if page.path == "brakes-drag.html" else 2), (page.path, messages)


def test_emergency_pages_start_with_an_action_and_are_short(made):
    """Owner site brief: at most seven short lines, first action first."""
    pages = [page for page in made[1].pages if page.template == "emergency"]
    assert {"carbon-monoxide-alarm.html", "fire.html", "electric-shock.html"} <= {page.path for page in pages}
    for page in pages:
        assert isinstance(page.body[0], p.Steps), page.path
        assert 3 <= len(page.body[0].items) <= 7, page.path
        assert not page.body[0].items[0].safety


def test_a_van_with_gas_can_turn_it_off_from_the_start_page_and_one_without_reads_of_none(made):
    van, manual = made
    start = manual.pages[0]
    emergency = next(node for node in start.body if isinstance(node, p.Group) and node.role == "emergency")
    offered = [item.path for node in emergency.children if isinstance(node, p.Links) for item in node.items]
    assert ("turn-the-gas-off.html" in offered) == ("gas" in van.traits)
    assert ("gas-smell.html" in offered) == ("gas" in van.traits)
    own = [page for page in manual.pages if page.template in ("home", "list", "numbers", "checklist")]
    words = " ".join(text_of(page.body) for page in own).lower()
    assert "mains" in van.traits or "mains" not in words
    assert "toilet" in van.traits or "toilet" not in words


def test_the_number_to_ring_is_one_tap_from_every_page_and_on_each_emergency(made):
    """The rail of every page leads to the block of the start page; without script, too."""
    van, manual = made
    start = next(page for page in manual.pages if page.template == "home")
    block = next(node for node in start.body if isinstance(node, p.Group) and node.role == "emergency")
    number = van.market.emergency[0].number
    assert [one.number for one in all_inlines((block,)) if isinstance(one, p.Call)] == [number]
    for page in manual.pages:
        if page.template == "emergency":
            assert number in [one.number for one in all_inlines(page.body) if isinstance(one, p.Call)], page.path
            steps = [node for node in page.body if isinstance(node, p.Steps)]
            calls = [one for one in all_inlines(steps) if isinstance(one, p.Call)]
            assert len(calls) == text_of(steps).count(number), page.path


def test_every_place_has_a_page_and_every_label_leads_to_one(made):
    van, manual = made
    places = {page.path: page.plate for page in manual.pages if page.template == "place"}
    assert places == {f"{place.code}/index.html": place.code for place in van.places}
    assert [label.code for label in manual.labels] == [place.code for place in van.places if place.label]


def test_the_walk_round_goes_round_once(made):
    van, manual = made
    codes = [stop.code for stop in manual.walkround if stop.code]
    order = [place.code for where in ("outside", "inside") for place in van.places if place.where == where]
    assert codes == [code for code in order if code in codes]
    minutes = sum(line.minutes for stop in manual.walkround for line in stop.lines)
    assert 10 <= minutes <= 150


def test_checks_have_ids_of_their_own_and_lead_to_a_page(made):
    paths = {page.path for page in made[1].pages}
    checks = [
        check for page in made[1].pages for node in page.body if isinstance(node, p.Checks) for check in node.items
    ]
    assert len({check.id for check in checks}) == len(checks) > 5
    assert {check.path for check in checks} <= paths
    assert all(plain(check.line) for check in checks)


def test_the_chassis_is_never_shown_in_full(made):
    van, manual = made
    assert van.chassis not in repr(manual.pages) + repr(manual.search) + repr(dict(manual.values))


def test_every_fault_ends_with_a_fix_a_stop_or_the_dealer_and_what_to_say(made, workspace):
    """Its checks are followed by the words for the dealer, and its page by the dealer's number."""
    forms = {block.topic.value: block.form for block in workspace.content.blocks}
    seen = 0
    for page in made[1].pages:
        for topic in (topic for topic in page.topics if forms[topic] == "fault"):
            part = part_of(page, topic)
            checks = [at for at, node in enumerate(part) if isinstance(node, p.Steps) and node.role == "fault"]
            assert checks, topic
            rest = part[checks[-1] + 1 :]
            told = [plain(node.lines[0]) for node in rest if isinstance(node, p.Paragraph) and node.role == "note"]
            assert any(words.startswith("Tell the ") for words in told), topic
            dealer = [node for node in page.body if isinstance(node, p.Group) and node.role == "dealer"]
            assert any(isinstance(one, p.DialHole) for one in all_inlines(dealer)), page.path
            seen += 1
    assert seen > 5


def part_of(page, topic):
    """Return the nodes of a page that answer ``topic``: all of them, or those under its own heading."""
    if len(page.topics) == 1:
        return page.body
    anchors = [topic.replace("/", "-") for topic in page.topics]
    heads = [at for at, node in enumerate(page.body) if isinstance(node, p.Heading) and node.anchor in anchors]
    start = next(at for at in heads if page.body[at].anchor == topic.replace("/", "-"))
    return page.body[start : next((at for at in heads if at > start), len(page.body))]
