"""One publication at a time: a lock on the records that the system itself drops when a process ends."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from generator.errors import Fault, PublishError

if sys.platform == "win32":
    import msvcrt

    def _take(file: IO[bytes]) -> None:
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
else:
    import fcntl

    def _take(file: IO[bytes]) -> None:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


@contextmanager
def hold(records: Path) -> Iterator[None]:
    """Hold the records for one command.

    Raises:
        PublishError: another command holds them.
    """
    with (records / ".lock").open("wb") as file:
        try:
            _take(file)
        except OSError as error:
            message = f"another lockerleaf is publishing with the records {records}"
            raise PublishError(Fault(message, hint="wait until it has ended, then run the command again")) from error
        yield
