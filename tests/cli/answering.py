"""Commands that ask, with somebody at the terminal who answers from a script, or with nobody there."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from solver.cli import main
from tests.showing import SCENARIOS

Talk = Callable[..., Result]
ASKING = ("solver.cli.new.at_a_terminal", "solver.cli.box.new.at_a_terminal")


def talker(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Talk:
    """A way to run a command line in a folder with box files, and to answer what it asks.

    Returns:
        A function from the words of a command line and the lines typed to what came of it. Without lines there is no
        terminal.
    """
    shutil.copytree(SCENARIOS / "boxes", folder / "boxes")
    monkeypatch.setenv("HARDPAN_BOXES", str(folder / "none"))
    monkeypatch.setattr("solver.boxes.SHIPPED", folder / "none")
    monkeypatch.chdir(folder)

    def talk(*words: str, typed: list[str] | None = None) -> Result:
        for name in ASKING:
            monkeypatch.setattr(name, lambda: typed is not None)
        return CliRunner().invoke(main, words, input="".join(f"{line}\n" for line in typed or ()), prog_name="hardpan")

    return talk


def files(folder: Path) -> set[str]:
    """Every file beside the boxes, and every box file that is not of the scenarios."""
    known = {path.name for path in (SCENARIOS / "boxes").iterdir()}
    return {path.name for path in folder.rglob("*") if path.is_file() and path.name not in known}
