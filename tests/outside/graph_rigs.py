"""Tables on which planning finds matchings and colourings, each with its graph."""

from itertools import combinations, product
from random import Random
from typing import NamedTuple

import networkx as nx

from solver.jam.jam import Jam
from tests.building import Table, box, jam, named
from tests.outside.tree_rigs import mixing_leader


class Casting(NamedTuple):
    """The sounds of the engines of two boxes, and of each part where it lives and its sound, as far as that is said."""

    engines: tuple[tuple[str, ...], tuple[str, ...]]
    parts: tuple[tuple[str | None, str | None], ...]


def casting(seed: int) -> Casting:
    """Six engines and up to as many parts by chance."""
    dice = Random(seed)
    one, other = (tuple(dice.choice("ab") for _ in range(3)) for _ in range(2))
    parts = tuple(
        (dice.choice((None, None, "desk", "reef", "reef", "reef/1")), dice.choice((None, "a", "b")))
        for _ in range(dice.randint(3, 6))
    )
    return Casting((one, other), parts)


def casting_jam(of: Casting) -> Jam:
    """The desk plays its own engines, and has a track more for each part and a strip for all that reef sounds."""
    own = [named(f"{number}", sound=sound, channels=[]) for number, sound in enumerate(of.engines[0])]
    theirs = [named(f"{number}", sound=sound) for number, sound in enumerate(of.engines[1])]
    tracks = [named(f"PLAY {n}", channels=[], plays=f"{n}") for n in range(len(own))]
    tracks += [named(f"TRACK {n}") for n in range(len(of.parts))]
    desk = box(
        "Desk",
        out=[named("MAIN", left="L", right="R")],
        in_=[named("LINE", mono="IN")],
        strip=[named("IN", from_="LINE")],
        engine=own,
        track=tracks,
        midi=[named("MIDI OUT", way="out")],
    )
    reef = box("Reef", out=[named("OUT", mono="OUT")], engine=theirs, midi=[named("MIDI IN", way="in")])
    stated = {f"p{n}": _said(on=on, sound=sound) for n, (on, sound) in enumerate(of.parts)}
    return jam({"desk": desk, "reef": reef}, stated)


def casting_graph(of: Casting) -> nx.Graph:
    """Which part may live on which engine."""
    graph = nx.Graph()
    graph.add_nodes_from(("part", str(part)) for part in range(len(of.parts)))
    for (part, (on, sound)), (name, sounds) in product(
        enumerate(of.parts), zip(("desk", "reef"), of.engines, strict=True)
    ):
        for number, own in enumerate(sounds):
            if on in (None, name, f"{name}/{number}") and sound in (None, own):
                graph.add_edge(("part", str(part)), (name, str(number)))
    return graph


class Apart(NamedTuple):
    """Parts that are kept separate in pairs, and so many strips."""

    pairs: tuple[tuple[int, int], ...]
    parts: int
    strips: int


def apart_jam(of: Apart) -> Jam:
    """One module with an outlet for each part; what shares an outlet shares a strip."""
    outs = [named(f"OUT {n}", mono=f"OUT {n}") for n in range(of.parts)]
    engines = [named(f"{n}", channel=n + 1, to=[out["name"] for out in outs]) for n in range(of.parts)]
    module = box("Module", out=outs, engine=engines, midi=[named("MIDI IN", way="in")])
    boxes = {"desk": mixing_leader(of.strips, [named("MIDI OUT", way="out")], of.parts), "module": module}
    wishes = [{"separate": [f"p{a}", f"p{b}"]} for a, b in of.pairs]
    return jam(boxes, {f"p{n}": {"on": f"module/{n}"} for n in range(of.parts)}, *wishes)


def fewest_colours(graph: nx.Graph) -> int:
    """The chromatic number: the fewest largest independent sets that have every vertex."""
    independent = list(nx.find_cliques(nx.complement(graph)))
    sizes = range(1, len(graph) + 1)
    return next(n for n in sizes if any(set(graph) == set().union(*some) for some in combinations(independent, n)))


class Wanting(NamedTuple):
    """The effects that each part wants, and those that each strip offers."""

    parts: tuple[frozenset[str], ...]
    strips: tuple[frozenset[str], ...]


def wanting(seed: int) -> Wanting:
    """Four parts and four or five strips by chance."""
    dice = Random(seed)
    effects = ("reverb", "warmth", "echo")
    parts = tuple(frozenset(dice.sample(effects, dice.randint(0, 2))) for _ in range(4))
    strips = tuple(frozenset(dice.sample(effects, dice.randint(0, 3))) for _ in range(dice.choice((4, 5))))
    return Wanting(parts, strips)


def wanting_jam(of: Wanting) -> Jam:
    """Each part comes on a jack of its own, wants a strip of its own, and its effects there."""
    count = len(of.parts)
    outs = [named(f"OUT {n}", mono=f"OUT {n}") for n in range(count)]
    engines = [named(f"{n}", channel=n + 1, to=[f"OUT {n}"]) for n in range(count)]
    module = box("Module", out=outs, engine=engines, midi=[named("MIDI IN", way="in")])
    desk = mixing_leader(
        len(of.strips), [named("MIDI OUT", way="out")], count, [sorted(offers) for offers in of.strips]
    )
    names = [f"p{n}" for n in range(count)]
    treats = [
        {"treat": [name], "with": dict.fromkeys(sorted(wants), 10 * place + 10)}
        for place, (name, wants) in enumerate(zip(names, of.parts, strict=True))
        if wants
    ]
    homes = {name: {"on": f"module/{n}"} for n, name in enumerate(names)}
    return jam({"desk": desk, "module": module}, homes, {"separate": names}, *treats)


def wanting_graph(of: Wanting) -> nx.Graph:
    """Which part may come over which strip."""
    graph = nx.Graph()
    graph.add_nodes_from(("part", part) for part in range(len(of.parts)))
    for (part, wants), (strip, offers) in product(enumerate(of.parts), enumerate(of.strips)):
        if wants <= offers:
            graph.add_edge(("part", part), ("strip", strip))
    return graph


def saturates(graph: nx.Graph) -> bool:
    """Whether a matching has every part."""
    parts = [node for node in graph if node[0] == "part"]
    return len(nx.bipartite.maximum_matching(graph, top_nodes=parts)) == 2 * len(parts)


def _said(**keys: str | None) -> Table:
    return {key: value for key, value in keys.items() if value is not None}
