"""What the model folds away changes nothing: every test compares with all values tried one by one."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import product

import networkx as nx
from hypothesis import example, given
from hypothesis import strategies as st

from solver.search.model import NO, YES, Lit, Model
from solver.search.pieces import ContradictionError, Piece, settle, split

OPEN = 4
lits = st.builds(lambda n, sign: n * sign, st.integers(2, OPEN + 1), st.sampled_from((1, -1))) | st.sampled_from(
    (YES, NO)
)
Values = Mapping[int, bool]


rises = st.tuples(st.sampled_from("abc"), st.sampled_from("abc"), lits)


def holds(lit: Lit, values: Values) -> bool:
    return (values[lit] if lit > 0 else not values[-lit]) if abs(lit) != YES else lit == YES


def fits(model: Model, values: Values) -> bool:
    """Whether values meet every constraint of a model, read as it stands."""
    return (
        all(holds(lit, values) for lit in model.settled)
        and all(any(holds(lit, values) for lit in clause) for clause in model.clauses)
        and all(sum(holds(lit, values) for lit in group) <= 1 for group in model.at_most_ones)
        and all(low <= sum(holds(lit, values) for lit in listed) <= high for listed, low, high in model.sums)
        and ends(model.rises, values)
    )


def ends(chain: Iterable[tuple[str, str, Lit]], values: Values) -> bool:
    """Whether no chain of rises closes (networkx 3, is_directed_acyclic_graph: a reference library)."""
    graph = nx.DiGraph([(low, high) for low, high, lit in chain if holds(lit, values)])
    return bool(nx.is_directed_acyclic_graph(graph))


def assignments(model: Model) -> Iterator[dict[int, bool]]:
    for values in product((False, True), repeat=model.count - 1):
        yield dict(zip(range(2, model.count + 1), values, strict=True))


def solutions(model: Model) -> set[tuple[bool, ...]]:
    """The values of the first choices in all that meet the model."""
    return {tuple(v[n] for n in range(2, OPEN + 2)) for v in assignments(model) if fits(model, v)}


def opened() -> Model:
    model = Model()
    for _ in range(OPEN):
        model.new()
    return model


def wanted(test: Callable[[Values], bool]) -> set[tuple[bool, ...]]:
    every = product((False, True), repeat=OPEN)
    return {values for values in every if test(dict(zip(range(2, OPEN + 2), values, strict=True)))}


@given(st.lists(st.lists(lits, max_size=4), max_size=5))
def test_clauses_hold_one_of_their_literals(clauses: list[list[Lit]]) -> None:
    model = opened()
    for clause in clauses:
        model.clause(*clause)
    assert solutions(model) == wanted(lambda v: all(any(holds(lit, v) for lit in clause) for clause in clauses))


@given(st.lists(lits, max_size=4), st.lists(lits, max_size=3), st.lists(lits, max_size=3))
def test_both_and_either_are_exact(first: list[Lit], second: list[Lit], clause: list[Lit]) -> None:
    model = opened()
    model.clause(*clause)
    model.require(model.both(model.either(first), -model.both(*second)))
    assert solutions(model) == wanted(
        lambda v: (
            any(holds(lit, v) for lit in clause)
            and any(holds(lit, v) for lit in first)
            and not all(holds(lit, v) for lit in second)
        )
    )


@example([2, YES, 2, -2], [], 3)
@given(st.lists(lits, max_size=4), st.lists(lits, max_size=4), st.integers(0, 3))
def test_counts_are_kept(group: list[Lit], counted: list[Lit], limit: int) -> None:
    model = opened()
    model.at_most_one(group)
    model.at_most(limit, counted)
    assert solutions(model) == wanted(
        lambda v: sum(holds(lit, v) for lit in group) <= 1 and sum(holds(lit, v) for lit in counted) <= limit
    )


@given(st.lists(st.integers(2, OPEN + 1), unique=True, max_size=3), st.integers(0, 3))
def test_what_is_left_of_a_total_is_counted_first_things_first(listed: list[int], total: int) -> None:
    model = opened()
    rest = model.counted(listed, total)
    for values in assignments(model):
        if fits(model, values):
            left = total - sum(values[n] for n in listed)
            assert [holds(lit, values) for lit in rest] == [place < left for place in range(total)]


def piece_fits(piece: Piece, values: Values) -> bool:
    return (
        all(any(holds(lit, values) for lit in clause) for clause in piece.clauses)
        and all(sum(holds(lit, values) for lit in group) <= 1 for group in piece.at_most_ones)
        and all(low <= sum(holds(lit, values) for lit in listed) <= high for listed, low, high in piece.sums)
        and ends(piece.rises, values)
    )


def together(model: Model, pieces: Sequence[Piece]) -> set[tuple[bool, ...]]:
    """All values that meet what is settled and every piece, by the choices that are in either."""
    known = sorted({abs(lit) for lit in model.settled} - {YES} | {n for piece in pieces for n in piece.choices})
    found = set()
    for values in assignments(model):
        if all(holds(lit, values) for lit in model.settled) and all(piece_fits(piece, values) for piece in pieces):
            found.add(tuple(values[n] for n in known))
    return found


@given(
    st.lists(st.lists(lits, max_size=3), max_size=5),
    st.lists(st.lists(lits, max_size=3), max_size=2),
    st.lists(st.tuples(st.lists(lits, max_size=4), st.integers(0, 2)), max_size=2),
    st.lists(rises, max_size=4),
)
def test_pieces_share_no_choice_and_mean_what_the_model_means(
    clauses: list[list[Lit]],
    groups: list[list[Lit]],
    counts: list[tuple[list[Lit], int]],
    chain: list[tuple[str, str, Lit]],
) -> None:
    model = opened()
    for clause in clauses:
        model.clause(*clause)
    for group in groups:
        model.at_most_one(group)
    for counted, limit in counts:
        model.at_most(limit, counted)
    for low, high, lit in chain:
        model.rise(low, high, lit)
    before = [values for values in assignments(model) if fits(model, values)]
    try:
        settle(model)
        pieces = split(model, [2, -3])
    except ContradictionError:
        assert not before
        return
    owned = [n for piece in pieces for n in piece.choices]
    assert len(owned) == len(set(owned))
    assert set(owned).isdisjoint(abs(lit) for lit in model.settled)
    known = sorted({abs(lit) for lit in model.settled} - {YES} | set(owned))
    assert together(model, pieces) == {tuple(values[n] for n in known) for values in before}
    assert {2, 3} <= set(known)


def test_rises_that_cannot_close_a_chain_tie_nothing() -> None:
    model = opened()
    model.rise("a", "b", 2)
    model.rise("b", "c", 3)
    model.rise("c", "b", 4)
    settle(model)
    pieces = split(model, [2, 3, 4])
    assert [piece.choices for piece in pieces] == [[2], [3, 4]]
    assert [len(piece.rises) for piece in pieces] == [0, 2]


def test_what_cannot_hold_beside_what_holds_is_settled() -> None:
    model = opened()
    model.require(2)
    model.at_most_one([2, 3, 4])
    assert [model.value(lit) for lit in (2, 3, 4, 5)] == [YES, NO, NO, 5]


def test_the_first_literals_count_what_is_left() -> None:
    model = opened()
    first, second, third = model.counted([2, 3], 3)
    model.require(-2)
    model.require(3)
    held = [[holds(lit, v) for lit in (first, second, third)] for v in assignments(model) if fits(model, v)]
    assert held
    assert all(one == [True, True, False] for one in held)
