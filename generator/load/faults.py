"""The faults of one run, gathered from all files before any is raised.

What a fault looks like is in ``generator.errors``.
"""

from generator.errors import CatalogueError, ContentError, Fault, ManualError, Source, SpecError

_ERRORS: dict[str, type[ManualError]] = {
    "van_specs": SpecError,
    "content/equipment": CatalogueError,
    "content/traits.yaml": CatalogueError,
    "content": ContentError,
}


class Faults:
    """Collects faults while files are read."""

    def __init__(self) -> None:
        self._found: list[Fault] = []
        self._lost: set[str] = set()

    def __len__(self) -> int:
        return len(self._found)

    def add(self, message: str, source: Source, hint: str = "") -> None:
        """Take down one fault."""
        self._found.append(Fault(message, source, hint))

    def lose(self, file: str) -> None:
        """Note that nothing came of a file, so that names which only it knows are not called unknown."""
        self._lost.add(file)

    def lost(self, *starts: str) -> bool:
        """Return whether nothing came of some file whose name starts like this."""
        return any(file.startswith(starts) for file in self._lost)

    def in_order(self) -> tuple[Fault, ...]:
        """Return each fault once, by file, line and column."""
        return tuple(sorted(dict.fromkeys(self._found), key=lambda fault: (fault.source or Source(""), fault.message)))

    def raise_any(self) -> None:
        """Raise all faults at once, as the error that names what must be put right.

        Raises:
            ManualError: there is a fault; a subclass where all faults are of one sort of file.
        """
        if self._found:
            faults = self.in_order()
            sorts = {_error_for(fault) for fault in faults}
            raise (sorts.pop() if len(sorts) == 1 else ManualError)(*faults)


def _error_for(fault: Fault) -> type[ManualError]:
    file = fault.source.file if fault.source else ""
    return next((error for start, error in _ERRORS.items() if file.startswith(start)), SpecError)
