"""The time that a search has, and the user who may stop it."""

import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager


def nothing(*_: object) -> None:
    """Do nothing."""


class Clock:
    """Seconds since the start, how many are left of those given, and whether the user has stopped the search.

    Args:
        limit: Seconds from now on; None for as long as it takes.
        of: A clock that runs for the whole, of which this one is given a share.
    """

    def __init__(self, limit: float | None, of: "Clock | None" = None) -> None:
        self._start = time.monotonic()
        self._limit = limit
        self._of = of
        self._halt: Callable[[], None] = nothing
        self._stopped = False

    @property
    def stopped(self) -> bool:
        """Whether the user has stopped the search."""
        return self._stopped if self._of is None else self._of.stopped

    @contextmanager
    def heeding_the_user(self) -> Iterator[None]:
        """Take Ctrl-C as the wish to stop with what there is; a second one breaks off as ever."""
        if threading.current_thread() is not threading.main_thread():
            yield
            return
        before = signal.getsignal(signal.SIGINT)
        signal.signal(signal.SIGINT, self._stop)
        try:
            yield
        finally:
            signal.signal(signal.SIGINT, before)

    def _stop(self, *_: object) -> None:
        if self._stopped:
            raise KeyboardInterrupt
        self._stopped = True
        self._halt()

    @contextmanager
    def halting(self, halt: Callable[[], None]) -> Iterator[None]:
        """Call ``halt`` when the user stops the search meanwhile."""
        whole = self if self._of is None else self._of
        whole._halt = halt
        try:
            yield
        finally:
            whole._halt = nothing

    @property
    def spent(self) -> float:
        """Seconds since the start."""
        return time.monotonic() - self._start

    @property
    def left(self) -> float | None:
        """Seconds left, never below 0; None without a limit."""
        own = None if self._limit is None else max(0.0, self._limit - self.spent)
        whole = None if self._of is None else self._of.left
        return own if whole is None else whole if own is None else min(own, whole)

    @property
    def over(self) -> bool:
        """Whether the time is up, or the user has stopped the search."""
        return self.stopped or self.left == 0
