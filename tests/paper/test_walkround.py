"""The walk-round sheet: the hour holds, must lines stay, everything is on it."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import NUMBER_IDS
from generator.load import load
from generator.model.manual import WalkLine, WalkStop
from generator.paper.typeset import typeset
from generator.paper.walkround import plan, walkround_document
from tests.paper.printed import ADDRESS, ROOT, VANS, bookmarks, manual_of, pages, squeezed, strays, whole_of


def stop(*lines: tuple[int, bool]) -> WalkStop:
    made = (
        WalkLine(line=f"line {n}", minutes=minutes, must=must, topic="x/y") for n, (minutes, must) in enumerate(lines)
    )
    return WalkStop(code="A1", name="Place", where="outside", lines=tuple(made))


stops = st.lists(
    st.lists(st.tuples(st.integers(1, 9), st.booleans()), max_size=8).map(lambda lines: stop(*lines)), max_size=12
)


@given(stops, st.integers(0, 90), st.integers(0, 10))
def test_the_rule_keeps_what_must_be_shown_and_never_fills_more_than_the_hour(
    made: list[WalkStop], hour: int, phone: int
) -> None:
    found = plan(made, hour, phone)
    lines = {(s, n): line for s, one in enumerate(made) for n, line in enumerate(one.lines)}
    assert all(at in found.shown for at, line in lines.items() if line.must)
    assert found.shown | set(found.moved) == set(lines) and not found.shown & set(found.moved)
    assert found.minutes == phone + sum(lines[at].minutes for at in found.shown)
    assert found.minutes <= max(hour, found.must)
    assert found.moved == tuple(sorted(found.moved))
    # No line that was left out would still fit.
    assert all(found.minutes + lines[at].minutes > hour for at in found.moved)
    assert plan(made, hour, phone) == found


def test_the_shortest_come_first_and_among_them_the_first_on_the_way() -> None:
    found = plan([stop((3, False), (1, False)), stop((1, False), (2, True))], 4, 0)
    assert sorted(found.shown) == [(0, 1), (1, 0), (1, 1)] and found.moved == ((0, 0),)


@pytest.mark.parametrize("van", VANS)
def test_what_must_be_shown_fits_the_hour_in_every_demo_van(van: str) -> None:
    manual = manual_of(van)
    assert manual.sheet is not None
    found = plan(manual.walkround, manual.sheet.minutes, manual.sheet.phone_minutes)
    assert found.must <= manual.sheet.minutes == 60
    assert found.minutes <= 60


def test_must_lines_beyond_the_hour_are_told() -> None:
    manual = manual_of("marram-0417")
    assert manual.sheet is not None
    short = replace(manual, sheet=replace(manual.sheet, minutes=20))
    told = str(walkround_document(short, ADDRESS, whole_of(short))["hour"])
    must = plan(manual.walkround, 60, manual.sheet.phone_minutes).must
    assert told.startswith(f"The lines that must be shown take {must} minutes, {must - 20} more than the 20 allowed.")


@pytest.mark.parametrize("van", VANS)
def test_everything_is_on_two_or_three_sides(van: str) -> None:
    manual = manual_of(van)
    pdf = typeset("walkround.typ", walkround_document(manual, ADDRESS, whole_of(manual)))
    sides = pages(pdf)
    text = squeezed("".join(sides))
    assert 2 <= len(sides) <= 3
    assert manual.sheet is not None
    for line in (one for each in manual.walkround for one in each.lines):
        assert squeezed(line.line) in text
    for words in (*manual.sheet.prepare, *manual.sheet.leave, *manual.sheet.phone):
        assert squeezed(words) in text
    for handed in (*manual.sheet.papers, *(one for each in manual.walkround for one in each.hand_over)):
        assert squeezed(handed.line) in text
    for plate in (*manual.sheet.plates, *(one for each in manual.walkround for one in each.plates)):
        assert squeezed(f"{plate.name}:{plate.shown}") in text
    assert manual.chassis in text
    assert list(strays(pdf, 8)) == []


def test_places_come_in_walking_order_after_the_preparation() -> None:
    manual = manual_of("marram-0417")
    pdf = typeset("walkround.typ", walkround_document(manual, ADDRESS, whole_of(manual)))
    titles = [title for _, title, _ in bookmarks(pdf)]
    shown = [title for title in titles if title[:1] in "ABCDH" and title[1:2].isdigit()]
    codes = [title.split()[0] for title in shown]
    order = [one.code for one in manual.walkround if one.code]
    assert codes == [code for code in order if code in codes]
    assert titles.index("Prepare before the owner comes") < titles.index(shown[0])


def test_numbers_said_aloud_are_numbers() -> None:
    handover = load(ROOT, None).content.handover
    assert handover is not None
    assert {given.value for given in handover.say} <= NUMBER_IDS


def test_every_line_of_the_handover_holds_in_some_demo_van() -> None:
    handover = load(ROOT, None).content.handover
    assert handover is not None
    traits = [set(manual_of(van).traits) for van in VANS]
    for told in (*handover.prepare, *handover.leave, *handover.phone, *handover.hand_over):
        needs, excludes = {one.value for one in told.when}, {one.value for one in told.unless}
        assert any(needs <= found and not excludes & found for found in traits), told.line
