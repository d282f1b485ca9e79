"""What every printed document of a van says of itself: title, language, signs, foot, and the code to its page.

What stands on the pages is left to the modules of the documents.
"""

from generator.model.manual import Manual
from generator.model.paper import Whole
from generator.model.signs import MEANINGS
from generator.paper.pictures import signs
from generator.paper.setting import Data, breakable
from generator.paper.symbol import symbol


def common(manual: Manual, address: str, whole: Whole, title: str) -> Data:
    """Return what all templates need.

    Args:
        manual: The van's manual.
        address: Where it is online, ending in a slash; "" where that is not known yet.
        whole: Edition and signs.
        title: Of the document, for the reader's window.
    """
    language, _, region = manual.language.partition("-")
    newer = f"Check for a newer edition: {address}" if address else "Proof. Not published."
    return {
        "title": title,
        "author": str(manual.values.get("dealer/name", manual.dealer)),
        "lang": language,
        "region": region or None,
        "signs": signs(whole.signs),
        "meanings": dict(MEANINGS),
        "foot": {
            "van": f"{manual.model}, van {manual.tail}, {whole.edition_in_words}",
            "newer": breakable(newer),
            "state": "Draft: not yet checked by the dealer" if manual.waiting else "",
        },
    }


def code_to(address: str, path: str) -> Data:
    """Return the code that leads to a page of the site; none where its address is not known yet."""
    if not address:
        return {"qr": None, "address": "", "shown": ""}
    target = address + path
    return {"qr": symbol(target, error="m").svg.decode(), "address": target, "shown": breakable(target)}
