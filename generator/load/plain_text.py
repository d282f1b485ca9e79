"""What a short text of a build sheet may hold: names, plate texts.

They are shown as plain text everywhere, so signs that only markup needs are refused early, with a position.
"""

import re

from generator.load.faults import Faults
from generator.model.sourced import Given

LONGEST_NAME = 60
LONGEST_PLATE = 40
_MARKUP = re.compile(r"[<>{}`\\]|\.\./")


def check_name(name: Given[str], faults: Faults) -> None:
    """Add a fault for a name that is too long, not printable, or holds markup."""
    _check(name, LONGEST_NAME, "name", faults)


def check_plate(text: Given[str], faults: Faults) -> None:
    """Add a fault for a plate text that is too long, not printable, or holds markup."""
    _check(text, LONGEST_PLATE, "plate text", faults)
    if not any(sign.isalnum() for sign in text.value):
        faults.add(f'"{text.value[:40]}" holds no letter or digit', text.source)


def _check(given: Given[str], longest: int, what: str, faults: Faults) -> None:
    text, at = given.value, given.source
    markup = _MARKUP.search(text)
    if len(text) > longest:
        faults.add(f"this {what} has {len(text)} characters, at most {longest} fit", at)
    elif not text.isprintable():
        faults.add(f"this {what} holds a sign that cannot be printed", at, "write it on one line")
    elif markup:
        faults.add(f'a {what} cannot hold "{markup[0]}"', at, "plain words only, no markup and no paths")
