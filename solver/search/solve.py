"""Runs CP-SAT: one worker, one seed, stoppable at any time, and the same answer on every run."""

import threading
import time
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from ortools.sat.python import cp_model

from solver.outcome import Progress, Report
from solver.search.model import YES, Lit
from solver.search.pieces import Piece

Verdict = Literal["optimal", "feasible", "impossible", "unknown"]
Goal = Sequence[tuple[Lit, int]]
SEED = 1
TIDY = "tidy"

Way = Literal["groups", "slopes", "plain"]
"""How a run raises its bound: by small groups of choices that cannot all be spared, by linear relaxation, or neither."""

_TURNS: dict[str, tuple[tuple[Way, float | None], ...]] = {
    "cables": (("groups", 0.3), ("slopes", 0.3), ("plain", 0.3), ("groups", 1.5), ("slopes", 1.5), ("groups", None)),
    TIDY: (("slopes", 0.3), ("plain", 0.2)),
}
_OTHER_TURNS: tuple[tuple[Way, float | None], ...] = (
    ("slopes", 0.3),
    ("plain", 0.3),
    ("slopes", 1.5),
    ("groups", 1.0),
    ("plain", 1.5),
    ("slopes", None),
)
"""Whose turn it is, and for how much deterministic time; only the last, cosmetic goal may end unproved."""


@dataclass(frozen=True)
class Answer:
    """What one run found: the verdict, and the value of each choice of the piece (none without a plan)."""

    verdict: Verdict
    values: Mapping[int, bool]

    def value(self, goal: Goal) -> int:
        """What the goal costs in what was found."""
        return sum(weight for lit, weight in goal if self.values[abs(lit)] == (lit > 0))


class Clock:
    """Seconds since the start, and how many are left of those given."""

    def __init__(self, limit: float | None) -> None:
        self._start = time.monotonic()
        self._limit = limit
        self.stopped = False

    @property
    def spent(self) -> float:
        """Seconds since the start."""
        return time.monotonic() - self._start

    @property
    def over(self) -> bool:
        """Whether the time is up, or the user has stopped the search."""
        return self.stopped or self.left == 0

    @property
    def left(self) -> float | None:
        """Seconds left, never below 0; None without a limit."""
        return None if self._limit is None else max(0.0, self._limit - self.spent)


class Runs:
    """Consecutive runs on one piece, each under what the earlier ones settled."""

    def __init__(self, piece: Piece, clock: Clock, report: Report | None) -> None:
        self._clock = clock
        self._report = report
        self._model = cp_model.CpModel()
        self._variables = {choice: self._model.new_bool_var("") for choice in piece.choices}
        for lits in piece.clauses:
            self._model.add_bool_or(self._terms(lits))
        for lits in piece.at_most_ones:
            self._model.add_at_most_one(self._terms(lits))
        for lits, least, most in piece.sums:
            self._model.add_linear_constraint(cp_model.LinearExpr.sum(self._terms(lits)), least, most)
        places = dict.fromkeys(name for lower, upper, _ in piece.rises for name in (lower, upper))
        heights = {name: self._model.new_int_var(0, len(places), "") for name in places}
        for lower, upper, given in piece.rises:
            rise = self._model.add(heights[upper] >= heights[lower] + 1)
            if given != YES:
                rise.only_enforce_if(*self._terms([given]))

    def _terms(self, lits: Iterable[Lit]) -> list[cp_model.LiteralT]:
        return [self._variables[lit] if lit > 0 else ~self._variables[-lit] for lit in lits]

    def settle(self, goal: Goal, value: int) -> None:
        """From here on, the goal has just this value."""
        self._model.add_linear_constraint(self._sum(goal), value, value)

    def _sum(self, goal: Goal) -> cp_model.LinearExprT:
        terms = self._terms(lit for lit, _ in goal)
        return cp_model.LinearExpr.weighted_sum(terms, [weight for _, weight in goal])

    def least(self, name: str, goal: Goal, start: Answer | None = None) -> Answer:
        """Find an answer for which the goal has its least value, beginning from an earlier answer.

        Several ways of searching take turns with growing effort, each going on from what is known by then.

        Args:
            name: What the goal is called in reports.
            goal: Literals, each with what it costs where it holds.
            start: An answer to begin from.
        """
        self._model.minimize(self._sum(goal))
        answer = start
        for way, effort in _TURNS.get(name, _OTHER_TURNS):
            self._model.clear_hints()  # type: ignore[no-untyped-call]
            for choice, value in (answer.values if answer is not None else {}).items():
                self._model.add_hint(self._variables[choice], value)
            solver = cp_model.CpSolver()
            solver.parameters.optimize_with_core = way == "groups"
            solver.parameters.linearization_level = 2 if way == "slopes" else 1
            if effort is not None:
                solver.parameters.max_deterministic_time = effort
            better = self._run(name, solver)
            if better.values or answer is None:
                answer = better
            if better.verdict in ("optimal", "impossible") or self._clock.over:
                return better if better.values else Answer(better.verdict, answer.values)
        assert answer is not None
        return answer

    def _run(self, goal: str, solver: cp_model.CpSolver) -> Answer:
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = SEED
        solver.parameters.catch_sigint_signal = False
        if self._clock.over:
            return Answer("unknown", {})
        if self._clock.left is not None:
            solver.parameters.max_time_in_seconds = self._clock.left
        watcher = _Watcher()
        status: list[cp_model.CpSolverStatus] = []
        thread = threading.Thread(target=lambda: status.append(solver.solve(self._model, watcher)), daemon=True)
        thread.start()
        while thread.is_alive():
            try:
                thread.join(1.0)
                if thread.is_alive() and self._report is not None:
                    self._report(Progress(goal, watcher.best, watcher.bound, self._clock.spent))
            except KeyboardInterrupt:
                self._clock.stopped = True
                solver.stop_search()
        verdict = _VERDICTS[status[0]]
        found = verdict in ("optimal", "feasible")
        return Answer(
            verdict, {choice: bool(solver.value(v)) for choice, v in self._variables.items()} if found else {}
        )


_VERDICTS: dict[cp_model.CpSolverStatus, Verdict] = {
    cp_model.OPTIMAL: "optimal",
    cp_model.FEASIBLE: "feasible",
    cp_model.INFEASIBLE: "impossible",
    cp_model.UNKNOWN: "unknown",
}


class _Watcher(cp_model.CpSolverSolutionCallback):
    """Notes the best value and the bound as they come."""

    def __init__(self) -> None:
        super().__init__()
        self.best: int | None = None
        self.bound: int | None = None

    def on_solution_callback(self) -> None:
        """Called with every better answer."""
        self.best = round(self.objective_value)
        self.bound = round(self.best_objective_bound)
