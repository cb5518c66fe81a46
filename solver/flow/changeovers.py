"""What is done between two jams of a set: projects to recall, and settings that hands move."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from solver.flow.followed import Followed
from solver.flow.needs import Need, Value, needs
from solver.jam.sets import by_hand


class Move(NamedTuple):
    """A setting that is not what it was: hands move it, or it comes with the project."""

    need: Need
    was: Value
    value: Value
    by_hand: bool


class Changeover(NamedTuple):
    """What is other in a jam than before it: projects to recall, by box, and settings that change."""

    recalled: dict[str, str]
    moves: tuple[Move, ...]


def changeovers(set_: Sequence[Followed]) -> tuple[Changeover, ...]:
    """What is done before each jam but the first, in playing order.

    What a jam does not need stays where it is; where its project is recalled, that can bring along what a later one
    needs. So what no jam before has needed, or not since the last project, has been made in advance.
    """
    jams = [followed.jam for followed in set_]
    stands: dict[Need, Value] = {}
    prepared: set[Need] = set()
    found: list[Changeover] = []
    for turn, followed in enumerate(set_):
        hands = {box for box in followed.rig.boxes if turn in by_hand(jams, box)}
        moves = list(_moves(followed, stands, hands, prepared))
        if turn:
            found.append(Changeover(dict(followed.jam.recall), tuple(moves)))
        stands |= needs(followed)
        prepared |= {need for need in stands if need.spot.box not in hands}
        prepared -= needs(followed).keys()
    return tuple(found)


def _moves(followed: Followed, stands: dict[Need, Value], hands: set[str], prepared: set[Need]) -> Iterator[Move]:
    """The settings that are not where the jam needs them."""
    for need, value in needs(followed).items():
        was = stands.get(need, value)
        by_hands = need.spot.box in hands
        if was != value and need.memory(followed.rig) == "project" and not (by_hands and need in prepared):
            yield Move(need, was, value, by_hands)
