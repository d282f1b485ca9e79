"""Safety messages: looked up, put in order of gravity, and gathered on one page.

The signal words and their meaning follow ANSI Z535.6; the explanations are in our own words.
"""

from collections.abc import Iterable

from generator.assemble.faults import Faults
from generator.errors import nearest
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.content import SIGNALS, Content, SafetyMessage, Signal
from generator.model.sourced import Given

# ANSI Z535.6: DANGER will, WARNING could result in death or serious injury; CAUTION could result in minor or
# moderate injury; NOTICE is about damage, not injury.
MEANINGS: dict[Signal, str] = {
    "DANGER": "Somebody will be killed or badly hurt if you do not heed it.",
    "WARNING": "Somebody could be killed or badly hurt.",
    "CAUTION": "Somebody could be hurt.",
    "NOTICE": "The van or something else could be damaged.",
}


def look_up(given: Given[str], content: Content, faults: Faults) -> SafetyMessage | None:
    """Return the message an author named; an unknown one is a fault, since a gap must not be published."""
    message = content.safety.get(given.value)
    if message is None:
        name, file = given.value, f"content/safety/{given.value}."
        faults.absent(f'no safety message "{name}"', given.source, nearest(name, content.safety), name, file)
    return message


def gravest_first(messages: Iterable[SafetyMessage]) -> tuple[SafetyMessage, ...]:
    """Return the messages by signal word, gravest first; within one word the written order stands."""
    return tuple(sorted(messages, key=lambda message: SIGNALS.index(message.signal)))


def signal_words() -> p.Table:
    """Return what each signal word means, to stand before the first message of the safety page."""
    head: tuple[p.Line, ...] = ((Text("Word"),), (Text("What it means"),))
    return p.Table(head, tuple(((p.Strong((Text(word),)),), (Text(MEANINGS[word]),)) for word in SIGNALS))
