"""Addresses on labels."""

import pytest

from generator.paper.address import ALPHANUMERIC, is_dense, label_address


def test_the_example_of_the_design() -> None:
    assert label_address("https://vans.example/7K3QX9F4WM/", "A1/") == "HTTPS://VANS.EXAMPLE/7K3QX9F4WM/A1/"


def test_a_port_stays() -> None:
    assert label_address("https://vans.example:8443/7K3QX9F4WM/", "H3/") == "HTTPS://VANS.EXAMPLE:8443/7K3QX9F4WM/H3/"


def test_a_path_keeps_its_case() -> None:
    """RFC 3986, 6.2.2.1: scheme and host do not depend on case, the other parts do."""
    address = label_address("https://vans.example/manuals/7K3QX9F4WM/", "A1/")
    assert address == "HTTPS://VANS.EXAMPLE/manuals/7K3QX9F4WM/A1/"
    assert is_dense(address)


def test_the_alphanumeric_set_has_45_characters() -> None:
    """ISO/IEC 18004: 0-9, A-Z, space and $ % * + - . / :."""
    assert len(ALPHANUMERIC) == 45


@pytest.mark.parametrize("character", "?=&#_~a")
def test_characters_outside_the_set_are_dense(character: str) -> None:
    assert is_dense(f"HTTPS://VANS.EXAMPLE/{character}")
