"""The Markdown of blocks: markdown-it-py with calls and guards as inline rules, every token knowing where it stands.

Which of its tokens a block may hold is decided in ``body``.
"""

from collections.abc import Callable
from functools import cache

from markdown_it import MarkdownIt
from markdown_it.rules_inline import StateInline, autolink, backtick, image, link
from markdown_it.token import Token

_Rule = Callable[[StateInline, bool], bool]


@cache
def _parser() -> MarkdownIt:
    """Return the parser: CommonMark with tables; no raw HTML, reference links or underlined headings."""
    parser = MarkdownIt("commonmark", {"html": False, "linkify": False, "typographer": False}).enable("table")
    parser.disable(["reference", "lheading", "html_block", "html_inline"])
    parser.inline.ruler.after("text", "braces", _braces)
    for name, rule in {"link": link, "image": image, "autolink": autolink, "backticks": backtick}.items():
        parser.inline.ruler.at(name, _placed(rule))
    return parser


class MarkdownNode:
    """A token with what it encloses: a list its items, a paragraph its one "inline", that its pieces.

    Much like markdown-it's own ``SyntaxTreeNode``, which takes as long to build as the text to parse.
    """

    __slots__ = ("children", "token", "type")

    def __init__(self, token: Token) -> None:
        self.token, self.type = token, token.type.removesuffix("_open")
        self.children: list[MarkdownNode] = []

    @property
    def map(self) -> list[int] | None:
        """The first line of its source, and the one after it."""
        return self.token.map

    @property
    def content(self) -> str:
        """Its text, where it encloses nothing."""
        return self.token.content

    @property
    def tag(self) -> str:
        """Its HTML tag: "h2"."""
        return self.token.tag

    @property
    def attrs(self) -> dict[str, str | int | float]:
        """What was written beside: the target of a link, the first number of a list."""
        return self.token.attrs

    @property
    def meta(self) -> dict[str, int]:
        """Of a piece: under "at" where it starts in its line."""
        return self.token.meta


def parsed(text: str) -> list[MarkdownNode]:
    """Return the nodes of a block's body; pieces of lines hold in ``meta["at"]`` where they start in their content."""
    return _nested(_parser().parse(text))


def _nested(tokens: list[Token]) -> list[MarkdownNode]:
    root: list[MarkdownNode] = []
    open_ = [root]
    for token in tokens:
        if token.nesting < 0:
            open_.pop()
            continue
        node = MarkdownNode(token)
        open_[-1].append(node)
        if token.nesting > 0:
            open_.append(node.children)
        elif token.children:
            node.children = _nested(token.children)
    return root


def _braces(state: StateInline, silent: bool) -> bool:
    """Take ``{{ call }}`` as a token "call" and ``{guard}`` as a token "guard"; unclosed ones as "open_brace"."""
    start = state.pos
    if state.src[start] != "{":
        return False
    opening, closing = ("{{", "}}") if state.src.startswith("{{", start) else ("{", "}")
    end = state.src.find(closing, start + len(opening), state.posMax)
    inner = state.src[start + len(opening) : end]
    whole = end >= 0 and "\n" not in inner
    if not silent:
        kind = ("call" if opening == "{{" else "guard") if whole else "open_brace"
        token = state.push(kind, "", 0)
        token.content, token.meta = inner.strip() if whole else "", {"at": start}
    state.pos = end + len(closing) if whole else start + len(opening)
    return True


def _placed(rule: _Rule) -> _Rule:
    """Return ``rule`` noting in its tokens where they start."""

    def noting(state: StateInline, silent: bool) -> bool:
        start, first = state.pos, len(state.tokens)
        taken = rule(state, silent)
        if taken and not silent:
            for token in state.tokens[first:]:
                token.meta.setdefault("at", start)
        return taken

    return noting
