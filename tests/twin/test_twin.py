"""The planner and its plain twin agree on many small jams: possible or not, and what the best plan costs."""

from collections.abc import Callable
from itertools import product
from pprint import pformat

import pytest

import solver
from benchmarks.rigs import Size, rig
from benchmarks.variants import VARIANTS
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned
from tests.enumeration import rigs as tiny
from tests.twin import rigs as small
from tests.twin.plain import Cost, Twin, answer

BATCH = 15
"""Jams in one test, so that tests run side by side."""

BATCHES = ((small.seeded, 12), (tiny.seeded, 4))
"""How many batches of jams each generator gives."""

FROM = 5_000_000
"""Seeds from here on; others are compared with trying everything."""

TOO_HARD = "channels"
"""The twin does not see at once that 17 tracks need 17 channels."""

SIZES = (Size(1, 3, 2), Size(2, 3, 4), Size(2, 2, 3))


def _planned(jam: Jam) -> Twin:
    """What the planner says, in the twin's words; every plan has been followed."""
    outcome = solver.plan(jam, time_limit=None)
    if not isinstance(outcome, Planned):
        return Twin("impossible" if isinstance(outcome, Impossible) else "undecided", ())
    plan = outcome.best
    assert solver.check(jam, plan) == () and plan.status == "proved" and plan.goals is not None
    return Twin("planned", Cost(plan.goals.cables, plan.goals.silenced, plan.goals.settings_moved))


def _agree(jam: Jam, name: str) -> bool:
    """Whether the jam has a plan; fails where the two differ."""
    ours, theirs = _planned(jam), answer(jam)
    if ours != theirs:
        data = jam.model_dump(mode="json", by_alias=True, exclude_defaults=True)
        shown = pformat(data, width=160, sort_dicts=False, compact=True)
        pytest.fail(f"{name}: planned {ours}, the twin says {theirs}\n{shown}", pytrace=False)
    return ours.status == "planned"


@pytest.mark.parametrize(
    ("invent", "first"), [(invent, number * BATCH) for invent, count in BATCHES for number in range(count)]
)
def test_the_planner_agrees_with_its_twin(invent: Callable[[int], Jam], first: int) -> None:
    seeds = range(FROM + first, FROM + first + BATCH)
    possible = [_agree(invent(seed), f"{invent.__module__} seed {seed}") for seed in seeds]
    assert any(possible)


@pytest.mark.parametrize(("variant", "size"), list(product([name for name in VARIANTS if name != TOO_HARD], SIZES)))
def test_the_planner_agrees_with_its_twin_on_every_variant(variant: str, size: Size) -> None:
    _agree(rig(size, variant).jam(), variant)
