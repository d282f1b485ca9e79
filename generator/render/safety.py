"""Writes safety messages: signal word, then hazard, consequence and what to do as one text (ANSI Z535.6).

The pictures are the template's; the words carry the meaning without them.
"""

from collections.abc import Mapping

from markupsafe import Markup

from generator.model.content import SafetyMessage
from generator.model.signs import MEANINGS
from generator.render.element import NOTHING, element, joined


def message_box(message: SafetyMessage, pictures: Mapping[str, Markup]) -> Markup:
    """Return the panel of one message.

    Args:
        message: The message.
        pictures: SVG by name: ``alert`` and codes of signs. A sign without one is left out.
    """
    return element(
        "div",
        element("p", _alert(message, pictures), message.signal, class_="safety__word"),
        _sign(message, pictures),
        # One paragraph: step 1 must not be pushed far down by messages, and none of them may be folded away.
        element(
            "p",
            element("strong", message.hazard.value),
            f" {message.consequence.value} {message.avoid.value}",
            class_="safety__text",
        ),
        class_=f"safety safety--{message.signal.lower()}",
        role="note",
        aria_label=message.signal,
    )


def message_boxes(messages: tuple[SafetyMessage, ...], pictures: Mapping[str, Markup]) -> Markup:
    """Return several panels in the order given."""
    return joined([message_box(message, pictures) for message in messages])


def _alert(message: SafetyMessage, pictures: Mapping[str, Markup]) -> Markup:
    # NOTICE speaks of damage, never of injury: it carries no alert symbol (ANSI Z535.6).
    return NOTHING if message.signal == "NOTICE" else pictures.get("alert", NOTHING)


def _sign(message: SafetyMessage, pictures: Mapping[str, Markup]) -> Markup:
    if message.sign is None or message.sign not in pictures:
        return NOTHING
    return element(
        "span",
        pictures[message.sign],
        class_="safety__sign",
        role="img",
        aria_label=MEANINGS.get(message.sign, message.sign),
    )
