"""Our list of units against pint's full one, which follows the SI and NIST."""

import pint
import pytest

from generator.units import UnitError, parse, ureg

FULL: "pint.UnitRegistry[object]" = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
OWN = ("flushes", "mm2", "m2")  # which pint does not have
DEFINED = sorted({str(ureg.parse_units(name)) for name in ureg if name not in OWN} - {""})


@pytest.mark.parametrize("name", DEFINED)
def test_a_unit_is_what_pint_says_it_is(name: str) -> None:
    for amount in (0.0, 1.0, 20.0):
        ours, theirs = ureg.Quantity(amount, name).to_root_units(), FULL.Quantity(amount, name).to_root_units()
        assert ours.magnitude == pytest.approx(theirs.magnitude, rel=1e-12)
        assert str(ours.units) == str(theirs.units)


@pytest.mark.parametrize("text", ["5 gallon", "1 ton", "2 bag", "1 slug", "3 pint"])
def test_a_unit_with_two_meanings_or_none_here_is_refused(text: str) -> None:
    with pytest.raises(UnitError, match="unknown unit"):
        parse(text, "L")


def test_what_plates_and_leaflets_say_is_read() -> None:
    for text, unit in (("36 psi", "bar"), ("14 inch", "mm"), ("3 stone", "kg"), ("50 mbar", "bar"), ("2 kWh", "Wh")):
        assert parse(text, unit).is_compatible_with(unit)
