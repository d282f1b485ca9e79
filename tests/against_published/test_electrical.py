"""Cables, batteries and mains against IEC 60228, BS 7671, Peukert's law and published examples."""

import re
from pathlib import Path

import pytest
import yaml

from generator.compute import compute
from generator.compute.mover import discharge_time, exponent
from generator.compute.wiring import drop, resistance
from generator.units import Quantity

from ..compute.vans import Fit, magnitude, market, van

EQUIPMENT = Path(__file__).parents[2] / "content" / "equipment"
CLASS_5 = {
    0.5: 39.0,
    0.75: 26.0,
    1.0: 19.5,
    1.5: 13.3,
    2.5: 7.98,
    4: 4.95,
    6: 3.30,
    10: 1.91,
    16: 1.21,
    25: 0.780,
    35: 0.554,
    50: 0.386,
}
CLASS_5_TINNED = {0.5: 40.1, 0.75: 26.7, 1.0: 20.0, 1.5: 13.7, 2.5: 8.21, 4: 5.09, 6: 3.39, 10: 1.95, 16: 1.24}
CLASS_2 = {0.5: 36.0, 0.75: 24.5, 1.0: 18.1, 1.5: 12.1, 2.5: 7.41, 4: 4.61, 6: 3.08, 10: 1.83, 16: 1.15, 25: 0.727}


def ohm_per_km(section_mm2: float, at_c: float = 20) -> float:
    return float(resistance(Quantity(section_mm2, "mm2"), Quantity(at_c, "degC")).value.to("ohm/km").magnitude)


def lost_v(length_m: float, current_a: float, section_mm2: float, at_c: float) -> float:
    per_length = resistance(Quantity(section_mm2, "mm2"), Quantity(at_c, "degC"))
    return float(drop(Quantity(current_a, "A"), Quantity(length_m, "m"), per_length).value.to("V").magnitude)


# --- conductors -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("section_mm2", "ohm"), CLASS_5.items())
def test_resistance_at_20_degrees(section_mm2: float, ohm: float) -> None:
    """IEC 60228 class 5, plain copper, read alike on two pages (seen): the table is used as it stands."""
    assert ohm_per_km(section_mm2) == pytest.approx(ohm, rel=1e-9)


@pytest.mark.parametrize("section_mm2", [each for each in CLASS_5_TINNED if each in CLASS_2])
def test_flexible_copper_lies_between_stranded_and_tinned(section_mm2: float) -> None:
    """IEC 60228 class 2 and class 5 tinned (seen): finer strands lie longer, tin conducts worse."""
    assert CLASS_2[section_mm2] < ohm_per_km(section_mm2) < CLASS_5_TINNED[section_mm2]


@pytest.mark.parametrize(
    ("at_c", "factor"),
    [
        (5, 1.064),
        (10, 1.042),
        (15, 1.020),
        (25, 0.980),
        (30, 0.962),
        (40, 0.926),
        (50, 0.893),
        (60, 0.862),
        (70, 0.833),
        (80, 0.806),
        (90, 0.781),
    ],
)
def test_resistance_rises_with_temperature(at_c: float, factor: float) -> None:
    """R20 = factor x R(t), IEC 60228 annex on a page (seen). It rounds 0.00393 per kelvin to 0.004: 1 %."""
    assert ohm_per_km(2.5) / ohm_per_km(2.5, at_c) == pytest.approx(factor, rel=0.01)


