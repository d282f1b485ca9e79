from pathlib import Path

import pytest

from generator.errors import SpecError
from generator.load import load
from generator.model.sourced import UNKNOWN
from generator.model.specs import Spec

from ..conftest import BuildWorkspace

VAN = "van_specs/vans/dune-1.yaml"
HEAD = "chassis: ZZ9DN40N8TH000001\nbased_on: dune-400\nmarket: uk\ndealer: quayside\n"


def van(root: Path) -> Spec:
    return load(root).vans[VAN]


def faults_of(root: Path) -> list[str]:
    with pytest.raises(SpecError) as caught:
        load(root)
    return [fault.message for fault in caught.value.faults]


def test_fittings_may_be_a_mapping_a_list_or_none(build_workspace: BuildWorkspace) -> None:
    text = (
        "fitted:\n  gas: none\n  fridge: {at: {control: H2}, mass: unknown}\n  lamps: [{kind: reading}, {kind: entry}]"
    )
    fitted = {slot.value: fittings for slot, fittings in van(build_workspace({VAN: HEAD + text})).fitted.items()}
    assert fitted["gas"] == ()
    assert fitted["fridge"][0].kind is None
    assert fitted["fridge"][0].at["control"].value == "H2"
    assert fitted["fridge"][0].parameters["mass"].value == "unknown"
    assert [fitting.kind.value for fitting in fitted["lamps"] if fitting.kind] == ["reading", "entry"]


def test_a_list_of_quantities_may_be_written_either_way(build_workspace: BuildWorkspace) -> None:
    for written in ('"500 W, 1000 W"', "[500 W, 1000 W]"):
        spec = van(build_workspace({VAN: f"{HEAD}fitted: {{fridge: {{mains_steps: {written}}}}}\n"}))
        ((fitting,),) = spec.fitted.values()
        assert fitting.parameters["mains_steps"].value == "500 W, 1000 W"


def test_every_quantity_may_be_unknown(build_workspace: BuildWorkspace) -> None:
    spec = van(build_workspace({VAN: HEAD + "masses: {max_axle: unknown}\nwheels: {nut_torque: unknown}\n"}))
    assert spec.masses.max_axle and spec.masses.max_axle.value is UNKNOWN
    assert spec.wheels.nut_torque and spec.wheels.nut_torque.value is UNKNOWN


@pytest.mark.parametrize(
    "name",
    ["Wardrobe & shelf", 'Locker "left"', "50 % off", "Fridge / larder", "*Star*", "_x_", "# 2", "[Front]", "O'Neil",
     "Tūī 480", "a -- b", "1. Front", "=x", "B2", "C:", "${x}".replace("{", "(").replace("}", ")")],
)  # fmt: skip
def test_signs_that_mean_something_to_markdown_survive_as_text(name: str, build_workspace: BuildWorkspace) -> None:
    quoted = name.replace("'", "''")
    spec = van(build_workspace({VAN: f"{HEAD}places: [{{code: D1, name: '{quoted}', where: outside}}]\n"}))
    assert spec.places[0].name and spec.places[0].name.value == name


@pytest.mark.parametrize("name", ["<i>x</i>", "a < b", "{{ x }}", "{x}", "`x`", "a\\b", "../x", "x/../../etc"])
def test_markup_and_paths_in_names_are_refused(name: str, build_workspace: BuildWorkspace) -> None:
    root = build_workspace({VAN: f"{HEAD}places: [{{code: D1, name: '{name}', where: outside}}]\n"})
    assert len(faults_of(root)) == 1


@pytest.mark.parametrize("code", ["A0", "A9", "B10", "C99", "D1", "H1"])
def test_codes_of_places(code: str, build_workspace: BuildWorkspace) -> None:
    spec = van(build_workspace({VAN: f"{HEAD}places: [{{code: {code}, name: X, where: outside}}]\n"}))
    assert spec.places[0].code.value == code


@pytest.mark.parametrize("code", ["E1", "F1", "a1", "A", "A100", "A01", "1A", "A-1", "A1 ", "AA", "Ａ1", "A١"])
def test_what_is_no_code_of_a_place(code: str, build_workspace: BuildWorkspace) -> None:
    """Letters of fuses (F), emergency signs (E) and prohibition signs (P) are left out on purpose."""
    if code == "A1 ":  # space around a value is not part of it
        return
    root = build_workspace({VAN: f"{HEAD}places: [{{code: '{code}', name: X, where: outside}}]\n"})
    assert faults_of(root) == [f'"{code}" is no code of a place']


@pytest.mark.parametrize("number", ["SOR2-2026-0032", "12", "ZZ9DN40N8TH000001", "№ 7", "Ärmel 1", "1" * 40])
def test_plate_texts_of_small_makers_are_chassis_numbers(number: str, build_workspace: BuildWorkspace) -> None:
    spec = van(build_workspace({VAN: HEAD.replace("ZZ9DN40N8TH000001", f"'{number}'")}))
    assert spec.chassis and spec.chassis.value == number


@pytest.mark.parametrize("letter", "IOQ")
def test_letters_that_iso_3779_leaves_out(letter: str, build_workspace: BuildWorkspace) -> None:
    """ISO 3779 (and 49 CFR 565.13(g)): a number of 17 signs has no I, O or Q."""
    root = build_workspace({VAN: HEAD.replace("ZZ9D", f"ZZ9{letter}")})
    assert faults_of(root) == [f'the chassis number holds the letter "{letter}"']
    root = build_workspace({VAN: HEAD.replace("ZZ9DN40N8TH000001", f"ZZ9{letter}")})
    assert van(root).chassis is not None


@pytest.mark.parametrize(
    ("address", "right"),
    [
        ("https://vans.example", True),
        ("https://vans.example/", True),
        ("https://vans.example/Handbooks", True),
        ("https://vans.example:8443", True),
        ("http://vans.example", False),
        ("https://Vans.example", False),
        ("https://vans.example/a/b", False),
        ("https://vans.example/?q", False),
        ("https://user@vans.example", False),
        ("https://-vans.example", False),
        ("https://vans..example", False),
        ("javascript:alert(1)", False),
        ("https://" + "a" * 1900, True),
    ],
)
def test_the_address_of_a_library(address: str, right: bool, build_workspace: BuildWorkspace) -> None:
    root = build_workspace({"van_specs/dealers/quayside.yaml": f"name: Q\nphone: 01632 960417\nlibrary: '{address}'\n"})
    if right:
        assert load(root).dealers["quayside"].library.value == address
    else:
        assert faults_of(root) == [f'"{address[:60]}" is no address for a library']
