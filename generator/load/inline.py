"""What stands inside a line of a block: text, emphasis, topic links, calls, and the guards and marks that open it.

Lines are put together to paragraphs, steps and tables in ``body``.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.errors import Source, nearest
from generator.load.documents import unwanted
from generator.load.faults import Faults
from generator.load.markup import MarkdownNode
from generator.model.blocks import CALLS, Call, Emphasis, Guard, Inline, Strong, Text, TopicLink

_WORD = r"[a-z0-9]+(?:-[a-z0-9]+)*"
_SNAKE = r"[a-z0-9]+(?:_[a-z0-9]+)*"
TRAIT = re.compile(_WORD)
TOPIC = re.compile(rf"{_WORD}/{_WORD}")
_POINT = re.compile(rf"{_SNAKE}\.{_SNAKE}")
_ARGUMENTS = {name: _POINT if name in ("place", "say") else TRAIT for name in CALLS}
_ARGUMENTS["picture"] = _ARGUMENTS["drawing"] = re.compile(rf"{_POINT.pattern}|{_WORD}")
_CALL = re.compile(r"([a-z]+)\(\s*'([^']*)'\s*\)")
_HTML = re.compile(r"</?[A-Za-z][^<>]*>|<!--")
_STRAY = re.compile(r"\{|\}|\[|\]|\*\*|`")
_REFUSED = {
    "image": ("a picture", "write {{ picture('lever-down') }}; pictures stand in content/pictures.yaml"),
    "code_inline": ("code", "leave out the backticks"),
    "open_brace": ("an open brace", "write {{ number('id') }} or {trait}, on one line"),
}


@dataclass(frozen=True, slots=True)
class Place:
    """Maps an offset in an inline token's content to a position in the file."""

    file: str
    starts: tuple[tuple[int, int], ...]  # of each line of the content: line, column of its first sign
    content: str

    def at(self, offset: int) -> Source:
        """Return the position of the character at ``offset``."""
        begin = self.content.rfind("\n", 0, offset) + 1
        number = self.content.count("\n", 0, offset)
        end = self.content.find("\n", offset)
        line = self.content[begin : end if end >= 0 else None]
        lead = len(line) - len(line.lstrip())
        row, column = self.starts[min(number, len(self.starts) - 1)]
        return Source(self.file, row, column + max(0, offset - begin - lead))


@dataclass(frozen=True, slots=True)
class Head:
    """What opens a line before its words."""

    guard: Guard | None = None
    mark: str | None = None
    safety: tuple[Call, ...] = ()


