"""Manuals with nothing but the labels under test."""

from collections.abc import Callable, Mapping

import pytest

from generator.model.manual import LabelText, Manual

ADDRESS = "https://vans.example/7K3QX9F4WM/"  # a 12-character host: 35 characters on a label with a code of two


def labelled(names: Mapping[str, str], language: str = "en-GB") -> Manual:
    """Return a manual whose places have these names by code."""
    return Manual(
        chassis="ZZ9MR48NZTH000417",
        tail="000417",
        model="Marram 480",
        market="uk",
        language=language,
        dealer="Quayside Touring Vans (demo)",
        pages=(),
        values={},
        search=(),
        synonyms=(),
        labels=tuple(LabelText(code=code, name=name, path=f"{code}/") for code, name in names.items()),
        walkround=(),
        traits=(),
        choices=(),
    )


@pytest.fixture
def manual() -> Callable[..., Manual]:
    return labelled


@pytest.fixture
def address() -> str:
    return ADDRESS


@pytest.fixture
def names() -> Mapping[str, str]:
    """Places as a tourer has them, with names short and long."""
    return {
        "A0": "Drawbar",
        "A1": "Front gas locker",
        "B1": "Battery box and mains inlet",
        "B2": "Water inlet",
        "C1": "Cassette door",
        "H1": "Panel above the entrance door",
        "H2": "Kitchen overhead locker above the cooker hood",
        "H3": "Wardrobe",
        "D2": "Übergroße Außenstaufachklappe links hinten neben dem Rad",
    }
