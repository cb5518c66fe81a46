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


def ahead(starts: Iterable[N], onward: Mapping[N, Iterable[N]]) -> list[N]:
    """The same, each before those it leads to; what leads back round is not counted."""
    done: list[N] = []
    seen: set[N] = set()
    for start in reversed(list(starts)):
        waiting = [iter((start,))]
        above: list[N] = []
        while waiting:
            node = next((node for node in waiting[-1] if node not in seen), None)
            if node is not None:
                seen.add(node)
                above.append(node)
                waiting.append(iter(tuple(reversed(list(onward.get(node, ()))))))
            else:
                waiting.pop()
                done.extend([above.pop()] if above else [])
    return done[::-1]


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
