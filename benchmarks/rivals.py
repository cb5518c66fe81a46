"""Other ways to plan a jam: ``python -m benchmarks.rivals WAY JAM SECONDS`` answers with one JSON document.

``twin`` is the plain model solved by CP-SAT, ``highs`` the same model as a mixed-integer program solved by HiGHS,
``hand`` a musician who takes the next free thing and never goes back.
"""

import json
import sys
import time
from typing import Any

import solver
from benchmarks import highs
from benchmarks.by_hand import StuckError, by_hand
from solver.jam.jam import Jam
from solver.reading import read_jam
from tests.twin import plain


def asked(way: str, jam: Jam, limit: float) -> dict[str, Any]:
    """What a way of planning finds, and its seconds without those to start Python and to read the files."""
    start = time.perf_counter()
    found = _by_hand(jam) if way == "hand" else _by_model(way, jam, limit)
    return found | {"seconds": time.perf_counter() - start}


def _by_model(way: str, jam: Jam, limit: float) -> dict[str, Any]:
    try:
        status, goals = highs.answer(jam, limit) if way == "highs" else plain.answer(jam, limit)
    except ImportError:
        return {"status": "not installed", "goals": ()}
    return {"status": status, "goals": goals}


def _by_hand(jam: Jam) -> dict[str, Any]:
    try:
        plan = by_hand(jam)
    except StuckError as stuck:
        return {"status": "stuck", "goals": (), "why": str(stuck)}
    breaches = solver.check(jam, plan)
    if breaches:
        return {"status": "broken", "goals": (len(plan.cables),), "why": f"{breaches[0].rule}: {breaches[0].where}"}
    return {"status": "planned", "goals": (len(plan.cables),)}


if __name__ == "__main__":
    way, path, limit = sys.argv[1:4]
    print(json.dumps(asked(way, read_jam(path), float(limit))))
