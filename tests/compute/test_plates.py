"""Plate values are shown as they are, in the unit of the plate first."""

import pytest

from generator.compute import compute

from .vans import market, van


@pytest.mark.parametrize(
    ("pressure", "where", "shown"),
    [
        # 1 psi is 6.894757 kPa (definition): 43.51, 47.14, 448.16, 65.27
        ("3.0 bar", "uk", "3.0 bar (44 psi)"),
        ("3.25 bar", "uk", "3.25 bar (47 psi)"),
        ("3.0 bar", "nz", "3.0 bar (300 kPa, 44 psi)"),
        ("65 psi", "nz", "65 psi (448 kPa)"),
        ("450 kPa", "uk", "450 kPa (4.5 bar, 65 psi)"),
        ("3.0 bar", "eu", "3.0 bar"),
    ],
)
def test_tyre_pressure(pressure: str, where: str, shown: str) -> None:
    found = compute(van(plates={"wheels.pressure": pressure}, on=market(where)))
    assert found.numbers["tyre-pressure"].shown == shown


def test_other_plates() -> None:
    size = {"body.overall_length": "6.352 m", "body.width": "2.23 m", "body.height": "2.581 m"}
    found = compute(van(plates={**size, "wheels.nut_torque": "88 N*m"})).numbers
    ids = ("overall-length", "body-width", "overall-height", "wheel-nut-torque", "max-laden")
    assert [found[id].shown for id in ids] == [
        "6.36 m",  # a length to fit under or into is rounded up
        "2.23 m",
        "2.59 m",  # what has to pass under a bridge is rounded up
        "88 N·m",
        "1400 kg",
    ]


def test_an_unknown_plate_is_named() -> None:
    found = compute(van(plates={"wheels.nut_torque": "unknown", "wheels.pressure": "unknown"})).numbers
    assert found["wheel-nut-torque"].shown == "Not known: read the wheel nut torque off the wheel label of the van"
    assert found["tyre-pressure"].shown == "Not known: read the tyre pressure off the tyre label of the van"


def test_a_height_that_nobody_gave_is_measured() -> None:
    for plates in ({}, {"body.height": "unknown"}):
        found = compute(van(plates=plates)).numbers["overall-height"]
        assert (found.value, found.shown) == (None, "Not known: read the height off a tape measure")
