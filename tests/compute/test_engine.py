"""The mechanism: declared inputs only, order, gaps, faults, working."""

from graphlib import CycleError

import pytest

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.engine import evaluate, ordered
from generator.compute.inputs import Inputs, Undeclared
from generator.errors import ComputeError, Fault, Level
from generator.model.numbers import Verdict
from generator.model.sourced import Origin
from generator.units import Quantity, Rounding

from .vans import AT, Fit, van


def make(id: str, work, needs: tuple[str, ...] = (), unit: str = "kg", **said) -> Recipe:
    said = {"group": "Test", "title": id, "rounding": Rounding.DOWN, "method": "m", "source": "s", **said}
    return number(id, needs=needs, unit=unit, **said)(work)


def laden(given: Inputs) -> Quantity:
    return given.quantity("masses.max_laden")


@pytest.mark.parametrize(
    "work",
    [
        lambda given: given.quantity("masses.unladen"),
        lambda given: given.has("masses.unladen"),
        lambda given: given.text("gas.fuel"),
        lambda given: given.quantity("hob.mass"),
        lambda given: given.fitted("*.mass"),
        lambda given: given.number("other"),
        lambda given: given.shown("other"),
        lambda given: given.assumed("cold-water"),
        lambda given: given.trait("gas"),
        lambda given: given.basis("hob"),
        lambda given: given.places,
        lambda given: given.circuits,
        lambda given: given.equipment,
        lambda given: given.outside_unladen,
        lambda given: given.by_place("other"),
    ],
)
def test_a_number_gets_only_what_it_declares(work) -> None:
    recipes = [make("other", laden, ("masses.max_laden",)), make("nosy", work, ("masses.max_laden",))]
    with pytest.raises(Undeclared, match="without declaring it"):
        evaluate(van(Fit(slot="hob", parameters={"mass": "5 kg"})), recipes)


def test_a_pattern_opens_that_parameter_of_all_equipment_and_nothing_else() -> None:
    hob = Fit(slot="hob", parameters={"mass": "5 kg", "gas_input": "2 kW"})
    found = evaluate(van(hob), [make("m", lambda given: given.quantity("hob.mass"), ("*.mass",))])
    assert found.numbers["m"].shown == "5 kg"
    with pytest.raises(Undeclared):
        evaluate(van(hob), [make("m", lambda given: given.quantity("hob.gas_input"), ("*.mass",))])


def test_a_number_is_made_where_its_traits_hold_and_nowhere_else() -> None:
    recipes = [make("m", laden, ("masses.max_laden",), all_of=("gas", "solar"), none_of=("mains",))]
    having = [
        traits
        for traits in ((), ("gas",), ("gas", "solar"), ("gas", "solar", "mains"))
        if "m" in evaluate(van(traits=traits), recipes).numbers
    ]
    assert having == [("gas", "solar")]


def test_a_number_is_worked_out_after_what_it_uses_and_listed_where_it_stands() -> None:
    double = make("double", lambda given: 2 * given.number("single"), uses=("single",))
    found = evaluate(van(), [double, make("single", laden, ("masses.max_laden",))])
    assert [(each.id, each.shown) for each in found.numbers.values()] == [("double", "2800 kg"), ("single", "1400 kg")]


def test_a_circle_a_doubled_id_and_an_unknown_use_are_refused() -> None:
    with pytest.raises(CycleError):
        ordered([make("a", laden, uses=("b",)), make("b", laden, uses=("a",))])
    with pytest.raises(ValueError, match="two declarations of a"):
        ordered([make("a", laden), make("a", laden)])
    with pytest.raises(ValueError, match="nothing declares"):
        ordered([make("a", laden, uses=("b",))])


def test_an_unknown_input_says_what_to_read_and_so_does_all_that_builds_on_it() -> None:
    recipes = [
        make(
            "both",
            lambda given: laden(given) - given.quantity("masses.unladen"),
            ("masses.max_laden", "masses.unladen"),
        ),
        make("next", lambda given: given.number("both") / 2, uses=("both",)),
        make("apart", lambda given: given.quantity("masses.max_axle"), ("masses.max_axle",)),
    ]
    found = evaluate(van(plates={"masses.max_laden": "unknown", "masses.unladen": "unknown"}), recipes).numbers
    missing = (
        "the maximum laden mass off the maker's plate of the van",
        "the unladen mass off the weight certificate of the van",
    )
    for id in ("both", "next"):
        assert found[id].value is None
        assert found[id].missing == missing
        assert found[id].shown == f"Not known: read {missing[0]} and {missing[1]}"
    assert found["apart"].shown == "1340 kg"


