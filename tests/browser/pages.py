"""Patch sheets as files."""

from functools import cache
from pathlib import Path

import solver
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from solver.reading import read_jam
from solver.sheet.formats import FORMATS
from tests.showing import SCENARIOS


@cache
def planned(name: str) -> tuple[Jam, Plan]:
    """A scenario and its plan."""
    jam = read_jam(SCENARIOS / f"{name}.toml")
    outcome = solver.plan(jam, time_limit=None)
    assert isinstance(outcome, Planned)
    return jam, outcome.best


def page(folder: Path, jam: Jam, plan: Plan, name: str = "sheet") -> Path:
    """The page of a plan, in a folder."""
    made = FORMATS[".html"].made(jam, plan)
    assert isinstance(made, str)
    file = folder / f"{name}.html"
    file.write_text(made, encoding="utf-8")
    return file
