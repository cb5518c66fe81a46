"""Where sound and notes go in a plan, as directed graphs of jacks, strips and ports, built from the box files alone."""

from collections.abc import Iterator, Sequence
from itertools import product

import networkx as nx

from solver.gear.box import Box
from solver.gear.connections import Connection
from solver.jam.jam import Jam
from solver.plans import Cable, Plan

Node = tuple[str, ...]
"""What it is, the box, the name there, and the side or way."""

MIDI = ("din", "trs", "din > trs-a", "din > trs-b", "usb")


def sides(connection: Connection) -> tuple[str, ...]:
    """The sides of an outlet or inlet."""
    return ("mono",) if connection.mono is not None else ("left", "right")


def lands(pan: str, onto: tuple[str, ...]) -> tuple[str, ...]:
    """A2: the sides of an outlet on which a mono sound is."""
    return onto if pan == "centre" or onto == ("mono",) else (pan,)


def along(start: str, onto: tuple[str, ...]) -> tuple[str, ...]:
    """Where one side goes when left stays left and right stays right; one mono end takes or gives all."""
    return (start,) if start in onto else onto


def sound(jam: Jam, plan: Plan) -> nx.DiGraph:
    """A2 to A6: sides of outlets, jacks, inlets and strips."""
    graph = nx.DiGraph()
    plugged = {end for cable in plan.cables if cable.kind not in MIDI for end in (*ends(cable)[0], *ends(cable)[1])}
    for name, box in jam.boxes.items():
        graph.add_edges_from(_outlets(name, box, plugged))
        graph.add_edges_from(_inlets(name, box, plugged))
        graph.add_edges_from(_strips(name, box, plan))
    for cable in plan.cables:
        if cable.kind not in MIDI:
            halves = [[node for end in one for node in _jack(jam, end)] for one in ends(cable)]
            graph.add_edges_from(zip(*halves, strict=True))
    return graph


def ends(cable: Cable) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The sockets at both ends of a cable."""
    one, other = (end if isinstance(end, tuple) else (end,) for end in (cable.source, cable.to))
    return one, other


def _jack(jam: Jam, end: str) -> Iterator[Node]:
    """The sides on a jack, left before right."""
    name, label = end.split("/", 1)
    for connection in (*jam.boxes[name].outlets, *jam.boxes[name].inlets):
        for side, jack in _jacks(connection):
            if jack == label:
                yield ("jack", name, label, side)


def _jacks(connection: Connection) -> Iterator[tuple[str, str]]:
    """Each side with the label of its jack."""
    for side in sides(connection):
        yield side, connection.stereo or str(getattr(connection, side))


def _outlets(name: str, box: Box, plugged: set[str]) -> Iterator[tuple[Node, Node]]:
    named = {outlet.name: outlet for outlet in box.outlets}
    for outlet in box.outlets:
        for side, jack in _jacks(outlet):
            yield ("out", name, outlet.name, side), ("jack", name, jack, side)
        if outlet.alone == "sum" and f"{name}/{outlet.right}" not in plugged:
            yield ("out", name, outlet.name, "right"), ("jack", name, str(outlet.left), "left")
        if outlet.mirrors is not None:
            for start in sides(named[outlet.mirrors]):
                for end in along(start, sides(outlet)):
                    yield ("out", name, outlet.mirrors, start), ("out", name, outlet.name, end)


def _inlets(name: str, box: Box, plugged: set[str]) -> Iterator[tuple[Node, Node]]:
    for inlet in box.inlets:
        for side, jack in _jacks(inlet):
            yield ("jack", name, jack, side), ("in", name, inlet.name, side)
        if inlet.alone == "copy" and f"{name}/{inlet.right}" not in plugged:
            yield ("jack", name, str(inlet.left), "left"), ("in", name, inlet.name, "right")


def _strips(name: str, box: Box, plan: Plan) -> Iterator[tuple[Node, Node]]:
    """A strip stands at its first outlet and at centre where the plan does not speak of it."""
    named = {outlet.name: outlet for outlet in box.outlets}
    inlets = {inlet.name: inlet for inlet in box.inlets}
    for strip in box.strips:
        inlet, _, side = strip.source.partition("/")
        taken = (side,) if side else sides(inlets[inlet])
        planned = plan.strips.get(f"{name}/{strip.name}")
        first = strip.to[0] if strip.to else box.outlets[0].name
        outlet, pan = (first, "centre") if planned is None else (planned.outlet, planned.pan)
        onto = sides(named[outlet])
        for start in taken:
            yield ("in", name, inlet, start), ("strip", name, strip.name, start)
            for end in along(start, onto) if len(taken) == 2 else lands(pan, onto):
                yield ("strip", name, strip.name, start), ("out", name, outlet, end)


def notes(jam: Jam, plan: Plan) -> nx.DiGraph:
    """M1 and M2: the ways in and out of ports."""
    graph = nx.DiGraph()
    gear = {f"{name}/{port.name}": port for name, box in jam.boxes.items() for port in box.ports}
    for place, port in gear.items():
        graph.add_nodes_from(product([place], ["in", "out"]))
        name = place.split("/", 1)[0]
        for source in (port.copies,) if port.copies is not None else port.repeats:
            graph.add_edge((f"{name}/{source}", "in"), (place, "out"))
    for cable in plan.cables:
        if cable.kind in MIDI:
            one, other = str(cable.source), str(cable.to)
            graph.add_edge((one, "out"), (other, "in"))
            if cable.kind == "usb" and gear[other].way != "in" and gear[one].way in ("in", "both"):
                graph.add_edge((other, "out"), (one, "in"))
    return graph


def boxes(plan: Plan) -> nx.DiGraph:
    """Which box sends sound to which over a cable."""
    graph = nx.DiGraph()
    for cable in plan.cables:
        if cable.kind not in MIDI:
            one, other = ends(cable)
            graph.add_edges_from((a.split("/")[0], b.split("/")[0]) for a, b in product(one, other))
    return graph


def reached(graph: nx.DiGraph, starts: Sequence[Node]) -> set[Node]:
    """The starts and all that can be reached from them."""
    return {*starts, *(node for start in starts if start in graph for node in nx.descendants(graph, start))}