@pytest.mark.parametrize(
    ("section_mm2", "mv_per_a_m", "at_c", "tolerance"),
    [
        # BS 7671:2018 table 4F2B, flexible, 90 degC, two cores, on a reproduced page (seen): 5 %, since the table
        # keeps to whole tenths and adds to the resistance of the standard.
        (4, 13.2, 90, 0.05),
        (6, 8.5, 90, 0.05),
        (10, 5.1, 90, 0.05),
        (16, 3.2, 90, 0.05),
        # BS 7671 table 4F3B, flexible, 60 degC (memory): wide, 8 %.
        (0.5, 93, 60, 0.08),
        (0.75, 62, 60, 0.08),
        (1.0, 46, 60, 0.08),
        (1.5, 32, 60, 0.08),
        (2.5, 19, 60, 0.08),
        (4, 12, 60, 0.08),
    ],
)
def test_millivolts_per_ampere_and_metre(section_mm2: float, mv_per_a_m: float, at_c: float, tolerance: float) -> None:
    assert 1000 * lost_v(1, 1, section_mm2, at_c) == pytest.approx(mv_per_a_m, rel=tolerance)


@pytest.mark.parametrize(
    ("length_m", "current_a", "section_mm2", "at_c", "volts"),
    [  # 2 L I R, worked by hand (computed)
        (25, 16, 2.5, 20, 6.384),
        (25, 16, 2.5, 60, 7.387),
        (6, 8, 2.5, 20, 0.7661),
        (7, 15, 6, 30, 0.7202),
    ],
)
def test_volts_lost(length_m: float, current_a: float, section_mm2: float, at_c: float, volts: float) -> None:
    assert lost_v(length_m, current_a, section_mm2, at_c) == pytest.approx(volts, abs=6e-4)


def test_volts_lost_by_resistivity() -> None:
    """An example on a page (seen): 30 m of 6 mm2, 32 A, 0.0225 ohm mm2/m lose 7.20 V. Warm copper, so 60 degC; 5 %."""
    assert lost_v(30, 32, 6, 60) == pytest.approx(7.20, rel=0.05)


@pytest.mark.parametrize(
    ("at_c", "volts", "tolerance"),
    [
        (20, 6.384, 1e-4),  # 2 L I R (computed)
        (60, 7.387, 1e-4),
        (60, 7.6, 0.05),  # 19 mV per ampere and metre, BS 7671 (memory), by the table method: rounded up, 5 %
    ],
)
def test_volts_lost_in_a_mains_lead(at_c: float, volts: float, tolerance: float) -> None:
    inlet = Fit(
        slot="mains_inlet", parameters={"lead": "25 m", "lead_section": "2.5 mm2"}, traits=("mains", "inlet-16a")
    )
    found = compute(van(inlet, assume={"cable-temperature": f"{at_c} degC"}))
    assert magnitude(found, "lead-drop", "V") == pytest.approx(volts, rel=tolerance)


# --- batteries --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("capacity_ah", "current_a", "k", "hours"),
    [
        (200, 20, 1.2, 8.7055),  # "about 8.7 h" in an encyclopaedia (memory), the decimals computed
        (100, 10, 1.2, 8.7055),  # computed
        (100, 5, 1.3, 20.0),  # at the rated current, for any exponent (identity)
        (100, 20, 1.3, 3.2988),  # computed
    ],
)
def test_peukert(capacity_ah: float, current_a: float, k: float, hours: float) -> None:
    """Time = H (C / (I H)) ** k with the 20 h capacity (Peukert 1897; form seen on two pages)."""
    found = discharge_time(Quantity(capacity_ah, "Ah"), Quantity(current_a, "A"), k).value
    assert float(found.to("h").magnitude) == pytest.approx(hours, abs=6e-5)


def test_the_exponent_from_two_ratings() -> None:
    """100 Ah in 20 h and 85 Ah in 5 h: 1.1328 (computed)."""
    assert exponent(0.85).magnitude == pytest.approx(1.1328, abs=6e-5)


def test_the_assumed_exponent_is_that_of_a_lead_acid_battery() -> None:
    """Flooded 1.2 to 1.6, gel 1.10 to 1.25, absorbed 1.05 to 1.15, an encyclopaedia (memory): between them all."""
    assert 1.05 < exponent(0.80).magnitude < 1.25


