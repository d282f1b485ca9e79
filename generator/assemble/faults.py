"""Collects what authors must put right, so that one run tells them everything.

Printing is left to the command line.
"""

from generator.errors import ContentError, Fault, Source


class Faults:
    """Faults in the order found; the same fault met twice (a sentence printed twice) is told once."""

    def __init__(self) -> None:
        self._found: dict[Fault, None] = {}

    def add(self, message: str, source: Source | None = None, hint: str = "") -> None:
        """Note one fault."""
        self._found[Fault(message, source, hint)] = None

    def raise_any(self) -> None:
        """Raise all faults at once, ordered by position.

        Raises:
            ContentError: at least one fault was added.
        """
        if self._found:
            nowhere = Source("\U0010ffff")  # after every file
            raise ContentError(*sorted(self._found, key=lambda fault: fault.source or nowhere))
