"""The words of a line of a block, as messages quote them.

How a line looks on a page is left to ``assemble``.
"""

from collections.abc import Iterable

from generator.model.blocks import Call, Emphasis, Inline, Strong, Text, TopicLink

LONGEST_QUOTE = 70  # characters


def quoted(content: Iterable[Inline]) -> str:
    """Return a line between quotation marks, cut at a word where it is long; nothing for a line without words."""
    words = " ".join(plain(content).split())
    if len(words) > LONGEST_QUOTE:
        words = words[:LONGEST_QUOTE].rsplit(" ", 1)[0] + " ..."
    return f'"{words}"' if words else ""


def plain(content: Iterable[Inline]) -> str:
    """Return the words of a line; a call stands as its name and argument in angle brackets."""
    return "".join(_plain(item) for item in content)


def _plain(item: Inline) -> str:
    match item:
        case Text(text):
            return text
        case Call(name, argument):
            return f"<{name} {argument}>"
        case Strong(children) | Emphasis(children) | TopicLink(_, children):
            return plain(children)
