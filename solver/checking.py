"""Judges any plan by every rule, from the followed signals alone."""

from typing import NamedTuple

from solver.flow.followed import Followed
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.rules import RULES
from solver.rules.rule import Rule


class Breach(NamedTuple):
    """One place where a plan breaks a rule."""

    rule: str
    sentence: str
    where: str


def breaches(jam: Jam, plan: Plan) -> tuple[Breach, ...]:
    """Every breach of a plan: audio rules, then MIDI rules, then the drawer and plain wishes, each by number."""
    followed = Followed(jam, plan)
    return tuple(
        Breach(rule.id, rule.sentence, where) for rule in sorted(RULES, key=_place) for where in rule.breaches(followed)
    )


def _place(rule: Rule) -> tuple[int, int]:
    return "AMDKP".index(rule.id[0]), int(rule.id[1:])
