"""The technician's sheet: stops in walking order."""

from generator.model.blocks import Walkround

from .small_van import block, caravan, content, faults, fitted, manual, place


def walk(line, time="2 min", must=False):
    return Walkround(line=line, time=time, must=must)


def van():
    return caravan(
        fitted("hob", at={"hob": "H1"}),
        fitted("gas", at={"bottles": "A1", "shut_off": "H1"}),
        fitted("toilet", at={"cassette": "C1"}),
        places=[place("H1", where="inside"), place("C1", "Toilet door"), place("A1")],
    )


def test_stops_go_round_outside_then_inside_after_what_has_no_place():
    made = content(
        [
            block("hob/use", at=["hob.hob"], walk=walk("Light it")),
            block("gas/open", at=["gas.tap", "gas.bottles", "gas.shut_off"], walk=walk("Open it", must=True)),
            block("toilet/empty", at=["toilet.cassette"], walk=walk("Pull it out", "90 s")),
            block("toilet/clean", at=["toilet.cassette"]),
            block("trip/new", walk=walk("Hand over the papers")),
        ]
    )
    stops = manual(made, van()).walkround
    assert [(stop.code, stop.name, stop.where) for stop in stops] == [
        ("", "Before you start", "outside"),
        ("C1", "Toilet door", "outside"),
        ("A1", "Place A1", "outside"),
        ("H1", "Place H1", "inside"),
    ]
    lines = {line.line: (line.minutes, line.must, line.topic) for stop in stops for line in stop.lines}
    assert lines["Open it"] == (2, True, "gas/open")
    assert lines["Pull it out"] == (2, False, "toilet/empty")  # a minute and a half takes up two


def test_what_is_not_fitted_is_not_shown():
    made = content([block("x/y", needs=["solar"], walk=walk("Show the panel"))])
    assert manual(made, van()).walkround == ()


def test_a_time_without_unit_is_a_fault():
    made = content([block("hob/use", walk=walk("Light it", "2"))])
    assert faults(made, van()) == [
        'content/blocks/hob/use.md:1:1: error: "2" has no unit\n  hint: did you mean "2 min"?'
    ]
