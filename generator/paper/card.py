"""The card for the car: one A6 side with masses, tyres, size, shut-offs and whom to ring.

How it looks is left to ``card.typ``.
"""

from collections.abc import Sequence

from generator.model.manual import Manual
from generator.model.paper import Whole
from generator.paper.document import code_to, common
from generator.paper.setting import Data, breakable

_SIZES = ("Length", "Width", "Height")


def card_document(manual: Manual, address: str, whole: Whole) -> Data:
    """Return everything the template prints."""
    card = manual.card
    return {
        **common(manual, address, whole, f"{manual.model}, van {manual.tail}: key facts"),
        "van": manual.model,
        "tail": f"van {manual.tail}",
        "emergency": [list(one) for one in card.emergency] if card else [],
        "facts": [[title, breakable(value)] for title, value in _sizes_together(card.facts)] if card else [],
        "shut_offs": [
            {"what": one.what, "part": one.part, "code": one.code, "name": breakable(one.name)}
            for one in (card.shut_offs if card else ())
        ],
        "dealer": {
            "name": breakable(str(manual.values.get("dealer/name", manual.dealer))),
            "phone": str(manual.values.get("dealer/phone", "")),
        },
        "qr": code_to(address, ""),
    }


def _sizes_together(facts: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    """Return the facts with length, width and height below each other: who reads one under a bridge reads all."""
    first = next((at for at, (title, _) in enumerate(facts) if title in _SIZES), 0)
    sizes = [fact for title in _SIZES for fact in facts if fact[0] == title]
    rest = [fact for fact in facts if fact not in sizes]
    return [*rest[:first], *sizes, *rest[first:]]
