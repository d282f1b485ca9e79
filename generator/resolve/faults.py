"""The faults of one van, gathered before any is raised."""

from generator.errors import Fault, Source, SpecError


class Faults:
    """Collects what the author of a build sheet must put right."""

    def __init__(self) -> None:
        self._found: list[Fault] = []

    def add(self, message: str, source: Source, hint: str = "") -> None:
        """Take down one fault."""
        self._found.append(Fault(message, source, hint))

    def raise_any(self) -> None:
        """Raise all faults at once, by file, line and column.

        Raises:
            SpecError: there is a fault.
        """
        if self._found:
            order = sorted(dict.fromkeys(self._found), key=lambda fault: (fault.source or Source(""), fault.message))
            raise SpecError(*order)
