"""Yes-or-no choices and what ties them, with all that is already known folded away.

A literal is a whole number: ``n`` says that choice ``n`` holds, ``-n`` that it does not. ``YES`` always holds.
Rules speak only in these words, so none of them knows the solver.
"""

from collections.abc import Iterable
from itertools import pairwise

Lit = int
YES: Lit = 1
NO: Lit = -1


class Model:
    """Collects choices and constraints; literals that are settled are folded away as they come."""

    def __init__(self) -> None:
        self.count = 1
        self.settled: set[Lit] = {YES}
        self.clauses: dict[tuple[Lit, ...], None] = {}
        self.at_most_ones: dict[tuple[Lit, ...], None] = {}
        self.sums: list[tuple[tuple[Lit, ...], int, int]] = []
        self.rises: list[tuple[str, str, Lit]] = []
        self._both: dict[tuple[Lit, ...], Lit] = {}
        self.meaning: dict[Lit, tuple[Lit, ...]] = {}

    def new(self) -> Lit:
        """A fresh open choice."""
        self.count += 1
        return self.count

    def value(self, lit: Lit) -> Lit:
        """``YES`` or ``NO`` where the literal is settled, else itself."""
        if lit in self.settled:
            return YES
        return NO if -lit in self.settled else lit

    def clause(self, *lits: Lit) -> None:
        """At least one of these holds."""
        kept, settled = set[Lit](), self.settled
        for lit in lits:
            if lit in settled or -lit in kept:
                return
            if -lit not in settled:
                kept.add(lit)
        if len(kept) == 1:
            settled.update(kept)
        else:
            self.clauses[tuple(sorted(kept))] = None

    def require(self, lit: Lit) -> None:
        """This holds."""
        self.clause(lit)

    def forbid(self, *lits: Lit) -> None:
        """These do not all hold."""
        self.clause(*(-lit for lit in lits))

    def implies(self, given: Lit, then: Lit) -> None:
        """If ``given`` holds, so does ``then``."""
        self.clause(-given, then)

    def both(self, *lits: Lit) -> Lit:
        """A literal that holds exactly when all of these do."""
        kept, settled = set[Lit](), self.settled
        for lit in lits:
            if -lit in settled or -lit in kept:
                return NO
            if lit not in settled:
                kept.add(lit)
        if len(kept) < 2:
            return next(iter(kept), YES)
        key = tuple(sorted(kept))
        if key not in self._both:
            self._both[key] = result = self.new()
            self.meaning[result] = key
            for lit in key:  # nothing of it is settled, and the newest choice has the highest number
                self.clauses[-result, lit] = None
            self.clauses[*(-lit for lit in reversed(key)), result] = None
        return self._both[key]

    def either(self, lits: Iterable[Lit]) -> Lit:
        """A literal that holds exactly when at least one of these does."""
        return -self.both(*[-lit for lit in lits])

    def at_most_one(self, lits: Iterable[Lit]) -> None:
        """No two of these hold; one that is listed twice does not hold at all."""
        settled = self.settled
        values = [lit for lit in lits if -lit not in settled]
        if len(set(values)) < len(values):
            for twice in {lit for lit in values if values.count(lit) > 1}:
                self.clause(-twice)
            values = [lit for lit in dict.fromkeys(values) if -lit not in settled]
        held = next((lit for lit in values if lit in settled), None)
        if held is not None:
            values.remove(held)
            for lit in values:
                self.clause(-lit)
        elif len(values) > 1:
            self.at_most_ones[tuple(values)] = None

    def exactly_one(self, lits: Iterable[Lit]) -> None:
        """Just one of these holds."""
        listed = tuple(lits)
        self.clause(*listed)
        self.at_most_one(listed)

    def at_most(self, limit: int, lits: Iterable[Lit]) -> None:
        """No more than ``limit`` of these hold."""
        listed = tuple(lits)
        if limit == 0:
            for lit in listed:
                self.clause(-lit)
        elif len(listed) > limit:
            self.sums.append((listed, 0, limit))

    def counted(self, lits: Iterable[Lit], total: int) -> tuple[Lit, ...]:
        """Literals of which the first so many hold as ``total`` exceeds how many of these do."""
        listed = tuple(lits)
        rest = tuple(self.new() for _ in range(total))
        for more, less in pairwise(rest):
            self.implies(less, more)
        self.sums.append(((*listed, *rest), total, total))
        return rest

    def rise(self, lower: str, upper: str, given: Lit) -> None:
        """If ``given`` holds, ``upper`` stands above ``lower``; no chain of these may close."""
        if self.value(given) != NO:
            self.rises.append((lower, upper, given))
