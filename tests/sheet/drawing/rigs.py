"""The jams that are drawn in tests, with their plans: all scenarios that have one, ten boxes, and bad names."""

from functools import cache

import solver
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from solver.reading import read_jam
from tests.sheet.drawing.nasty_names import nasty
from tests.sheet.drawing.ten_boxes import ten_boxes
from tests.showing import SCENARIOS

SCENARIO_NAMES = sorted(path.stem for path in SCENARIOS.glob("*.toml") if path.stem != "short-rope")
"""Short Rope is impossible, so there is nothing to draw."""
NAMES = [*SCENARIO_NAMES, "ten boxes", "nasty names"]


@cache
def rig(name: str) -> tuple[Jam, Plan]:
    """A jam and its plan."""
    if name == "ten boxes":
        return ten_boxes()
    if name == "nasty names":
        return nasty()
    jam = read_jam(SCENARIOS / f"{name}.toml")
    outcome = solver.plan(jam, time_limit=None)
    assert isinstance(outcome, Planned)
    return jam, outcome.best
