"""Blocks: Markdown to a tree in which everything a check may refuse knows line and column."""

import hashlib
from pathlib import Path

import pytest

from generator.errors import Source
from generator.load.blocks import read_block
from generator.load.body import read_body
from generator.load.faults import Faults
from generator.model.blocks import (
    Block,
    Bullets,
    Call,
    Emphasis,
    Guard,
    Line,
    Node,
    Paragraph,
    Standalone,
    Step,
    Steps,
    Strong,
    Subheading,
    Table,
    Text,
    TopicLink,
)
from generator.model.sourced import Given


def at(line: int, column: int) -> Source:
    return Source("b.md", line, column)


def body(text: str) -> tuple[Node, ...]:
    faults = Faults()
    nodes = read_body("b.md", text, 1, faults)
    assert [str(fault) for fault in faults.in_order()] == []
    return nodes


def told(text: str) -> list[str]:
    faults = Faults()
    read_body("b.md", text, 1, faults)
    return [str(fault).split("\n")[0] for fault in faults.in_order()]


def steps(text: str) -> tuple[Step, ...]:
    (node,) = body(text)
    assert isinstance(node, Steps)
    return node.items


def test_lines_of_the_source_are_lines_of_the_page() -> None:
    assert body("One\ntwo  \nthree\\\nfour") == (
        Paragraph(
            None,
            tuple(Line(None, (Text(word),), at(row, 1)) for row, word in enumerate(["One", "two", "three", "four"], 1)),
            at(1, 1),
        ),
    )


def test_inline_items_know_their_column() -> None:
    (node,) = body("See **the** _place_ {{ place('gas.bottles') }} and [the *gas*](topic:gas/open).")
    assert isinstance(node, Paragraph)
    assert node.lines[0].content == (
        Text("See "),
        Strong((Text("the"),)),
        Text(" "),
        Emphasis((Text("place"),)),
        Text(" "),
        Call("place", "gas.bottles", at(1, 21)),
        Text(" and "),
        TopicLink("gas/open", (Text("the "), Emphasis((Text("gas"),))), at(1, 52)),
        Text("."),
    )


def test_columns_are_right_in_indented_lines_of_a_step() -> None:
    (step,) = steps("1. Go.\n   You see {{ number('payload') }}.\n     {gas} Far in {{ term('x') }}.")
    assert [line.source for line in step.lines] == [at(1, 4), at(2, 4), at(3, 6)]
    assert step.lines[1].content[1] == Call("number", "payload", at(2, 12))
    assert step.lines[2].guard == Guard(("gas",), (), at(3, 6))
    assert step.lines[2].content[1] == Call("term", "x", at(3, 19))


def test_a_step_takes_guard_mark_and_safety_in_any_order() -> None:
    wanted = Guard(("two-bottles", "gas"), ("solar",), at(1, 4))
    (step,) = steps("1. {two-bottles, not solar, gas} {mark: gas-shut} {{ safety('gas-escape') }} Shut it.")
    assert (step.guard, step.mark, step.lines[0].content) == (wanted, "gas-shut", (Text("Shut it."),))
    assert step.safety == (Given("gas-escape", at(1, 51)),)
    (step,) = steps("1. {{ safety('a') }}{mark: m}{gas}\n   Shut it.")
    assert (step.mark, step.guard and step.guard.all, step.lines[0].content) == ("m", ("gas",), (Text("Shut it."),))


def test_the_guard_of_a_first_line_guards_the_whole_paragraph_or_bullet() -> None:
    paragraph, bullets = body("{gas} One\n{solar} two\n\n- {gas} One\n  {solar} two\n- three")
    assert isinstance(paragraph, Paragraph) and isinstance(bullets, Bullets)
    for part in (paragraph, bullets.items[0]):
        assert part.guard and part.guard.all == ("gas",)
        assert part.lines[0].guard is None
        assert part.lines[1].guard and part.lines[1].guard.all == ("solar",)
    assert bullets.items[1].guard is None


def test_blank_lines_between_steps_and_inside_a_step_change_nothing() -> None:
    loose = steps("1. One.\n\n   {gas} More.\n\n2. Two.")
    assert [[line.content for line in step.lines] for step in loose] == [
        [(Text("One."),), (Text("More."),)],
        [(Text("Two."),)],
    ]
    assert loose[0].lines[1].guard == Guard(("gas",), (), at(3, 4))


def test_a_table_keeps_the_guard_of_a_row_and_columns_of_its_cells() -> None:
    (table,) = body("| A | B |\n|---|---|\n| {gas} x | {{ number('payload') }} |\n| x | x {{ term('y') }} |")
    assert isinstance(table, Table)
    assert table.head == ((Text("A"),), (Text("B"),))
    assert table.rows[0].guard == Guard(("gas",), (), at(3, 3))
    assert table.rows[0].cells == ((Text("x"),), (Call("number", "payload", at(3, 13)),))
    assert table.rows[1].cells[1][1] == Call("term", "y", at(4, 9))


@pytest.mark.parametrize("call", ["table('room-left')", "drawing('van')"])
def test_table_and_drawing_stand_alone(call: str) -> None:
    name, argument = call[:-2].split("('")
    (node,) = body(f"{{gas}} {{{{ {call} }}}}")
    assert node == Standalone(Guard(("gas",), (), at(1, 1)), Call(name, argument, at(1, 7)), at(1, 1))  # type: ignore[arg-type]


def test_a_heading_is_plain_words() -> None:
    assert body("## After *all*?".replace("*", "")) == (Subheading("After all?", at(1, 1)),)


