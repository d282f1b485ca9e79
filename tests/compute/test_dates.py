"""Dates by market and by what is fitted; the calendar is held to an independent library."""

from dataclasses import replace
from datetime import date

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import compute
from generator.compute.dates import months_later, words
from generator.model.dates import DateRule
from generator.model.sourced import Given

from .vans import AT, market, quantity, van

BUILT, HANDED = date(2026, 6, 15), date(2026, 11, 20)


def rule(id: str, every: str | None = "5 year", since: str = "built", **more: object) -> DateRule:
    span = Given(quantity(every), AT) if every else None
    said: dict[str, object] = {
        "id": id,
        "title": Given(id, AT),
        "why": "It ages.",
        "source": "a guide",
        "read_on": "2026-11",
    }
    return DateRule(**{**said, "counts_from": since, "every": span, **more})  # type: ignore[arg-type]


def dated(*rules: DateRule, built: date | None = BUILT, handed: date | None = HANDED, traits: tuple[str, ...] = ()):
    return compute(van(on=market(dates=rules), built=built, handed_over=handed, traits=traits))


@pytest.mark.parametrize(
    ("one", "when"),
    [
        (rule("hose"), "15 June 2031, then every 5 years"),
        (rule("service", "1 year", "handed_over"), "20 November 2027, then every year"),
        (rule("half", "18 month", "handed_over"), "20 May 2028, then every 18 months"),
        (rule("month", "1 month", "handed_over"), "20 December 2026, then every month"),
        (rule("tyres", then_every=Given(quantity("1 year"), AT)), "15 June 2031, then every year"),
        (rule("alarm", None, "stamped"), "By the date on it"),
        (rule("late", "3 month"), "15 September 2026, before the handover: ask your dealer whether it was done"),
    ],
)
def test_when_is_said_in_words(one: DateRule, when: str) -> None:
    assert dated(one).tables["dates"].rows == ((one.title.value, when, "It ages. From: a guide; read 2026-11."),)


@pytest.mark.parametrize(
    ("one", "when"),
    [
        (rule("hose"), "5 years after the van was built, then every 5 years"),
        (rule("service", "1 year", "handed_over"), "1 year after the handover, then every year"),
    ],
)
def test_without_a_day_to_count_from_the_time_is_said(one: DateRule, when: str) -> None:
    found = dated(one, built=None, handed=None)
    assert found.tables["dates"].rows[0][1] == when
    assert found.dates[0].day is None
    assert found.tables["dates"].note == "A date stamped or written on the part itself wins over this table."


def test_what_passed_before_the_handover_is_never_put_off_to_the_next_time() -> None:
    """A used van: a hose of 2015 is due in 2020, not in 2030."""
    found = dated(rule("hose"), built=date(2015, 3, 1))
    assert found.dates[0].day == date(2020, 3, 1)
    (fault,) = [fault for fault in found.warnings if "before the handover" in fault.message]
    assert fault.message == "hose: due on 2020-03-01, before the handover"


def test_only_rules_of_what_is_fitted_hold() -> None:
    gas, both = (rule(id, when=tuple(Given(t, AT) for t in traits)) for id, traits in (("g", "g"), ("gm", "gm")))
    assert [due.id for due in dated(gas, both).dates] == []
    assert [due.id for due in dated(gas, both, traits=("g",)).dates] == ["g"]
    assert [due.id for due in dated(gas, both, traits=("g", "m")).dates] == ["g", "gm"]


def test_the_market_s_rule_takes_the_place_of_the_kind_s() -> None:
    caravan = van(on=market(dates=(rule("hose", "5 year"),)), built=BUILT)
    (coupling,) = caravan.equipment
    kind = replace(coupling.kind, dates=(rule("hose", "10 year"), rule("pads", "2 year")))
    found = compute(replace(caravan, equipment=(replace(coupling, kind=kind),))).dates
    assert [(due.id, due.day) for due in found] == [("pads", date(2028, 6, 15)), ("hose", date(2031, 6, 15))]


def test_soonest_comes_first_and_what_is_stamped_last() -> None:
    found = dated(rule("alarm", None, "stamped"), rule("b", "10 year"), rule("a", "1 year", "handed_over"))
    assert [due.id for due in found.dates] == ["a", "b", "alarm"]


@pytest.mark.parametrize(
    ("source", "shown"),
    [
        ("common practice, no source", "common practice; your dealer knows the rule"),
        ("EN 1 (from memory)", "EN 1 (not looked up again)"),
        ("road rules", "road rules (not looked up again)"),
    ],
)
def test_what_nobody_read_is_not_said_to_be_read(source: str, shown: str) -> None:
    found = dated(rule("x", source=source, read_on="from memory")).tables["dates"]
    assert found.rows[0][2].partition("From: ")[2] == f"{shown}."


@given(st.dates(date(1990, 1, 1), date(2090, 12, 31)), st.integers(1, 600))
def test_months_are_counted_as_an_independent_library_does(start: date, months: int) -> None:
    """python-dateutil: relativedelta(months=n)."""
    assert months_later(start, months) == start + relativedelta(months=months)


@pytest.mark.parametrize(("day", "said"), [(date(2031, 6, 5), "5 June 2031"), (date(2028, 2, 29), "29 February 2028")])
def test_a_day_in_words(day: date, said: str) -> None:
    assert words(day) == said
