"""The best answer of a posted model: each goal in its turn, each piece for itself."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from solver.outcome import Progress, Report
from solver.search.clock import Clock
from solver.search.model import Lit, Model
from solver.search.pieces import ContradictionError, settle, split
from solver.search.solve import Goal, Runs, Tell, Way
from solver.search.wishes import ALL, Wishes

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


@dataclass(frozen=True)
class Found:
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


def best(model: Model, wishes: Wishes, clock: Clock, report: Report | None) -> Found:
    """The best answer: each goal adds up over the pieces, so each piece meets it for itself."""
    try:
        settle(model)
        wished = (lit for goal in wishes.goals.values() for lit, _ in goal)
        pieces = split(model, (*wished, *wishes.tidy))
    except ContradictionError:
        return Found(impossible=True)
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
            return Found(impossible=True)
        if not all(runs.met for runs in sharing):
            proof |= dict.fromkeys(list(_TURNS)[list(_TURNS).index(name) :], False)
            break
        for runs in sharing:
            runs.hold()
    else:
        for own, runs in owned:
            runs.tidy(own.tidy)
    if not all(runs.values for _, runs in owned):
        return Found()
    values = {abs(lit): lit > 0 for lit in model.settled}
    for _, runs in owned:
        values.update(runs.values)
    return Found(values, {"cables": proof["cables"], "settings_moved": proof["settings_moved"]}, model.meaning)


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
