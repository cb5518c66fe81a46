"""A network that carries signals from place to place: what is where follows from what joins what."""

from collections import defaultdict, deque
from collections.abc import Hashable

from solver.search.model import NO, Lit, Model


class Network:
    """Signals enter at sources and pass along edges, each under a condition.

    A signal is at a place exactly when a source or an edge puts it there. Places that no edge can bring a signal to
    cost nothing. All sources of a signal and all edges come before the first question about it; what comes twice counts
    once.
    """

    def __init__(self, model: Model) -> None:
        self._model = model
        self._edges: dict[Hashable, dict[tuple[Hashable, Lit], None]] = defaultdict(dict)
        self._sources: dict[Hashable, dict[tuple[Hashable, Lit], None]] = defaultdict(dict)
        self._at: dict[Hashable, dict[Hashable, Lit]] = {}

    def source(self, signal: Hashable, place: Hashable, given: Lit) -> None:
        """``signal`` starts at ``place`` where ``given`` holds."""
        self._sources[signal][place, given] = None

    def edge(self, start: Hashable, end: Hashable, given: Lit) -> None:
        """Whatever is at ``start`` is at ``end`` too where ``given`` holds."""
        self._edges[start][end, given] = None

    def backwards(self) -> "Network":
        """The same places with every edge turned round, and no sources."""
        turned = Network(self._model)
        for start, edges in self._edges.items():
            for end, given in edges:
                turned.edge(end, start, given)
        return turned

    def present(self, signal: Hashable, place: Hashable) -> Lit:
        """Whether ``signal`` is at ``place``."""
        if signal not in self._at:
            self._at[signal] = self._spread(signal)
        return self._at[signal].get(place, NO)

    def _spread(self, signal: Hashable) -> dict[Hashable, Lit]:
        value = self._model.value
        arrivals: dict[Hashable, list[tuple[Hashable | None, Lit]]] = {}
        waiting: deque[Hashable] = deque()

        def reach(place: Hashable, start: Hashable | None, given: Lit) -> None:
            if value(given) == NO:
                return
            if place not in arrivals:
                arrivals[place] = []
                waiting.append(place)
            arrivals[place].append((start, given))

        for place, given in self._sources[signal]:
            reach(place, None, given)
        while waiting:
            start = waiting.popleft()
            for end, given in self._edges[start]:
                reach(end, start, given)
        at: dict[Hashable, Lit] = {}
        for place, ways in arrivals.items():
            start, given = ways[0]
            if len(ways) == 1 and (start is None or start in at):
                at[place] = given if start is None else self._model.both(given, at[start])
            else:
                at[place] = self._model.new()
        for place, ways in arrivals.items():
            here = at[place]
            reasons = [given if start is None else self._model.both(given, at[start]) for start, given in ways]
            if reasons == [here]:
                continue
            for reason in reasons:
                self._model.implies(reason, here)
            self._model.clause(-here, *reasons)
        return at
