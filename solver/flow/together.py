"""The plan of a set, put together from the plans of its jams."""

from collections.abc import Iterable, Mapping, Sequence

from solver.flow.changeovers import Changeover, changeovers
from solver.flow.followed import Followed
from solver.flow.settings import MOVED
from solver.jam.sets import JamSet
from solver.plans import Plan, Setting
from solver.set_plans import Between, Change, SetGoals, SetPlan


def together(of: JamSet, jams: Mapping[str, Plan], like: SetPlan | None = None) -> SetPlan:
    """The plan of a set with all that follows from the plans of its jams.

    Args:
        of: The set.
        jams: The plan of each jam, by its file, all on the same cables.
        like: A plan of it that says what is proved; else the first jam's plan does.
    """
    plans = [jams[file] for file in of.files]
    changes = changeovers(Followed.together(of.jams.values(), plans))
    stored = _stored(of, plans)
    says = like or plans[0]
    return SetPlan(
        title=of.title,
        status=says.status,
        proof=says.proof,
        cables=says.cables,
        settings=stored,
        jams=dict(zip(of.files, plans, strict=True)),
        between=tuple(_between(file, change) for file, change in zip(list(of.files)[1:], changes, strict=True)),
        goals=_goals(plans, stored, changes),
    )


def _stored(of: JamSet, plans: Iterable[Plan]) -> tuple[Setting, ...]:
    """The settings that boxes store for themselves, each once, box by box."""
    listed = {(s.box, s.of, s.where, s.what): s for plan in plans for s in plan.settings if s.stored == "box"}
    order = list(of.boxes)
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
    brought = dict.fromkeys(move.need.spot.box for move in changeover.moves if not move.by_hand)
    unnamed = tuple(box for box in brought if box not in changeover.recalled)
    return Between(before=file, recall=changeover.recalled, unnamed=unnamed, changes=tuple(changes))
