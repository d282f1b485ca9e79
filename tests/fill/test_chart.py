"""Charts: lengths on one scale, what is over a limit told apart without colour, the same said in words."""

from bs4 import BeautifulSoup, Tag

from generator.fill.chart import bar_chart
from generator.fill.numbers import data_table
from generator.fill.single import single_file
from generator.model.numbers import Bar, BarChart, DataTable
from generator.model.pages import Page

LIMIT = Bar("Limit", 100.0, "100 kg")
LOADED = BarChart(
    title="Ball <load>",
    bars=(Bar("Empty", 50.0, "50 kg"), Bar("Full", 100.0, "100 kg"), Bar("Heavy", 125.0, "125 kg")),
    limits=(LIMIT,),
)


def read(chart: BarChart) -> Tag:
    svg = BeautifulSoup(str(bar_chart(chart, "chart-a")), "html.parser").svg
    assert svg is not None
    return svg


def widths(svg: Tag) -> list[float]:
    return [float(str(bar["width"])) for bar in svg.select(".chart__bar")]


def test_bars_are_as_long_as_their_values_up_to_the_limit() -> None:
    empty, full, heavy = widths(read(LOADED))
    assert abs(full - 2 * empty) < 0.2 and heavy == full


def test_what_is_over_a_limit_is_hatched_and_only_that() -> None:
    svg = read(LOADED)
    hatched = svg.select(".chart__over")
    assert len(hatched) == 1 and str(hatched[0]["d"]).count("M") > 3
    assert len(read(BarChart(title="A", bars=LOADED.bars[:2], limits=(LIMIT,))).select(".chart__over")) == 0


def test_the_limit_is_drawn_at_every_bar_and_named() -> None:
    svg = read(LOADED)
    assert len(svg.select(".chart__line")) == 1 + len(LOADED.bars)
    assert len({str(line["d"]).split()[0] for line in svg.select(".chart__line")}) == 1
    assert "Limit 100 kg" in [text.get_text() for text in svg.find_all("text")]


def test_a_chart_says_in_words_what_it_shows() -> None:
    svg = read(LOADED)
    title, words = (svg.find(id=name) for name in str(svg["aria-labelledby"]).split())
    assert isinstance(title, Tag) and title.get_text() == "Ball <load>"
    assert isinstance(words, Tag)
    assert words.get_text() == "Empty: 50 kg. Full: 100 kg. Heavy: 125 kg. Limit: 100 kg."
    assert svg["role"] == "img"


def test_a_bar_past_the_end_of_the_scale_is_drawn_open() -> None:
    days = (Bar("Jan", 2.0, "2 days"), Bar("Jul", 365.0, "does not run down"))
    svg = read(BarChart(title="Days", bars=days, most=14.0))
    assert len(svg.select(".chart__gap")) == 1
    short, long = widths(svg)
    assert abs(long - 7 * short) < 0.7


def test_nothing_lies_outside_and_a_value_of_nothing_or_less_has_no_bar() -> None:
    svg = read(BarChart(title="A", bars=(Bar("Lifts", -5.0, "-5 kg"), Bar("None", 0.0, "0 kg")), limits=(LIMIT,)))
    assert svg.select(".chart__bar") == []
    for chart in (LOADED, BarChart(title="A", bars=(Bar("None", 0.0, "0 kg"),))):
        assert all(0 <= float(str(bar["x"])) + float(str(bar["width"])) <= 360 for bar in read(chart).select("rect"))


def test_colour_and_style_are_left_to_the_style_sheet() -> None:
    svg = str(read(LOADED))
    assert "style=" not in svg and "<script" not in svg
    assert {part.split('"')[1] for part in svg.split("fill=")[1:]} <= {"currentColor", "none"}


def test_a_chart_stands_in_front_of_its_table_and_keeps_its_name_in_the_single_file() -> None:
    table = DataTable(id="a", title="A", head=("X", "Y"), rows=(("Empty", "50 kg"),), chart=LOADED)
    html = str(data_table(table))
    assert html.index("<svg") < html.index("<table")
    pages = [
        (Page(id=id, path=f"{id}.html", title=id, template="topic", language="en"), f"<main>{html}</main>")
        for id in ("p", "q")
    ]
    whole = BeautifulSoup(single_file(pages, "", "Van", "000417"), "html.parser")
    names = [name for svg in whole.find_all("svg") for name in str(svg["aria-labelledby"]).split()]
    assert len(names) == 4 == len(set(names))
    assert all(len(whole.find_all(id=name)) == 1 for name in names)
