"""Says where a signal is, from where it starts and what joins what."""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping
from typing import NamedTuple

from tests.twin.clauses import NO, Clauses, Lit


class Edge(NamedTuple):
    """What is at ``start`` is at ``end`` too where ``given`` holds."""

    start: Hashable
    end: Hashable
    given: Lit


def spread(clauses: Clauses, starts: Mapping[Hashable, list[Lit]], edges: Iterable[Edge]) -> defaultdict[Hashable, Lit]:
    """For each point whether the signal is there: just where a start or an edge puts it.

    No ring of edges can hold, so nothing can be somewhere only because it is there.
    """
    listed = list(edges)
    points = dict.fromkeys([*starts, *(point for edge in listed for point in (edge.start, edge.end))])
    there = {point: clauses.new() for point in points}
    reasons: dict[Hashable, list[Lit]] = {point: list(starts.get(point, ())) for point in points}
    for edge in listed:
        reasons[edge.end].append(clauses.both(there[edge.start], edge.given))
    for point, lits in reasons.items():
        clauses.clause(-there[point], *lits)
        for lit in lits:
            clauses.clause(there[point], -lit)
    return defaultdict(lambda: NO, there)
