"""Numbers, tables and workings as HTML: verdict in words, cells scoped, everything escaped."""

import dataclasses
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from generator.fill.numbers import data_table, number_panel, summary, verdicts, working
from generator.model.holes import Summary, Verdicts, Working
from generator.model.numbers import DataTable, Fraction, Input, Number, Worked
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
    part = Fraction(("9 kg", " + ", "1 kg"), ("2", " × ", Fraction(("4",), ("8",), (False, False))), (True, True))
    lines = (
        Worked(formula=("9 kg × 2",), result="18 kg"),
        Worked(label="Cold", formula=(part, " × 3"), result="30 kg"),
    )
    made = read(working(Working(numbers=(replace(BALL, worked=lines),)))).select_one(".worked")
    assert made is not None
    assert [one.get_text() for one in made.select(".sum")] == [
        "9 kg × 2 = 18 kg",
        "Cold: (9 kg + 1 kg) ÷ (2 × 4 ÷ 8) × 3 = 30 kg",
    ]
    assert [one.get_text() for one in made.select(".fraction > .fraction__above")] == ["(9 kg + 1 kg", "4"]
    assert read(working(Working(numbers=(BALL,)))).select_one(".worked") is None


def test_the_text_of_a_sum_is_the_sum_on_one_line() -> None:
    one = Fraction(("1",), ("2",), (False, False))
    worked = Worked(label="A", formula=("3 + ", one), result="3.5")
    made = read(working(Working(numbers=(replace(BALL, worked=(worked,)),)))).select_one(".sum")
    assert made is not None and made.get_text() == str(worked)


def test_the_sums_of_a_table_are_folded() -> None:
    worked = (Worked(label="a", formula=("1 + 1",), result="2"),)
    table = DataTable(id="t", title="Gas", head=("A",), rows=(("a",),), worked=worked)
    made = read(working(Working(numbers=(), tables=(table,)))).select_one("details.sums")
    assert made is not None and made.get_text(" ", strip=True) == "How it was worked out a: 1 + 1 = 2"


def test_a_verdict_comes_before_the_number_it_is_of_and_says_what_moves_it() -> None:
    moved = replace(BALL, moves="Where you put the load.")
    made = read(verdicts(Verdicts(numbers=(("numbers-a.html", moved),)), "../")).select_one("li")
    assert made is not None and BALL.verdict is not None
    said = made.get_text(" ", strip=True)
    assert said.startswith(f"{BALL.verdict.value} {BALL.title} {BALL.shown}")
    assert said.endswith("What moves it: Where you put the load.")
    assert made.a is not None and made.a["href"] == f"../numbers-a.html#{BALL.id}"
    assert "yet" in verdicts(Verdicts(numbers=()), "")


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


def test_what_several_are_made_from_stands_once_at_the_end() -> None:
    both, own = (Input(name=name, shown="1 h", origin=Origin.ASSUMPTION) for name in ("Hours", "Minutes"))
    number = dataclasses.replace(BALL, inputs=(both, own))
    table = DataTable(id="t", title="Gas", head=("A",), rows=(("a",),), inputs=(both,))
    made = read(working(Working(numbers=(number,), tables=(table,))))
    assert [item.get_text(" ", strip=True) for item in made.find_all("li")] == [
        "Minutes 1 h assumed",
        "Hours 1 h assumed",
    ]
    last = made.find_all(id="made-from")
    assert len(last) == 1
    assert len(made.find_all("a", href="#made-from")) == 2


def test_inputs_stand_by_where_they_are_from_and_many_are_folded() -> None:
    inputs = tuple(Input(name=f"N{at}", shown="1 kg", origin=Origin.PLATE) for at in range(9))
    few, many = (
        read(working(Working(numbers=(dataclasses.replace(BALL, inputs=some),)))) for some in (inputs[:3], inputs)
    )
    assert len(few.select(".inputs > li")) == len(many.select(".inputs > li")) == 1
    assert few.find("details") is None
    summary = many.select_one("details > summary")
    assert summary is not None and summary.get_text() == "What it was made from: 9 values"
