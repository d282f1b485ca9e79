from pathlib import Path

import pytest

from generator.load.documents import LARGEST_FILE, read_document, unwanted
from generator.load.faults import Faults


def read(tmp_path: Path, data: bytes) -> tuple[str | None, list[str]]:
    path = tmp_path / "a.yaml"
    path.write_bytes(data)
    faults = Faults()
    document = read_document(tmp_path, path, faults)
    return document.text if document else None, [str(fault).split("\n")[0] for fault in faults.in_order()]


def test_windows_line_ends_and_byte_order_mark_are_tolerated(tmp_path: Path) -> None:
    assert read(tmp_path, b"\xef\xbb\xbfa: 1\r\nb: 2\r\n") == ("a: 1\nb: 2\n", [])


def test_a_file_of_exactly_the_limit_is_read(tmp_path: Path) -> None:
    line = b"# " + b"x" * 97 + b"\n"
    data = line * (LARGEST_FILE // len(line))
    text, faults = read(tmp_path, data)
    assert len(data) == LARGEST_FILE
    assert text is not None and faults == []
    assert read(tmp_path, data + b"#")[0] is None


def test_position_of_a_bad_byte_counts_characters_not_bytes(tmp_path: Path) -> None:
    text, faults = read(tmp_path, "a: Düne\nb: Dü".encode() + b"\xff")
    assert text is None
    assert faults == ["a.yaml:2:6: error: the byte 0xFF is not UTF-8"]


@pytest.mark.parametrize(
    "sign",
    ["\0", "\x07", "\x7f", "\x85", "\u2028", "\u200b", "\u202e", "\u2066", "\ue000", "\uf8ff", "\U0010fffd", "\ufeff"],
)
def test_characters_that_no_text_needs_are_found(sign: str) -> None:
    found = unwanted(f"ab{sign}c")
    assert found is not None and found[0] == 2 and f"U+{ord(sign):04X}" in found[1]


@pytest.mark.parametrize("text", ["Kōwhai Tūī 480", "§ 5 – 7 % × 2", "ä\tb\n", "20 °C", "né e\u0301", "🚐"])
def test_other_languages_and_signs_are_welcome(text: str) -> None:
    assert unwanted(text) is None


def test_a_lone_carriage_return_is_refused(tmp_path: Path) -> None:
    assert read(tmp_path, b"a: 1\rb: 2\n")[1] == [
        "a.yaml:1:5: error: the character U+000D (control character) may not stand in a text"
    ]


def test_a_device_or_pipe_is_not_opened(tmp_path: Path) -> None:
    import os

    os.mkfifo(tmp_path / "pipe.yaml")
    faults = Faults()
    assert read_document(tmp_path, tmp_path / "pipe.yaml", faults) is None
    assert [fault.message for fault in faults.in_order()] == ["this is no regular file"]
