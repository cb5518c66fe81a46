"""Asks the search for a plan, and follows each plan before it is shown."""

from collections.abc import Iterable, Mapping, Sequence

from solver.checking import Breach, breaches_of
from solver.flow.cautions import cautions
from solver.flow.changeovers import Changeover, changeovers
from solver.flow.followed import Followed
from solver.flow.project_names import recalled
from solver.flow.settings import MOVED
from solver.flow.timing import timing
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import InternalError, Outcome, Planned, PlannedSet, Report, SetOutcome
from solver.plans import Plan, Recalled, Setting
from solver.search.planner import Together, search, search_together
from solver.set_plans import Between, Change, SetGoals, SetPlan


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
) -> SetOutcome:
    """The same for all jams of a set; ``near`` has the plans in use of some of them."""
    old = [near.get(file) for file in asked.jams] if near else None
    outcome = search_together(list(asked.jams.values()), alternatives, time_limit, progress, old)
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
    followed = Followed.together(asked.jams.values(), plans)
    checked = [_checked(one, names) for one, names in zip(followed, recalled(asked.files).values(), strict=True)]
    changes = changeovers(followed)
    stored = _stored(asked, checked)
    first = checked[0]
    return SetPlan(
        title=asked.title,
        status=first.status,
        proof=first.proof,
        cables=first.cables,
        settings=stored,
        jams=dict(zip(asked.files, checked, strict=True)),
        between=tuple(_between(file, change) for file, change in zip(list(asked.files)[1:], changes, strict=True)),
        goals=_goals(checked, stored, changes),
    )


def _stored(asked: JamSet, plans: Iterable[Plan]) -> tuple[Setting, ...]:
    """The settings that boxes store for themselves, each once, box by box."""
    listed = {(s.box, s.of, s.where, s.what): s for plan in plans for s in plan.settings if s.stored == "box"}
    order = list(asked.boxes)
    return tuple(sorted(listed.values(), key=lambda setting: order.index(setting.box)))


def _goals(plans: Sequence[Plan], stored: Sequence[Setting], changes: Sequence[Changeover]) -> SetGoals:
    every = [*stored, *(setting for plan in plans for setting in plan.settings if setting.stored == "project")]
    return SetGoals(
        cables=len(plans[0].cables),
        silenced=sum(setting.what == "level" for setting in every),
        settings_moved=sum(setting.what in MOVED for setting in every),
        by_hand=sum(move.by_hand for change in changes for move in change.moves),
    )


def _between(file: str, changeover: Changeover) -> Between:
    changes = (
        Change(
            box=need.spot.box,
            of=need.of,
            where=need.spot.name,
            what=need.what,
            value=value,
            was=was,
            by="hand" if by_hand else "project",
        )
        for need, was, value, by_hand in changeover.moves
    )
    return Between(before=file, recall=changeover.recalled, changes=tuple(changes))
