"""Which side leads to which: cables with what a lone jack sums or copies, mirrors, and strips."""

from collections.abc import Iterable, Sequence
from itertools import product
from typing import NamedTuple

from solver.gear.rig import Emission, Rig
from solver.gear.words import Pan, Side, Spot
from tests.enumeration.plugging import Lead

Node = tuple[str, Spot, Side]
"""One side of an outlet ("out") or inlet ("in")."""
Edges = list[tuple[Node, Node]]


class Stand(NamedTuple):
    """Where an engine or strip sends; no outlet where its box has none."""

    outlet: Spot | None
    pan: Pan
    moved: int


class Wiring:
    """The sides of one table, and the edges between them."""

    def __init__(self, rig: Rig) -> None:
        self._rig = rig
        self._feeds: dict[Spot, list[Node]] = {}

    def stands(self, emitter: Emission, pans: bool = False) -> list[Stand]:
        """Everywhere an engine or strip can send.

        On a mono outlet the pan changes nothing, so it stays at centre unless every pan is asked for.
        """
        ways = self._rig.ways_out(emitter)
        if not ways:
            return [Stand(None, "centre", 0)]
        fixed = self._rig.emitters[emitter].pan == "fixed" or (emitter.of == "strip" and self.wide(emitter.spot))
        every: tuple[Pan, ...] = ("centre",) if fixed else ("centre", "left", "right")
        return [
            Stand(outlet, pan, int(outlet != ways[0]) + int(pan != "centre"))
            for outlet in ways
            for pan in every
            if pan == "centre" or pans or self._rig.outlets[outlet].sides != ("mono",)
        ]

    def wide(self, strip: Spot) -> bool:
        """Whether a strip keeps two sides apart."""
        return len(self.feed(strip)) == 2

    def feed(self, strip: Spot) -> list[Node]:
        """The sides that a strip takes."""
        if strip not in self._feeds:
            inlet, sides = self._rig.feed(strip)
            self._feeds[strip] = [("in", inlet, side) for side in sides]
        return self._feeds[strip]

    def mirrors(self) -> Edges:
        """From every outlet to those that mirror it."""
        edges: Edges = []
        for spot, outlet in self._rig.outlets.items():
            if outlet.mirrors is not None:
                edges.extend(self._beside("out", Spot(spot.box, outlet.mirrors), spot))
        return edges

    def _beside(self, way: str, one: Spot, outlet: Spot) -> Edges:
        """From each side to the same side of an outlet; a mono outlet takes both, a mono source gives to both."""
        sides = (self._rig.outlets if way == "out" else self._rig.inlets)[one].sides
        onto = self._rig.outlets[outlet].sides
        pairs = product(sides, onto)
        return [((way, one, a), ("out", outlet, b)) for a, b in pairs if a == b or "mono" in (a, b)]

    def plugged(self, leads: Sequence[Lead]) -> Edges:
        """What cables carry, with what a lone left jack sums or copies."""
        taken = {socket for lead in leads for socket in lead.sockets}
        edges: Edges = []
        for lead in leads:
            for start, end in zip(self._plugs(lead.start), self._plugs(lead.end), strict=True):
                edges.append((start, end))
                outlet = self._rig.outlets[start[1]]
                if outlet.alone == "sum" and start[2] == "left" and Spot(start[1].box, str(outlet.right)) not in taken:
                    edges.append((("out", start[1], "right"), end))
                inlet = self._rig.inlets[end[1]]
                if inlet.alone == "copy" and end[2] == "left" and Spot(end[1].box, str(inlet.right)) not in taken:
                    edges.append((start, ("in", end[1], "right")))
                    edges.append((end, ("in", end[1], "right")))
        return edges

    def _plugs(self, ends: tuple[Spot, ...]) -> list[Node]:
        """The sides at one end of a cable, left first."""
        sockets = [self._rig.jacks[spot] for spot in ends]
        return [("out" if s.sends else "in", s.connection, side) for s in sockets for side in s.jack.sides]

    def strip(self, strip: Spot, stand: Stand) -> Edges:
        """From what a strip takes to where it sends."""
        if stand.outlet is None:
            return []
        inlet, sides = self._rig.feed(strip)
        if len(sides) == 2:
            return self._beside("in", inlet, stand.outlet)
        return [(("in", inlet, sides[0]), node) for node in self.sides_at(stand)]

    def sides_at(self, stand: Stand) -> list[Node]:
        """The sides that a mono sound falls on."""
        if stand.outlet is None:
            return []
        sides = self._rig.outlets[stand.outlet].sides
        return [("out", stand.outlet, s) for s in sides if stand.pan == "centre" or s in ("mono", stand.pan)]


class Flow:
    """Follows sound along edges."""

    def __init__(self, edges: Edges) -> None:
        self._onward: dict[Node, list[Node]] = {}
        for start, end in edges:
            self._onward.setdefault(start, []).append(end)
        self._after: dict[Node, set[Node]] = {}
        self.entered: dict[Stand, tuple[Spot, ...] | None] = {}
        """The strips that a mono part enters from where it goes, as far as that is known; None where it may not."""

    def after(self, starts: Iterable[Node]) -> set[Node]:
        """The starts and every side that they lead to."""
        return set().union(*(self._from(start) for start in starts))

    def _from(self, start: Node) -> set[Node]:
        if start not in self._after:
            found, waiting = {start}, [start]
            while waiting:
                for node in self._onward.get(waiting.pop(), ()):
                    if node not in found:
                        found.add(node)
                        waiting.append(node)
            self._after[start] = found
        return self._after[start]
