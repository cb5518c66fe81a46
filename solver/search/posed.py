"""Poses one piece to CP-SAT: one worker, one seed, stoppable at any time, the same answer on every run.

What was decided once is not asked again: most trials of an explanation, and most changes of a what-if, leave most
pieces of a jam as they were. The same question has the same answer, so nothing but time depends on what is remembered.
"""

import threading
from array import array
from collections.abc import Callable, Iterable, Mapping, Sequence
from hashlib import blake2b
from itertools import islice
from typing import NamedTuple

from ortools.sat.python import cp_model

from solver.search.clock import Clock
from solver.search.model import YES, Lit
from solver.search.pieces import Piece

Goal = Sequence[tuple[Lit, int]]
"""Literals, each with what it costs where it holds."""

Tell = Callable[[int | None, int], None]
"""Is told the best cost so far, if there is an answer, and the bound."""

SEED = 1
MOST_REMEMBERED = 4096
"""How many answers are remembered at most; the oldest are forgotten first."""


class Answer(NamedTuple):
    """What a run has found: values of the choices in their order, none where there is no answer; their cost; the bound.

    ``best`` where it is proved that no answer costs less, ``impossible`` where it is proved that there is none.
    """

    values: bytes
    cost: int
    bound: int
    best: bool
    impossible: bool


_remembered: dict[bytes, Answer] = {}


