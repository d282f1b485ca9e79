"""Label sheets as a person with a printer, a ruler and a telephone would judge them."""

import ctypes
import hashlib
import json
import re
import subprocess
import sys
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

import numpy
import pypdfium2
import pytest
import zxingcpp
from pypdfium2 import raw

from generator.errors import PublishError
from generator.model.manual import Manual
from generator.paper import paper
from generator.paper.stock import USUAL, cell, face

DPI = 300
MM = DPI / 25.4

Names = Mapping[str, str]
Make = Callable[..., Manual]


def pictures(pdf: bytes, dpi: int = DPI) -> list["numpy.ndarray"]:
    """Return the pages as grey pictures, 0 black to 255 white."""
    document = pypdfium2.PdfDocument(pdf)
    return [page.render(scale=dpi / 72, grayscale=True).to_numpy().squeeze() for page in document]


def crop(picture: "numpy.ndarray", x: float, y: float, width: float, height: float) -> "numpy.ndarray":
    """Return a part of a page, millimetres."""
    return picture[round(y * MM) : round((y + height) * MM), round(x * MM) : round((x + width) * MM)]


def page_text(pdf: bytes) -> str:
    pages = pypdfium2.PdfDocument(pdf)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


# --- reading ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("dpi", [150, 300, 600])
def test_an_independent_decoder_reads_every_label(manual: Make, names: Names, address: str, dpi: int) -> None:
    """ZBar shares no code with the decoder that the stage itself uses."""
    pyzbar = pytest.importorskip("pyzbar.pyzbar", reason="needs the ZBar library (apt: libzbar0)", exc_type=ImportError)
    (picture,) = pictures(paper(manual(names), address).files["labels.pdf"], dpi)
    found = pyzbar.decode((picture.tobytes(), picture.shape[1], picture.shape[0]))
    assert sorted(each.data.decode() for each in found) == sorted(
        f"HTTPS://VANS.EXAMPLE/7K3QX9F4WM/{c}/" for c in names
    )
    assert {each.type for each in found} == {"QRCODE"}


def test_error_correction_is_h(manual: Make, names: Names, address: str) -> None:
    (picture,) = pictures(paper(manual(names), address).files["labels.pdf"])
    found = zxingcpp.read_barcodes(picture)
    assert len(found) == len(names)
    assert {each.ec_level for each in found} == {"H"}


def test_the_quiet_zone_is_four_modules_of_white(manual: Make, names: Names, address: str) -> None:
    """ISO/IEC 18004 asks for four modules on each side; decoders forgive less, so it is measured."""
    (picture,) = pictures(paper(manual(names), address).files["labels.pdf"])
    box = face(USUAL).symbol
    module = box.width / 37  # version 3 is 29 modules wide, and 8 more with the quiet zone
    for index in range(len(names)):
        label = cell(USUAL, index)[1]
        x, y, width = label.x + box.x, label.y + box.y, box.width
        ring, hair = 4 * module, 0.1  # a hair's breadth for the blur at an edge
        for part in (
            crop(picture, x, y, width, ring - hair),
            crop(picture, x, y + width - ring + hair, width, ring - hair),
            crop(picture, x, y, ring - hair, width),
            crop(picture, x + width - ring + hair, y, ring - hair, width),
        ):
            assert part.min() == 255
        edge = crop(picture, x + ring, y + ring, 7 * module, module)  # the top of a finder pattern begins right there
        assert edge.mean() < 30


def test_the_check_line_measures_100_mm(manual: Make, names: Names, address: str) -> None:
    (picture,) = pictures(paper(manual(names), address).files["labels.pdf"], 600)
    per_mm = 600 / 25.4
    below = picture[round(282 * per_mm) : round(292 * per_mm)]
    longest = max(below, key=lambda row: int((row < 128).sum()))
    dark = numpy.flatnonzero(longest < 128)
    assert (dark[-1] - dark[0]) / per_mm == pytest.approx(100, abs=0.2)  # the strokes at its ends are 0.1 mm wide


# --- words ------------------------------------------------------------------------------------------


def test_a_label_shows_code_name_way_out_and_tail_only(manual: Make, address: str) -> None:
    pdf = paper(manual({"A1": "Front gas locker"}), address).files["labels.pdf"]
    text = page_text(pdf)
    for words in ("A1", "Front gas locker", "No signal? Open your saved manual or booklet at A1.", "Van 000417"):
        assert words in text
    assert "ZZ9MR48NZTH000417" not in text


