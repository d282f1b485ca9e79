"""Numbers, tables and workings as HTML: verdict in words, cells scoped, everything escaped."""

import dataclasses
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from generator.fill.numbers import data_table, number_panel, summary, working
from generator.model.manual import Summary, Working
from generator.model.numbers import DataTable, Input, Number
from generator.model.sourced import Origin
from tests.fixture_manual import BALL, MISSING, OVER, PAYLOAD, ROOM, TYRES

HOSTILE = """<script>x</script>" & 'y'"""


def read(markup: str) -> BeautifulSoup:
    return BeautifulSoup(str(markup), "html.parser")


@pytest.mark.parametrize(
    ("number", "words", "shape"),
    [
        (BALL, "Within the limit", "verdict--within"),
        (PAYLOAD, "Close to the limit", "verdict--close"),
        (OVER, "Over the limit", "verdict--over"),
    ],
)
def test_the_verdict_stands_in_words(number: Number, words: str, shape: str) -> None:
    made = read(number_panel(number))
    verdict = made.select_one(".verdict")
    assert verdict is not None and verdict.get_text() == words and shape in verdict["class"]
    assert number.shown in made.get_text() and number.sentence in made.get_text()


def test_a_number_without_a_limit_has_no_verdict() -> None:
    assert not read(number_panel(TYRES)).select(".verdict")


def test_a_number_that_is_not_known_says_what_to_read() -> None:
    made = read(working(Working(numbers=(MISSING,))))
    assert not made.select(".number__value")
    assert MISSING.shown in made.get_text() and MISSING.missing[0] in made.get_text()


def test_a_limit_without_a_sentence_is_still_told() -> None:
    assert "Limit 100 kg." in read(number_panel(dataclasses.replace(BALL, sentence=""))).get_text()


def test_a_working_names_inputs_origin_method_source_and_rounding() -> None:
    words = read(working(Working(numbers=(BALL,)))).get_text()
    for one in BALL.inputs:
        assert one.name in words and one.shown in words
    assert "weighed on this van" in words and "guidance" in words
    for part in ("measured on this van", "from the plates", "assumed", BALL.method, BALL.source, "Rounded down"):
        assert part in words


def test_columns_and_rows_have_heads() -> None:
    made = read(data_table(ROOM))
    heads = [(cell.get_text(), cell["scope"]) for cell in made.find_all("th")]
    assert heads == [(head, "col") for head in ROOM.head] + [(row[0], "row") for row in ROOM.rows]
    assert made.caption is not None and made.caption.get_text() == ROOM.title
    assert ROOM.note in made.get_text()


def test_a_wide_table_scrolls_by_itself_and_by_keyboard() -> None:
    """WCAG 2.2, 1.4.10 exempts tables from reflow; axe asks that a scrolling part takes the focus."""
    box = read(data_table(ROOM)).find("div")
    assert box is not None and box["tabindex"] == "0" and box["aria-label"] == ROOM.title


def test_hostile_texts_stay_texts() -> None:
    table = DataTable(id="t", title=HOSTILE, head=(HOSTILE,), rows=((HOSTILE,),), note=HOSTILE, source=HOSTILE)
    number = dataclasses.replace(BALL, title=HOSTILE, shown=HOSTILE, sentence=HOSTILE, method=HOSTILE, source=HOSTILE)
    made = read(working(Working(numbers=(number,), tables=(table,))))
    assert made.find("script") is None
    assert made.get_text().count(HOSTILE) == 10


def test_a_value_of_many_words_is_set_as_words() -> None:
    long = dataclasses.replace(BALL, shown="2 days in cold weather, 5 days in mild weather")
    assert read(number_panel(long)).select(".number__value--words")
    assert not read(number_panel(BALL)).select(".number__value--words")


def test_the_working_puts_the_values_into_the_method() -> None:
    lines = ("9 kg × 2 = 18 kg", "1 < 2 kg")
    made = read(working(Working(numbers=(replace(BALL, worked=lines),)))).select_one(".worked")
    assert made is not None and made.get_text("|").replace("\u00a0", " ") == "9 kg × 2 = 18 kg|1 < 2 kg"
    assert read(working(Working(numbers=(BALL,)))).select_one(".worked") is None


def test_a_row_of_the_summary_leads_to_the_working_of_its_number() -> None:
    made = read(summary(Summary(path="numbers-a.html", numbers=(BALL, MISSING)), "../"))
    first, second = made.find_all("a")
    assert first["href"] == f"../numbers-a.html#{BALL.id}"
    assert BALL.verdict is not None and first.get_text() == f"{BALL.title}{BALL.shown}. {BALL.verdict.value}."
    assert second.get_text() == f"{MISSING.title}{MISSING.shown}"
    detail = read(working(Working(numbers=(BALL, MISSING)))).find_all("h2")
    assert [one["id"] for one in detail] == [BALL.id, MISSING.id]


def test_the_working_of_a_table_prints_its_inputs() -> None:
    hours = Input(name="Hob at full flame, each day", shown="1 h", origin=Origin.ASSUMPTION, where="set for this van")
    table = DataTable(id="t", title="Gas", head=("A", "B"), rows=(("a", "b"),), inputs=(hours,), source="definition")
    printed = read(working(Working(numbers=(), tables=(table,)))).find_all("li")
    assert [item.get_text(" ", strip=True) for item in printed] == [
        "Hob at full flame, each day 1 h assumed: set for this van"
    ]


def test_a_table_leaves_out_what_a_number_above_it_has_printed() -> None:
    both = Input(name="Hours", shown="1 h", origin=Origin.ASSUMPTION)
    number = dataclasses.replace(BALL, inputs=(both,))
    table = DataTable(id="t", title="Gas", head=("A",), rows=(("a",),), inputs=(both,))
    made = read(working(Working(numbers=(number,), tables=(table,))))
    assert [item.get_text(" ", strip=True) for item in made.find_all("li")] == ["Hours 1 h assumed"]
    assert made.get_text().count("What else it is made from stands above.") == 1
