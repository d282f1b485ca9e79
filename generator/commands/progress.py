"""A bar for work that takes longer than a second, on a terminal only."""

import time
from contextlib import ExitStack
from types import TracebackType
from typing import Any, TextIO

import click

_PATIENCE_S = 1.0


class Progress:
    """Shows how much of the work is done once a second has passed; used as a context.

    The bar goes to the stream it is given (stderr), never between results on stdout.
    """

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._began = time.monotonic()
        self._done = 0
        self._open = ExitStack()
        self._bar: Any = None
        self._hidden = not stream.isatty()

    def __enter__(self) -> "Progress":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._open.close()

    def tick(self, left: int, what: str) -> None:
        """Take down a step: what was done, and how many steps are left."""
        self._done += 1
        if self._hidden or time.monotonic() - self._began < _PATIENCE_S:
            return
        if self._bar is None:
            bar = click.progressbar(length=1, file=self._stream, item_show_func=lambda item: item)
            self._bar = self._open.enter_context(bar)
        self._bar.length = self._done + left
        self._bar.update(self._done - self._bar.pos, what)

    def hide(self) -> None:
        """End the bar, so that other words can follow on the stream."""
        self._open.close()
        self._bar = None
