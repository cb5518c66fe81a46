"""Judges any plan by every rule, from the followed signals alone."""

from typing import NamedTuple

from solver.flow.followed import Followed
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan
from solver.rules import RULES
from solver.rules.rule import Rule
from solver.rules.stored import SameForAll, other_cables
from solver.set_plans import SetPlan


class Breach(NamedTuple):
    """One place where a plan breaks a rule."""

    rule: str
    sentence: str
    where: str


def breaches(jam: Jam, plan: Plan) -> tuple[Breach, ...]:
    """Every breach of a plan: audio rules, then MIDI rules, then the drawer and plain wishes, each by number."""
    return breaches_of(Followed(jam, plan))


def set_breaches(of: JamSet, plan: SetPlan) -> tuple[Breach, ...]:
    """Every breach of a set's plan, jam by jam; ``where`` begins with the jam's file."""
    followed = Followed.together(of.jams.values(), (plan.jams[file] for file in of.files))
    found: list[Breach] = []
    for file, one in zip(of.files, followed, strict=True):
        others = [
            Breach(SameForAll.id, SameForAll.sentence, where) for where in other_cables(one.plan, plan, "the set")
        ]
        found += [breach._replace(where=f"{file}: {breach.where}") for breach in (*breaches_of(one), *others)]
    return tuple(dict.fromkeys(found))


def breaches_of(followed: Followed) -> tuple[Breach, ...]:
    """The same of a plan whose signals are followed, which may be one of a set."""
    return tuple(
        Breach(rule.id, rule.sentence, where) for rule in sorted(RULES, key=_place) for where in rule.breaches(followed)
    )


def _place(rule: Rule) -> tuple[int, int]:
    return "AMDKPS".index(rule.id[0]), int(rule.id[1:])