@pytest.mark.parametrize(("share", "hours"), [("80 percent", 20.0), ("50 percent", 12.5)])
def test_hours_at_four_amperes(share: str, hours: float) -> None:
    """100 Ah at 4 A, C x depth / I (computed); 4 A at 12 V are 1152 Wh a day."""
    parameters = {"capacity": "100 Ah", "voltage": "12 V", "usable_share": share}
    radio = Fit(slot="radio", parameters={"daily_12v": "1152 Wh"})
    caravan = van(Fit(slot="battery", parameters=parameters, traits=("panel",)), radio)  # no lamps beside it
    assert magnitude(compute(caravan), "battery-days", "h") == pytest.approx(hours, rel=1e-9)


@pytest.mark.parametrize(("kind", "share"), [("lead-acid", 50), ("lithium", 80)])
def test_the_share_to_use_is_what_is_advised(kind: str, share: int) -> None:
    """Half of a lead-acid battery, four fifths of a lithium one, several pages (seen): never more by default."""
    said = yaml.safe_load((EQUIPMENT / "battery" / f"{kind}.yaml").read_text())["parameters"]["usable_share"]["default"]
    assert float(said.removesuffix(" percent")) <= share


REST_TABLES = {
    "battery question and answer page (seen)": {100: 12.66, 75: 12.45, 50: 12.30, 25: 12.15},
    "flooded cells, rule of thumb (seen)": {100: 12.6, 75: 12.4, 50: 12.2, 25: 12.0},
    "absorbed glass mat page (seen)": {100: 12.7, 80: 12.5, 50: 12.1, 30: 11.8, 10: 11.6},
    "battery council style table (memory)": {100: 12.65, 75: 12.45, 50: 12.24, 25: 12.06, 0: 11.89},
}
SAID = {100: "full", 75: "three quarters", 50: "half", 25: "a quarter", 0: "empty"}


def rest_bands() -> list[tuple[float, float, str]]:
    battery = Fit(
        slot="battery",
        parameters={"capacity": "95 Ah", "voltage": "12 V", "usable_share": "50 percent"},
        traits=("battery-lead-acid",),
    )
    bands = []
    for volts, said in compute(van(battery)).tables["rest-volts"].rows:
        ends = [float(each) for each in re.findall(r"\d+\.\d", volts)]
        low, high = (0.0, ends[0]) if volts.startswith("below") else (ends[0], ends[1] if len(ends) > 1 else 99.0)
        bands.append((low, high, said))
    return bands


@pytest.mark.parametrize(
    ("source", "charge", "volts"),
    [(source, charge, volts) for source, rows in REST_TABLES.items() for charge, volts in rows.items()],
)
def test_volts_at_rest(source: str, charge: int, volts: float) -> None:
    """What we say of a voltage is no fuller than the table says, give or take the 0.2 V by which tables differ."""
    near = [said for low, high, said in rest_bands() if low - 0.2 <= volts < high + 0.2]
    nearest = min(SAID, key=lambda each: abs(each - charge))
    assert any(SAID[nearest] in said for said in near), f"{volts} V is {charge} % in: {source}"


# --- mains ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("where", "inlet", "supply", "watts"),
    [  # volts x amperes: campsite sockets of UK, EU and NZ, park outlets of AU (seen); 6 and 10 A pitches (habit)
        ("uk", "inlet-16a", "6 A", 1380),
        ("uk", "inlet-16a", "10 A", 2300),
        ("uk", "inlet-16a", "16 A", 3680),
        ("nz", "inlet-16a", "16 A", 3680),
        ("au", "inlet-15a", "15 A", 3450),
    ],
)
def test_watts_of_a_supply(where: str, inlet: str, supply: str, watts: int) -> None:
    fit = Fit(slot="mains_inlet", parameters={"lead": "10 m", "lead_section": "2.5 mm2"}, traits=("mains", inlet))
    rows = compute(van(fit, on=market(where))).tables["mains-trips"].rows
    assert (f"Supply outside, {supply}", supply, f"{watts} W") in rows
