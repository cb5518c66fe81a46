"""Runs commands as the documentation shows them: on a copy of the scenarios, with the time they take held still."""

import shlex
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

import solver
from solver.cli import main
from solver.outcome import Outcome

ROOT = Path(__file__).parent.parent
SCENARIOS = ROOT / "scenarios"
HELD = 0.5
"""Seconds that every plan is said to have taken: how long it really takes is the machine's business."""

Shown = Callable[[str], tuple[int, str]]


def commands_in(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Shown:
    """A way to run command lines in a folder that holds a copy of ``scenarios`` and ``docs``.

    Returns:
        A function from a line such as ``hardpan plan FILE`` to its exit status and all that it writes.
    """
    for name in ("scenarios", "docs"):
        shutil.copytree(ROOT / name, folder / name)
    monkeypatch.chdir(folder)
    monkeypatch.setenv("HOME", str(folder / "home"))  # whoever runs the tests may have box files of their own
    for variable in ("HARDPAN_BOXES", "XDG_DATA_HOME"):
        monkeypatch.delenv(variable, raising=False)
    monkeypatch.setattr(solver, "plan", _held(solver.plan))
    monkeypatch.setattr("solver.cli.telling.QUIET", float("inf"))  # no progress where the machine is slow

    def run(line: str) -> tuple[int, str]:
        program, *words = shlex.split(line)
        assert program == "hardpan"
        result = CliRunner().invoke(main, words, prog_name="hardpan")
        return result.exit_code, result.output

    return run


def _held(plan: Callable[..., Outcome]) -> Callable[..., Outcome]:
    def held(*given: Any, **named: Any) -> Outcome:
        return replace(plan(*given, **named), seconds=HELD)

    return held
