"""Tables on which planning finds the fewest MIDI cables that reach all boxes, each with its graph."""

from collections.abc import Iterable
from itertools import product
from random import Random
from typing import NamedTuple

import networkx as nx

from solver.gear.box import Box
from solver.jam.jam import Jam
from tests.building import Table, box, jam, named

FITS = {frozenset(pair) for pair in (("din", "trs-a"), ("din", "trs-b"), ("usb-device", "usb-host"))}
FITS |= {frozenset({plug}) for plug in ("din", "trs-a", "trs-b")}
"""Which plugs of MIDI sockets a cable joins."""


FAMILIES = (
    (("din", "trs-a", "trs-b"), ("din", "trs-a", "trs-b"), (("din", "din"),)),
    (("din", "usb-device"), ("din", "usb-host"), (("din", "usb-host"), ("usb-device", "din"))),
)
"""Plugs that go well together: of ins, of thrus, and of the in and thru of a turner."""


class Tree(NamedTuple):
    """Boxes that need the clock, each with the plugs of its in and of its many thrus; a leader with many outs.

    ``turners`` have one thru each, mostly of another plug than their in, and need nothing themselves.
    """

    outs: str
    boxes: tuple[tuple[str, str], ...]
    turners: tuple[tuple[str, str], ...] = ()


def tree(seed: int) -> Tree:
    """A table by chance; there are as many turners, all alike, as there are boxes."""
    dice = Random(seed)
    ins, thrus, turners = dice.choice(FAMILIES)
    boxes = tuple((dice.choice(ins), dice.choice(thrus)) for _ in range(dice.randint(2, 4)))
    kind = dice.choice(turners)
    return Tree(dice.choice(thrus), boxes, (kind,) * len(boxes))


def tree_jam(of: Tree) -> Jam:
    """The clock is to reach every box; the only part is played inside the leader."""
    many = len(of.boxes) + 1
    ports = [named(f"OUT {n}", way="out", plug=of.outs, clock=True) for n in range(many)]
    boxes = {"clock": mixing_leader(0, ports)}
    for number, (into, thru) in enumerate(of.boxes):
        boxes[f"b{number}"] = box("Box", midi=_through(into, thru, many))
    for number, (into, thru) in enumerate(of.turners):
        boxes[f"t{number}"] = box("Turner", midi=_through(into, thru, 1))
    return jam(boxes, {"kick": {"on": "clock/PAD 0"}}, {"clock": [name for name in boxes if name[0] == "b"]})


def tree_graph(of: Tree) -> nx.DiGraph:
    """Boxes, and how many cables lead from one to the next: one where it fits, two over a turner."""
    graph = nx.DiGraph()
    graph.add_nodes_from(range(-1, len(of.boxes)))
    for one, (other, (into, _)) in product(range(-1, len(of.boxes)), enumerate(of.boxes)):
        sends = of.outs if one < 0 else of.boxes[one][1]
        if one == other:
            continue
        if frozenset({sends, into}) in FITS:
            graph.add_edge(one, other, weight=1)
        elif any(frozenset({sends, a}) in FITS and frozenset({b, into}) in FITS for a, b in of.turners):
            graph.add_edge(one, other, weight=2)
    return graph


def mixing_leader(strips: int, ports: Iterable[Table], tracks: int = 0, offers: list[list[str]] | None = None) -> Box:
    """A leader with an engine of its own, mono strips, and tracks."""
    return box(
        "Desk",
        out=[named("MAIN", left="L", right="R")],
        in_=[named(f"LINE {n}", mono=f"IN {n}") for n in range(strips)],
        strip=[named(f"IN {n}", from_=f"LINE {n}", offers=offers[n] if offers else []) for n in range(strips)],
        engine=[named("PAD 0", channels=[])],
        track=[named("PADS", channels=[], plays="PAD 0"), *(named(f"T{n}", channel=n + 1) for n in range(tracks))],
        midi=ports,
    )


def _through(into: str, thru: str, count: int) -> list[Table]:
    thrus = [named(f"THRU {n}", way="thru", plug=thru, copies="IN", clock=True) for n in range(count)]
    return [named("IN", way="in", plug=into, clock=True), *thrus]
