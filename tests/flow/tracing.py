"""Traces as tests look at them."""

from typing import Any

import pytest

from solver.flow.sound_way import AtOutlet, AtStrip, Level, OnCable
from solver.flow.trace import Trace, trace
from solver.jam.jam import Jam
from solver.plans import Plan


def sound(found: Trace) -> Any:
    assert found.sound is not None
    return found.sound


def levels(there: tuple[Level, ...]) -> dict[tuple[str, str], Any]:
    """Levels by side and voice, in dB."""
    return {(level.side, level.voice): pytest.approx(level.db, abs=0.001) for level in there}


def at(found: Trace, name: str) -> dict[tuple[str, str], Any]:
    """The levels at an outlet, a strip, or behind a cable that is named by its number."""
    for point in sound(found).points:
        names = {AtOutlet: "outlet", AtStrip: "strip", OnCable: "number"}
        if type(point) in names and str(getattr(point, names[type(point)])) == name:
            return levels(point.levels)
    raise AssertionError(f"{name} is not on the way")


def both(db: float) -> dict[tuple[str, str], float]:
    return {("left", "whole"): db, ("right", "whole"): db}


def traced(of: Jam, in_plan: Plan, part: str = "bass") -> Trace:
    """One part of a jam, followed through a plan."""
    return trace(of, in_plan, part)
