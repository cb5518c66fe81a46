"""Asks the search for a plan, and follows each plan before it is shown."""

from collections.abc import Iterable, Mapping, Sequence

from solver.checking import Breach, breaches_of
from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.flow.timing import timing
from solver.flow.together import together
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import InternalError, Outcome, Planned, PlannedSet, Report, SetOutcome
from solver.plans import Plan
from solver.search.planner import Together, search, search_together
from solver.set_plans import SetPlan


def ask(
    jam: Jam, alternatives: int, time_limit: float | None, progress: Report | None, near: Plan | None = None
) -> Outcome:
    """Search, follow, and add timing and cautions; see ``solver.plan``, and ``solver.search.planner`` for ``near``."""
    outcome = search(jam, alternatives, time_limit, progress, near)
    if isinstance(outcome, Planned):
        followed = tuple(_checked(Followed(jam, plan)) for plan in outcome.plans)
        return Planned(followed, outcome.seconds, outcome.stopped)
    return outcome


def ask_set(
    asked: JamSet,
    alternatives: int,
    time_limit: float | None,
    progress: Report | None,
    near: Mapping[str, Plan] | None = None,
) -> SetOutcome:
    """The same for all jams of a set; ``near`` has the plans in use of some of them."""
    old = [near.get(file) for file in asked.jams] if near else None
    outcome = search_together(list(asked.jams.values()), alternatives, time_limit, progress, old)
    if isinstance(outcome, Together):
        plans = tuple(_set_plan(asked, plans) for plans in outcome.plans)
        return PlannedSet(plans, outcome.seconds, outcome.stopped)
    return outcome


def _checked(followed: Followed) -> Plan:
    _refuse(breaches_of(followed))
    return followed.plan.model_copy(update={"timing": timing(followed), "cautions": cautions(followed)})


def _refuse(broken: Iterable[Breach]) -> None:
    said = "; ".join(f"{breach.rule}: {breach.where}" for breach in broken)
    if said:
        raise InternalError(said)


def _set_plan(asked: JamSet, plans: Sequence[Plan]) -> SetPlan:
    """The plans of all jams, followed and checked, as one."""
    checked = [_checked(one) for one in Followed.together(asked.jams.values(), plans)]
    return together(asked, dict(zip(asked.files, checked, strict=True)))
