"""Writes what a jam asks for as a formula in conjunctive normal form, for the solvers of PySAT."""

from itertools import product

from pysat.card import CardEnc, EncType
from pysat.examples.rc2 import RC2
from pysat.formula import CNF, WCNF, IDPool
from pysat.solvers import Solver

from solver.jam.jam import Jam
from tests.twin.clauses import Clauses
from tests.twin.plain import asked


def has_plan(jam: Jam) -> bool:
    """Whether the formula of a jam can be satisfied."""
    with Solver(name="cadical153", bootstrap_with=formula(asked(jam).clauses)) as sat:
        return bool(sat.solve())


def formula(clauses: Clauses) -> CNF:
    """The same clauses, with counts written by sequential counters, and rises as an order that is transitive."""
    made, pool = CNF(from_clauses=clauses.clauses), IDPool(start_from=clauses.count + 1)
    for lits, least, most in clauses.sums:
        if most < len(lits):
            made.extend(CardEnc.atmost(list(lits), bound=most, vpool=pool, encoding=EncType.seqcounter).clauses)
        if least > len(lits):
            made.append([])
        elif least > 0:
            made.extend(CardEnc.atleast(list(lits), bound=least, vpool=pool, encoding=EncType.seqcounter).clauses)
    points = list(dict.fromkeys(point for lower, upper, _ in clauses.rises for point in (lower, upper)))
    below = {pair: pool.id(("below", *pair)) for pair in product(points, repeat=2)}
    made.extend([-below[point, point]] for point in points)
    made.extend([-below[a, b], -below[b, c], below[a, c]] for a, b, c in product(points, repeat=3))
    made.extend([-given, below[lower, upper]] for lower, upper, given in clauses.rises)
    return made


def fewest(jam: Jam) -> int | None:
    """The fewest cables by which the formula of a jam is satisfied; None where it cannot be."""
    clauses, (cables, *_) = asked(jam)
    wished = WCNF()
    wished.extend(formula(clauses).clauses)
    for cable in cables:
        wished.append([-cable], weight=1)
    with RC2(wished) as sat:
        return None if sat.compute() is None else int(sat.cost)