def test_entities_and_escapes_become_the_signs_they_stand_for_in_one_text() -> None:
    (node,) = body("5 &lt; 6 &amp; 7 \\* 8 \\_ 9")
    assert isinstance(node, Paragraph)
    assert node.lines[0].content == (Text("5 < 6 & 7 * 8 _ 9"),)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("{% if gas %}", 'b.md:1:1: error: "{% if gas %}" is no guard'),
        ("a {% if gas %}", 'b.md:1:3: error: "{% if gas %}" stands inside a line'),
        ("{# note #}", 'b.md:1:1: error: "{# note #}" is no guard'),
        ("a {{ number('x') ", "b.md:1:3: error: an open brace does not work here"),
        ("a {{ number('x')\n}}", "b.md:1:3: error: an open brace does not work here"),
        ("a }} b", 'b.md:1:3: error: "}" stands alone'),
        ("a \\{gas} b", 'b.md:1:3: error: "{" stands alone'),
        ("{{ now() }}", 'b.md:1:1: error: "{{ now() }}" is no call'),
        ("{{ number('x') + 1 }}", "b.md:1:1: error: \"{{ number('x') + 1 }}\" is no call"),
        ("{{ numbre('x') }}", 'b.md:1:1: error: unknown call "numbre"'),
        ("{{ say('wait') }}", "b.md:1:1: error: say cannot take 'wait'"),
        ("{{ number('../x') }}", "b.md:1:1: error: number cannot take '../x'"),
        ("{}", 'b.md:1:1: error: "{}" is no guard'),
        ("{gas,}", 'b.md:1:1: error: "{gas,}" is no guard'),
        ("{Gas} a", 'b.md:1:1: error: "{Gas}" is no guard'),
        ("{gas}", "b.md:1:1: error: no words stand on this line"),
        ("a\n{gas}\nb", "b.md:2:1: error: no words stand on this line"),
        ("{mark: x} a", "b.md:1:1: error: a mark opens a step"),
        ("1. a\n   {mark: x} b", "b.md:2:4: error: a mark opens a step"),
        ("1. {mark: x}", "b.md:1:1: error: this step has no words"),
        ("[a](http://b.example)", 'b.md:1:1: error: the link goes to "http://b.example"'),
        ("[a](javascript:x)", 'b.md:1:1: error: "[" stands alone'),
        ("[a](topic:gas)", 'b.md:1:1: error: "topic:gas" names no topic'),
        ("[a](topic:gas/open#x)", 'b.md:1:1: error: "topic:gas/open#x" names no topic'),
        ('[a](topic:gas/open "t")', 'b.md:1:1: error: "topic:gas/open" names no topic'),
        ("[{{ place('gas.bottles') }}](topic:gas/open)", "b.md:1:1: error: a link holds words only"),
        ("[a][b]\n\n[b]: topic:gas/open", 'b.md:1:1: error: "[" stands alone'),
        ("**a", 'b.md:1:1: error: "**" stands alone'),
        ("a <br> b", "b.md:1:3: error: HTML does not work here"),
        ("<script>alert(1)</script>", "b.md:1:1: error: HTML does not work here"),
        ("a <!-- b -->", "b.md:1:3: error: HTML does not work here"),
        ("![a](b.png)", "b.md:1:1: error: a picture does not work here"),
        ("a `b`", "b.md:1:3: error: code does not work here"),
        ("Words\n-----", "b.md:2:1: error: a rule does not work in a block"),
        ("### Words", "b.md:1:1: error: headings in a block are of level two"),
        ("## *Words*", "b.md:1:1: error: a heading holds plain words only"),
        ("2. a", "b.md:1:1: error: this list starts at 2"),
        ("1. a\nb", "b.md:2:1: error: this line would be part of the step above it"),
        ("- a\nb", "b.md:2:1: error: this line would be part of the bullet above it"),
        ("1. a\n   1. b", "b.md:2:4: error: a list inside a step does not work"),
        ("- a\n\n      code", "b.md:3:7: error: a code block does not work in a block"),
        ("1. {{ table('x') }}", "b.md:1:4: error: table stands in a paragraph of its own"),
        ("a {{ safety('x') }}", "b.md:1:3: error: a safety message opens a step"),
        ("a &#x202e; b", "b.md:1:1: error: the character U+202E (right-to-left override) may not stand in a text"),
    ],
)
def test_what_a_block_may_not_hold(text: str, fault: str) -> None:
    assert fault in told(text)


def test_front_matter_and_body_become_a_block(tmp_path: Path) -> None:
    path = tmp_path / "content/blocks/gas/open.md"
    path.parent.mkdir(parents=True)
    data = (
        b'---\r\ntopic: gas/open\r\ntitle: "Open: the gas"\r\nform: procedure\r\n'
        b"applies: {all: [gas], none: [solar]}\r\nat: [gas.bottles]\r\nwalkround: {line: Open it, must: yes}\r\n"
        b"allow: {gas: a reason}\r\n---\r\n1. Open it.\r\n"
    )
    path.write_bytes(data)
    faults = Faults()
    block = read_block(tmp_path, path, faults)
    assert isinstance(block, Block) and len(faults) == 0
    assert (block.id, block.topic.value, block.title.value) == ("gas/open", "gas/open", "Open: the gas")
    assert block.title.source == Source("content/blocks/gas/open.md", 3, 8)
    assert block.applies.none[0] == Given("solar", Source("content/blocks/gas/open.md", 5, 30))
    assert block.walkround and block.walkround.must and block.walkround.time == "1 min"
    assert block.digest == hashlib.sha256(data).hexdigest()
    assert isinstance(block.body[0], Steps) and block.body[0].items[0].source.line == 10
