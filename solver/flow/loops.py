"""Where a directed graph runs back into itself."""

from collections import deque
from collections.abc import Hashable, Iterable, Mapping
from typing import TypeVar

N = TypeVar("N", bound=Hashable)


def reachable(starts: Iterable[N], onward: Mapping[N, Iterable[N]]) -> dict[N, None]:
    """The starts and all that can be reached from them, nearest first."""
    found = dict.fromkeys(starts)
    waiting = deque(found)
    while waiting:
        for node in onward.get(waiting.popleft(), ()):
            if node not in found:
                found[node] = None
                waiting.append(node)
    return found


def loops(onward: Mapping[N, Iterable[N]]) -> list[tuple[N, ...]]:
    """Shortest ways round, each from its first node back to it; no two of them share a node."""
    found: list[tuple[N, ...]] = []
    seen: set[N] = set()
    for node in onward:
        if node not in seen:
            loop = _way_round(node, onward)
            if loop and seen.isdisjoint(loop):
                found.append(loop)
                seen.update(loop)
    return found


def _way_round(start: N, onward: Mapping[N, Iterable[N]]) -> tuple[N, ...]:
    """The shortest way from a node back to it, both ends included; empty if there is none."""
    before: dict[N, N] = {}
    waiting = deque([start])
    while waiting:
        node = waiting.popleft()
        for after in onward.get(node, ()):
            if after == start:
                way = [start, node]
                while way[-1] != start:
                    way.append(before[way[-1]])
                return tuple(reversed(way)) if node != start else (start, start)
            if after not in before:
                before[after] = node
                waiting.append(after)
    return ()
