"""Slips of a writer's hand: one file of a workspace changed at random, the same for the same seed."""

import random
import re
from collections.abc import Callable, Sequence

_PIECES = (
    *("{", "}", "{{ ", " }}", "{gas}", "{not gas}", "{gas or mains}", "{mark: x}", "{{ say('gas.open') }}"),
    *("{{ number('payload') }}", "{{ table('gas-hours') }}", "{{ include('smell-gas') }}", "{{ picture('blade') }}"),
    *(
        "{{ place('gas.bottles') }}",
        "{{ drawing('hot_water.on_gas') }}",
        "{{ safety('scald') }}",
        "{{ term('pitch') }}",
        "[x](topic:gas/open)",
        "[x](http://x)",
    ),
    *(
        "**",
        "*",
        "`",
        "<b>",
        "](",
        "![",
        "\n",
        "\n\n",
        "\n1. ",
        "\n- ",
        "\n   ",
        "\n    ",
        "\n## ",
        "| a | b |\n|---|---|\n",
    ),
    *(
        "---\n",
        "```\n",
        "> ",
        "\t",
        " #",
        ": ",
        "- ",
        "&a ",
        "*a",
        "!x ",
        "|",
        ">-",
        "'",
        '"',
        "\\",
        "[",
        "]",
        "[]",
        "{}",
    ),
    *(
        "unknown",
        "none",
        "null",
        "~",
        "0",
        "-1",
        "1e9",
        "1 kg",
        "12:30",
        "010",
        "yes",
        "2026-13-01",
        "9" * 30,
        "x" * 3000,
    ),
    *("\0", "\x07", "\ufeff", "\u202e", "\ue000", "\u2028", "é", "٣", "😀", "../", "%s", "{% x %}", "{# x #}"),
)
_WORD = re.compile(r"[A-Za-z][\w/-]*")


def mutated(text: str, others: Sequence[str], chance: random.Random) -> str:
    """Return ``text`` with one to three slips.

    Args:
        text: A file that reads without a fault.
        others: Other files of its sort, to take lines from.
        chance: Decides everything.
    """
    for _ in range(chance.randint(1, 3)):
        text = chance.choice(_SLIPS)(text, others, chance)
    return text


def _cut(text: str, others: Sequence[str], chance: random.Random) -> str:
    start = chance.randint(0, len(text))
    return text[:start] + text[start + chance.randint(1, 12) :]


def _insert(text: str, others: Sequence[str], chance: random.Random) -> str:
    at = chance.randint(0, len(text))
    return text[:at] + chance.choice(_PIECES) + text[at:]


def _drop_line(text: str, others: Sequence[str], chance: random.Random) -> str:
    lines = text.split("\n")
    lines.pop(chance.randrange(len(lines)))
    return "\n".join(lines)


def _double_line(text: str, others: Sequence[str], chance: random.Random) -> str:
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    return "\n".join([*lines[:at], lines[at], *lines[at:]])


def _swap_lines(text: str, others: Sequence[str], chance: random.Random) -> str:
    lines = text.split("\n")
    one, two = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[two] = lines[two], lines[one]
    return "\n".join(lines)


def _indent(text: str, others: Sequence[str], chance: random.Random) -> str:
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    lines[at] = " " * chance.randint(0, 5) + lines[at].lstrip()
    return "\n".join(lines)


def _borrow_line(text: str, others: Sequence[str], chance: random.Random) -> str:
    lines, more = text.split("\n"), chance.choice(others).split("\n")
    lines[chance.randrange(len(lines))] = chance.choice(more)
    return "\n".join(lines)


def _other_word(text: str, others: Sequence[str], chance: random.Random) -> str:
    words = list(_WORD.finditer(text))
    if not words:
        return text
    gone, come = chance.choice(words), chance.choice(words)
    return text[: gone.start()] + come.group() + text[gone.end() :]


def _slip_of_letter(text: str, others: Sequence[str], chance: random.Random) -> str:
    at = chance.randint(0, max(0, len(text) - 2))
    return text[:at] + text[at + 1 : at + 2] + text[at : at + 1] + text[at + 2 :]


def _end_early(text: str, others: Sequence[str], chance: random.Random) -> str:
    return text[: chance.randint(0, len(text))]


_SLIPS: tuple[Callable[[str, Sequence[str], random.Random], str], ...] = (
    *(_cut, _insert, _insert, _insert, _drop_line, _double_line, _swap_lines, _indent),
    *(_borrow_line, _other_word, _other_word, _slip_of_letter, _end_early),
)