class InlineReader:
    """Reads the lines of one inline token."""

    def __init__(self, place: Place, faults: Faults) -> None:
        self.place, self._faults = place, faults

    def lines(self, node: MarkdownNode) -> list[list[MarkdownNode]]:
        """Return the children of an inline token, split where the source has a new line."""
        self._refuse_html()
        lines: list[list[MarkdownNode]] = [[]]
        for child in node.children:
            if child.type in ("softbreak", "hardbreak"):
                lines.append([])
            else:
                lines[-1].append(child)
        return lines

    def start(self, index: int) -> Source:
        """Return the position of the first sign of a line."""
        row, column = self.place.starts[min(index, len(self.place.starts) - 1)]
        return Source(self.place.file, row, column)

    def raw(self, index: int) -> str:
        """Return a line as it is typed, from its first sign on."""
        lines = self.place.content.split("\n")
        return lines[index].strip() if index < len(lines) else ""

    def _refuse_html(self) -> None:
        found = _HTML.search(self.place.content)
        if found:
            self._faults.add("HTML does not work here", self.place.at(found.start()), "write Markdown, or leave it out")

    def head(self, nodes: Sequence[MarkdownNode]) -> tuple[Head, list[MarkdownNode]]:
        """Split guard, mark and safety calls off the start of a line."""
        rest, guards, marks, safety = list(nodes), [], [], []
        while rest:
            first = rest[0]
            if first.type == "text" and not first.content.strip():
                pass
            elif first.type == "guard" and first.content.startswith("mark:"):
                marks.append(self._mark(first))
            elif first.type == "guard":
                guards.append(self._guard(first))
            elif first.type == "call" and first.content.startswith("safety"):
                safety.append(self._call(first))
            else:
                break
            rest.pop(0)
        if len(guards) > 1 or len(marks) > 1:
            self._faults.add("two guards open this line", self._at(nodes[0]), "join them: {one, two}")
        head = Head(next(iter(guards), None), next(iter(marks), None), tuple(call for call in safety if call))
        return head, rest

    def _at(self, node: MarkdownNode) -> Source:
        return self.place.at(node.meta.get("at", 0))

    def _mark(self, node: MarkdownNode) -> str | None:
        name = node.content.removeprefix("mark:").strip()
        if TRAIT.fullmatch(name):
            return name
        self._faults.add(f'"{name}" is no name for a mark', self._at(node), "write {mark: cable-off}")
        return None

    def _guard(self, node: MarkdownNode) -> Guard | None:
        wanted: dict[bool, list[str]] = {True: [], False: []}
        for part in node.content.split(","):
            word = part.strip()
            trait = word.removeprefix("not ").strip()
            if not TRAIT.fullmatch(trait):
                self._faults.add(f'"{{{node.content}}}" is no guard', self._at(node), _guard_hint(node.content))
                return None
            wanted[not word.startswith("not ")].append(trait)
        return Guard(tuple(wanted[True]), tuple(wanted[False]), self._at(node))

    def content(self, nodes: Sequence[MarkdownNode]) -> tuple[Inline, ...]:
        """Return the words of a line, spaces at both ends taken off."""
        return trimmed(merged(item for node in nodes for item in self._item(node)))

    def _item(self, node: MarkdownNode) -> Iterator[Inline]:
        if node.type == "text":
            self._check_text(node.content)
            yield Text(node.content)
        elif node.type in ("strong", "em"):
            children = merged(item for child in node.children for item in self._item(child))
            yield Strong(children) if node.type == "strong" else Emphasis(children)
        elif node.type == "link":
            yield from self._link(node)
        elif node.type == "call":
            call = self._call(node)
            if call:
                yield call
        else:
            self._refuse(node)

    def _refuse(self, node: MarkdownNode) -> None:
        if node.type == "guard":
            hint = "a guard opens a step, line, paragraph, bullet or row"
            self._faults.add(f'"{{{node.content}}}" stands inside a line', self._at(node), hint)
        elif node.type in ("softbreak", "hardbreak"):
            hint = "close ** and [ ] on the line that opens them"
            self._faults.add("emphasis or a link runs over the end of a line", self.place.at(0), hint)
        else:
            what, hint = _REFUSED.get(node.type, (node.type, ""))
            self._faults.add(f"{what} does not work here", self._at(node), hint)

    def _check_text(self, text: str) -> None:
        bad, stray = unwanted(text), _STRAY.search(text)
        if bad:
            self._faults.add(f"the character {bad[1]} may not stand in a text", self.place.at(0), "delete it")
        if stray:
            at = self.place.at(max(0, self.place.content.find(text)) + stray.start())
            self._faults.add(f'"{stray[0]}" stands alone', at, _stray_hint(stray[0]))

    def _link(self, node: MarkdownNode) -> Iterator[TopicLink]:
        at, target = self._at(node), str(node.attrs.get("href", ""))
        topic = target.removeprefix("topic:")
        children = merged(item for child in node.children for item in self._item(child))
        if not target.startswith("topic:"):
            self._faults.add(f'the link goes to "{target}"', at, "links go to topics: [words](topic:gas/open)")
        elif not TOPIC.fullmatch(topic) or "title" in node.attrs:
            self._faults.add(f'"{target}" names no topic', at, "write [words](topic:gas/open)")
        elif not children:
            self._faults.add("the link has no words", at, "write [words](topic:gas/open)")
        elif any(isinstance(child, Call) and child.name not in ("term", "number") for child in children):
            self._faults.add("a link holds words only", at, "move the call out of the square brackets")
        else:
            yield TopicLink(topic, children, at)

    def _call(self, node: MarkdownNode) -> Call | None:
        at = self._at(node)
        parts = _CALL.fullmatch(node.content)
        if parts is None:
            self._faults.add(f'"{{{{ {node.content} }}}}" is no call', at, "write {{ number('payload') }}")
        elif parts[1] not in CALLS:
            self._faults.add(f'unknown call "{parts[1]}"', at, nearest(parts[1], CALLS))
        elif not _ARGUMENTS[parts[1]].fullmatch(parts[2]):
            form = "slot.name, such as 'gas.bottles'" if parts[1] in ("place", "say") else "an id, such as 'payload'"
            self._faults.add(f"{parts[1]} cannot take '{parts[2]}'", at, f"it takes {form}")
        else:
            return Call(parts[1], parts[2], at)  # type: ignore[arg-type]
        return None


def _guard_hint(content: str) -> str:
    if content.startswith("%") or content.startswith("#"):
        return "{% %} and {# #} do not exist: guard the line, {trait}, or write another block for the topic"
    if " or " in content:
        return '"or" needs a derived trait in content/traits.yaml, or two guarded lines'
    return "write traits with commas: {two-bottles, not crash-sensor}"


def _stray_hint(sign: str) -> str:
    if sign in "[]":
        return "a link is written [words](topic:gas/open)"
    if sign == "**":
        return "close it on the same line, without a space inside: **words**"
    return "leave it out"


def merged(items: Iterator[Inline]) -> tuple[Inline, ...]:
    """Return ``items`` with neighbouring texts joined."""
    result: list[Inline] = []
    for item in items:
        last = result[-1] if result else None
        if isinstance(item, Text) and isinstance(last, Text):
            result[-1] = Text(last.text + item.text)
        elif item != Text(""):
            result.append(item)
    return tuple(result)


def trimmed(items: tuple[Inline, ...]) -> tuple[Inline, ...]:
    """Return ``items`` without space at either end."""
    result = list(items)
    if result and isinstance(result[0], Text):
        result[0] = Text(result[0].text.lstrip())
    if result and isinstance(result[-1], Text):
        result[-1] = Text(result[-1].text.rstrip())
    return tuple(item for item in result if item != Text(""))
