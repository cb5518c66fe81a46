"""Parts that are kept apart form a graph, and the fewest strips are its chromatic number."""

from collections.abc import Iterator
from functools import cache
from itertools import combinations
from math import comb
from typing import NamedTuple

import networkx as nx

from solver.jam.jam import Jam
from tests.building import Table, jam
from tests.outside.checks import check
from tests.outside.planning import best, cables, desk, module


class Coloured(NamedTuple):
    """A graph, and how many colours it needs."""

    graph: nx.Graph
    colours: int


def rig(graph: nx.Graph, strips: int) -> Jam:
    """A jam that can be had just where the graph has a colouring with so many colours.

    Each node is a part on an engine of its own, each edge a wish that two parts are separate. Parts of one colour leave
    by one outlet and share a strip. All parts are one layer, so that one channel does.
    """
    names = {node: f"part {number}" for number, node in enumerate(graph, 1)}
    parts: dict[str, Table] = {name: {"on": f"reef/{number}"} for number, name in enumerate(names.values(), 1)}
    apart = [{"separate": [names[one], names[other]]} for one, other in graph.edges]
    return jam({"dock": desk(strips), "reef": module(len(parts), strips)}, parts, {"layer": list(parts)}, *apart)


@cache
def strips_needed(graph: nx.Graph, strips: int) -> int | None:
    """How many strips, and so how many audio cables, the best plan takes; None where so many do not suffice."""
    found = cables(rig(graph, strips))
    return None if found is None else found - 1  # the other cable brings the notes


def as_many_strips_and_not_one_fewer(of: Coloured) -> None:
    assert strips_needed(of.graph, of.colours) == of.colours
    assert strips_needed(of.graph, of.colours - 1) is None


def queens(files: int) -> nx.Graph:
    """The squares of a board; two are joined where a queen moves from one to the other."""
    squares = [(row, column) for row in range(files) for column in range(files)]

    def moves() -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
        for one, other in combinations(squares, 2):
            down, along = abs(one[0] - other[0]), abs(one[1] - other[1])
            if 0 in (down, along) or down == along:
                yield one, other

    return nx.Graph(moves())


PETERSEN = nx.petersen_graph()
C5, C7 = nx.cycle_graph(5), nx.cycle_graph(7)


def joined(one: nx.Graph, other: nx.Graph) -> nx.Graph:
    """Both graphs, and every node of one joined to every node of the other."""
    return nx.full_join(one, other, rename=("a", "b"))


@check(
    "n parts, each separate from every other, need n strips",
    source="Chromatic number of the complete graph, by definition",
    kind="theorem",
    right={f"K{n}": Coloured(nx.complete_graph(n), n) for n in (2, 3, 5, 8)},
    wrong=Coloured(nx.complete_graph(5), 6),
)
def test_complete_graphs(of: Coloured) -> None:
    as_many_strips_and_not_one_fewer(of)


@check(
    "Parts in a ring, each separate from the next, need 2 strips if their number is even and 3 if it is odd",
    source="König 1936: two colours suffice just where no cycle is odd (from memory)",
    kind="theorem",
    right={f"C{n}": Coloured(nx.cycle_graph(n), 2 + n % 2) for n in (4, 5, 8, 9)},
    wrong=Coloured(C5, 2),
)
def test_rings(of: Coloured) -> None:
    as_many_strips_and_not_one_fewer(of)


@check(
    "Wheels, the crown and the grid need 3 or 4, 2 and 2 strips",
    source="König 1936 for the bipartite ones; a hub adds a colour to its rim (joins add chromatic numbers)",
    kind="theorem",
    right={
        "wheel with a rim of 5": Coloured(nx.wheel_graph(6), 4),
        "wheel with a rim of 6": Coloured(nx.wheel_graph(7), 3),
        "crown of 2 x 5": Coloured(nx.Graph((i, j + 5) for i in range(5) for j in range(5) if i != j), 2),
        "grid of 3 x 4": Coloured(nx.grid_2d_graph(3, 4), 2),
    },
    wrong=Coloured(nx.wheel_graph(6), 3),
)
def test_wheels_crowns_and_grids(of: Coloured) -> None:
    as_many_strips_and_not_one_fewer(of)


@check(
    "Triangle-free graphs need as many strips as one likes: each Mycielski step adds one",
    source="Mycielski 1955, and networkx's documentation of mycielski_graph",
    kind="theorem",
    right={f"Mycielski {k}": Coloured(nx.mycielski_graph(k), k) for k in (3, 4, 5)},
    wrong=Coloured(nx.mycielski_graph(4), 3),
)
def test_mycielski_graphs(of: Coloured) -> None:
    as_many_strips_and_not_one_fewer(of)


