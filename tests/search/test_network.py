"""What a network carries is what can be reached (networkx 3, descendants: a reference library)."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from solver.search.model import NO, YES, Model
from solver.search.network import Network
from tests.search.test_model import assignments, fits, holds

PLACES = st.integers(0, 4)


@given(
    st.lists(st.tuples(PLACES, PLACES).filter(lambda ends: ends[0] < ends[1]), unique=True, max_size=6),
    st.lists(PLACES, unique=True, min_size=1, max_size=2),
)
def test_a_signal_is_where_it_can_be_reached_and_nowhere_else(edges: list[tuple[int, int]], sources: list[int]) -> None:
    model, network = Model(), None
    network = Network(model)
    given_by = {edge: model.new() for edge in edges}
    for source in sources:
        network.source("sound", source, YES)
    for (start, end), lit in given_by.items():
        network.edge(start, end, lit)
    at = {place: network.present("sound", place) for place in range(5)}
    tried = 0
    for values in assignments(model):
        if fits(model, values):
            tried += 1
            graph = nx.DiGraph([edge for edge, lit in given_by.items() if values[lit]])
            graph.add_nodes_from(range(5))
            reached = set(sources).union(*(nx.descendants(graph, source) for source in sources))
            assert {place for place, lit in at.items() if holds(lit, values)} == reached
    assert tried == 2 ** len(edges)


def test_a_place_that_no_edge_leads_to_costs_nothing() -> None:
    model = Model()
    network = Network(model)
    network.source("sound", "here", YES)
    network.edge("here", "there", NO)
    before = model.count
    assert network.present("sound", "there") == NO
    assert network.present("sound", "here") == YES
    assert model.count == before
