"""Asks the search for a plan, and follows each plan before it is shown."""

from solver.checking import breaches
from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.flow.timing import timing
from solver.jam.jam import Jam
from solver.outcome import InternalError, Outcome, Planned, Report
from solver.plans import Plan
from solver.search.planner import search


def ask(
    jam: Jam, alternatives: int, time_limit: float | None, progress: Report | None, near: Plan | None = None
) -> Outcome:
    """Search, follow, and add timing and cautions; see ``solver.plan``, and ``solver.search.planner`` for ``near``."""
    outcome = search(jam, alternatives, time_limit, progress, near)
    if isinstance(outcome, Planned):
        followed = tuple(_followed(jam, plan) for plan in outcome.plans)
        return Planned(followed, outcome.seconds, outcome.stopped)
    return outcome


def _followed(jam: Jam, plan: Plan) -> Plan:
    broken = breaches(jam, plan)
    if broken:
        raise InternalError("; ".join(f"{breach.rule}: {breach.where}" for breach in broken))
    followed = Followed(jam, plan)
    return plan.model_copy(update={"timing": timing(followed), "cautions": cautions(followed)})
