"""Tiny jams before and after a change that is drawn by lot, with plans on both sides."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from random import Random
from typing import NamedTuple

from pydantic import ValidationError

import solver
from solver.jam.editing import Changes, Put, changed
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from tests.enumeration.rigs import seeded

SEEDS = (
    *(3, 4, 6, 9, 13, 19, 23, 24, 25, 29, 31, 34, 40, 41, 46, 47, 51, 52, 57, 62, 63, 69, 70, 79, 80, 88, 89, 92, 95),
    *(96, 98, 101, 102, 109, 111, 112, 118, 119, 122, 126, 131, 138, 144, 146, 155, 159, 161, 164, 172, 183, 186),
    *(193, 196, 200, 203, 206, 208, 210, 215, 216, 219, 221, 225, 231, 234, 240, 246, 248, 249, 251, 252, 264, 266),
    *(274, 289, 291, 292, 294, 295, 300, 302, 304, 306, 319, 321, 322, 324, 325, 327, 335, 341, 354, 365, 372, 379),
    *(387, 388, 389, 393, 1052, 1327),
)
"""Seeds that have a pair: all of those below 400, and two more, in which an amount can be had on an engine too."""


class Pair(NamedTuple):
    """A jam before and after a change, its best plan before, and a plan in use that is another of its plans."""

    before: Jam
    after: Jam
    best: Plan
    used: Plan


def best_of(jam: Jam) -> Plan | None:
    """The best plan of a jam, if it has one."""
    outcome = solver.plan(jam, time_limit=None)
    return outcome.best if isinstance(outcome, Planned) else None


@cache
def pair(seed: int) -> Pair:
    """The pair of a seed, one of ``SEEDS``."""
    found = drawn(seed)
    assert found is not None
    return found


def drawn(seed: int) -> Pair | None:
    """What a seed draws; None where one side has no plan, no cable, or the change changes nothing."""
    jam, dice = seeded(seed), Random(seed)
    changes = dice.choice(list(_changes(jam)))
    try:
        after = changed(jam, changes)
    except ValidationError:
        return None
    planned, new = solver.plan(jam, alternatives=5, time_limit=None), best_of(after)
    if not isinstance(planned, Planned) or new is None or not planned.best.cables or not new.cables:
        return None
    return Pair(jam, after, planned.best, dice.choice(planned.plans))


def _changes(jam: Jam) -> Iterator[Changes]:
    """Single changes: something less, a jack or channel to avoid, one strip of its own."""
    yield from (Changes(drops=(("part", part),)) for part in jam.parts if len(jam.parts) > 1)
    yield from (Changes(drops=(("intent", place),)) for place in range(len(jam.intents)))
    new = 10**6
    for jack in jam.rig.jacks:
        if jam.rig.jacks[jack].connection != jam.ears:
            yield Changes(adds=(Put(("intent", new), {"avoid": {"jacks": [str(jack)]}}),))
    yield from (Changes(adds=(Put(("intent", new), {"avoid": {"channels": [n]}}),)) for n in (1, 2))
    yield from (Changes(adds=(Put(("intent", new), {"separate": [part]}),)) for part in jam.parts)