@check(
    "The Kneser graph K(n, k) needs n - 2k + 2 strips; K(5, 2) is the Petersen graph",
    source="Lovász 1978, Journal of Combinatorial Theory A 25 (read in two abstracts; page from memory)",
    kind="theorem",
    right={
        "Petersen": Coloured(PETERSEN, 3),
        **{f"K({n}, {k})": Coloured(nx.kneser_graph(n, k), n - 2 * k + 2) for n, k in ((6, 2), (7, 2), (7, 3))},
    },
    wrong=Coloured(PETERSEN, 4),
)
def test_kneser_graphs(of: Coloured) -> None:
    as_many_strips_and_not_one_fewer(of)


@check(
    "Of the parts of K(n, k), C(n - 1, k - 1) stay at their first outlet: the most that can share a strip",
    source="Erdős, Ko and Rado 1961: the largest intersecting family for n >= 2k (from memory)",
    kind="theorem",
    right={f"K({n}, {k})": (n, k, comb(n, k) - comb(n - 1, k - 1)) for n, k in ((5, 2), (6, 2), (7, 3))},
    wrong=(5, 2, 5),
)
def test_the_largest_colour_stays_where_it_stands(of: tuple[int, int, int]) -> None:
    n, k, moved = of
    plan = best(rig(nx.kneser_graph(n, k), n - 2 * k + 2))
    assert plan is not None and plan.goals is not None
    assert plan.goals.settings_moved == moved


@check(
    "Parts on the squares of a board, separate where a queen moves, need 5 strips on 4 x 4 and on 5 x 5",
    source="OEIS A088202 (read)",
    kind="published",
    right={"4 x 4": Coloured(queens(4), 5), "5 x 5": Coloured(queens(5), 5)},
    wrong=Coloured(queens(4), 4),
)
def test_queens(of: Coloured) -> None:
    as_many_strips_and_not_one_fewer(of)


@check(
    "Graphs whose cliques are smaller than the number of strips they need",
    source="Textbook values, each found again by exact search (computed)",
    kind="theorem",
    right={
        "Chvátal": Coloured(nx.chvatal_graph(), 4),
        "icosahedron": Coloured(nx.icosahedral_graph(), 4),
        "dodecahedron": Coloured(nx.dodecahedral_graph(), 3),
        "complement of C7": Coloured(nx.complement(C7), 4),
        "Paley 13": Coloured(nx.Graph(nx.paley_graph(13)), 5),
        "C5 with each node doubled": Coloured(nx.lexicographic_product(C5, nx.complete_graph(2)), 5),
        "sudoku of 4 x 4": Coloured(nx.sudoku_graph(2), 4),
    },
    wrong=Coloured(nx.chvatal_graph(), 3),
)
def test_gaps_between_cliques_and_colours(of: Coloured) -> None:
    as_many_strips_and_not_one_fewer(of)


@check(
    "A ring of five joined to 13 parts that are all separate fills 16 strips, though no 16 are all separate",
    source="Chromatic numbers add when graphs are joined: 3 + 13",
    kind="theorem",
    right={"C5 and K13": Coloured(joined(C5, nx.complete_graph(13)), 16)},
    wrong=Coloured(joined(C5, nx.complete_graph(13)), 15),
)
def test_joined_graphs(of: Coloured) -> None:
    as_many_strips_and_not_one_fewer(of)


@check(
    "Four strips do where the wishes to be separate can be drawn without crossing",
    source="Appel and Haken 1977, the four colour theorem (from memory)",
    kind="theorem",
    right={
        "octahedron": (nx.octahedral_graph(), 4),
        "icosahedron": (nx.icosahedral_graph(), 4),
        "wheel": (nx.wheel_graph(8), 4),
    },
    wrong=(nx.complete_graph(5), 4),
)
def test_four_colours(of: tuple[nx.Graph, int]) -> None:
    graph, strips = of
    found = strips_needed(graph, strips)
    assert found is not None and found <= strips


@check(
    "As many strips do as a part has others to be separate from, unless all are separate or form an odd ring",
    source="Brooks 1941 (from memory)",
    kind="theorem",
    right={f"cubic, seed {seed}": (nx.random_regular_graph(3, 12, seed=seed), 3) for seed in (1, 2, 3)},
    wrong=(nx.complete_graph(4), 3),
)
def test_as_many_strips_as_neighbours(of: tuple[nx.Graph, int]) -> None:
    graph, strips = of
    assert max(degree for _, degree in graph.degree) == 3
    assert strips_needed(graph, strips) is not None
