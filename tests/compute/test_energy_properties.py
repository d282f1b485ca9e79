"""What must hold of every energy number: units are not taken for one another, rounding is safe, texts repeat."""

from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import DECLARED, compute
from generator.load import load
from generator.model.numbers import DataTable, Number, Numbers
from generator.resolve import resolve
from generator.units import Quantity, Rounding, UnitError, parse, rounded

from .test_gas import bottle, burner
from .vans import Fit, magnitude, van

ROOT = Path(__file__).parents[2]
WORKSPACE = load(ROOT)
VANS = sorted(WORKSPACE.vans)


def demo(name: str) -> Numbers:
    return compute(resolve(WORKSPACE.vans[name], WORKSPACE))


def rate(gas_input: str, basis: str = "net") -> float:
    return magnitude(compute(van(bottle(), burner("hob", basis, gas_input=gas_input))), "gas-demand", "g/h")


# --- units ------------------------------------------------------------------------------------------------------


def test_a_megajoule_an_hour_is_not_a_kilowatt() -> None:
    assert rate("3.6 MJ/h") == pytest.approx(rate("1 kW"))
    assert rate("1 MJ/h") == pytest.approx(rate("1 kW") / 3.6)


def test_gross_is_not_net() -> None:
    """The same number on the plate burns 8 to 9 % less gas where it is gross."""
    assert 1.08 < rate("1 kW", "net") / rate("1 kW", "gross") < 1.09


def test_a_millibar_is_a_tenth_of_a_kilopascal() -> None:
    def stops(inlet: str) -> float:
        return magnitude(compute(van(bottle(), assume={"regulator-inlet": inlet})), "gas-stops-at", "degC")

    assert stops("300 mbar") == pytest.approx(stops("30 kPa"))
    assert stops("300 mbar") == pytest.approx(stops("0.3 bar"))
    assert stops("30 mbar") < stops("30 kPa") - 4


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("12.6 MJ", "kW"),
        ("12.6 kWh", "kW"),
        ("95 A", "Ah"),
        ("95 Wh", "Ah"),
        ("2.5 mm", "mm2"),
        ("10 kg", "L"),
        ("40 g", "g/L"),
        ("30 mbar", "g/h"),
        ("2 W/K", "W/m2/K"),
    ],
)
def test_another_dimension_is_refused(text: str, unit: str) -> None:
    with pytest.raises(UnitError):
        parse(text, unit)


@pytest.mark.parametrize("name", VANS)
def test_every_value_has_the_dimension_it_is_shown_in(name: str) -> None:
    for number in demo(name).numbers.values():
        if number.value is not None and DECLARED[number.id].unit:
            assert number.value.is_compatible_with(DECLARED[number.id].unit), number.id


# --- rounding ---------------------------------------------------------------------------------------------------

UP = {
    "gas-bottle-mass",
    "gas-demand",
    "gas-stops-at",
    "vents-needed",
    "daily-12v",
    "recharge-mains",
    "recharge-car",
    "recharge-sun",
    "lead-drop",
    "sanitising-dose",
    "sanitising-dose-heater",
    "waste-per-fill",
    "drain-litres",
    "heat-up-gas",
    "heat-up-mains",
    "heat-up-both",
    "second-shower",
    "heat-holds-gas",
    "heat-holds-mains",
    "heat-holds-diesel",
}
DOWN = {
    "gas-per-bottle",
    "gas-days-typical",
    "gas-days-all",
    "battery-usable",
    "battery-days",
    "battery-days-sun",
    "mover-minutes",
    "solar-panel",
    "solar-day",
    "water-usable",
    "water-days",
    "waste-volume",
    "shower-water",
    "cassette-volume",
    "cassette-days",
    "flush-tank-volume",
    "flushes",
}
GROUPS = {"Gas", "12 V", "Solar", "Mains", "Water", "Hot water", "Toilet", "Heating"}


def test_what_is_needed_is_rounded_up_and_what_lasts_is_rounded_down() -> None:
    numbers = {id: each for id, each in DECLARED.items() if each.group in GROUPS and each.form == "number"}
    assert {id for id, each in numbers.items() if each.rounding is Rounding.UP} == UP
    assert {id for id, each in numbers.items() if each.rounding is Rounding.DOWN} == DOWN
    assert {id for id, each in numbers.items() if each.rounding is Rounding.NEAREST} == {"mains-voltage"}


