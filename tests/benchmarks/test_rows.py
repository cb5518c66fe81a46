"""The rows of the mixed-integer program say what the clauses say."""

from itertools import product

from benchmarks.highs import rows
from tests.twin.clauses import Clauses


def _meets(values: tuple[int, ...], clauses: Clauses) -> bool:
    program = rows(clauses)
    return all(
        least <= sum(weight * values[column] for column, weight in weights.items()) <= most
        for weights, least, most in program.rows
    )


def test_a_clause_and_a_count_become_one_row_each() -> None:
    clauses = Clauses()
    one, two, three = clauses.new(), clauses.new(), clauses.new()
    clauses.clause(one, -two)
    clauses.between(1, 2, (one, two, -three))
    for values in product((0, 1), repeat=3):
        first, second, third = values
        holds = bool(first or not second) and 1 <= first + second + (1 - third) <= 2
        assert _meets((1, *values), clauses) == holds


def test_a_rise_binds_only_where_it_is_given() -> None:
    clauses = Clauses()
    clauses.rise("low", "high", clauses.new())
    assert _meets((1, 1, 0, 1), clauses)
    assert not _meets((1, 1, 1, 1), clauses)
    assert _meets((1, 0, 2, 0), clauses)
