"""Splits the time of one plan in its process: ``python -m benchmarks.inside JAM`` answers with one JSON document."""

import json
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

import solver
import solver.asking  # noqa: F401  the libraries that it needs are loaded before anything is timed
from solver.checking import breaches_of
from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.jam.sets import JamSet
from solver.outcome import Planned, PlannedSet
from solver.reading import read_jam_or_set
from solver.rules import RULES
from solver.search.choices import Choices
from solver.search.goals import leave_alone
from solver.search.ground import Ground
from solver.set_plans import SetPlan

TOLD = {"Planned": "planned", "PlannedSet": "planned", "Impossible": "impossible", "Undecided": "undecided"}


def split(path: str, limit: float | None) -> dict[str, object]:
    """Seconds to read, to build the choices and rules, to search, and to follow the plan; and what was found."""
    seconds: dict[str, float] = {}

    @contextmanager
    def timed(name: str) -> Iterator[None]:
        start = time.perf_counter()
        yield
        seconds[name] = time.perf_counter() - start

    with timed("read"):
        asked = read_jam_or_set(path)
    jams = list(asked.jams.values()) if isinstance(asked, JamSet) else [asked]
    with timed("build"):
        ground = Ground(jams)
        every = [Choices(ground, turn) for turn in range(len(jams))]
        for choices in every:
            for rule in RULES:
                rule.constrain(choices)
        for choices in every:
            leave_alone(choices)
    with timed("all"):
        outcome = solver.plan(asked, time_limit=limit)
    found: dict[str, object] = {"status": TOLD[type(outcome).__name__], "choices": ground.model.count}
    seconds["follow"] = 0.0
    if isinstance(outcome, Planned | PlannedSet):
        with timed("follow"):
            plans = outcome.best.jams.values() if isinstance(outcome.best, SetPlan) else [outcome.best]
            for followed in Followed.together(jams, plans):
                breaches_of(followed)
                cautions(followed)
        goals = outcome.best.goals
        assert goals is not None
        found["goals"] = (goals.cables, goals.silenced, goals.settings_moved)
        found["proved"] = outcome.best.status == "proved"
    seconds["search"] = max(0.0, seconds.pop("all") - seconds["build"] - seconds["follow"])
    return found | seconds


if __name__ == "__main__":
    print(json.dumps(split(sys.argv[1], float(sys.argv[2]) if len(sys.argv) > 2 else None)))
