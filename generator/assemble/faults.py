"""Collects what authors must put right, so that one run tells them everything.

Printing is left to the command line.
"""

from generator.errors import ContentError, Fault, Source
from generator.model.spoilt import NOTHING, Spoilt

BLOCKS = "content/blocks/"


class Faults:
    """Faults in the order found; the same fault met twice (a sentence printed twice) is told once.

    Args:
        spoilt: Files that have faults of their own, told already.
    """

    def __init__(self, spoilt: Spoilt = NOTHING) -> None:
        self._found: dict[Fault, None] = {}
        self._spoilt = spoilt

    def add(self, message: str, source: Source | None = None, hint: str = "") -> None:
        """Note one fault; where files are spoilt, one in them or without a position may follow from that."""
        if self._spoilt and (source is None or source.file in self._spoilt):
            return
        self._found[Fault(message, source, hint)] = None

    def absent(self, message: str, source: Source, hint: str, name: str, *by: str) -> None:
        """Note that something is not there, unless a spoilt file may give it.

        Args:
            message: What is wrong.
            source: Where it shows.
            hint: What to do.
            name: What it is called in the file that would give it.
            by: How the path of that file may begin.
        """
        if not self._spoilt.may_hold(name, *by):
            self.add(message, source, hint)

    def raise_any(self) -> None:
        """Raise all faults at once, ordered by position.

        Raises:
            ContentError: at least one fault was added.
        """
        if self._found:
            nowhere = Source("\U0010ffff")  # after every file
            raise ContentError(*sorted(self._found, key=lambda fault: fault.source or nowhere))
