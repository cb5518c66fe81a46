"""What is wished of a plan: goals in their order, and what makes it tidy."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

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


class Near(NamedTuple):
    """Plans in use, to which new ones are to be near, and whether plugs that stay count before the number of cables."""

    plans: Sequence[Plan | None] | None = None
    plugs_first: bool = False


@dataclass(frozen=True)
class Wishes:
    """What each goal costs, in their order; shares of the last one; and what is wished for tidiness.

    The shares are the settings for notes and those for sound.
    """

    goals: Mapping[str, Goal]
    shares: Sequence[Goal]
    tidy: Sequence[Lit]

    @classmethod
    def of(cls, every: Sequence[Choices], near: Near) -> "Wishes":
        """The wishes about the plans of several jams, which may be to be near others."""
        first, ground = every[0], every[0].ground
        listed = {"cables": goals.cables(first)}
        if near.plans is not None:
            known = [(choices, plan) for choices, plan in zip(every, near.plans, strict=True) if plan is not None]
            moved = [lit for choices, plan in known[:1] for lit in moved_plugs(choices, plan)]
            listed = {"plugs_first": moved} | listed if near.plugs_first else listed | {"moved_plugs": moved}
            listed["changed"] = [lit for choices, plan in known for lit in changed(choices, plan)]
        listed["silenced"] = [lit for choices in every for lit in goals.silenced(choices)]
        listed["by_hand"] = ground.moved_by_hand()
        notes = [lit for choices in every for lit in goals.moved_notes(choices)]
        sounds = [lit for choices in every for lit in goals.moved_sounds(choices)]
        listed["settings_moved"] = [*notes, *sounds]
        counted = {name: [(lit, 1) for lit in goal] for name, goal in listed.items()}
        shares = [[(lit, 1) for lit in share] for share in (notes, sounds)]
        tidy = dict.fromkeys(lit for choices in every for lit in goals.tidy(choices))
        return cls(counted, shares, tuple(tidy))

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
