"""The sums a reader can follow: reckoned again from their own text, they give the number that is shown."""

import ast
import operator
import re
from functools import lru_cache
from pathlib import Path

import pytest

from generator.model.numbers import Number
from generator.pipeline.examining import examine_van

ROOT = Path(__file__).parents[2]
VANS = sorted(path.stem for path in (ROOT / "van_specs/vans").glob("*.yaml"))
SIGNS = {"×": "*", "÷": "/", "\N{MINUS SIGN}": "-"}
UNITS = re.compile(r"kJ/\(kg K\)|(?<=[\d] )[A-Za-z][A-Za-z/²]*")
DOES = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv}
WITH_SUM = {
    *("payload", "ball-load-empty", "gas-days-typical", "gas-days-all", "battery-days", "water-days"),
    *("sanitising-dose", "sanitising-dose-heater", "heat-up-gas", "heat-up-mains", "heat-up-both", "d-value-needed"),
}


@lru_cache(maxsize=6)
def numbers_of(van: str) -> dict[str, Number]:
    manual = examine_van(ROOT, Path(f"van_specs/vans/{van}.yaml")).manual
    assert manual is not None
    return {value.id: value for value in manual.values.values() if isinstance(value, Number)}


def reckoned(text: str) -> float:
    """Return what a pocket calculator makes of a sum: its digits and signs alone."""
    for sign, does in SIGNS.items():
        text = text.replace(sign, does)
    return _of(ast.parse(UNITS.sub("", text), mode="eval").body)


def _of(node: ast.expr) -> float:
    match node:
        case ast.Constant(value=int() | float() as value):
            return value
        case ast.BinOp(left=left, op=op, right=right):
            return float(DOES[type(op)](_of(left), _of(right)))
        case _:
            raise ValueError(ast.dump(node))


def test_the_reckoning_of_this_test_sees_a_wrong_sum() -> None:
    assert reckoned("9 kg × (4 m \N{MINUS SIGN} 1 m) ÷ 4 m") == 6.75
    assert reckoned("10 kg × 4.186 kJ/(kg K) × 55 K ÷ (60 s/min × 1 kW)") == pytest.approx(38.37, abs=0.01)


@pytest.mark.parametrize("van", VANS)
def test_every_sum_gives_what_stands_behind_it(van: str) -> None:
    sums = [(one, line) for one in numbers_of(van).values() for line in one.worked]
    assert len(sums) >= 5
    for number, line in sums:
        formula, given = line.rpartition(": ")[2].split(" = ")
        assert reckoned(formula) == pytest.approx(reckoned(given), rel=0.01, abs=0.06), (number.id, line)


@pytest.mark.parametrize("van", VANS)
def test_the_sum_ends_in_the_number(van: str) -> None:
    for number in numbers_of(van).values():
        if number.worked:
            assert number.value is not None
            amount, _, unit = number.worked[0].rpartition(" = ")[2].partition(" ")
            value = number.value.to(unit.replace("days", "day"))
            assert float(amount) == pytest.approx(float(value.magnitude), rel=0.01, abs=0.06), number.id


def test_a_tourer_has_every_sum_and_a_number_that_is_not_known_has_none() -> None:
    found = {one.id for one in numbers_of("marram-0417").values() if one.worked}
    assert found == WITH_SUM
    for van in VANS:
        assert all(number.worked == () for number in numbers_of(van).values() if number.value is None)
