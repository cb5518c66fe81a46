"""Collects yes-or-no choices and what ties them: clauses, counts, and orders that may not close into a ring.

A literal is a whole number: ``n`` says that choice ``n`` holds, ``-n`` that it does not. ``YES`` always holds.
"""

from collections.abc import Iterable

Lit = int
YES: Lit = 1
NO: Lit = -1


class Clauses:
    """All that a jam asks for, in the plainest words."""

    def __init__(self) -> None:
        self.count = 1
        self.clauses: list[tuple[Lit, ...]] = [(YES,)]
        self.sums: list[tuple[tuple[Lit, ...], int, int]] = []
        """Literals, and between which two numbers of them hold."""
        self.rises: list[tuple[str, str, Lit]] = []
        """Where the literal holds, the second stands above the first."""

    def new(self) -> Lit:
        """A fresh choice."""
        self.count += 1
        return self.count

    def clause(self, *lits: Lit) -> None:
        """At least one of these holds."""
        if YES not in lits:
            self.clauses.append(tuple(dict.fromkeys(lit for lit in lits if lit != NO)))

    def forbid(self, *lits: Lit) -> None:
        """These do not all hold."""
        self.clause(*(-lit for lit in lits))

    def between(self, least: int, most: int, lits: Iterable[Lit]) -> None:
        """At least and at most so many of these hold."""
        listed = tuple(lit for lit in lits if lit != NO)
        if least > 0 or most < len(listed):
            self.sums.append((listed, least, most))

    def both(self, *lits: Lit) -> Lit:
        """A literal that holds exactly when all of these do."""
        listed = tuple(dict.fromkeys(lit for lit in lits if lit != YES))
        if NO in listed:
            return NO
        if len(listed) < 2:
            return listed[0] if listed else YES
        result = self.new()
        for lit in listed:
            self.clause(-result, lit)
        self.clause(result, *(-lit for lit in listed))
        return result

    def either(self, lits: Iterable[Lit]) -> Lit:
        """A literal that holds exactly when at least one of these does."""
        return -self.both(*(-lit for lit in lits))

    def rise(self, lower: str, upper: str, given: Lit) -> None:
        """Where ``given`` holds, ``upper`` stands above ``lower``."""
        self.rises.append((lower, upper, given))
