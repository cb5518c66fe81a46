"""Asks the search for a plan, and follows each plan before it is shown."""

from collections.abc import Iterable, Mapping, Sequence

from solver.checking import Breach, breaches_of
from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.flow.project_names import recalled
from solver.flow.timing import timing
from solver.flow.together import together
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import InternalError, Outcome, Planned, PlannedSet, Report, SetOutcome
from solver.plans import Plan, Recalled
from solver.search.planner import Together, search, search_together
from solver.set_plans import SetPlan


def ask(
    jam: Jam, alternatives: int, time_limit: float | None, progress: Report | None, near: Plan | None = None
) -> Outcome:
    """Search, follow, and add what else a plan tells; see ``solver.plan``, and ``search.planner`` for ``near``."""
    outcome = search(jam, alternatives, time_limit, progress, near)
    if isinstance(outcome, Planned):
        recall = recalled({jam.title: jam})[jam.title]
        followed = tuple(_checked(Followed(jam, plan), recall) for plan in outcome.plans)
        return Planned(followed, outcome.seconds, outcome.stopped)
    return outcome


def ask_set(
    asked: JamSet,
    alternatives: int,
    time_limit: float | None,
    progress: Report | None,
    near: Mapping[str, Plan] | None = None,
    *,
    plugs_first: bool = False,
) -> SetOutcome:
    """The same for all jams of a set; ``near`` has the plans in use of some of them.

    With ``plugs_first``, to move few of their plugs counts before how many cables there are.
    """
    old = [near.get(file) for file in asked.jams] if near else None
    outcome = search_together(
        list(asked.jams.values()), alternatives, time_limit, progress, old, plugs_first=plugs_first
    )
    if isinstance(outcome, Together):
        plans = tuple(_set_plan(asked, plans) for plans in outcome.plans)
        return PlannedSet(plans, outcome.seconds, outcome.stopped)
    return outcome


def _checked(followed: Followed, recall: Mapping[str, Recalled]) -> Plan:
    _refuse(breaches_of(followed))
    told = {"recall": recall, "timing": timing(followed), "cautions": cautions(followed)}
    return followed.plan.model_copy(update=told)


def _refuse(broken: Iterable[Breach]) -> None:
    said = "; ".join(f"{breach.rule}: {breach.where}" for breach in broken)
    if said:
        raise InternalError(said)


def _set_plan(asked: JamSet, plans: Sequence[Plan]) -> SetPlan:
    """The plans of all jams, followed and checked, as one."""
    followed = zip(Followed.together(asked.jams.values(), plans), recalled(asked.files).values(), strict=True)
    checked = [_checked(one, recall) for one, recall in followed]
    return together(asked, dict(zip(asked.files, checked, strict=True)))
