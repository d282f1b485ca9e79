"""The calendar as other programs read it: icalendar for the file, dateutil for what comes again."""

from dataclasses import replace
from datetime import date, datetime

import icalendar
import pytest
from dateutil.rrule import rrulestr
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute.dates import months_later
from generator.model.dates import Due
from generator.model.manual import Manual
from generator.paper.calendar import calendar
from tests.paper.printed import ADDRESS, VANS, manual_of

DAY = date(2026, 11, 20)


def due(**given: object) -> Due:
    made: dict[str, object] = {
        **{"id": "service", "title": "Yearly service", "day": date(2027, 11, 20), "every_months": 12},
        **{
            "when": "20 November 2027, then every year",
            "why": "Seals and damp.",
            "source": "common practice, no source",
        },
    }
    return Due(**{**made, **given})  # type: ignore[arg-type]


def with_dates(*dues: Due) -> Manual:
    return replace(manual_of("sorrel-0032"), dates=dues)


def events(data: bytes) -> list[icalendar.Event]:
    parsed = icalendar.Calendar.from_ical(data)
    assert not parsed.errors
    return [event for event in parsed.walk("VEVENT") if not event.errors]


@pytest.mark.parametrize("van", VANS)
def test_every_date_of_a_demo_van_is_read_back(van: str) -> None:
    manual = manual_of(van)
    found = {str(event["SUMMARY"]): event for event in events(calendar(manual, ADDRESS, DAY, 2))}
    dated = [one for one in manual.dates if one.day]
    assert dated and len(found) == len(dated) + any(one.day is None for one in manual.dates)
    for one in dated:
        event = found[f"{one.title}: {manual.model} {manual.tail}"]
        assert event.decoded("DTSTART") == one.day
        assert one.why in str(event["DESCRIPTION"])
        page = next(page for page in manual.pages if one.topic in page.topics)
        assert str(event["URL"]) == ADDRESS + page.path
    assert manual.chassis.encode() not in calendar(manual, ADDRESS, DAY, 2)


def test_dates_that_the_part_says_are_one_entry_to_read_them_off() -> None:
    (event,) = events(calendar(with_dates(due(day=None, every_months=0, when="By the date on it")), ADDRESS, DAY, 1))
    assert event.decoded("DTSTART") == DAY
    assert "Yearly service: By the date on it. Seals and damp." in str(event["DESCRIPTION"])


def test_the_entry_to_read_dates_off_names_the_page_of_each() -> None:
    manual = manual_of("marram-0417")
    stamped = [one for one in manual.dates if one.day is None]
    found = [str(event["DESCRIPTION"]) for event in events(calendar(manual, ADDRESS, DAY, 1)) if "URL" not in event]
    pages = {topic: page.path for page in manual.pages for topic in page.topics}
    assert stamped
    assert all(any(f"Read: {ADDRESS}{pages[one.topic]}" in words for words in found) for one in stamped)


def test_lines_end_in_crlf_and_have_at_most_75_octets() -> None:
    data = calendar(with_dates(due(title="Überprüfung " * 9, why="Ünïcode, " * 40)), ADDRESS, DAY, 1)
    assert data.endswith(b"\r\n") and b"\n" not in data.replace(b"\r\n", b"")
    assert max(len(line) for line in data.split(b"\r\n")) <= 75
    for line in data.split(b"\r\n"):
        line.decode("utf-8")  # no character is torn


@settings(deadline=None)
@given(st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Zl", "Zp")), min_size=1, max_size=200))
def test_texts_come_back_as_they_went_in(text: str) -> None:
    (event,) = events(calendar(with_dates(due(title=text, why="why")), ADDRESS, DAY, 1))
    assert str(event["SUMMARY"]).startswith(text)


def test_an_entry_keeps_its_identity_and_counts_its_editions() -> None:
    first = {str(event["SUMMARY"]): event for event in events(calendar(manual_of("marram-0417"), ADDRESS, DAY, 1))}
    later = {
        str(event["SUMMARY"]): event for event in events(calendar(manual_of("marram-0417"), "", date(2027, 5, 1), 2))
    }
    assert {name: str(event["UID"]) for name, event in first.items()} == {
        name: str(event["UID"]) for name, event in later.items()
    }
    assert len({str(event["UID"]) for event in first.values()}) == len(first)
    assert {int(event["SEQUENCE"]) for event in later.values()} == {2}
    other = {str(event["UID"]) for event in events(calendar(manual_of("marram-0431-nz"), ADDRESS, DAY, 1))}
    assert not other & {str(event["UID"]) for event in first.values()}


def test_same_day_same_bytes() -> None:
    assert calendar(manual_of("marram-0417"), ADDRESS, DAY, 2) == calendar(manual_of("marram-0417"), ADDRESS, DAY, 2)


@settings(deadline=None)
@given(st.dates(date(2020, 1, 1), date(2030, 12, 31)), st.sampled_from([1, 3, 6, 12, 18, 24, 36, 60, 120]))
def test_it_comes_again_on_the_day_the_manual_says(first: date, months: int) -> None:
    (event,) = events(calendar(with_dates(due(day=first, every_months=months)), ADDRESS, DAY, 1))
    rule = rrulestr(event["RRULE"].to_ical().decode(), dtstart=datetime.combine(first, datetime.min.time()))
    found = [moment.date() for moment, _ in zip(rule, range(4), strict=False)]
    assert found == [months_later(first, months * n) for n in range(4)]
