"""A register of reviews: content/reviews.yaml, and reviews.yaml of the dealer's records, in one shape.

Which words a digest stands for is left to ``assemble``; a digest that nothing has any more is no fault.
"""

import re
from pathlib import Path

from generator.load.faults import Faults
from generator.load.nodes import Node
from generator.load.reader import Reader
from generator.load.sources import read_record
from generator.model.reviews import Register, Review

_DIGEST = re.compile(r"[0-9a-f]{64}")


def read_reviews(root: Path, path: Path, faults: Faults) -> tuple[Review, ...]:
    """Return the reviews in a file; without a file nothing has been reviewed.

    Args:
        root: Faults name the file relative to this folder.
        path: The register.
        faults: Takes what is wrong with it.
    """
    if not path.exists():
        return ()
    register = read_record(root, path, Register, Reader(faults, {(Review, "digest"): _digest}))
    return register.reviews if register else ()


def _digest(reader: Reader, node: Node) -> str | None:
    text = reader.text(node)
    if text is None or _DIGEST.fullmatch(text):
        return text
    reader.faults.add(f'"{text[:40]}" is no digest of a review', node.source, "64 digits 0-9 and a-f")
    return None
