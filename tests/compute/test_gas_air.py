"""Fixed vents: what is asked for, against what is fitted."""

import pytest

from generator.compute import compute
from generator.errors import ComputeError, Level
from generator.model.caravan import Caravan
from generator.model.numbers import Verdict

from .test_gas import bottle, burner
from .vans import Fit, market, van


def in_market(where: str, *fits: Fit, **plates: str) -> Caravan:
    named = {path.replace("_", ".", 1): text for path, text in plates.items()}
    return van(bottle(), *fits, plates=named, on=market(where), traits=(f"market-{where}",), berths=2)


HOB = burner("hob", "gross", gas_input="29 MJ/h")


def test_enough_vents_are_within_even_without_a_margin() -> None:
    needed = compute(in_market("nz", HOB, body_ventilation="18990 mm2")).numbers["vents-needed"]
    assert (needed.shown, needed.limit, needed.verdict) == ("18990 mm²", "18990 mm²", Verdict.WITHIN)
    assert needed.sentence.startswith("18990 mm² needed, 18990 mm² fitted. ")
    assert "For information" in needed.sentence


@pytest.mark.parametrize("where", ["nz", "au"])
def test_too_little_is_refused_where_the_standard_is_law(where: str) -> None:
    with pytest.raises(ComputeError) as raised:
        compute(in_market(where, HOB, body_ventilation="18000 mm2"))
    (fault,) = raised.value.faults
    assert fault.message == "fixed vents of 18000 mm² are less than the 18990 mm² needed (AS/NZS 5601.2)"


def test_too_little_by_the_floor_is_a_warning_since_the_floor_is_estimated() -> None:
    caravan = in_market("uk", HOB, body_length="4 m", body_width="2 m", body_ventilation="9000 mm2")
    found = compute(caravan)
    assert found.numbers["vents-needed"].verdict is Verdict.OVER
    told = [(fault.message, fault.level) for fault in found.warnings]
    assert told == [("fixed vents of 9000 mm² are less than the 11500 mm² needed (EN 721)", Level.WARNING)]


def test_without_the_fitted_area_the_dealer_is_asked() -> None:
    for plates in ({}, {"body_ventilation": "unknown"}):
        needed = compute(in_market("nz", HOB, **plates)).numbers["vents-needed"]
        assert (needed.verdict, needed.limit) == (None, "")
        assert needed.sentence.startswith("Ask your dealer what is fitted.")


def test_a_floor_above_the_rows_at_hand_gives_no_number() -> None:
    needed = compute(in_market("uk", HOB, body_length="4.8 m", body_width="2.23 m")).numbers["vents-needed"]
    assert needed.value is None
    assert needed.shown == "Not known: read the area needed off the papers of the gas system; ask your dealer for them"


def test_what_takes_its_air_from_outside_does_not_count_and_what_does_not_say_does() -> None:
    heater = burner("room_heater", "gross", gas_input="12 MJ/h", combustion_air="outside")
    silent = burner("room_heater", "gross", gas_input="12 MJ/h")
    unsure = burner("room_heater", "gross", gas_input="12 MJ/h", combustion_air="unknown")
    shown = [compute(in_market("nz", HOB, each)).numbers["vents-needed"].shown for each in (heater, silent, unsure)]
    assert shown == ["18990 mm²", "26310 mm²", "26310 mm²"]  # 610 x 12 = 7320 more


def test_a_net_input_counts_with_its_gross_share() -> None:
    """10 MJ/h net of propane are 10.88 gross (50.43 / 46.35): 610 x 10.8803 + 650 x 2 = 7936.96, rounded up."""
    caravan = in_market("nz", burner("hob", "net", gas_input="10 MJ/h"))
    assert compute(caravan).numbers["vents-needed"].shown == "7937 mm²"


def test_an_unknown_input_is_read_off_its_plate() -> None:
    needed = compute(in_market("nz", burner("hob", gas_input="unknown"))).numbers["vents-needed"]
    assert needed.shown == "Not known: read the gas input of the hob off its rating plate"
