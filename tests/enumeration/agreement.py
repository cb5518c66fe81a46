"""Puts the planner and the exhaustive one side by side, and says where they differ."""

from pprint import pformat
from typing import NamedTuple

import solver
from solver.flow.settings import goals, settings
from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned
from solver.plans import Plan
from tests.enumeration.exhaustive import Best, Cost, best


class Compared(NamedTuple):
    """What trying everything found, and in what the planner and the checker differ from it."""

    tried: Best | None
    differences: tuple[str, ...]


def compare(jam: Jam) -> Compared:
    """Plan a jam twice, once by trying everything, and check both answers."""
    tried = best(jam)
    found: list[str] = []
    if tried is not None:
        found += [f"the checker refuses what was tried: {b.rule}: {b.where}" for b in solver.check(jam, tried.plan)]
        counted = goals(tried.plan.model_copy(update={"settings": settings(jam, tried.plan)}))
        if Cost(counted.cables, counted.silenced, counted.settings_moved) != tried.cost:
            found.append(f"what was tried costs {tried.cost}, its settings are counted as {counted}")
    try:
        outcome = solver.plan(jam)
    except Exception as error:
        return Compared(tried, (*found, f"the planner stumbles: {type(error).__name__}: {error}"))
    return Compared(tried, (*found, *_outcome_differs(jam, tried, outcome)))


def _outcome_differs(jam: Jam, tried: Best | None, outcome: Outcome) -> list[str]:
    if isinstance(outcome, Impossible):
        return [] if tried is None else [f"the planner says impossible, a plan costs {tried.cost}"]
    if not isinstance(outcome, Planned):
        return ["the planner does not decide"]
    plan = outcome.best
    found = [f"the planner's plan breaks {breach.rule}: {breach.where}" for breach in solver.check(jam, plan)]
    if plan.status != "proved":
        found.append("the planner proves nothing")
    assert plan.goals is not None
    cost = Cost(plan.goals.cables, plan.goals.silenced, plan.goals.settings_moved)
    if tried is None:
        found.append(f"the planner finds a plan that costs {cost}, trying everything finds none")
    elif cost != tried.cost:
        found.append(f"the planner's plan costs {cost}, trying everything finds {tried.cost}")
    return found


def report(jam: Jam, compared: Compared) -> str:
    """The differences, the jam, and both answers."""
    try:
        outcome: object = solver.plan(jam)
    except Exception as error:
        outcome = error
    theirs = _short(outcome.best) if isinstance(outcome, Planned) else outcome
    ours = _short(compared.tried.plan) if compared.tried is not None else "no plan"
    data = jam.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    named = (
        ("differences", "\n".join(compared.differences)),
        ("jam", pformat(data, width=160, sort_dicts=False, compact=True)),
        ("tried", ours),
        ("planned", theirs),
    )
    return "\n".join(f"--- {name}\n{text}" for name, text in named)


def _short(plan: Plan) -> str:
    data = plan.model_dump(mode="json", by_alias=True, exclude_defaults=True, exclude={"title", "cautions"})
    return pformat(data, width=160, sort_dicts=False, compact=True)
