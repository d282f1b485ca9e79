"""The name of a van's folder in the library: short, unguessable, the same for the van's life."""

import hashlib
import hmac
from collections.abc import Mapping
from itertools import count

# Upper case for the label's address; without I and O, which are taken for 1 and 0 (and without 0 and 1).
ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
LENGTH = 10  # 50 bits at 5 bits a character
_BITS = 5


def is_folder(name: str) -> bool:
    """Return whether a name could be that of a manual's folder."""
    return len(name) == LENGTH and set(name) <= set(ALPHABET)


def folder_name(chassis: str, folders: Mapping[str, str], secret: bytes) -> str:
    """Return the folder of a chassis: the recorded one, else a new one from the secret.

    A name that another chassis has already is passed over and the next is tried, in the same order
    every time.

    Args:
        chassis: The whole chassis number.
        folders: Folder by chassis as recorded; wins over the secret.
        secret: Key for new names.
    """
    if chassis in folders:
        return folders[chassis]
    taken = set(folders.values())
    return next(name for tried in count() if (name := _name(chassis, tried, secret)) not in taken)


def _name(chassis: str, tried: int, secret: bytes) -> str:
    """Return the first 50 bits of HMAC-SHA256, five bits a character."""
    message = chassis if tried == 0 else f"{chassis}\n{tried}"
    digest = hmac.new(secret, message.encode(), hashlib.sha256).digest()
    bits = int.from_bytes(digest) >> (8 * len(digest) - _BITS * LENGTH)
    return "".join(ALPHABET[bits >> _BITS * place & 31] for place in reversed(range(LENGTH)))
