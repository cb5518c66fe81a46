"""Minimal conflicts and minimal repairs of an impossible jam, by hitting sets.

What every repair leaves out hits every conflict, and the other way round (R. Reiter, "A theory of diagnosis from first
principles", Artificial Intelligence 32, 1987, theorem 4.4). So smallest hitting sets of the conflicts that are known
are asked for in turn: one that leaves a plan is a repair; one that does not leads to one more conflict.
"""

from collections.abc import Collection
from functools import cached_property

from pysat.examples.hitman import Hitman

from solver.jam.claims import Claim, claims, in_force
from solver.jam.jam import Jam
from tests.explain.slow import Slow
from tests.outside.formulas import has_plan

Claims = frozenset[Claim]


class Diagnosed:
    """A jam, and what is the matter with it."""

    def __init__(self, jam: Jam) -> None:
        self._readings = Slow(jam).readings
        self._claims = claims(jam)
        self._known: dict[Claims, bool] = {}

    def fails(self, kept: Collection[Claim]) -> bool:
        """Whether these claims alone leave no plan, however what is left out is read."""
        stated = in_force(kept)
        if stated not in self._known:
            self._known[stated] = not any(map(has_plan, self._readings(stated)))
        return self._known[stated]

    @property
    def conflicts(self) -> set[Claims]:
        """Every set of claims that fails, and no longer once any one of them is left out."""
        return self._both[0]

    @property
    def repairs(self) -> set[Claims]:
        """Every set of claims without which there is a plan, and none without fewer of them."""
        return self._both[1]

    @cached_property
    def _both(self) -> tuple[set[Claims], set[Claims]]:
        found: set[Claims] = set()
        repairs: set[Claims] = set()
        with Hitman(htype="rc2") as hitting:
            while (hit := hitting.get()) is not None:
                kept = [claim for claim in self._claims if claim not in hit]
                if self.fails(kept):
                    conflict = self._shrunk(kept)
                    found.add(conflict)
                    hitting.hit(list(conflict))
                else:
                    repairs.add(frozenset(hit))
                    hitting.block(hit)
        return found, repairs

    def _shrunk(self, kept: list[Claim]) -> Claims:
        """A minimal conflict among claims that fail: each is left out for good where the others still fail."""
        needed = list(kept)
        for claim in kept:
            fewer = [other for other in needed if other != claim]
            if self.fails(fewer):
                needed = fewer
        return frozenset(needed)
