"""What is planned, against graphs on which the answer is known: trees, matchings, colourings."""

from typing import NamedTuple

import networkx as nx

import solver
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned
from solver.plans import Plan
from tests.outside import graph_rigs as rigs
from tests.outside import tree_rigs as trees
from tests.outside.checks import check


class Seeds(NamedTuple):
    """Tables of these seeds are planned, and graphs are made of those."""

    planned: range
    drawn: range


def _same(first: int, count: int) -> Seeds:
    return Seeds(range(first, first + count), range(first, first + count))


def _plan(jam: Jam) -> Plan | None:
    outcome = solver.plan(jam, time_limit=None)
    assert isinstance(outcome, Planned | Impossible)
    return outcome.best if isinstance(outcome, Planned) else None


@check(
    "Where each box has thrus enough, the fewest MIDI cables to all boxes weigh what the lightest arborescence does",
    source="networkx, minimum_spanning_arborescence (J. Edmonds, Optimum branchings, J. Res. NBS 71B, 1967)",
    kind="reference library",
    right={"twelve tables": _same(17, 12), "twelve more": _same(29, 12)},
    wrong=Seeds(range(17, 23), range(18, 24)),
)
def test_fewest_cables_to_all_boxes(value: Seeds) -> None:
    plans = [_plan(trees.tree_jam(trees.tree(seed))) for seed in value.planned]
    weights = [_lightest(trees.tree_graph(trees.tree(seed))) for seed in value.drawn]
    assert [plan and len(plan.cables) for plan in plans] == weights
    assert any(
        weight and weight > len(trees.tree(seed).boxes) for seed, weight in zip(value.drawn, weights, strict=True)
    )


def _lightest(graph: nx.DiGraph) -> int | None:
    """The weight of the lightest arborescence; None where some box cannot be reached."""
    try:
        return int(nx.minimum_spanning_arborescence(graph).size(weight="weight"))
    except nx.NetworkXException:
        return None


class Boxes(NamedTuple):
    """A table on which every cable fits, and how many edges the tree to its boxes has."""

    table: trees.Tree
    edges: int


def _alike(count: int) -> trees.Tree:
    return trees.Tree("din", (("din", "din"),) * count)


@check(
    "With outs and thrus enough, the MIDI cables of a plan are an arborescence to m boxes with m edges",
    source="networkx, is_arborescence",
    kind="reference library",
    right={f"{count} boxes": Boxes(_alike(count), count) for count in (1, 2, 3, 5, 8)},
    wrong=Boxes(_alike(3), 2),
)
def test_a_tree_to_all_boxes(value: Boxes) -> None:
    plan = _plan(trees.tree_jam(value.table))
    assert plan is not None
    graph = nx.DiGraph()
    graph.add_edges_from((str(cable.source).split("/")[0], str(cable.to).split("/")[0]) for cable in plan.cables)
    assert nx.is_arborescence(graph) and len(graph) == len(value.table.boxes) + 1
    assert graph.number_of_edges() == len(plan.cables) == value.edges


MATCHING = "networkx, bipartite.maximum_matching (P. Hall, On representatives of subsets, 1935)"


@check(
    "Parts that ask for boxes and sounds find engines just where a matching has every part",
    source=MATCHING,
    kind="reference library",
    right={"thirty tables": _same(0, 30), "thirty more": _same(30, 30)},
    wrong=Seeds(range(0, 30), range(1, 31)),
)
def test_parts_find_engines(value: Seeds) -> None:
    told = [_plan(rigs.casting_jam(rigs.casting(seed))) is not None for seed in value.planned]
    assert told == [rigs.saturates(rigs.casting_graph(rigs.casting(seed))) for seed in value.drawn]
    assert set(told) == {False, True}


@check(
    "Separate parts that want effects find strips just where a matching of parts and strips has every part",
    source=MATCHING,
    kind="reference library",
    right={"twenty tables": _same(0, 20), "twenty more": _same(20, 20)},
    wrong=Seeds(range(0, 20), range(1, 21)),
)
def test_parts_find_strips(value: Seeds) -> None:
    told = [_plan(rigs.wanting_jam(rigs.wanting(seed))) is not None for seed in value.planned]
    assert told == [rigs.saturates(rigs.wanting_graph(rigs.wanting(seed))) for seed in value.drawn]
    assert set(told) == {False, True}


class Colours(NamedTuple):
    """A graph of parts that are kept separate, and one whose chromatic number is asked."""

    parts: nx.Graph
    coloured: nx.Graph


def _by_chance(order: int, seed: int) -> Colours:
    graph = nx.gnp_random_graph(order, 0.5, seed=seed)
    return Colours(graph, graph)


@check(
    "Parts that are kept separate in pairs by chance take as many audio cables and strips as their graph has colours",
    source="networkx, find_cliques of the complement (the fewest independent sets that have every vertex)",
    kind="reference library",
    right={f"{order} parts, seed {seed}": _by_chance(order, seed) for order in (5, 6, 7) for seed in range(4)},
    wrong=Colours(nx.cycle_graph(6), nx.cycle_graph(5)),
)
def test_fewest_strips(value: Colours) -> None:
    colours, parts = rigs.fewest_colours(value.coloured), len(value.parts)
    for strips in (parts, colours):
        plan = _plan(rigs.apart_jam(rigs.Apart(tuple(value.parts.edges), parts, strips)))
        assert plan is not None and len(plan.cables) == colours + 1
    assert _plan(rigs.apart_jam(rigs.Apart(tuple(value.parts.edges), parts, colours - 1))) is None
