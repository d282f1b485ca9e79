"""Gathers the faults of all vans before any is raised."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from generator.errors import Fault, Level, ManualError, Source


@dataclass(frozen=True, slots=True)
class Gathering:
    """Faults of all vans, gathered before any is raised."""

    faults: list[Fault] = field(default_factory=list)
    warnings: list[Fault] = field(default_factory=list)

    @contextmanager
    def of(self) -> Iterator[None]:
        """Take the faults of one van's step and go on with the next van."""
        try:
            yield
        except ManualError as error:
            self.faults.extend(error.faults)

    def raise_any(self) -> None:
        """Raise every fault once, by file, line and column; warnings go along."""
        if any(fault.level is Level.ERROR for fault in self.faults):
            raise ManualError(*in_order((*self.faults, *self.warnings)))


def in_order(faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """Return each fault once, by file, line and column."""
    return tuple(sorted(dict.fromkeys(faults), key=lambda fault: (fault.source or Source(""), fault.message)))
