"""The body of a block: Markdown tokens to the tree of ``generator.model.blocks``, with line and column.

What stands inside a line is read by ``inline``; whether what it names exists is checked by ``references``.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace

from generator.errors import Source
from generator.load.faults import Faults
from generator.load.inline import Head, InlineReader, Place
from generator.load.markup import MarkdownNode, parsed
from generator.model.blocks import (
    Bullet,
    Bullets,
    Call,
    Guard,
    Inline,
    Line,
    Node,
    Paragraph,
    Row,
    Standalone,
    Step,
    Steps,
    Subheading,
    Table,
    Text,
)
from generator.model.sourced import Given

_ALONE = ("table", "drawing", "include", "picture")  # calls that are a paragraph of their own
_UNDER_STEP = ", or on a line of its own under a step"
_ALSO = {"include": ", or alone behind the number of a step", "picture": _UNDER_STEP, "drawing": _UNDER_STEP}
_HINTS = {
    "fence": ("a code block", "write it as a paragraph"),
    "code_block": ("a code block", "four or more spaces open one: indent less"),
    "blockquote": ("a quotation", 'leave out the ">"'),
    "hr": ("a rule", 'leave out the "---"'),
}


def read_body(file: str, text: str, first_line: int, faults: Faults) -> tuple[Node, ...]:
    """Return the nodes of a block's body.

    Args:
        file: Name for faults.
        text: The Markdown below the front matter.
        first_line: Line of the file at which ``text`` starts.
        faults: Takes what a block may not hold.
    """
    return tuple(_BodyReader(file, text, first_line, faults).nodes())


class _BodyReader:
    def __init__(self, file: str, text: str, first_line: int, faults: Faults) -> None:
        self._file, self._first, self._faults = file, first_line, faults
        self._text, self._lines = text, text.split("\n")

    def nodes(self) -> Iterator[Node]:
        readers: dict[str, Callable[[MarkdownNode], Node | None]] = {
            "paragraph": self._paragraph,
            "ordered_list": self._steps,
            "bullet_list": self._bullets,
            "table": self._table,
            "heading": self._subheading,
        }
        for node in parsed(self._text):
            read = readers.get(node.type, self._refused)(node)
            if read is not None:
                yield read

    # --- positions

    def _source(self, node: MarkdownNode) -> Source:
        """Return where a node starts: its first sign that is no space."""
        row = (node.map or (0, 0))[0]
        line = self._lines[row]
        return Source(self._file, row + self._first, len(line) - len(line.lstrip()) + 1)

    def _inline(self, node: MarkdownNode, after: int = 0) -> InlineReader:
        """Return a reader for the lines of an inline token, which starts in its row at or after a column."""
        row = (node.map or (0, 0))[0]
        starts = []
        for offset, line in enumerate(node.content.split("\n")):
            found = self._lines[row + offset].find(line.strip(), after) if row + offset < len(self._lines) else -1
            starts.append((row + offset + self._first, max(found, 0) + 1))
        return InlineReader(Place(self._file, tuple(starts), node.content), self._faults)

    def _refused(self, node: MarkdownNode) -> None:
        what, hint = _HINTS.get(node.type, (node.type, ""))
        self._faults.add(f"{what} does not work in a block", self._source(node), hint)

    # --- paragraphs, steps, bullets

    def _read_lines(self, inline: MarkdownNode, opening: str) -> tuple[Head, list[Line]]:
        """Return what opens the first line, and all lines.

        Args:
            inline: The inline token.
            opening: What it opens: "step" may have a mark and safety calls.
        """
        reader = self._inline(inline)
        first, lines = Head(), []
        for index, nodes in enumerate(reader.lines(inline)):
            before = len(self._faults)
            head, rest = reader.head(nodes)
            self._check_head(head, reader.start(index), index == 0 and opening == "step")
            content = reader.content(rest)
            guard = None if index == 0 else head.guard
            if index == 0:
                first = head
            if content:
                lines.append(Line(guard, content, reader.start(index), reader.raw(index)))
            elif (index > 0 or not (head.safety or head.mark)) and len(self._faults) == before:
                self._faults.add("no words stand on this line", reader.start(index))
        return first, lines

    def _check_head(self, head: Head, at: Source, opens_step: bool) -> None:
        if not opens_step and head.mark:
            self._faults.add("a mark opens a step", at, "put it at the start of the step")
        if not opens_step:
            for call in head.safety:
                self._faults.add("a safety message opens a step", call.source, "put the call at the start of the step")

    def _check_calls(self, lines: list[Line]) -> None:
        """Refuse calls that must stand alone, and safety calls behind words."""
        for call in (item for line in lines for item in line.content if isinstance(item, Call)):
            if call.name in _ALONE:
                alone = "set it between blank lines"
                hint = alone + _ALSO.get(call.name, "")
                self._faults.add(f"{call.name} stands in a paragraph of its own", call.source, hint)
            if call.name == "safety":
                self._faults.add("a safety message opens a step", call.source, "put the call at the start of the step")

    def _paragraph(self, node: MarkdownNode) -> Node | None:
        head, lines = self._read_lines(node.children[0], "paragraph")
        if not lines:
            return None
        first = lines[0].content[0]
        if len(lines) == 1 and len(lines[0].content) == 1 and isinstance(first, Call) and first.name in _ALONE:
            return Standalone(head.guard, first, lines[0].source)
        self._check_calls(lines)
        return Paragraph(head.guard, tuple(lines), lines[0].source)

    def _entry(self, item: MarkdownNode, opening: str) -> tuple[Head, list[Line]]:
        """Return opening and lines of one list entry."""
        if not item.children:
            self._faults.add(f"this {opening} is empty", self._source(item))
        first, lines = Head(), []
        for index, child in enumerate(item.children):
            if child.type != "paragraph":
                self._refuse_inside(child, opening)
                continue
            self._check_indent(child, opening)
            head, more = self._read_lines(child.children[0], opening if index == 0 else "paragraph")
            if index == 0:
                first = head
            elif more and head.guard:
                more[0] = replace(more[0], guard=head.guard)
            lines += more
        if not (opening == "step" and _only_includes(lines)):
            self._check_calls([line for line in lines if not (opening == "step" and _is_picture(line))])
            if lines and _is_picture(lines[0]):
                self._faults.add("a step begins with words", lines[0].source, "put the picture on a line below them")
        return first, lines

    def _refuse_inside(self, node: MarkdownNode, opening: str) -> None:
        if node.type in ("ordered_list", "bullet_list"):
            hint = "write further lines under it, or more steps"
            self._faults.add(f"a list inside a {opening} does not work", self._source(node), hint)
        elif node.type in ("heading", "table"):
            self._faults.add(f"a {node.type} inside a {opening} does not work", self._source(node))
        else:
            self._refused(node)

    def _check_indent(self, paragraph: MarkdownNode, opening: str) -> None:
        """Refuse a line at the margin that Markdown would take into the entry above it."""
        first, end = paragraph.map or (0, 0)
        for row in range(first + 1, end):
            if self._lines[row][:1] not in ("", " "):
                at = Source(self._file, row + self._first)
                hint = "indent it by three spaces, or put a blank line before it"
                self._faults.add(f"this line would be part of the {opening} above it", at, hint)

    def _steps(self, node: MarkdownNode) -> Node | None:
        if int(node.attrs.get("start", 1)) != 1:
            hint = "numbers are counted anew: keep all steps in one list, or start this one at 1"
            self._faults.add(f"this list starts at {node.attrs['start']}", self._source(node), hint)
        steps = []
        for item in node.children:
            head, lines = self._entry(item, "step")
            if lines:
                safety = tuple(Given(call.argument, call.source) for call in head.safety)
                steps.append(Step(head.guard, head.mark, safety, tuple(lines), lines[0].source))
            elif item.children:
                self._faults.add("this step has no words", self._source(item))
        return Steps(tuple(steps), self._source(node))

    def _bullets(self, node: MarkdownNode) -> Node | None:
        bullets = []
        for item in node.children:
            head, lines = self._entry(item, "bullet")
            if lines:
                bullets.append(Bullet(head.guard, tuple(lines), lines[0].source))
        return Bullets(tuple(bullets), self._source(node))

    # --- tables and headings

    def _table(self, node: MarkdownNode) -> Node | None:
        rows = [self._row(row) for part in node.children for row in part.children]
        if rows[0].guard:
            self._faults.add("the head of a table has no guard", rows[0].guard.source, "guard its rows")
        return Table(rows[0].cells, tuple(rows[1:]), self._source(node))

    def _row(self, node: MarkdownNode) -> Row:
        guard: Guard | None = None
        cells, after = [], 0
        for index, cell in enumerate(node.children):
            reader = self._inline(cell.children[0], after)
            after = reader.place.starts[0][1]
            head, rest = reader.head([part for line in reader.lines(cell.children[0]) for part in line])
            self._check_cell_head(head, reader.start(0), index)
            guard = head.guard if index == 0 else guard
            content = reader.content(rest)
            self._check_calls([Line(None, content, reader.start(0))])
            cells.append(content)
        return Row(guard, tuple(cells), self._source(node))

    def _check_cell_head(self, head: Head, at: Source, index: int) -> None:
        self._check_head(head, at, opens_step=False)
        if head.guard and index:
            self._faults.add("the guard of a row stands in its first cell", at, "move it to the left")

    def _subheading(self, node: MarkdownNode) -> Node | None:
        at = self._source(node)
        if node.tag != "h2":
            self._faults.add("headings in a block are of level two", at, 'write "## Words"')
        reader = self._inline(node.children[0])
        content: tuple[Inline, ...] = reader.content([part for line in reader.lines(node.children[0]) for part in line])
        if len(content) != 1 or not isinstance(content[0], Text):
            self._faults.add("a heading holds plain words only", at, "leave out calls, links, guards and emphasis")
            return None
        return Subheading(content[0].text, at)


def _only_includes(lines: list[Line]) -> bool:
    """Return whether a step is nothing but a call that puts steps in."""
    only = lines[0].content[0] if len(lines) == 1 and len(lines[0].content) == 1 else None
    return isinstance(only, Call) and only.name == "include"


def _is_picture(line: Line) -> bool:
    """Return whether a line is nothing but a picture or drawing; such a line may stand under the words of a step."""
    only = line.content[0] if len(line.content) == 1 else None
    return isinstance(only, Call) and only.name in ("picture", "drawing")
