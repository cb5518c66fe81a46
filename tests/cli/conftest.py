"""Commands with stand-ins for what they call."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

import solver
from solver.cli import main
from solver.jam.jam import Jam
from solver.outcome import Outcome
from tests.sheet.low_tide import low_tide

Run = Callable[..., Result]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Run a command line in an empty folder; ``low-tide.toml`` reads as Low Tide wherever it is asked for."""
    monkeypatch.chdir(tmp_path)
    for command in ("plan", "check"):
        monkeypatch.setattr(f"solver.cli.{command}.read_jam_or_set", lambda path: low_tide())

    def go(*words: str) -> Result:
        return CliRunner().invoke(main, words)

    return go


class Finder:
    """Stands in for the finding of plans: gives or raises what it was told to, and keeps what it was asked."""

    def __init__(self) -> None:
        self.outcome: Outcome | BaseException | None = None
        self.asked: dict[str, Any] = {}

    def __call__(self, jam: Jam, **asked: Any) -> Outcome:
        """Answer as told."""
        self.asked = {"title": jam.title, **asked}
        assert self.outcome is not None
        if isinstance(self.outcome, BaseException):
            raise self.outcome
        return self.outcome


@pytest.fixture
def finder(monkeypatch: pytest.MonkeyPatch) -> Finder:
    """The stand-in that ``plan`` calls."""
    found = Finder()
    monkeypatch.setattr(solver, "plan", found)
    return found
