"""Used-up sheets, single replacements, safety signs, and labels for engravers."""

import xml.etree.ElementTree as ET
from collections.abc import Callable, Mapping

import pypdfium2
import pytest
import typst
import zxingcpp

from generator.errors import PublishError
from generator.model.manual import Manual
from generator.model.paper import LabelChoice
from generator.model.signs import MEANINGS, PICTOGRAMS
from generator.paper.labels import engravings, labels
from generator.paper.readback import symbols
from generator.paper.stock import USUAL, cell
from tests.paper.printed import ADDRESS, VANS, manual_of, pages, sign_pictures

Make = Callable[..., Manual]
SVG = "{http://www.w3.org/2000/svg}"


def where(pdf: bytes) -> list[tuple[int, int, str]]:
    """Return sheet, position and code of each label that is read from a sheet of the usual stock."""
    found = []
    for seen in symbols(pypdfium2.PdfDocument(pdf), 300):
        boxes = [cell(USUAL, index)[1] for index in range(21)]
        (at,) = [
            n for n, b in enumerate(boxes, 1) if b.x <= seen.x <= b.x + b.width and b.y <= seen.y <= b.y + b.height
        ]
        found.append((seen.sheet, at, seen.text.rstrip("/").rpartition("/")[2]))
    return sorted(found)


def test_labels_begin_at_the_position_that_is_free(manual: Make, names: Mapping[str, str]) -> None:
    pdf, report = labels(manual(names), ADDRESS, USUAL, choice=LabelChoice(first=17))
    assert where(pdf) == [(0, 17 + n, code) if n < 5 else (1, n - 4, code) for n, code in enumerate(names)]
    assert (report.count, report.sheets) == (len(names), 2)
    assert [text.split("Sheet ")[1][:6] for text in pages(pdf)] == ["1 of 2", "2 of 2"]


def test_single_labels_are_replaced(manual: Make, names: Mapping[str, str]) -> None:
    pdf, report = labels(manual(names), ADDRESS, USUAL, choice=LabelChoice(first=3, only=("H1", "A1")))
    assert where(pdf) == [(0, 3, "A1"), (0, 4, "H1")] and report.count == 2


@pytest.mark.parametrize(
    ("choice", "told"),
    [
        (LabelChoice(only=("A1", "Z9", "Q1")), ['no place with a label has the code "Z9"', 'the code "Q1"']),
        (LabelChoice(first=22), ["there is no position 22 on a sheet of 21 labels"]),
    ],
)
def test_what_is_not_there_is_told(
    manual: Make, names: Mapping[str, str], choice: LabelChoice, told: list[str]
) -> None:
    with pytest.raises(PublishError) as refused:
        labels(manual(names), ADDRESS, USUAL, choice=choice)
    assert len(refused.value.faults) == len(told)
    assert all(words in fault.message for words, fault in zip(told, refused.value.faults, strict=True))


@pytest.mark.parametrize("van", VANS)
def test_demo_vans_have_signs_where_a_hazard_calls_for_one(van: str) -> None:
    """ISO 7010: W012 electricity, W017 hot surface, W021 flammable, W023 corrosive."""
    signs = {label.code: label.sign for label in manual_of(van).labels}
    points = {"mains_inlet.inlet": "W012", "gas.bottles": "W021", "toilet.cassette": "W023"}
    assert set(signs.values()) <= {"", *MEANINGS, *PICTOGRAMS} <= {"", *sign_pictures()}
    assert any(sign in points.values() for sign in signs.values())
    pdf, _ = labels(manual_of(van), ADDRESS, USUAL, sign_pictures())  # every label is read back with its sign beside it
    drawn = sum(1 for _ in pypdfium2.PdfDocument(pdf)[0].get_objects())
    bare = sum(1 for _ in pypdfium2.PdfDocument(labels(manual_of(van), ADDRESS, USUAL)[0])[0].get_objects())
    assert drawn > bare


def test_the_gas_locker_of_the_tourer_warns_of_fire_and_the_inlet_of_shock() -> None:
    signs = {label.code: label.sign for label in manual_of("marram-0417").labels}
    assert (signs["A1"], signs["B2"], signs["B1"], signs["C1"]) == ("W021", "W012", "W017", "W023")


def test_a_place_without_a_hazard_has_a_pictogram_of_what_is_there() -> None:
    signs = {label.code: label.sign for label in manual_of("marram-0417").labels}
    assert (signs["D4"], signs["B3"], signs["D2"], signs["H5"]) == ("tap", "waste", "cold", "toilet")
    assert signs["D1"] == "locker"
    used = {label.sign for van in VANS for label in manual_of(van).labels}
    assert set(PICTOGRAMS) - used <= {"sun", "plug"}  # at places where another sign comes first


# --- engraving --------------------------------------------------------------------------------------


def test_an_engraving_is_paths_alone_at_full_size() -> None:
    made = engravings(manual_of("marram-0417"), ADDRESS, USUAL, sign_pictures())
    assert list(made) == [label.code for label in manual_of("marram-0417").labels]
    for code, svg in made.items():
        root = ET.fromstring(svg)
        assert (root.get("width"), root.get("height")) == ("63.5mm", "38.1mm"), code
        assert {element.tag for element in root.iter()} == {f"{SVG}svg", f"{SVG}g", f"{SVG}path"}
        fills = {element.get("fill") for element in root.iter() if element.get("fill")}
        assert fills <= {"#000000", "#1c1b19", "none", "#000"}, (code, fills)  # nothing light on dark


def test_an_engraving_reads_as_its_address() -> None:
    made = engravings(manual_of("marram-0417"), ADDRESS, USUAL, sign_pictures())
    for code in ("A1", "B2", "H5"):
        source = b'#set page(width: auto, height: auto, margin: 0mm)\n#image("label.svg")'
        pdf = typst.compile({"main.typ": source, "label.svg": made[code]}, format="pdf", ignore_system_fonts=True)  # type: ignore[call-overload]
        page = pypdfium2.PdfDocument(pdf)[0]
        assert [round(side / 72 * 25.4, 1) for side in page.get_size()] == [63.5, 38.1]
        picture = page.render(scale=300 / 72, grayscale=True).to_numpy().squeeze()
        (found,) = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCodeModel2)
        assert found.text == f"HTTPS://VANS.EXAMPLE/7K3QX9F4WM/{code}/"
