"""The planner agrees with trying everything on tiny sets: possible or not, and at what cost over the whole set."""

from random import Random
from typing import Any

import pytest

import solver
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import Impossible, PlannedSet
from tests.enumeration.exhaustive import Cost
from tests.enumeration.gear import Dice
from tests.enumeration.rigs import set_of_two
from tests.enumeration.sets import best_of_set

BATCH = 8


def _recalled(jams: list[Jam]) -> JamSet:
    """The jams as a set that recalls a project on every box before each."""
    recall = dict.fromkeys(jams[0].boxes, "slot")
    return JamSet("Tiny", {f"jam {n}": jam.changed(recall=recall) for n, jam in enumerate(jams, start=1)})


def _cost(asked: JamSet) -> Cost | None:
    outcome = solver.plan(asked, time_limit=None)
    if isinstance(outcome, Impossible):
        return None
    assert isinstance(outcome, PlannedSet)
    goals = outcome.best.goals
    assert goals is not None
    assert outcome.best.status == "proved"
    assert goals.by_hand == 0
    return Cost(goals.cables, goals.silenced, goals.settings_moved)


@pytest.mark.parametrize("first", range(0, 4 * BATCH, BATCH))
@pytest.mark.parametrize("stored", [{}, {"channel": "box"}, {"channel": "box", "pan": "box", "outlet": "box"}], ids=str)
def test_the_planner_agrees_with_trying_everything(first: int, stored: dict[str, Any]) -> None:
    told = {True: 0, False: 0}
    for seed in range(first, first + BATCH):
        jams = set_of_two(Dice(Random(seed)), stored)
        tried, planned = best_of_set(jams), _cost(_recalled(jams))
        assert planned == tried, f"seed {seed}"
        told[tried is not None] += 1
    assert told[True]
