"""Progress on standard error while a plan takes its time."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO

from solver.outcome import Progress
from solver.sheet.answers import progress_text

QUIET = 1.0
"""Seconds before the first line, and from one line to the next."""


class Telling:
    """Tells how far the work is, at most once a second: over one line of a terminal, else line by line."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._over = stream.isatty()
        self._next = QUIET
        self._shown = 0

    def __call__(self, progress: Progress) -> None:
        """Take a report; show it when it is time."""
        if progress.seconds < self._next:
            return
        self._next = progress.seconds + QUIET
        text = progress_text(progress)
        if self._over:
            self._stream.write(f"\r{text.ljust(self._shown)}")
            self._shown = len(text)
        else:
            self._stream.write(f"{text}\n")
        self._stream.flush()

    def done(self) -> None:
        """Clear the line, so that the answer starts on a clean one."""
        if self._shown:
            self._stream.write(f"\r{' ' * self._shown}\r")
            self._stream.flush()
            self._shown = 0


@contextmanager
def telling() -> Iterator[Telling]:
    """Tell on standard error while the work inside takes its time."""
    tell = Telling(sys.stderr)
    try:
        yield tell
    finally:
        tell.done()
