"""YAML as authors type it: every scalar stays text, every node knows where it stands."""

import pytest

from generator.errors import Source
from generator.load.faults import Faults
from generator.load.nodes import Entries, Items, Node, Scalar, read_nodes


def nodes(text: str) -> tuple[Node | None, list[str]]:
    faults = Faults()
    node = read_nodes("a.yaml", text, faults)
    return node, [str(fault).split("\n")[0] for fault in faults.in_order()]


# The scalars that YAML 1.1 readers are known to turn into something else (type repository of yaml.org: bool, float,
# int with octal and base 60, null, timestamp).
@pytest.mark.parametrize(
    "text",
    ["no", "yes", "on", "off", "y", "010", "0x1F", "12:30", "190:20:30", "1.10", "1e3", "1_000", "null", "~", ".inf",
     "2026-11-20", "+1", "0o17"],
)  # fmt: skip
def test_scalars_stay_what_was_typed(text: str) -> None:
    assert nodes(f"a: {text}")[0] == Entries(
        ((Scalar("a", Source("a.yaml", 1, 1)), Scalar(text, Source("a.yaml", 1, 4))),), Source("a.yaml", 1, 1)
    )


def test_every_node_keeps_line_and_column() -> None:
    node, _ = nodes("a:\n  - {b: c}\n  - d\n")
    assert isinstance(node, Entries)
    items = node.get("a")
    assert isinstance(items, Items)
    assert items.source == Source("a.yaml", 2, 3)
    assert [item.source for item in items.items] == [Source("a.yaml", 2, 5), Source("a.yaml", 3, 5)]


def test_columns_count_characters_not_bytes() -> None:
    node, _ = nodes("äöü: x")
    assert isinstance(node, Entries)
    assert node.entries[0][1].source == Source("a.yaml", 1, 6)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("a: 1\na: 2", 'a.yaml:2:1: error: "a" is written twice'),
        ("a: {b: 1, b: 2}", 'a.yaml:1:11: error: "b" is written twice'),
        ("a: &x 1\nb: *x", "a.yaml:1:4: error: aliases (& and *) are not read"),
        ("a: *x", "a.yaml:1:4: error: aliases (& and *) are not read"),
        ("a: !!str 1", "a.yaml:1:4: error: tags (!) are not read"),
        ("a: !x 1", "a.yaml:1:4: error: tags (!) are not read"),
        ("? [a]\n: 1", "a.yaml:1:3: error: a key must be a word"),
        ("a: {{ b }}", "a.yaml:1:5: error: a key must be a word"),
        ("", "a.yaml:1:1: error: nothing is written here"),
        ("---\n...", "a.yaml:2:1: error: nothing is written here"),
        ("a: 1\n---\nb: 2", "a.yaml:2:1: error: a second document starts here"),
        ('a: "\\uE000"', "a.yaml:1:4: error: the character U+E000 (private use) may not stand in a text"),
    ],
)
def test_what_is_refused(text: str, fault: str) -> None:
    assert nodes(text)[1] == [fault]


def test_merge_key_is_a_plain_key() -> None:
    node, _ = nodes("<<: {a: 1}")
    assert isinstance(node, Entries)
    assert node.entries[0][0].text == "<<"


@pytest.mark.parametrize(("opening", "closing"), [("[", "]"), ("{a: ", "}")])
def test_depth_is_bounded(opening: str, closing: str) -> None:
    assert nodes(opening * 19 + "x" + closing * 19)[1] == []
    assert "nested more than 20 levels" in nodes(opening * 20 + "x" + closing * 20)[1][0]


def test_front_matter_counts_lines_of_its_file() -> None:
    faults = Faults()
    read_nodes("a.md", "a: 1\na: 2", faults, first_line=2)
    assert [fault.source for fault in faults.in_order()] == [Source("a.md", 3, 1)]
