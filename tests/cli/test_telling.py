"""Progress while a plan takes its time."""

import io

from solver.cli.telling import Telling
from solver.outcome import Progress


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """It is."""
        return True


def at(seconds: float, best: int | None = 6) -> Progress:
    return Progress("cables", best, 4, seconds)


def test_nothing_is_said_in_the_first_second() -> None:
    stream = io.StringIO()
    telling = Telling(stream)
    telling(at(0.2))
    telling(at(0.99))
    telling.done()
    assert stream.getvalue() == ""


def test_plain_lines_come_once_a_second_at_most() -> None:
    stream = io.StringIO()
    telling = Telling(stream)
    for seconds in (1.0, 1.5, 1.99, 2.0, 2.5, 4.0):
        telling(at(seconds))
    telling.done()
    assert stream.getvalue().splitlines() == [f"{seconds} s: best so far 6 cables, at least 4" for seconds in (1, 2, 4)]


def test_a_terminal_line_is_overwritten_whole_and_cleared() -> None:
    stream = Terminal()
    telling = Telling(stream)
    telling(at(1.0, best=10))
    telling(at(2.0, best=6))
    long, short = "1 s: best so far 10 cables, at least 4", "2 s: best so far 6 cables, at least 4"
    assert stream.getvalue() == f"\r{long}\r{short} "
    telling.done()
    assert stream.getvalue().endswith(f"{short} \r{' ' * len(short)}\r")
    assert "\n" not in stream.getvalue()
