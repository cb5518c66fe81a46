"""``python -m benchmarks.conflicts JAM``: how long it takes to explain an impossible jam."""

import json
import sys
import time

import solver
from solver.outcome import Undecided
from solver.reading import read_jam
from solver.reasons.conflicts import conflict_in
from solver.reasons.explained import CONFLICT_SECONDS, WhyImpossible
from solver.reasons.trial import Trial
from solver.search.clock import Clock


def main(path: str) -> None:
    """Print one line of JSON."""
    jam = read_jam(path)
    start = time.perf_counter()
    trial = Trial(jam, Clock(CONFLICT_SECONDS))
    assert trial.fails(trial.claims)
    first = conflict_in(trial, frozenset(trial.claims))
    taken = time.perf_counter() - start
    start = time.perf_counter()
    why = solver.explain(jam)
    assert isinstance(why, WhyImpossible | Undecided)
    found = {
        "parts": len(jam.parts),
        "first": taken,
        "statements": len(first.statements),
        "minimal": first.minimal,
        "whole": time.perf_counter() - start,
        "repairs": len(why.repaired.repairs) if isinstance(why, WhyImpossible) else 0,
    }
    print(json.dumps(found))


if __name__ == "__main__":
    main(sys.argv[1])
