"""Finds the plan of a jam: posts every rule, meets the goals in their order, and lists what comes next."""

from collections.abc import Sequence

from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned, Report, Undecided
from solver.plans import Plan
from solver.rules import RULES
from solver.search import goals
from solver.search.answer import plan_from
from solver.search.choices import Choices
from solver.search.model import Lit
from solver.search.solve import Answer, Clock, Runs


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
    differences = goals.differences(choices)
    plans: list[Plan] = []
    for _ in range(alternatives + 1):
        answer, proof = _best(choices, clock, report)
        if answer.verdict == "impossible" and not plans:
            return Impossible(clock.spent)
        if not answer.values:
            break
        plans.append(plan_from(choices, answer, proof))
        choices.model.clause(*(-lit if answer.holds(lit) else lit for lit in differences))
    stopped = clock.stopped or clock.left == 0
    return Planned(tuple(plans), clock.spent, stopped) if plans else Undecided(clock.spent)


def _best(choices: Choices, clock: Clock, report: Report | None) -> tuple[Answer, dict[str, bool]]:
    """The best answer found, and which goals are proved."""
    steps: Sequence[tuple[str, list[Lit], str]] = (
        ("cables", goals.cables(choices), "cables"),
        ("silenced", goals.silenced(choices), "settings_moved"),
        ("settings_moved", goals.moved(choices), "settings_moved"),
    )
    proof = {"cables": True, "settings_moved": True}
    order = tuple(goals.tidy(choices))
    runs = Runs(choices.model, clock, report)
    answer: Answer | None = None
    for goal, lits, proves in steps:
        if answer is not None and answer.count(lits) == 0:
            runs.settle(lits, 0)
            continue
        better = runs.fewest(goal, lits, answer)
        if better.values:
            answer = better
        if answer is None:
            return better, proof
        if better.verdict != "optimal":
            proof |= dict.fromkeys(("cables", "settings_moved") if proves == "cables" else ("settings_moved",), False)
            return answer, proof
        runs.settle(lits, answer.count(lits))
    assert answer is not None
    tidied = runs.first(order)
    return (tidied if tidied.values else answer), proof
