"""The dealer's reviews as a file of the records: reviews.yaml, in the shape of content/reviews.yaml.

Which blocks were reviewed is the caller's to say.
"""

import json
from collections.abc import Iterable
from pathlib import Path

from generator.errors import Fault, PublishError
from generator.model.reviews import Review
from generator.publish import disk

NAME = "reviews.yaml"
KEPT = 20  # newest reviews of one block: the file stays small, and words older than that are no longer printed
_LONGEST_NAME = 100
_HEAD = """\
# Who has checked which safety-critical blocks. Written by "lockerleaf review"; the digest is of the words checked.
"""


def check_name(by: str) -> str:
    """Return the name of who has checked, without blanks around it.

    Raises:
        PublishError: it is none that a file can keep.
    """
    name = by.strip()
    if not name or len(name) > _LONGEST_NAME or not name.isprintable():
        hint = f"one line of at most {_LONGEST_NAME} characters"
        raise PublishError(Fault("this is no name of who has checked the manuals", hint=hint))
    return name


def record_reviews(reviews: Iterable[Review], records: Path) -> Path:
    """Replace the register of the records, whole or not at all, and return where it is.

    Args:
        reviews: All reviews, oldest first; of each block the newest are kept.
        records: The records, held by this command.

    Raises:
        PublishError: the disk refuses; the register is as before.
    """
    path = records / NAME
    try:
        disk.put(path, register_file(reviews))
    except OSError as error:
        message = f"no review was recorded: {error.strerror or error} at {path}"
        raise PublishError(
            Fault(message, hint="make room or allow writing there, then run the command again")
        ) from error
    return path


def register_file(reviews: Iterable[Review]) -> bytes:
    """Return a register as it is written: one line a review, by block, oldest first."""
    by_block: dict[str, list[Review]] = {}
    for review in reviews:
        by_block.setdefault(review.block, []).append(review)
    kept = [review for block in sorted(by_block) for review in by_block[block][-KEPT:]]
    lines = "".join(f"  - {_entry(review)}\n" for review in kept)
    return f"{_HEAD}reviews:{' []' if not kept else ''}\n{lines}".encode()


def _entry(review: Review) -> str:
    """A JSON object is a YAML mapping (YAML 1.2, section 1.3), and quotes keep every name a text."""
    entry = {"block": review.block, "digest": review.digest, "by": review.by, "on": review.on.isoformat()}
    return json.dumps(entry, ensure_ascii=False)