def test_an_unknown_parameter_is_read_off_its_own_plate() -> None:
    hob = Fit(slot="hob", parameters={"gas_input": "unknown"})
    found = evaluate(van(hob), [make("m", lambda given: given.quantity("hob.gas_input"), ("*.gas_input",))])
    assert found.numbers["m"].shown == "Not known: read the gas input of the hob off its rating plate"


def test_a_table_with_an_unknown_need_has_no_rows_and_says_why() -> None:
    fill = table(
        "t",
        group="g",
        title="t",
        needs=("masses.max_laden",),
        head=("a",),
        rounding=Rounding.UP,
        method="m",
        source="s",
    )
    found = evaluate(van(plates={"masses.max_laden": "unknown"}), [fill(lambda given: Rows(rows=(("x",),)))]).tables[
        "t"
    ]
    assert found.rows == ()
    assert found.note == "Not known: read the maximum laden mass off the maker's plate of the van"
    assert len(found.missing) == 1


def test_the_working_holds_what_was_read_with_its_origin_and_nothing_else() -> None:
    def work(given: Inputs) -> Quantity:
        return given.quantity("masses.max_laden") * (
            given.assumed("cold-water").magnitude / given.quantity("market.mains_voltage").magnitude
        )

    needs = ("masses.max_laden", "market.mains_voltage")
    recipes = [
        make("first", work, needs, assumes=("cold-water",), optional=("masses.unladen",)),
        make("second", lambda given: given.number("first"), uses=("first",)),
    ]
    found = evaluate(van(), recipes).numbers
    read = [(each.name, each.shown, each.origin) for each in found["first"].inputs]
    assert read == [
        ("Maximum laden mass", "1400 kg", Origin.PLATE),
        ("Temperature of the cold water", "15 °C", Origin.ASSUMPTION),
        ("Mains voltage", "230 V", Origin.MARKET),
    ]
    assert found["first"].inputs[1].where == "common practice, no source"
    assert found["second"].inputs == found["first"].inputs


def test_a_value_is_rounded_when_shown_and_not_before() -> None:
    recipes = [
        make("third", lambda given: laden(given) / 3, ("masses.max_laden",)),
        make("whole", lambda given: 3 * given.number("third"), uses=("third",)),
    ]
    found = evaluate(van(), recipes).numbers
    assert (found["third"].shown, found["whole"].shown) == ("466 kg", "1400 kg")


def test_all_faults_come_at_once_and_each_once() -> None:
    def over(given: Inputs) -> Answer:
        return Answer(value=laden(given), faults=(Fault("too heavy", given.source("masses.max_laden")),))

    def below_zero(given: Inputs) -> Quantity:
        return given.quantity("masses.unladen")

    recipes = [
        make("a", over, ("masses.max_laden",)),
        make("b", below_zero, ("masses.unladen",)),
        make("c", below_zero, ("masses.unladen",)),
        make("d", lambda given: given.number("b"), uses=("b",)),
        make("e", lambda given: given.quantity("body.height"), ("body.height",)),
    ]
    caravan = van(plates={"masses.unladen": "1 kg"})
    caravan.facts["masses.unladen"] = type(caravan.facts["masses.unladen"])(Quantity(-1.0, "kg"), Origin.PLATE, AT)  # type: ignore[index]
    with pytest.raises(ComputeError) as raised:
        evaluate(caravan, recipes)
    assert [fault.message for fault in raised.value.faults] == [
        "too heavy",
        "Unladen mass is −1 kg, below zero",
        "e needs body.height, which this van does not give",
    ]
    assert all(fault.source is not None for fault in raised.value.faults)


def test_a_divisor_of_zero_is_a_fault_and_no_crash() -> None:
    with pytest.raises(ComputeError, match="above zero is needed"):
        evaluate(
            van(plates={"masses.max_laden": "0 kg"}),
            [make("m", lambda given: 1 / given.positive("masses.max_laden"), ("masses.max_laden",))],
        )


def test_a_warning_lets_the_van_pass_and_is_handed_on() -> None:
    def work(given: Inputs) -> Answer:
        warning = Fault("thin", given.source("masses.max_laden"), level=Level.WARNING)
        return Answer(value=laden(given), limit=laden(given), verdict=Verdict.CLOSE, sentence="S.", faults=(warning,))

    found = evaluate(van(), [make("m", work, ("masses.max_laden",))])
    assert [fault.message for fault in found.warnings] == ["thin"]
    m = found.numbers["m"]
    assert (m.limit, m.verdict, m.sentence) == ("1400 kg", Verdict.CLOSE, "S.")
