"""Finds the plan of a jam: posts every rule, meets the goals in their order, and lists what comes next."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned, Report, Undecided
from solver.plans import Plan
from solver.rules import RULES
from solver.search import goals
from solver.search.answer import plan_from
from solver.search.choices import Choices
from solver.search.model import Lit
from solver.search.pieces import ContradictionError, settle, split
from solver.search.solve import TIDY, Answer, Clock, Goal, Runs, Verdict

GOALS = {"cables": goals.cables, "silenced": goals.silenced, "settings_moved": goals.moved}
"""What a plan costs, in the order in which it counts; tidiness comes last."""

SMALL = 250
"""A piece with no more choices than this meets all goals in one run."""

Wishes = Sequence[tuple[str, Goal]]


def search(jam: Jam, alternatives: int = 0, time_limit: float | None = None, report: Report | None = None) -> Outcome:
    """Find the best plan and the next best that really differ.

    Args:
        jam: What is wanted.
        alternatives: How many further plans to look for.
        time_limit: Seconds for everything; None for as long as it takes.
        report: Called about once a second with how far the search is.
    """
    clock = Clock(time_limit)
    choices = Choices(jam)
    for rule in RULES:
        rule.constrain(choices)
    goals.leave_alone(choices)
    wish = (
        *((name, [(lit, 1) for lit in goal(choices)]) for name, goal in GOALS.items()),
        (TIDY, goals.tidy(choices)),
    )
    differences = goals.differences(choices) if alternatives else []
    plans: list[Plan] = []
    for _ in range(alternatives + 1):
        found = _best(choices, wish, clock, report)
        if found.verdict == "impossible" and not plans:
            return Impossible(clock.spent)
        if not found.values:
            break
        plans.append(plan_from(choices, found.holds, found.proof))
        choices.model.clause(*(-lit if found.holds(lit) else lit for lit in differences))
    return Planned(tuple(plans), clock.spent, clock.over) if plans else Undecided(clock.spent)


@dataclass(frozen=True)
class _Found:
    """A value for every choice, and which goals are proved."""

    verdict: Verdict
    values: Mapping[int, bool]
    proof: Mapping[str, bool]
    meaning: Mapping[Lit, tuple[Lit, ...]]

    def holds(self, lit: Lit) -> bool:
        """Whether a literal holds, also one that was made since from others."""
        if lit < 0:
            return not self.holds(-lit)
        if lit not in self.values and lit in self.meaning:
            return all(map(self.holds, self.meaning[lit]))
        return self.values.get(lit, False)


def _best(choices: Choices, wishes: Wishes, clock: Clock, report: Report | None) -> _Found:
    """The best answer piece by piece: goals that add up over pieces are met when each piece meets them."""
    model = choices.model
    values: dict[int, bool] = {}
    unproved: set[str] = set()
    try:
        settle(model)
        found = split(model, (lit for _, goal in wishes for lit, _ in goal))
    except ContradictionError:
        return _Found("impossible", {}, {}, model.meaning)
    for piece in found:
        inside = set(piece.choices)
        own = [(name, [term for term in goal if abs(term[0]) in inside]) for name, goal in wishes]
        answer, left = _meet(own, len(inside), Runs(piece, clock, report))
        if not answer.values:
            return _Found(answer.verdict, {}, {}, model.meaning)
        values.update(answer.values)
        unproved |= left
    values.update({abs(lit): lit > 0 for lit in model.settled})
    proof = {"cables": "cables" not in unproved, "settings_moved": not unproved}
    return _Found("optimal", values, proof, model.meaning)


def _meet(wishes: Wishes, size: int, runs: Runs) -> tuple[Answer, set[str]]:
    """The best answer of one piece, and the goals that are not proved to be at their least."""
    if size <= SMALL:
        whole = runs.least("all", _weighed(wishes))
        return whole, set() if whole.verdict == "optimal" else set(GOALS)
    answer: Answer | None = None
    for name, goal in wishes:
        if answer is None or answer.value(goal) > 0:
            better = runs.least(name, goal, answer)
            if better.values or answer is None:
                answer = better
            if better.verdict != "optimal":
                return answer, set(list(GOALS)[list(GOALS).index(name) :]) if name in GOALS else set()
        runs.settle(goal, answer.value(goal))
    assert answer is not None
    return answer, set()


def _weighed(wishes: Wishes) -> list[tuple[Lit, int]]:
    """All goals as one: each weighs more than all that come after it together."""
    terms: list[tuple[Lit, int]] = []
    weight = 1
    for _, goal in reversed(wishes):
        terms += [(lit, cost * weight) for lit, cost in goal]
        weight *= 1 + sum(cost for _, cost in goal)
    return terms
