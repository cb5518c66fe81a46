"""Splits a model into pieces that have no choice in common, once all that follows at sight is settled."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from solver.search.model import NO, YES, Lit, Model


class ContradictionError(Exception):
    """What a model asks for cannot hold, whatever is chosen."""


@dataclass
class Piece:
    """Constraints that share no choice with another piece, in the words of Model; nothing in them is settled."""

    choices: list[int] = field(default_factory=list)
    clauses: list[tuple[Lit, ...]] = field(default_factory=list)
    at_most_ones: list[tuple[Lit, ...]] = field(default_factory=list)
    sums: list[tuple[tuple[Lit, ...], int, int]] = field(default_factory=list)
    rises: list[tuple[str, str, Lit]] = field(default_factory=list)


def settle(model: Model) -> None:
    """Settle every literal that follows, one at a time, from clauses and at-most-ones.

    Raises:
        ContradictionError: a literal follows, and its opposite too.
    """
    against: dict[Lit, list[tuple[Lit, ...]]] = defaultdict(list)
    groups: dict[Lit, list[tuple[Lit, ...]]] = defaultdict(list)
    for clause in model.clauses:
        for lit in clause:
            against[-lit].append(clause)
    for group in model.at_most_ones:
        for lit in group:
            groups[lit].append(group)
    waiting = [*model.settled, *(lit for clause in model.clauses for lit in _last(model, clause))]
    model.settled.clear()
    while waiting:
        lit = waiting.pop()
        if -lit in model.settled:
            raise ContradictionError
        if lit not in model.settled:
            model.settled.add(lit)
            waiting.extend(-other for group in groups[lit] for other in group if other != lit)
            waiting.extend(forced for clause in against[lit] for forced in _last(model, clause))


def _last(model: Model, clause: tuple[Lit, ...]) -> list[Lit]:
    """What is left of a clause if that is a single literal, the others being settled against it."""
    left = [lit for lit in clause if -lit not in model.settled]
    if not left:
        raise ContradictionError
    return left if len(left) == 1 else []


def split(model: Model, goals: Iterable[Lit]) -> list[Piece]:
    """The pieces of a settled model, in the order of their first choices; a goal's choice is in a piece too.

    Raises:
        ContradictionError: a count cannot be met by what is settled.
    """
    whole = _folded(model)
    heights = dict.fromkeys(name for lower, upper, _ in whole.rises for name in (lower, upper))
    named = {name: number for number, name in enumerate(heights, start=model.count + 1)}
    lead = [0] * (model.count + 1 + len(named))
    """What each thing belongs to, up to one that belongs to itself; 0 where nothing speaks of it."""

    def find(thing: int) -> int:
        before = lead[thing] or thing
        while before != thing:
            lead[thing] = thing = lead[before]
            before = lead[thing]
        lead[thing] = thing
        return thing

    def join(first: int, *things: int) -> None:
        root = find(first)
        for thing in things:
            lead[find(thing)] = root

    for lits in (*whole.clauses, *whole.at_most_ones, *(lits for lits, _, _ in whole.sums)):
        join(*map(abs, lits))
    for lower, upper, given in whole.rises:
        join(named[lower], named[upper], *([abs(given)] if given != YES else []))
    for lit in goals:
        if model.value(lit) not in (YES, NO):
            find(abs(lit))
    found: dict[int, Piece] = defaultdict(Piece)
    for choice in range(model.count + 1):
        if lead[choice]:
            found[find(choice)].choices.append(choice)
    for lits in whole.clauses:
        found[find(abs(lits[0]))].clauses.append(lits)
    for lits in whole.at_most_ones:
        found[find(abs(lits[0]))].at_most_ones.append(lits)
    for counted in whole.sums:
        found[find(abs(counted[0][0]))].sums.append(counted)
    for rise in whole.rises:
        found[find(named[rise[0]])].rises.append(rise)
    return list(found.values())


def _folded(model: Model) -> Piece:
    """All constraints without what is settled in them."""
    whole, settled = Piece(), model.settled
    gone = {-lit for lit in settled}
    for clause in model.clauses:
        if settled.isdisjoint(clause):
            whole.clauses.append(clause if gone.isdisjoint(clause) else tuple(_without(clause, gone)))
    for group in model.at_most_ones:
        left = group if gone.isdisjoint(group) else tuple(_without(group, gone))
        if len(left) > 1 and settled.isdisjoint(left):
            whole.at_most_ones.append(left)
    for lits, fewest, highest in model.sums:
        held = sum(lit in settled for lit in lits)
        left = tuple(lit for lit in lits if lit not in settled and -lit not in settled)
        least, most = max(0, fewest - held), highest - held
        if most < 0 or least > len(left):
            raise ContradictionError
        if left and (least > 0 or most < len(left)):
            whole.sums.append((left, least, most))
    rises = [(lower, upper, model.value(given)) for lower, upper, given in model.rises]
    whole.rises = _around([rise for rise in rises if rise[2] != NO])
    return whole


def _without(lits: Iterable[Lit], gone: set[Lit]) -> list[Lit]:
    return [lit for lit in lits if lit not in gone]


def _around(rises: list[tuple[str, str, Lit]]) -> list[tuple[str, str, Lit]]:
    """Those that could close a chain: what starts from nothing below or ends in nothing above cannot."""
    while True:
        lowers, uppers = {lower for lower, _, _ in rises}, {upper for _, upper, _ in rises}
        left = [rise for rise in rises if rise[0] in uppers and rise[1] in lowers]
        if len(left) == len(rises):
            return left
        rises = left
