"""The rule of a set: one wiring, and one value of what a box stores for itself."""

from collections import Counter
from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.needs import needs
from solver.flow.wires import worded
from solver.plans import Plan
from solver.rules.rule import Rule
from solver.search.choices import Choices
from solver.search.states import hold_states
from solver.set_plans import SetPlan


class SameForAll(Rule):
    """S1."""

    id = "S1"
    sentence = "The cables, and what a box stores for itself, are the same in every jam of a set."

    def constrain(self, choices: Choices) -> None:
        """What is tied is at the value that the jam needs; the choices of cables are those of all jams anyway."""
        hold_states(choices)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield cables and settings that are others than in a jam before."""
        for earlier in followed.before[:1]:
            yield from other_cables(followed.plan, earlier.plan, earlier.jam.title)
        mine = needs(followed)
        for earlier in followed.before:
            theirs = needs(earlier)
            for need, value in mine.items():
                other = theirs.get(need, value)
                if other != value and need.memory(followed.rig) == "box":
                    once = f"{need.spot.box} has one for all"
                    yield f"{need} is {value}, in {earlier.jam.title} it is {other}, and {once}"


def other_cables(here: Plan | SetPlan, there: Plan | SetPlan, name: str) -> Iterator[str]:
    """Yield the cables that one of two plans has alone; ``name`` says whose the other one is."""
    mine, theirs = (Counter(map(worded, plan.cables)) for plan in (here, there))
    yield from (f"{cable} is not there in {name}" for cable in mine - theirs)
    yield from (f"{cable} is there in {name} alone" for cable in theirs - mine)