@pytest.mark.parametrize(
    "name",
    [
        "Fridge",
        "Kitchen overhead locker above the cooker hood",
        "Donaudampfschifffahrtsgesellschaftskapitänsmützenfach",
        "Ü " * 12,
        '#panic("x") $a$ \\ @b <c> *d* _e_ `f` "q"]',
        "Bottle store ½ · 2 × 6 kg — left",
    ],
)
def test_any_name_is_whole_and_inside_its_label(manual: Make, address: str, name: str) -> None:
    """Words fit, break at last, and are never cut; a name is data, never markup."""
    pdf = paper(manual({"A1": name.strip(), "A2": name.strip()}), address).files["labels.pdf"]
    squeezed = "".join(page_text(pdf).replace("\u200b", "").replace("\ufffe", "").split())
    assert squeezed.count("".join(name.split())) == 2
    (picture,) = pictures(pdf)
    for index in (0, 1):
        label = cell(USUAL, index)[1]
        inside = crop(picture, label.x + 0.9, label.y + 0.9, label.width - 1.8, label.height - 1.8)
        assert (inside < 128).sum() == (crop(picture, label.x, label.y, label.width + 2.4, label.height) < 128).sum()


def test_marks_above_letters_are_not_clipped(manual: Make, address: str) -> None:
    """The dots of "Ü" add ink above the "U"."""
    ink = []
    for name in ("UUU", "ÜÜÜ"):
        (picture,) = pictures(paper(manual({"A1": name}), address).files["labels.pdf"])
        label, words = cell(USUAL, 0)[1], face(USUAL).words
        name_line = crop(picture, label.x + words.x, label.y + words.y + 7.6, words.width, 6.5)
        ink.append(int((name_line < 128).sum()))
    assert ink[1] > ink[0] * 1.05


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("Word " * 40, 'the name of place A1, "Word Word'),
        ("W" * 150, "does not fit on a label of 63.5 x 38.1 mm"),
        ("Bottles 😀", '"😀" cannot be printed (in A1)'),
        ("水箱", '"水" cannot be printed (in A1)'),
    ],
)
def test_a_name_that_cannot_be_printed_is_refused(manual: Make, address: str, name: str, says: str) -> None:
    with pytest.raises(PublishError) as caught:
        paper(manual({"A2": "Drawbar", "A1": name}), address)
    assert says in caught.value.faults[0].message
    assert caught.value.faults[0].hint


# --- sheets -----------------------------------------------------------------------------------------


def test_labels_go_on_to_a_second_sheet(manual: Make, address: str) -> None:
    made = paper(manual({f"H{number}": f"Place {number}" for number in range(1, 26)}), address)
    assert made.labels is not None and (made.labels.count, made.labels.sheets) == (25, 2)
    assert len(pypdfium2.PdfDocument(made.files["labels.pdf"])) == 2


def test_a_tall_label_has_its_words_under_the_symbol(manual: Make, address: str) -> None:
    tall = replace(USUAL, label_width=38.1, label_height=67.0, columns=4, rows=4, gap_x=4.0)
    made = paper(manual({"A1": "Front gas locker", "B2": "Water inlet"}), address, tall)
    assert made.labels is not None and made.labels.module_mm > 0.9


def test_a_roll_without_margins_has_its_check_line_on_a_page_of_its_own(manual: Make, address: str) -> None:
    roll = replace(
        USUAL, name="roll", page_width=62.0, page_height=40.0, label_width=62.0, label_height=40.0, columns=1, rows=1,
        margin_left=0.0, margin_top=0.0, gap_x=0.0,
    )  # fmt: skip
    pdf = paper(manual({"A1": "Front gas locker", "B2": "Water inlet"}), address, roll).files["labels.pdf"]
    assert len(pypdfium2.PdfDocument(pdf)) == 3
    assert "This line measures 50 mm" in page_text(pdf)


@pytest.mark.parametrize(("width", "height"), [(25.0, 12.0), (30.0, 30.0)])
def test_a_label_too_small_for_a_symbol_is_refused(manual: Make, address: str, width: float, height: float) -> None:
    with pytest.raises(PublishError, match=r"at least 0\.4 mm is needed"):
        paper(manual({"A1": "Gas"}), address, replace(USUAL, label_width=width, label_height=height))


def test_a_van_without_labelled_places_has_no_sheet(manual: Make, address: str) -> None:
    made = paper(manual({}), address)
    assert made.files == {} and made.labels is None


# --- report -----------------------------------------------------------------------------------------


def test_the_report_of_the_usual_label(manual: Make, names: Names, address: str) -> None:
    """Label 38.1 mm less 2 x 0.5 mm slip is 37.1 mm for 37 modules; 1920 pixels over 69 degrees, 3 a module."""
    report = paper(manual(names), address).labels
    assert report is not None
    assert report.version == 3
    assert report.module_mm == pytest.approx(37.1 / 37) and report.module_mm >= 1.0
    assert report.symbol_mm == pytest.approx(37.1 / 37 * 29)
    assert report.near_m == pytest.approx(0.291, abs=0.001)  # a tenth of the distance: rule of thumb
    assert report.far_m == pytest.approx(1.0027 * 1920 / (3 * 2 * 0.68728) / 1000, rel=0.001)  # tan 34.5 deg = 0.68728
    assert report.note == ""


