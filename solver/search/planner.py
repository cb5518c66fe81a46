"""Finds the plan of a jam, or of several on one wiring: posts every rule, meets the goals, lists what comes next."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned, Progress, Report, Undecided
from solver.plans import Plan
from solver.rules import RULES
from solver.search import goals
from solver.search.answer import plan_from
from solver.search.choices import Choices
from solver.search.clock import Clock
from solver.search.cuts import cut
from solver.search.ground import Ground
from solver.search.model import Lit, Model
from solver.search.pieces import ContradictionError, settle, split
from solver.search.solve import Goal, Runs, Tell, Way
from solver.search.wishes import ALL, Near, Wishes

Turns = Sequence[tuple[Way, float | None]]
_TURNS: dict[str, Turns] = {
    ALL: (("slopes", 0.3), ("plain", 0.3), ("slopes", None)),
    "plugs_first": (("groups", 0.3), ("slopes", 0.3), ("groups", None)),
    "cables": (
        ("bare slopes", 0.1),
        ("groups", 0.3),
        ("bare slopes", 0.3),
        ("slopes", 0.3),
        ("plain", 0.3),
        ("groups", 1.5),
        ("slopes", 1.5),
        ("groups", None),
    ),
    "moved_plugs": (("groups", 0.3), ("slopes", 0.3), ("groups", None)),
    "changed": (("groups", 0.3), ("slopes", 0.3), ("plain", 0.3), ("groups", 1.5), ("slopes", None)),
    "silenced": (("groups", 0.3), ("slopes", 0.3), ("groups", None)),
    "by_hand": (("groups", 0.3), ("slopes", 0.3), ("groups", None)),
    "settings_moved": (
        ("bare slopes", 2.0),
        ("slopes", 0.3),
        ("shares", 0.3),
        ("plain", 0.3),
        ("shares", 1.5),
        ("slopes", 1.5),
        ("groups", 1.0),
        ("plain", 1.5),
        ("slopes", None),
    ),
}
"""The goals in the order in which they count, and for each, ways of searching that take turns with growing effort."""


def search(
    jam: Jam,
    alternatives: int = 0,
    time_limit: float | None = None,
    report: Report | None = None,
    near: Plan | None = None,
) -> Outcome:
    """Find the best plan and the next best that really differ.

    Args:
        jam: What is wanted.
        alternatives: How many further plans to look for.
        time_limit: Seconds for everything; None for as long as it takes.
        report: Called about once a second with how far the search is.
        near: A plan in use, for this jam or one like it. Among plans with the fewest cables, the best moves the fewest
            of its plugs, then changes the least else.
    """
    found = search_together([jam], alternatives, time_limit, report, [near] if near is not None else None)
    if isinstance(found, Together):
        return Planned(tuple(plan for (plan,) in found.plans), found.seconds, found.stopped)
    return found


@dataclass(frozen=True)
class Together:
    """Plans of several jams on one wiring, the best first; each has one plan for every jam."""

    plans: tuple[tuple[Plan, ...], ...]
    seconds: float
    stopped: bool


def search_together(
    jams: Sequence[Jam],
    alternatives: int = 0,
    time_limit: float | None = None,
    report: Report | None = None,
    near: Sequence[Plan | None] | None = None,
    *,
    plugs_first: bool = False,
) -> Together | Impossible | Undecided:
    """The same for several jams in playing order, which have the same boxes and share cables and what boxes store.

    Args:
        jams: What is wanted.
        alternatives: How many further plans to look for.
        time_limit: Seconds for everything; None for as long as it takes.
        report: Called about once a second with how far the search is.
        near: The plans in use, one for each jam that has one.
        plugs_first: Whether to move few plugs of the plans in use counts before how many cables there are.
    """
    clock = Clock(time_limit)
    with clock.heeding_the_user():
        plans = _plans(jams, alternatives, clock, report, Near(near, plugs_first))
    if plans is None:
        return Impossible(clock.spent)
    return Together(plans, clock.spent, clock.over) if plans else Undecided(clock.spent, clock.stopped)


def is_possible(
    jams: Jam | Sequence[Jam],
    clock: Clock,
    *,
    most_cables: int | None = None,
    presolve: bool = True,
    of_sound: bool = False,
) -> bool | None:
    """Whether a jam has any plan, or several have one on one wiring; None where that is not decided in time.

    Args:
        jams: What is wanted.
        clock: How long it may take.
        most_cables: How many cables the plan may use.
        of_sound: Whether only the rules of sound count, whatever notes and clock do.
        presolve: Whether the solver may rewrite the model first; without, it is a second opinion.
    """
    first, *_ = _posted([jams] if isinstance(jams, Jam) else jams, of_sound, hands=False)
    if most_cables is not None:
        first.model.at_most(most_cables, goals.cables(first))
    try:
        settle(first.model)
        pieces = split(first.model, ())
    except ContradictionError:
        return False
    decided = True
    for piece in sorted(pieces, key=lambda piece: len(piece.choices)):
        runs = Runs(piece, clock)
        runs.decide(presolve)
        if runs.impossible:
            return False
        decided = decided and runs.met
    return True if decided else None


def _posted(jams: Sequence[Jam], of_sound: bool = False, hands: bool = True) -> list[Choices]:
    """The open choices of each jam, with every rule posted."""
    ground = Ground(jams, hands)
    every = [Choices(ground, turn) for turn in range(len(jams))]
    for choices in every:
        for rule in RULES:
            if rule.of_sound or not of_sound:
                rule.constrain(choices)
        if not of_sound:
            cut(choices)
    return every


def _plans(
    jams: Sequence[Jam],
    alternatives: int,
    clock: Clock,
    report: Report | None,
    near: Near,
) -> tuple[tuple[Plan, ...], ...] | None:
    """The best plans and the next ones as far as they are found; None where it is proved that there is none."""
    every = _posted(jams)
    for choices in every:
        goals.leave_alone(choices)
    wishes = Wishes.of(every, near)
    differences = [lit for choices in every for lit in goals.differences(choices)] if alternatives else []
    model, plans = every[0].model, list[tuple[Plan, ...]]()
    for _ in range(alternatives + 1):
        found = _best(model, wishes, clock, report)
        if found.impossible and not plans:
            return None
        if not found.values:
            break
        old = near.plans or [None] * len(every)
        plans.append(
            tuple(plan_from(choices, found.holds, found.proof, was) for choices, was in zip(every, old, strict=True))
        )
        model.clause(*(-lit if found.holds(lit) else lit for lit in differences))
    return tuple(plans)


@dataclass(frozen=True)
class _Found:
    """A value for every choice, and which goals are proved; no value where there is no plan, or none was found."""

    values: Mapping[int, bool] = field(default_factory=dict)
    proof: Mapping[str, bool] = field(default_factory=dict)
    meaning: Mapping[Lit, tuple[Lit, ...]] = field(default_factory=dict)
    impossible: bool = False

    def holds(self, lit: Lit) -> bool:
        """Whether a literal holds, also one that was made since from others."""
        if lit < 0:
            return not self.holds(-lit)
        if lit not in self.values and lit in self.meaning:
            return all(map(self.holds, self.meaning[lit]))
        return self.values.get(lit, False)


def _best(model: Model, wishes: Wishes, clock: Clock, report: Report | None) -> _Found:
    """The best answer: each goal adds up over the pieces, so each piece meets it for itself."""
    try:
        settle(model)
        wished = (lit for goal in wishes.goals.values() for lit, _ in goal)
        pieces = split(model, (*wished, *wishes.tidy))
    except ContradictionError:
        return _Found(impossible=True)
    owned = [(wishes.within(set(piece.choices)), Runs(piece, clock)) for piece in pieces]
    proof = dict.fromkeys(_TURNS, True)
    for name, turns in _TURNS.items():
        sharing: list[Runs] = []
        for own, runs in owned:
            if name in own.goals:
                runs.aim(own.goals[name], own.shares if name == "settings_moved" else ())
                sharing.append(runs)
        spent = _settled_cost(wishes.goals.get(name, ()), model, [runs for _, runs in owned if runs not in sharing])
        _take_turns(sharing, turns, _telling(name, spent, sharing, clock, report))
        if any(runs.impossible for runs in sharing):
            return _Found(impossible=True)
        if not all(runs.met for runs in sharing):
            proof |= dict.fromkeys(list(_TURNS)[list(_TURNS).index(name) :], False)
            break
        for runs in sharing:
            runs.hold()
    else:
        for own, runs in owned:
            runs.tidy(own.tidy)
    if not all(runs.values for _, runs in owned):
        return _Found()
    values = {abs(lit): lit > 0 for lit in model.settled}
    for _, runs in owned:
        values.update(runs.values)
    return _Found(values, {"cables": proof["cables"], "settings_moved": proof["settings_moved"]}, model.meaning)


def _take_turns(runs: list[Runs], turns: Turns, telling: Callable[[Runs], Tell]) -> None:
    """Give every run that has not met its goal a turn, then each a longer one, until all have or time is up."""
    for way, effort in turns:
        for run in runs:
            if not run.met:
                tell = telling(run)
                run.turn(way, effort, tell)
                tell(run.cost, run.bound)
            if run.impossible:
                return


def _settled_cost(goal: Goal, model: Model, done: Sequence[Runs]) -> int:
    """What a goal costs by all that is settled, and by pieces that have met it already."""
    values = {choice: value for runs in done for choice, value in runs.values.items()}
    values.update({abs(lit): lit > 0 for lit in model.settled})
    return sum(cost for lit, cost in goal if values.get(abs(lit)) == (lit > 0))


def _telling(
    name: str, spent: int, runs: Sequence[Runs], clock: Clock, report: Report | None
) -> Callable[[Runs], Tell]:
    """Make a run's news into news of the whole plan: what is spent already, and all runs that share the goal."""

    def of(run: Runs) -> Tell:
        def tell(best: int | None, bound: int) -> None:
            if report is None:
                return
            if name == ALL:  # small pieces weigh all goals as one; their sum says nothing
                report(Progress(name, None, None, clock.spent))
                return
            costs = [best if other is run else other.cost for other in runs]
            bounds = [bound if other is run else other.cost if other.met else other.bound for other in runs]
            known = [cost for cost in costs if cost is not None]
            total = spent + sum(known) if len(known) == len(costs) else None
            report(Progress(name, total, spent + sum(bound or 0 for bound in bounds), clock.spent))

        return tell

    return of
