"""Splits the time of one plan in its process: ``python -m benchmarks.inside JAM`` answers with one JSON document."""

import json
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

import solver
import solver.search.planner  # loads the solver, so that this is not counted as search
from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.outcome import Planned
from solver.reading import read_jam
from solver.rules import RULES
from solver.search.choices import Choices
from solver.search.goals import leave_alone
from solver.search.ground import Ground

TOLD = {"Planned": "planned", "Impossible": "impossible", "Undecided": "undecided"}


def split(path: str, limit: float | None) -> dict[str, object]:
    """Seconds to read, to build the choices and rules, to search, and to follow the plan; and what was found."""
    seconds: dict[str, float] = {}

    @contextmanager
    def timed(name: str) -> Iterator[None]:
        start = time.perf_counter()
        yield
        seconds[name] = time.perf_counter() - start

    with timed("read"):
        jam = read_jam(path)
    with timed("build"):
        choices = Choices(Ground([jam]))
        for rule in RULES:
            rule.constrain(choices)
        leave_alone(choices)
    with timed("all"):
        outcome = solver.plan(jam, time_limit=limit)
    found: dict[str, object] = {"status": TOLD[type(outcome).__name__], "choices": choices.model.count}
    seconds["follow"] = 0.0
    if isinstance(outcome, Planned):
        with timed("follow"):
            solver.check(jam, outcome.best)
            cautions(Followed(jam, outcome.best))
        goals = outcome.best.goals
        assert goals is not None
        found["goals"] = (goals.cables, goals.silenced, goals.settings_moved)
        found["proved"] = outcome.best.status == "proved"
    seconds["search"] = max(0.0, seconds.pop("all") - seconds["build"] - seconds["follow"])
    return found | seconds


if __name__ == "__main__":
    print(json.dumps(split(sys.argv[1], float(sys.argv[2]) if len(sys.argv) > 2 else None)))
