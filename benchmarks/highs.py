"""The plain model as a mixed-integer program, solved by HiGHS: every clause and count is one linear row."""

import time
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from importlib import import_module
from typing import Any

from solver.jam.jam import Jam
from tests.twin.clauses import Clauses, Lit
from tests.twin.plain import Twin, asked

INFINITY = float("inf")


@dataclass
class Rows:
    """Rows over columns; a column is a choice of 0 or 1, those after ``choices`` are heights."""

    choices: int
    columns: int
    rows: list[tuple[Mapping[int, float], float, float]] = field(default_factory=list)

    def count(self, lits: Iterable[Lit], least: float, most: float) -> None:
        """At least and at most so many literals hold: -n holds with 1 - n."""
        weights, held = weighed(lits)
        self.rows.append((weights, least - held, most - held))


def weighed(lits: Iterable[Lit]) -> tuple[dict[int, float], int]:
    """The weight of each column in how many literals hold, and how many hold where all columns are 0."""
    weights: dict[int, float] = defaultdict(float)
    held = 0
    for lit in lits:
        weights[abs(lit) - 1] += 1 if lit > 0 else -1
        held += lit < 0
    return {column: weight for column, weight in weights.items() if weight}, held


def rows(clauses: Clauses) -> Rows:
    """The rows of a model."""
    points = dict.fromkeys(point for lower, upper, _ in clauses.rises for point in (lower, upper))
    height = {point: clauses.count + place for place, point in enumerate(points)}
    found = Rows(clauses.count, clauses.count + len(height))
    for lits in clauses.clauses:
        found.count(lits, 1, INFINITY)
    for lits, least, most in clauses.sums:
        found.count(lits, least, most)
    above = len(points) + 1
    for lower, upper, given in clauses.rises:
        weights, held = weighed([given])
        row = {column: -above * weight for column, weight in weights.items()}
        found.rows.append((row | {height[upper]: 1.0, height[lower]: -1.0}, 1 - above + above * held, INFINITY))
    return found


def answer(jam: Jam, limit: float) -> Twin:
    """What HiGHS finds for a jam in so many seconds, goal by goal; see ``tests.twin.plain.answer``.

    Raises:
        ImportError: highspy is not installed.
    """
    highspy: Any = import_module("highspy")  # wanted by this benchmark only
    start = time.monotonic()
    clauses, goals = asked(jam)
    model = rows(clauses)
    found: tuple[int, ...] = ()
    for goal in goals:
        weights, held = weighed(goal)
        solver = _solver(highspy, model, weights, max(0.01, limit - (time.monotonic() - start)))
        solver.run()
        status = solver.getModelStatus()
        if status == highspy.HighsModelStatus.kInfeasible:
            return Twin("impossible", ())
        if status != highspy.HighsModelStatus.kOptimal:
            return Twin("undecided", found)
        found = (*found, round(solver.getInfo().objective_function_value) + held)
        model.count(goal, found[-1], found[-1])
    return Twin("planned", found)


def _solver(highspy: Any, model: Rows, costs: Mapping[int, float], limit: float) -> Any:
    program = highspy.HighsLp()
    program.num_col_, program.num_row_ = model.columns, len(model.rows)
    program.col_cost_ = [costs.get(column, 0.0) for column in range(model.columns)]
    heights = model.columns - model.choices
    program.col_lower_ = [0.0] * model.columns
    program.col_upper_ = [1.0] * model.choices + [float(heights)] * heights
    whole, any_number = highspy.HighsVarType.kInteger, highspy.HighsVarType.kContinuous
    program.integrality_ = [whole] * model.choices + [any_number] * heights
    program.row_lower_ = [least for _, least, _ in model.rows]
    program.row_upper_ = [most for _, _, most in model.rows]
    starts = [0]
    for weights, _, _ in model.rows:
        starts.append(starts[-1] + len(weights))
    program.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    program.a_matrix_.start_ = starts
    program.a_matrix_.index_ = [column for weights, _, _ in model.rows for column in weights]
    program.a_matrix_.value_ = [weight for weights, _, _ in model.rows for weight in weights.values()]
    solver = highspy.Highs()
    for option, value in (("output_flag", False), ("threads", 1), ("time_limit", limit), ("mip_rel_gap", 0.0)):
        solver.setOptionValue(option, value)
    solver.passModel(program)
    return solver
