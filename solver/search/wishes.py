"""What is wished of a plan: goals in their order, and what makes it tidy."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from solver.plans import Plan
from solver.search import goals
from solver.search.choices import Choices
from solver.search.model import Lit
from solver.search.near import changed, moved_plugs
from solver.search.solve import Goal

ALL = "all"
"""The name of all goals as one."""
SMALL = 250
"""A piece with no more choices than this meets all goals at once."""


@dataclass(frozen=True)
class Wishes:
    """What each goal costs, in their order; shares of the last one; and what is wished for tidiness.

    The shares are the settings for notes and those for sound.
    """

    goals: Mapping[str, Goal]
    shares: Sequence[Goal]
    tidy: Sequence[Lit]

    @classmethod
    def of(cls, choices: Choices, near: Plan | None) -> "Wishes":
        """The wishes about a plan, which may be to be near another one."""
        listed = {"cables": goals.cables(choices)}
        if near is not None:
            listed |= {"moved_plugs": moved_plugs(choices, near), "changed": changed(choices, near)}
        listed |= {"silenced": goals.silenced(choices), "settings_moved": goals.moved(choices)}
        counted = {name: [(lit, 1) for lit in goal] for name, goal in listed.items()}
        shares = [[(lit, 1) for lit in share(choices)] for share in (goals.moved_notes, goals.moved_sounds)]
        return cls(counted, shares, goals.tidy(choices))

    def within(self, choices: set[int]) -> "Wishes":
        """The same for one piece: all goals in one where it is small, else each that has a say in it."""

        def own(goal: Goal) -> Goal:
            return [term for term in goal if abs(term[0]) in choices]

        mine = {name: own(goal) for name, goal in self.goals.items()}
        tidy = [lit for lit in self.tidy if abs(lit) in choices]
        if len(choices) <= SMALL:
            return Wishes({ALL: _weighed(list(mine.values()))}, (), tidy)
        kept = {name: goal for name, goal in mine.items() if goal or name == "cables"}
        return Wishes(kept, [own(share) for share in self.shares], tidy)


def _weighed(own: Sequence[Goal]) -> Goal:
    """All goals as one: each weighs more than all that come after it together."""
    terms: list[tuple[Lit, int]] = []
    weight = 1
    for goal in reversed(own):
        terms += [(lit, cost * weight) for lit, cost in goal]
        weight *= 1 + sum(cost for _, cost in goal)
    return terms