def leading(text: str) -> float:
    return float(text.split()[0].replace("−", "-"))


@given(
    capacity=st.floats(20, 400),
    litres=st.floats(20, 300),
    kilowatts=st.floats(0.1, 6),
    panel=st.floats(10, 900),
    metres=st.floats(5, 40),
)
@settings(max_examples=25, deadline=None)
def test_no_shown_number_crosses_to_the_unsafe_side(
    capacity: float, litres: float, kilowatts: float, panel: float, metres: float
) -> None:
    parameters = {"capacity": f"{capacity:.3f} Ah", "voltage": "12 V", "usable_share": "50 percent"}
    found = compute(
        van(
            bottle(),
            burner("hob", gas_input=f"{kilowatts:.4f} kW"),
            Fit(slot="battery", parameters=parameters, traits=("battery-lead-acid",)),
            Fit(slot="radio", parameters={"daily_12v": "77.7 Wh"}),
            Fit(slot="charger", parameters={"output": "17.3 A"}, traits=("mains-charger",)),
            Fit(slot="solar", parameters={"panel": f"{panel:.3f} W"}),
            Fit(slot="mover", parameters={"current": "47.1 A"}),
            Fit(
                slot="mains_inlet",
                parameters={"lead": f"{metres:.3f} m", "lead_section": "2.5 mm2"},
                traits=("mains", "inlet-16a"),
            ),
            Fit(
                slot="water_supply",
                parameters={"volume": f"{litres:.3f} L", "usable_share": "88 percent"},
                traits=("water",),
            ),
            Fit(slot="waste", parameters={"volume": "33.3 L"}),
        )
    ).numbers
    for id in (UP | DOWN) & set(found):
        number, said = found[id], DECLARED[id]
        if number.value is None or not number.shown[0].isdigit():
            continue
        exact = float(number.value.to(said.unit).magnitude)
        if said.rounding is Rounding.UP:
            assert leading(number.shown) >= exact - 1e-6, id
        else:
            assert leading(number.shown) <= exact + 1e-6, id


@given(st.floats(0.001, 1e6), st.integers(0, 3))
def test_rounding_once_never_crosses(value: float, digits: int) -> None:
    quantity = Quantity(value, "Wh")
    assert float(rounded(quantity, "Wh", Rounding.UP, digits)) >= value * (1 - 1e-9)
    assert float(rounded(quantity, "Wh", Rounding.DOWN, digits)) <= value * (1 + 1e-9)


# --- texts ------------------------------------------------------------------------------------------------------


def texts(found: Number | DataTable) -> str:
    if isinstance(found, Number):
        parts = [found.title, found.group, found.shown, found.sentence, found.method, found.source]
    else:
        parts = [found.title, found.group, *found.head, *(cell for row in found.rows for cell in row)]
        parts += [found.note, found.method, found.source]
    return " ".join([*parts, *(f"{each.name} {each.shown} {each.where}" for each in found.inputs)]).lower()


@pytest.mark.parametrize("name", VANS)
def test_the_same_input_gives_the_same_text(name: str) -> None:
    one, other = demo(name), demo(name)
    assert one.numbers.keys() == other.numbers.keys()
    for id in one.numbers:
        assert texts(one.numbers[id]) == texts(other.numbers[id])
    for id in one.tables:
        assert texts(one.tables[id]) == texts(other.tables[id])


@pytest.mark.parametrize("name", VANS)
def test_no_van_is_told_of_what_it_has_not(name: str) -> None:
    """Words tied to a trait (content/terms.yaml) stand in no energy number of a van without it."""
    caravan, found = resolve(WORKSPACE.vans[name], WORKSPACE), demo(name)
    tied = yaml.safe_load((ROOT / "content" / "terms.yaml").read_text())["tied"]
    missing = [word for group in tied if group["trait"] not in caravan.traits for word in group["words"]]
    for each in (*found.numbers.values(), *found.tables.values()):
        if each.group in GROUPS:
            said = texts(each)
            assert [word for word in missing if f" {word} " in said] == [], each.id


@pytest.mark.parametrize("name", VANS)
def test_every_number_without_a_value_says_what_to_read(name: str) -> None:
    for number in demo(name).numbers.values():
        assert (number.value is None) is bool(number.missing), number.id
        assert number.value is not None or number.shown.startswith("Not known: read "), number.id
