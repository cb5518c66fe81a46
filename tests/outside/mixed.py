"""Yes-or-no choices and whole numbers for a mixed-integer solver (HiGHS, through SciPy): rows of numbers, no clauses.

A literal is a whole number: ``n`` says that choice ``n`` holds, ``-n`` that it does not.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from math import inf
from typing import NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

SOLVED, INFEASIBLE = 0, 2
"""The two ways for SciPy to end that prove something."""


class Row(NamedTuple):
    """Between which two numbers the weighted sum of some columns is."""

    weights: dict[int, int]
    least: float
    most: float


class Program:
    """Columns, and rows over them."""

    def __init__(self) -> None:
        self._tops: list[int] = []
        self._rows: list[Row] = []

    def new(self, most: int = 1) -> int:
        """A fresh choice, or a whole number from 0."""
        self._tops.append(most)
        return len(self._tops)

    def between(self, least: float, most: float, lits: Iterable[int]) -> None:
        """At least and at most so many of these hold."""
        self._rows.append(_row(lits, least, most))

    def some(self, *lits: int) -> None:
        """At least one of these holds."""
        self.between(1, inf, lits)

    def above(self, lower: int, upper: int, given: int) -> None:
        """Where ``given`` holds, one number is larger than another; where not, a large weight makes the row hold."""
        large = self._tops[lower - 1] + 1
        weights = {upper - 1: 1, lower - 1: -1, given - 1: -large} if given > 0 else {}
        assert weights, "a condition that holds where a choice does not"
        self._rows.append(Row(weights, 1 - large, inf))

    def least(self, goals: Sequence[Iterable[int]]) -> tuple[int, ...] | None:
        """The least that holds of each list of literals, under the least of those before; None without a solution."""
        found: list[int] = []
        rows = list(self._rows)
        for goal in goals:
            weights, negated, _ = _row(goal, 0, 0)
            total = self._solved(weights, rows)
            if total is None:
                return None
            found.append(total - round(negated))
            rows.append(Row(weights, total, total))
        return tuple(found)

    def _solved(self, weights: dict[int, int], rows: Sequence[Row]) -> int | None:
        costs = np.zeros(len(self._tops))
        costs[list(weights)] = list(weights.values())
        values = [float(weight) for row in rows for weight in row.weights.values()]
        columns = [column for row in rows for column in row.weights]
        starts = np.cumsum([0, *(len(row.weights) for row in rows)])
        matrix = csr_array((values, columns, starts), shape=(len(rows), len(costs)))
        asked = LinearConstraint(matrix, [row.least for row in rows], [row.most for row in rows])
        found = milp(costs, integrality=np.ones(len(costs)), bounds=Bounds(0, self._tops), constraints=asked)
        assert found.status in (SOLVED, INFEASIBLE), found.message
        return round(found.fun) if found.status == SOLVED else None


def _row(lits: Iterable[int], least: float, most: float) -> Row:
    """A choice that must not hold counts as 1 less itself."""
    weights: Counter[int] = Counter()
    for lit in lits:
        weights[abs(lit) - 1] += 1 if lit > 0 else -1
        if lit < 0:
            least, most = least - 1, most - 1
    return Row(dict(weights), least, most)
