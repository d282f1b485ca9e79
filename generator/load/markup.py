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


def tokens(text: str) -> list[Token]:
    """Return the tokens of a block's body; inline tokens hold in ``meta["at"]`` where they start in their content."""
    return _parser().parse(text)


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
