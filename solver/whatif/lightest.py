"""The lightest intents of which every conflict has one."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from solver.reasons.trial import OutOfTimeError
from solver.search.clock import Clock

Places = frozenset[int]
"""Intents, by their places in the file counted from 0."""


def lightest_touching(conflicts: Collection[Places], weights: Sequence[int], clock: Clock) -> Places | None:
    """The lightest places of which every conflict has one; None where a conflict is empty.

    Of several that weigh the same, the one that spares the first place in which they differ.

    Raises:
        OutOfTimeError: the time is up.
    """
    count = len(weights)
    costs = {place: (weights[place] << count) + (1 << (count - 1 - place)) for place in range(count)}
    best: tuple[int, Places | None] = (sum(costs.values()) + 1, None)
    waiting: list[tuple[int, Places, Places]] = [(0, frozenset(), frozenset())]
    while waiting:
        if clock.over:
            raise OutOfTimeError
        cost, taken, spared = waiting.pop()
        open_ = [conflict - spared for conflict in conflicts if taken.isdisjoint(conflict)]
        if not open_:
            best = min(best, (cost, taken), key=lambda one: one[0])
        elif cost + _at_least(open_, costs) < best[0]:
            narrowest: Places = min(open_, key=len)
            branch = sorted(narrowest, key=costs.__getitem__)
            waiting += [
                (cost + costs[place], taken | {place}, spared.union(branch[:number]))
                for number, place in reversed(list(enumerate(branch)))
            ]
    return best[1]


def _at_least(conflicts: Sequence[Places], costs: dict[int, int]) -> int:
    """The least that touching all conflicts costs: each in turn uses up the cheapest of what its places have left."""
    left, spent = dict(costs), 0
    for conflict in sorted(conflicts, key=len):
        share = min((left[place] for place in conflict), default=sum(costs.values()) + 1)
        spent += share
        for place in conflict:
            left[place] -= share
    return spent
