"""The faults of one run, gathered from all files before any is raised.

What a fault looks like is in ``generator.errors``.
"""

import re
from collections.abc import Callable, Hashable
from typing import TypeVar

from generator.errors import CatalogueError, ContentError, Fault, ManualError, Source, SpecError
from generator.model.spoilt import Spoilt

_ERRORS: dict[str, type[ManualError]] = {
    "van_specs": SpecError,
    "content/equipment": CatalogueError,
    "content/traits.yaml": CatalogueError,
    "content": ContentError,
}


_T = TypeVar("_T")
# What was read from files, by what it depends on, with the faults found on the way.
Memo = dict[Hashable, tuple[object, tuple[Fault, ...]]]


class Faults:
    """Collects faults while files are read.

    Args:
        memo: Keeps what was read from one run to the next, for a caller that reads a workspace again and again.
        before: Faults of what was read before; they are looked at, not told.
    """

    def __init__(self, memo: Memo | None = None, before: "Faults | None" = None) -> None:
        self._found: list[Fault] = []
        self._before = before
        self._texts: dict[str, str] = {}
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
            own = Faults(before=self)
            made = read(own)
            self._memo[key] = (made, tuple(own._found))
        value, found = self._memo[key]
        self._found.extend(found)
        return value  # type: ignore[return-value]

    def __len__(self) -> int:
        return len(self._found)

    def add(self, message: str, source: Source, hint: str = "") -> None:
        """Take down one fault."""
        self._found.append(Fault(message, source, hint))

    def keep_text(self, file: str, text: str) -> None:
        """Note the text of a file that was read, for the case that it has faults."""
        self._texts[file] = text

    def lose(self, file: str) -> None:
        """Note that nothing came of a file that alone holds all names of a sort, so that it may hold any."""
        self._texts.pop(file, None)

    def text(self, file: str) -> str | None:
        """Return the text of a file that was read."""
        return self._texts.get(file)

    @property
    def spoilt(self) -> Spoilt:
        """The files with faults so far."""
        files = {fault.source.file for fault in self._found if fault.source}
        return Spoilt({file: self._words_of(file) for file in sorted(files)})

    def _words_of(self, file: str) -> str | None:
        """Return the text of a file, or None where it was not read or holds no word."""
        text = self._texts.get(file, "")
        return text if re.search(r"\w", text) else None

    def spoil(self, file: str) -> bool:
        """Return whether a file has a fault so far."""
        own = any(fault.source is not None and fault.source.file == file for fault in self._found)
        return own or (self._before is not None and self._before.spoil(file))

    def sources_in(self, file: str) -> list[Source]:
        """Return where in one file there are faults."""
        return [fault.source for fault in self._found if fault.source and fault.source.file == file]

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
