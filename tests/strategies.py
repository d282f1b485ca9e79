"""Strategies for property tests: texts that were edited at random, and quantities as people write them."""

from hypothesis import strategies as st

_PIECES = [
    *(
        "{",
        "}",
        "[",
        "]",
        ":",
        ": ",
        "- ",
        "#",
        " #",
        "&a ",
        "*a",
        "!x ",
        "|",
        ">-",
        "'",
        '"',
        "\\",
        "\n",
        "\n  ",
        "\t",
    ),
    *(
        "{{ ",
        " }}",
        "{% x %}",
        "---\n",
        "unknown",
        "none",
        "0",
        "-1 kg",
        "1e9",
        "9" * 30,
        "1 kg**2",
        "1 N*m",
        "A1",
        "null",
    ),
    *("\0", "\ufeff", "\u202e", "\ue000", "\ud7ff", "é", "٣", "../", "<b>", "`", "|a|\n|-|\n", "1. ", "## ", "{gas} "),
]


@st.composite
def edits(draw: st.DrawFn, text: str, most: int = 4) -> str:
    """Return ``text`` with a few pieces taken out, doubled, moved or put in at random.

    Args:
        draw: Given by hypothesis.
        text: A valid text.
        most: At most this many edits.
    """
    for _ in range(draw(st.integers(1, most))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.integers(0, 12)))
        piece = draw(
            st.one_of(st.just(""), st.sampled_from(_PIECES), st.just(text[start:end] * 2), st.text(max_size=6))
        )
        text = text[:start] + piece + text[end:]
    return text


def quantity_texts(unit: str, least: float = 0, most: float = 10_000) -> st.SearchStrategy[str]:
    """Return texts such as ``12.5 kg``.

    Args:
        unit: The unit that is written.
        least: Smallest magnitude.
        most: Greatest magnitude.
    """
    magnitudes = st.decimals(min_value=least, max_value=most, places=2, allow_nan=False, allow_infinity=False)
    return magnitudes.map(lambda magnitude: f"{magnitude} {unit}")