def test_a_longer_host_gives_finer_modules_and_is_reported(manual: Make, names: Names) -> None:
    made = paper(manual(names), "https://manuals.southhead.example/7K3QX9F4WM/")
    assert made.labels is not None and made.labels.version == 4
    assert "version 4-H, module 0.90 mm" in "\n".join(made.labels.lines)


def test_a_lower_case_path_is_kept_and_noted(manual: Make) -> None:
    made = paper(manual({"A1": "Gas"}), "https://vans.example/manuals/7K3QX9F4WM/")
    assert made.labels is not None and "HTTPS://VANS.EXAMPLE/manuals/7K3QX9F4WM/A1/" in made.labels.note


# --- the file ---------------------------------------------------------------------------------------


def test_the_sheet_is_tagged_titled_and_says_what_each_symbol_is(manual: Make, names: Names, address: str) -> None:
    pdf = paper(manual(names), address).files["labels.pdf"]
    document = pypdfium2.PdfDocument(pdf)
    assert raw.FPDFCatalog_IsTagged(document)
    assert document.get_metadata_dict()["Title"] == "Labels for Marram 480, van 000417"
    assert alternatives(document[0]) == [f"Code to scan: HTTPS://VANS.EXAMPLE/7K3QX9F4WM/{code}/" for code in names]


def alternatives(page: pypdfium2.PdfPage) -> list[str]:
    """Return the alternative texts in the page's structure tree, in reading order."""
    tree = raw.FPDF_StructTree_GetForPage(page)
    found: list[str] = []

    def walk(element: object) -> None:
        length = raw.FPDF_StructElement_GetAltText(element, None, 0)
        if length > 2:
            buffer = ctypes.create_string_buffer(length)
            raw.FPDF_StructElement_GetAltText(element, buffer, length)
            found.append(buffer.raw.decode("utf-16-le").rstrip("\0"))
        for index in range(max(0, raw.FPDF_StructElement_CountChildren(element))):
            child = raw.FPDF_StructElement_GetChildAtIndex(element, index)
            if child:
                walk(child)

    for index in range(raw.FPDF_StructTree_CountChildren(tree)):
        walk(raw.FPDF_StructTree_GetChildAtIndex(tree, index))
    raw.FPDF_StructTree_Close(tree)
    return found


def test_the_same_inputs_give_the_same_bytes_anywhere(manual: Make, names: Names, address: str, tmp_path: Path) -> None:
    """Another process, folder, time zone and hash seed; nothing of the machine is in the file."""
    here = hashlib.sha256(paper(manual(names), address).files["labels.pdf"]).hexdigest()
    script = (
        "import hashlib, json, sys; from conftest import labelled; from generator.paper import paper;"
        "made = paper(labelled(json.loads(sys.argv[1])), sys.argv[2]);"
        "print(hashlib.sha256(made.files['labels.pdf']).hexdigest())"
    )
    root, tests = Path(__file__).parents[2], Path(__file__).parent
    for zone, seed in (("Pacific/Auckland", "1"), ("America/Lima", "2")):
        environment = {"TZ": zone, "PYTHONHASHSEED": seed, "PYTHONPATH": f"{root}:{tests}", "PATH": ""}
        told = subprocess.run(
            [sys.executable, "-c", script, json.dumps(dict(names)), address],
            cwd=tmp_path, env=environment, capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert told.stdout.strip() == here


def test_only_fonts_that_are_shipped_are_in_the_sheet(manual: Make, names: Names, address: str) -> None:
    document = pypdfium2.PdfDocument(paper(manual(names), address).files["labels.pdf"])
    fonts = set()
    for item in document[0].get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT]):
        buffer = ctypes.create_string_buffer(200)
        raw.FPDFFont_GetBaseFontName(raw.FPDFTextObj_GetFont(item), buffer, 200)
        fonts.add(buffer.value.decode().rpartition("+")[2])
    assert fonts == {"OpenSans", "OpenSans-Bold"}


def test_templates_ask_for_nothing_from_elsewhere() -> None:
    """A package import would go to the network; a file beside the template does not."""
    folder = Path(sys.modules["generator.paper"].__file__).parent
    asked = [
        line
        for template in folder.glob("*.typ")
        for line in re.findall(r"#(?:import|include).*", template.read_text("utf-8"))
    ]
    assert all(re.match(r'#(?:import|include) "[a-z_]+\.typ"', line) for line in asked)
    assert not [template for template in folder.glob("*.typ") if "@preview" in template.read_text("utf-8")]
    assert "Apache License" in (folder / "fonts" / "LICENSE.txt").read_text("utf-8")
