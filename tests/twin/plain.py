"""Plans a jam the plain way: whether a plan exists, and the least that it can cost."""

import time
from typing import Literal, NamedTuple

from ortools.sat.python import cp_model

from solver.jam.jam import Jam
from tests.twin import audio, effects, midi, wishes
from tests.twin.clauses import Clauses, Lit
from tests.twin.costs import COSTS, leave_alone
from tests.twin.table import Table

RULES = (
    midi.pass_on,
    audio.carry,
    audio.hear,
    audio.share_strips,
    effects.treat,
    effects.key,
    midi.play,
    midi.sound,
    midi.clock,
    midi.change_programs,
    midi.match,
    wishes.avoid,
    wishes.keep,
    wishes.draw,
    leave_alone,
)


class Cost(NamedTuple):
    """What a plan costs, in the order in which it counts."""

    cables: int
    silenced: int
    moved: int


class Twin(NamedTuple):
    """What the twin found; without a proof it is not decided, and ``cost`` holds what was proved until then."""

    status: Literal["planned", "impossible", "undecided"]
    cost: tuple[int, ...]


class Asked(NamedTuple):
    """All that a jam asks for, and what each goal counts."""

    clauses: Clauses
    goals: tuple[list[Lit], ...]


def asked(jam: Jam) -> Asked:
    """Write down all that a jam asks for."""
    table = Table(jam)
    for rule in RULES:
        rule(table)
    return Asked(table.clauses, tuple(cost(table) for cost in COSTS))


def answer(jam: Jam, limit: float | None = None) -> Twin:
    """Whether a jam has a plan, and the least of each goal under the least of those before it.

    Args:
        jam: What is wanted.
        limit: Seconds for everything; None for as long as it takes.
    """
    start = time.monotonic()
    clauses, goals = asked(jam)
    model, literals = _model(clauses)
    found: tuple[int, ...] = ()
    for goal in goals:
        total = cp_model.LinearExpr.sum([literals[lit] for lit in goal])
        model.minimize(total)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        if limit is not None:
            solver.parameters.max_time_in_seconds = max(0.01, limit - (time.monotonic() - start))
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE:
            return Twin("impossible", ())
        if status != cp_model.OPTIMAL:
            return Twin("undecided", found)
        found = (*found, round(solver.objective_value))
        model.add(total == found[-1])
    return Twin("planned", found)


def _model(clauses: Clauses) -> tuple[cp_model.CpModel, dict[Lit, cp_model.LiteralT]]:
    """The model, and its word for each literal."""
    model = cp_model.CpModel()
    literals: dict[Lit, cp_model.LiteralT] = {}
    for lit in range(1, clauses.count + 1):
        literals[lit] = variable = model.new_bool_var("")
        literals[-lit] = ~variable
    for lits in clauses.clauses:
        model.add_bool_or([literals[lit] for lit in lits])
    for lits, least, most in clauses.sums:
        model.add_linear_constraint(cp_model.LinearExpr.sum([literals[lit] for lit in lits]), least, most)
    points = dict.fromkeys(point for lower, upper, _ in clauses.rises for point in (lower, upper))
    heights = {point: model.new_int_var(0, len(points), "") for point in points}
    for lower, upper, given in clauses.rises:
        model.add(heights[upper] >= heights[lower] + 1).only_enforce_if(literals[given])
    return model, literals
