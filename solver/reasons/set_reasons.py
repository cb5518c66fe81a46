"""Explains a set: which jams cannot share a wiring and why, or which jams need which cable."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from typing import NamedTuple

from solver.asking import ask_set
from solver.flow.wires import is_midi, worded
from solver.jam.intents import Avoid, Shunned
from solver.jam.sets import JamSet
from solver.outcome import PlannedSet, Progress, Report, Undecided
from solver.plans import Cable
from solver.reasons.conflicts import conflict_in
from solver.reasons.explained import CONFLICT_SECONDS, FACT_SECONDS, REPAIR_SECONDS, WHY_SECONDS, Clash
from solver.reasons.facts import known_facts
from solver.reasons.set_repairs import SetRepaired, set_repairs
from solver.reasons.trial import NotDecidedError, Tell, Trial
from solver.search.clock import Clock
from solver.search.planner import is_possible

Files = frozenset[str]
MOST_CLASHES = 6
"""How many groups of jams that cannot share a wiring are looked for, unless all are asked for."""


class JamClash(NamedTuple):
    """Jams that cannot share a wiring, though any fewer of them can; and what clashes in them, if that is known."""

    files: tuple[str, ...]
    clash: Clash | None


@dataclass(frozen=True)
class WhySetImpossible:
    """Groups of jams that cannot share a wiring, smallest first; ``all`` where it is shown that there are no others."""

    clashes: tuple[JamClash, ...]
    all: bool
    repaired: SetRepaired
    seconds: float


class Needed(NamedTuple):
    """A cable, and why it is there: jams need it, each alone or all together; it saves cables; or it comes first."""

    cable: str
    because: str
    files: tuple[str, ...] = ()


@dataclass(frozen=True)
class WhySetPossible:
    """The plan of a set, why each cable is there, and the fewest jams that need as many cables."""

    planned: PlannedSet
    needed: tuple[Needed, ...]
    fewest: tuple[str, ...] | None
    seconds: float


class Together:
    """Whether some jams of a set can share a wiring, on the boxes that they use; each group is asked for once."""

    def __init__(self, asked: JamSet, clock: Clock, tell: Tell, most_cables: int | None = None) -> None:
        self._asked, self._clock, self._tell, self._most = asked, clock, tell, most_cables
        self._known: dict[Files, bool] = {}

    def fail(self, files: Files) -> bool:
        """Whether it is proved that they cannot.

        Raises:
            NotDecidedError: neither that nor that they can is known in time.
        """
        if not files:
            return False
        if files not in self._known:
            if self._clock.over:
                raise NotDecidedError
            self._tell()
            jams = list(self._asked.some(files).jams.values())
            possible = is_possible(jams, self._clock, most_cables=self._most)
            if possible is None:
                raise NotDecidedError
            self._known[files] = not possible
        return self._known[files]

    def fewest(self, files: Files) -> Files:
        """Some of these jams that fail together, of which none can be left out; the last ones are left out first."""
        needed = files
        for file in reversed([file for file in self._asked.files if file in files]):
            if self.fail(needed - {file}):
                needed -= {file}
        return needed

    def every(self) -> Iterator[Files]:
        """Every such group, by a tree of what is left out."""
        found: list[Files] = []
        waiting, seen = [frozenset[str]()], set[Files]()
        while waiting:
            left_out = waiting.pop(0)
            label = next((known for known in found if known.isdisjoint(left_out)), None)
            if label is None:
                rest = frozenset(self._asked.files) - left_out
                if not self.fail(rest):
                    continue
                label = self.fewest(rest)
                found.append(label)
                yield label
            for file in (file for file in self._asked.files if file in label):
                if left_out | {file} not in seen:
                    seen.add(left_out | {file})
                    waiting.append(left_out | {file})


def explained_set(
    asked: JamSet, every: bool, time_limit: float | None, report: Report | None
) -> WhySetImpossible | WhySetPossible | Undecided:
    """Explain a set; see ``solver.explain``."""
    clock = Clock(time_limit)
    with clock.heeding_the_user():
        try:
            together = Together(asked, clock, _telling(report, "conflicts", clock))
            if together.fail(frozenset(asked.jams)):
                return _impossible(asked, together, every, clock, report)
        except NotDecidedError:
            return Undecided(clock.spent, clock.stopped)
        outcome = ask_set(asked, 0, clock.left, report)
        if not isinstance(outcome, PlannedSet):
            return Undecided(clock.spent, clock.stopped)
        share = Clock(None if every else WHY_SECONDS, clock)
        needed = tuple(_needed(asked, outcome, share, _telling(report, "reasons", clock)))
        return WhySetPossible(outcome, needed, _fewest(asked, outcome, share), clock.spent)


def _impossible(
    asked: JamSet, together: Together, every: bool, clock: Clock, report: Report | None
) -> WhySetImpossible:
    groups: list[Files] = []
    done = False
    with suppress(NotDecidedError):
        for group in together.every():
            if len(groups) == MOST_CLASHES and not every:
                break
            groups.append(group)
        else:
            done = True
    groups.sort(key=len)
    clashes = tuple(_clash(asked, group, every, clock, report) for group in groups)
    share = Clock(None if every else 2 * REPAIR_SECONDS, clock)
    repaired = set_repairs(asked, groups, [c.clash for c in clashes], share, _telling(report, "repairs", clock))
    return WhySetImpossible(clashes, done, repaired, clock.spent)


def _clash(asked: JamSet, group: Files, every: bool, clock: Clock, report: Report | None) -> JamClash:
    """What the jams of a group state that cannot be had together."""
    jams = asked.some(group).jams
    share = Clock(None if every else CONFLICT_SECONDS, clock)
    trial = Trial(jams, share, tell=_telling(report, "conflicts", clock))
    try:
        conflict = conflict_in(trial, frozenset(trial.claims))
        trial.timed(clock, trial.tell).confirm(conflict.claims)
    except NotDecidedError:
        return JamClash(tuple(jams), None)
    looking = trial.timed(Clock(None if every else FACT_SECONDS, clock), _telling(report, "gear", clock))
    return JamClash(tuple(jams), Clash(conflict, known_facts(looking, conflict.claims)))


def _needed(asked: JamSet, planned: PlannedSet, clock: Clock, tell: Tell) -> Iterator[Needed]:
    for cable in planned.best.cables:
        try:
            yield _need(asked, cable, len(planned.best.cables), clock, tell)
        except NotDecidedError:
            yield Needed(worded(cable), "time")


def _need(asked: JamSet, cable: Cable, count: int, clock: Clock, tell: Tell) -> Needed:
    """Why a cable is there: what becomes of the jams where the socket that it comes from stays empty."""
    ends = cable.source if isinstance(cable.source, str) else cable.to
    assert isinstance(ends, str)
    shunned = Shunned(ports=(ends,)) if is_midi(cable) else Shunned(jacks=(ends,))
    without = asked.changed(
        {file: jam.changed(intents=(*jam.intents, Avoid(avoid=shunned))) for file, jam in asked.jams.items()}
    )
    together = Together(without, clock, tell)
    alone = tuple(file for file in asked.jams if together.fail(frozenset({file})))
    if alone:
        return Needed(worded(cable), "alone", alone)
    if together.fail(frozenset(asked.jams)):
        group = together.fewest(frozenset(asked.jams))
        return Needed(worded(cable), "together", tuple(file for file in asked.jams if file in group))
    saving = Together(without, clock, tell, count)
    return Needed(worded(cable), "cables" if saving.fail(frozenset(asked.jams)) else "tidy")


def _fewest(asked: JamSet, planned: PlannedSet, clock: Clock) -> tuple[str, ...] | None:
    """Jams that need as many cables together as all do, none of them too many; None where time is up before."""
    together = Together(asked, clock, lambda: None, len(planned.best.cables) - 1)
    with suppress(NotDecidedError):
        if planned.best.cables and together.fail(frozenset(asked.jams)):
            group = together.fewest(frozenset(asked.jams))
            return tuple(file for file in asked.jams if file in group)
    return None


def _telling(report: Report | None, stage: str, clock: Clock) -> Tell:
    def tell() -> None:
        if report is not None:
            report(Progress(stage, None, None, clock.spent))

    return tell
