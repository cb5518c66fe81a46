"""The lightest places that touch every conflict are those that trying every set of places finds."""

from collections.abc import Collection, Sequence
from itertools import combinations
from random import Random

import pytest

from solver.reasons.trial import OutOfTimeError
from solver.search.clock import Clock
from solver.whatif.lightest import Places, lightest_touching


def _every_touching(conflicts: Collection[Places], weights: Sequence[int]) -> Places | None:
    count = len(weights)
    some = (frozenset(some) for size in range(count + 1) for some in combinations(range(count), size))
    touching = [one for one in some if not any(one.isdisjoint(conflict) for conflict in conflicts)]
    return min(touching, key=lambda one: (sum(weights[p] for p in one), [p in one for p in range(count)]), default=None)


@pytest.mark.parametrize("seed", range(60))
def test_the_lightest_places_that_touch_every_conflict(seed: int) -> None:
    dice = Random(seed)
    weights = [dice.randint(1, 3) for _ in range(7)]
    conflicts = [frozenset(dice.sample(range(7), dice.randint(1, 4))) for _ in range(dice.randint(0, 9))]
    if seed % 20 == 0:
        conflicts.append(frozenset())
    assert lightest_touching(conflicts, weights, Clock(None)) == _every_touching(conflicts, weights)


def test_of_many_pairs_the_later_ones_are_taken() -> None:
    """Forty pairs, any half of which would do: no search through all of them."""
    pairs = [frozenset({place, place + 1}) for place in range(0, 80, 2)]
    assert lightest_touching(pairs, [1] * 80, Clock(None)) == frozenset(range(1, 80, 2))


def test_without_time_no_places_are_taken() -> None:
    with pytest.raises(OutOfTimeError):
        lightest_touching([frozenset({0})], [1], Clock(0))
