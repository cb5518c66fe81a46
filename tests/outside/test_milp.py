"""The planner against mixed-integer programs: possible or not, fewest cables, levels at zero, settings moved."""

from collections.abc import Callable
from typing import NamedTuple

import solver
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned
from tests.enumeration import rigs as tiny
from tests.outside import strip_table
from tests.outside.checks import check
from tests.outside.mixed import Program
from tests.outside.strip_program import least
from tests.twin import rigs as small
from tests.twin.clauses import Clauses
from tests.twin.plain import asked

HIGHS = "SciPy, scipy.optimize.milp (HiGHS, branch and cut)"

FROM = 6_000_000
"""Seeds from here on; those before are compared with trying everything, and with another solver."""

Cost = tuple[int, ...] | None


class Seeds(NamedTuple):
    """Jams of these seeds for the planner, and for the program; the two should be the same."""

    invent: Callable[[int], Jam]
    planned: range
    programmed: range


def _planned(jam: Jam) -> Cost:
    outcome = solver.plan(jam, time_limit=None)
    if isinstance(outcome, Impossible):
        return None
    assert isinstance(outcome, Planned)
    goals = outcome.best.goals
    assert goals is not None and outcome.best.status == "proved"
    return goals.cables, goals.silenced, goals.settings_moved


def _program(clauses: Clauses) -> Program:
    """Clauses as rows: choices keep their numbers, what must rise gets a height."""
    made = Program()
    for _ in range(clauses.count):
        made.new()
    for lits in clauses.clauses:
        made.some(*lits)
    for lits, fewest, most in clauses.sums:
        made.between(fewest, most, lits)
    points = dict.fromkeys(point for lower, upper, _ in clauses.rises for point in (lower, upper))
    heights = {point: made.new(len(points)) for point in points}
    for lower, upper, given in clauses.rises:
        made.above(heights[lower], heights[upper], given)
    return made


def _programmed(jam: Jam) -> Cost:
    clauses, goals = asked(jam)
    return _program(clauses).least(goals)


def _batch(invent: Callable[[int], Jam], first: int, count: int) -> Seeds:
    seeds = range(FROM + first, FROM + first + count)
    return Seeds(invent, seeds, seeds)


@check(
    "Possible or not, and the least cables, engines at level zero and settings moved, are the same by a program made"
    " of the clauses of the plain twin",
    source=HIGHS,
    kind="reference library",
    right={
        "tiny jams": _batch(tiny.seeded, 0, 16),
        "more tiny jams": _batch(tiny.seeded, 16, 16),
        "small jams": _batch(small.seeded, 0, 8),
        "more small jams": _batch(small.seeded, 8, 8),
    },
    wrong=Seeds(tiny.seeded, range(FROM, FROM + 4), range(FROM + 1, FROM + 5)),
)
def test_clauses_as_rows(value: Seeds) -> None:
    ours = [_planned(value.invent(seed)) for seed in value.planned]
    assert ours == [_programmed(value.invent(seed)) for seed in value.programmed]
    assert None in ours and any(ours)


class Tables(NamedTuple):
    """Tables of strips for the planner, and for the program."""

    planned: tuple[strip_table.Rig, ...]
    programmed: tuple[strip_table.Rig, ...]


def _tables(first: int, count: int) -> Tables:
    rigs = tuple(map(strip_table.seeded, range(first, first + count)))
    return Tables(rigs, rigs)


@check(
    "Modules with a desk of strips: possible or not, and the least of each goal, are the same by a program written"
    " straight from the rules",
    source=HIGHS,
    kind="reference library",
    right={f"tables from {first}": _tables(first, 12) for first in (0, 12, 24)},
    wrong=Tables(_tables(0, 12).planned, tuple(rig._replace(strips=1) for rig in _tables(0, 12).planned)),
)
def test_strips_straight_from_the_rules(value: Tables) -> None:
    ours = [_planned(strip_table.as_jam(rig)) for rig in value.planned]
    assert ours == [least(rig) for rig in value.programmed]
    assert None in ours and any(ours)
