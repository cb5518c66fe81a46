"""What asking for a plan can end in: a plan, a proof that there is none, or neither in the time given."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from solver.plans import Plan
from solver.set_plans import SetPlan


class Progress(NamedTuple):
    """How far a search is: the goal it works on, the best value so far, the least possible, and seconds spent."""

    goal: str
    best: int | None
    bound: int | None
    seconds: float


Report = Callable[[Progress], None]


@dataclass(frozen=True)
class Planned:
    """Plans that meet every intent, the best first; the others are the next best that really differ."""

    plans: tuple[Plan, ...]
    seconds: float
    stopped: bool = False
    """Whether the search was stopped before it was done: time was up, or the user said so."""

    @property
    def best(self) -> Plan:
        """The plan to use."""
        return self.plans[0]


@dataclass(frozen=True)
class PlannedSet:
    """The same for a set: plans of all its jams on one wiring, the best first."""

    plans: tuple[SetPlan, ...]
    seconds: float
    stopped: bool = False

    @property
    def best(self) -> SetPlan:
        """The plan to use."""
        return self.plans[0]


@dataclass(frozen=True)
class Impossible:
    """It is proved that no plan meets every intent."""

    seconds: float


@dataclass(frozen=True)
class Undecided:
    """Neither a plan nor a proof that there is none was found in the time given."""

    seconds: float
    stopped: bool = False
    """Whether the user stopped the search."""


class InternalError(Exception):
    """The follower disagrees with the search: a plan was found that breaks a rule. The message lists the breaches."""


Outcome = Planned | Impossible | Undecided
SetOutcome = PlannedSet | Impossible | Undecided