class Posed:
    """A piece and what is asked of it, which the solver sees only where the answer is not remembered.

    Choices are numbered from 1 in their order: pieces that differ only in how their choices are called are one
    question. What is asked is told to a digest, change by change; equal digests stand for equal questions.
    """

    def __init__(self, piece: Piece, clock: Clock) -> None:
        self._clock = clock
        self._number = {YES: 0}
        for number, choice in enumerate(piece.choices, start=1):
            self._number[choice], self._number[-choice] = number, -number
        self._clauses = [*map(self._numbers, piece.clauses)]
        self._at_most_ones = [*map(self._numbers, piece.at_most_ones)]
        self._sums = [(self._numbers(lits), least, most) for lits, least, most in piece.sums]
        places = dict.fromkeys(name for lower, upper, _ in piece.rises for name in (lower, upper))
        height = {name: number for number, name in enumerate(places)}
        self._rises = [(height[lower], height[upper], self._number[given]) for lower, upper, given in piece.rises]
        self._count, self._places = len(piece.choices), len(places)
        self._asked = blake2b(self._told(), digest_size=24)
        self._waiting: list[Callable[[], object]] = [self._make]
        self._model = _Model()
        self._choices: list[cp_model.IntVar] = []
        self._terms: list[cp_model.LiteralT] = []

    def _numbers(self, lits: Iterable[Lit]) -> list[int]:
        return [self._number[lit] for lit in lits]

    def _told(self) -> bytes:
        """All that the piece says, as whole numbers."""
        told = array("q", (self._count, len(self._clauses), len(self._at_most_ones), len(self._sums), self._places))
        for numbers in (*self._clauses, *self._at_most_ones):
            told.append(len(numbers))
            told.extend(numbers)
        for numbers, least, most in self._sums:
            told.extend((len(numbers), least, most, *numbers))
        for rise in self._rises:
            told.extend(rise)
        return told.tobytes()

    def _make(self) -> None:
        model = self._model
        self._choices = [model.new_bool_var("") for _ in range(self._count)]
        self._terms = [True, *self._choices, *(~choice for choice in reversed(self._choices))]  # -n: n-th from the end
        for lits in self._clauses:
            model.add_bool_or(self._called(lits))
        for lits in self._at_most_ones:
            model.add_at_most_one(self._called(lits))
        for lits, least, most in self._sums:
            model.add_linear_constraint(cp_model.LinearExpr.sum(self._called(lits)), least, most)
        heights = [model.new_int_var(0, self._places, "") for _ in range(self._places)]
        for lower, upper, given in self._rises:
            rise = model.add(heights[upper] >= heights[lower] + 1)
            if given:
                rise.only_enforce_if(self._terms[given])

    def _called(self, numbers: Iterable[int]) -> list[cp_model.LiteralT]:
        return [self._terms[number] for number in numbers]

    def _sum(self, goal: Goal) -> cp_model.LinearExprT:
        return cp_model.LinearExpr.weighted_sum(self._called(lit for lit, _ in goal), [cost for _, cost in goal])

    def _change(self, told: object, change: Callable[[], object]) -> None:
        self._asked.update(repr(told).encode())
        self._waiting.append(change)

    def minimize(self, goal: Goal, hints: Mapping[int, bool]) -> None:
        """From here on, the least of a goal is asked for, near an answer that is known."""
        numbered = self._numbered(goal)
        near = [(self._number[choice], value) for choice, value in hints.items()]

        def change() -> None:
            self._model.minimize(self._sum(numbered))
            self._model.clear_hints()  # type: ignore[no-untyped-call]
            for number, value in near:
                self._model.add_hint(self._choices[number - 1], value)

        self._change(("minimize", numbered, near), change)

    def _numbered(self, goal: Goal) -> list[tuple[int, int]]:
        return [(self._number[lit], cost) for lit, cost in goal]

    def keep(self, goal: Goal, least: int, most: int) -> None:
        """From here on, a goal costs so much."""
        numbered = self._numbered(goal)
        self._change(
            ("keep", numbered, least, most),
            lambda: self._model.add_linear_constraint(self._sum(numbered), least, most),
        )

    def require(self, lits: Iterable[Lit]) -> None:
        """From here on, all of these hold."""
        numbers = self._numbers(lits)
        self._change(("require", numbers), lambda: self._model.add_bool_and(self._called(numbers)))

    def wish(self, lits: Iterable[Lit]) -> None:
        """From here on, any answer is asked for, with these tried in turn."""
        numbers = self._numbers(lits)

        def change() -> None:
            self._model.clear_objective()  # type: ignore[no-untyped-call]
            for number in numbers:
                first = cp_model.SELECT_MAX_VALUE if number > 0 else cp_model.SELECT_MIN_VALUE
                self._model.add_decision_strategy([self._choices[abs(number) - 1]], cp_model.CHOOSE_FIRST, first)

        self._change(("wish", numbers), change)

    def run(self, best: int | None, tell: Tell, effort: float | None = None, **how: object) -> Answer:
        """Look for an answer.

        Args:
            best: What the best answer costs, as far as one is known.
            tell: Called about once a second with the best cost and the bound.
            effort: Deterministic time to spend; None for as long as it takes.
            how: Parameters of the solver.
        """
        asked = self._asked.copy()
        asked.update(repr((effort, sorted(how.items()))).encode())
        key = asked.digest()
        if key not in _remembered:
            answer = self._solved(best, tell, effort, how)
            timeless = self._clock.left is None and not self._clock.stopped
            if not (answer.best or answer.impossible or timeless):
                return answer
            if len(_remembered) >= MOST_REMEMBERED:
                _remembered.pop(next(iter(_remembered)), None)
            _remembered[key] = answer
        return _remembered[key]

    def _solved(self, best: int | None, tell: Tell, effort: float | None, how: Mapping[str, object]) -> Answer:
        """Solve in a thread of its own, so that this one can tell how far it is and heed the user."""
        for change in self._waiting:
            change()
        self._waiting.clear()
        solver = self._solver(effort, how)
        watcher = _Watcher(best)
        solver.best_bound_callback = watcher.on_bound
        status: list[cp_model.CpSolverStatus] = []
        thread = threading.Thread(target=lambda: status.append(solver.solve(self._model, watcher)), daemon=True)
        thread.start()
        with self._clock.halting(solver.stop_search):
            while thread.is_alive():
                thread.join(1.0)
                if thread.is_alive():
                    tell(watcher.best, watcher.bound)
        if status[0] == cp_model.INFEASIBLE:
            return Answer(b"", 0, 0, best=False, impossible=True)
        cost, bound = round(solver.objective_value), round(solver.best_objective_bound)
        values = bytes(islice(solver.response_proto.solution, self._count))
        return Answer(values, cost, bound, status[0] == cp_model.OPTIMAL, impossible=False)

    def _solver(self, effort: float | None, how: Mapping[str, object]) -> cp_model.CpSolver:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = SEED
        solver.parameters.catch_sigint_signal = False
        for name, value in how.items():
            setattr(solver.parameters, name, value)
        if effort is not None:
            solver.parameters.max_deterministic_time = effort
        if self._clock.left is not None:
            solver.parameters.max_time_in_seconds = self._clock.left
        return solver


class _Model(cp_model.CpModel):
    """A model without the methods' old names: to give it these takes longer than to solve a small piece."""

    def _add_pre_pep8_methods(self) -> None:
        pass


class _Watcher(cp_model.CpSolverSolutionCallback):
    """Notes the best cost and the bound as they come."""

    def __init__(self, best: int | None) -> None:
        super().__init__()
        self.best = best
        self.bound = 0

    def on_solution_callback(self) -> None:
        """Called with every answer that is better than those before in this run."""
        cost = round(self.objective_value)
        self.best = cost if self.best is None else min(self.best, cost)

    def on_bound(self, bound: float) -> None:
        """Called with every higher bound."""
        self.bound = round(bound)
