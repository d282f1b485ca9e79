"""The last look before writing."""

import io
import zipfile

import pytest

from generator.errors import PublishError
from generator.publish.gate import check_files

CHASSIS = "ZZ9MR48NZTH000417"
GOOD = {"index.html": b"van 000417", "A1/index.html": b"", "assets/style.0a1b.css": b"", "sw.js": b""}


def messages(files: dict[str, bytes]) -> list[str]:
    with pytest.raises(PublishError) as caught:
        check_files(files, CHASSIS)
    return [fault.message for fault in caught.value.faults]


def test_a_good_manual_passes() -> None:
    check_files(GOOD, CHASSIS)


# Names Windows keeps or cannot hold: "Naming Files, Paths, and Namespaces", Microsoft (from memory).
@pytest.mark.parametrize("name", ["con.html", "NUL", "assets/Aux.css", "com1.html", "lpt9.tar.gz", "Prn/index.html"])
def test_device_names_are_refused(name: str) -> None:
    assert messages({**GOOD, name: b""}) == [f'"{name}" has a name that Windows keeps for a device']


@pytest.mark.parametrize(
    "name", ["a:b.html", "a?.html", "a\\b.html", "tail.", "tail ", "../x", "/x", "a//b", ".x", "a\x07"]
)
def test_names_some_system_cannot_hold_are_refused(name: str) -> None:
    assert messages({**GOOD, name: b""}) == [f'"{name}" is no file name on every system']


def test_names_that_only_begin_like_a_device_pass() -> None:
    check_files({**GOOD, "console.html": b"", "com10.html": b"", "auxiliary.html": b""}, CHASSIS)


def test_names_that_differ_by_case_only_are_refused() -> None:
    assert messages({**GOOD, "Gas.html": b"", "gas.html": b""}) == [
        '"Gas.html" and "gas.html" are one file on Windows and macOS'
    ]


def test_names_that_differ_by_composition_only_are_refused() -> None:
    """On macOS é and e with an accent are the same (Unicode normalisation form C)."""
    assert "are one file" in messages({**GOOD, "caf\u00e9.html": b"", "cafe\u0301.html": b""})[0]


def test_folders_that_differ_by_case_only_are_refused() -> None:
    assert messages({**GOOD, "a1/other.html": b""}) == ['folder "a1" is spelled in 2 ways']


def test_a_file_with_the_name_of_a_folder_is_refused() -> None:
    assert messages({**GOOD, "a1": b""}) == ['"a1" is a file and a folder at once']


def test_a_path_too_long_for_windows_is_refused() -> None:
    assert "longer than 150 characters" in messages({**GOOD, "x" * 151: b""})[0]


def test_a_manual_without_start_page_is_refused() -> None:
    assert messages({"gas.html": b""}) == ["the manual has no index.html"]


def zipped(data: bytes) -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("index.html", data * 50)
    return buffer.getvalue()


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("gas.html", b"<p>ZZ9MR48NZTH000417</p>"),
        ("edition.json", b'"zz9mr48nzth000417"'),
        ("000417.zip", zipped(b"chassis ZZ9MR48NZTH000417")),
        ("ZZ9MR48NZTH000417.html", b""),
        ("icon.png", b"\x89PNG\x00ZZ9MR48NZTH000417\x00"),
    ],
)
def test_a_file_with_the_whole_chassis_is_refused(name: str, data: bytes) -> None:
    assert messages({**GOOD, name: data}) == [f'"{name}" would make the whole chassis number public']


def test_the_last_six_characters_may_be_public() -> None:
    check_files({**GOOD, "000417.zip": zipped(b"van 000417")}, CHASSIS)
