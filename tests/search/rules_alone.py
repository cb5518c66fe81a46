"""Asks what the rules allow by themselves, without goals and without what only makes the search quick."""

from collections.abc import Callable, Iterable

from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.rules import RULES
from solver.search.choices import Choices
from solver.search.clock import Clock
from solver.search.ground import Ground
from solver.search.model import Lit
from solver.search.pieces import ContradictionError, settle, split
from solver.search.solve import Runs

Held = Callable[[Choices], Iterable[Lit]]


def nothing(_: Choices) -> Iterable[Lit]:
    """Nothing more holds."""
    return ()


def allowed(asked: Jam | JamSet, held: Held = nothing, turn: int = 0) -> bool:
    """Whether the rules allow a plan in which all of these hold.

    Args:
        asked: A jam or a set.
        held: What is to hold, in the choices of one jam.
        turn: Which jam of a set that is, counted from 0.
    """
    ground = Ground([asked] if isinstance(asked, Jam) else list(asked.jams.values()))
    every = [Choices(ground, number) for number in range(len(ground.jams))]
    for choices in every:
        for rule in RULES:
            rule.constrain(choices)
    for lit in held(every[turn]):
        ground.model.require(lit)
    try:
        settle(ground.model)
        pieces = split(ground.model, ())
    except ContradictionError:
        return False
    for piece in pieces:
        runs = Runs(piece, Clock(None))
        runs.decide()
        if not runs.met:
            return False
    return True


def strip(name: str) -> Emission:
    """A strip as what treats and emits."""
    return Emission("strip", Spot.parse(name))
