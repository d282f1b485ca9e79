"""The faults of one run, gathered from all files before any is raised.

What a fault looks like is in ``generator.errors``.
"""

from collections.abc import Callable, Hashable
from typing import TypeVar

from generator.errors import CatalogueError, ContentError, Fault, ManualError, Source, SpecError

_ERRORS: dict[str, type[ManualError]] = {
    "van_specs": SpecError,
    "content/equipment": CatalogueError,
    "content/traits.yaml": CatalogueError,
    "content": ContentError,
}


_T = TypeVar("_T")
# What was read from files, by what it depends on, with the faults found on the way.
Memo = dict[Hashable, tuple[object, tuple[Fault, ...], frozenset[str]]]


class Faults:
    """Collects faults while files are read.

    Args:
        memo: Keeps what was read from one run to the next, for a caller that reads a workspace again and again.
    """

    def __init__(self, memo: Memo | None = None) -> None:
        self._found: list[Fault] = []
        self._lost: set[str] = set()
        self._memo = memo

    def kept(self, key: Hashable, read: "Callable[[Faults], _T]") -> _T:
        """Return what ``read`` makes, or what it made of the same ``key`` before; its faults are taken down either way.

        Args:
            key: Everything that the result depends on, such as file name, digest of its bytes, and wanted type.
            read: Reads it and adds its faults to those it is given.
        """
        if self._memo is None:
            return read(self)
        if key not in self._memo:
            own = Faults()
            made = read(own)
            self._memo[key] = (made, tuple(own._found), frozenset(own._lost))
        value, found, lost = self._memo[key]
        self._found.extend(found)
        self._lost |= lost
        return value  # type: ignore[return-value]

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
