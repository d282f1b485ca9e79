"""The card for the car: one A6 side with masses, tyres, size, shut-offs and whom to ring.

How it looks is left to ``card.typ``.
"""

from generator.model.manual import Manual
from generator.model.paper import Whole
from generator.paper.document import code_to, common
from generator.paper.setting import Data, breakable


def card_document(manual: Manual, address: str, whole: Whole) -> Data:
    """Return everything the template prints."""
    card = manual.card
    return {
        **common(manual, address, whole, f"{manual.model}, van {manual.tail}: key facts"),
        "van": manual.model,
        "tail": f"van {manual.tail}",
        "emergency": [list(one) for one in card.emergency] if card else [],
        "facts": [[title, breakable(value)] for title, value in card.facts] if card else [],
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
