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
    """Shortest ways round, each from its first node back to it; a node stands in one loop of the list at most."""
    found: list[tuple[N, ...]] = []
    seen: set[N] = set()
    for node in onward:
        if node not in seen:
            loop = _way_round(node, onward)
            seen.update(loop)
            found.extend([loop] if loop else [])
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
