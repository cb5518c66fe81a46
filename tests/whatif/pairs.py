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
def pair(seed: int) -> Pair | None:
    """The pair of a seed; None where one side has no plan, no cable, or the change changes nothing."""
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
