"""The least that it costs to leave things out of a jam until no conflict is left: a weighted hitting set by MaxSAT."""

from collections.abc import Iterable, Iterator, Sequence

from pysat.examples.rc2 import RC2
from pysat.formula import WCNF

from solver.jam.claims import Claim, claims, in_force
from solver.jam.jam import Jam
from solver.reasons.changes import edits
from solver.reasons.edits import PART, Edit, edited

Claims = frozenset[Claim]


def leaves_out(edit: Edit) -> bool:
    """Whether a change puts nothing in the place of what it takes away."""
    return edit.new is None or edit.drops


def left_out(jam: Jam, edit: Edit) -> Claims:
    """The claims that are no longer stated after a change which leaves something out."""
    stated = frozenset(claims(jam))
    if edit.kind == PART:
        return stated - in_force(claim for claim in stated if claim.piece != ("part",) or claim.parts != edit.path[1:])
    if len(edit.path) == 2 and edit.path[0] == "intent":
        return frozenset(claim for claim in stated if claim.statement == edit.statement)
    after = edited(jam, [edit])
    return frozenset() if after is None else stated - frozenset(claims(after))


def cheapest_left_out(jam: Jam, conflicts: Iterable[Claims]) -> int | None:
    """What it costs at least to touch every conflict by leaving things out; None where that cannot be done."""
    choices = [(edit, left_out(jam, edit)) for edit in edits(jam) if leaves_out(edit)]
    asked = WCNF()
    for conflict in conflicts:
        asked.append([place for place, (_, gone) in enumerate(choices, start=1) if gone & conflict])
    for place, (edit, _) in enumerate(choices, start=1):
        asked.append([-place], weight=edit.cost)
    with RC2(asked) as solver:
        return None if solver.compute() is None else int(solver.cost)


def cheaper(known: Sequence[Edit], cost: int) -> Iterator[tuple[Edit, ...]]:
    """Every set of changes that costs less than that."""
    if cost <= 0:
        return
    yield ()
    for place, edit in enumerate(known):
        for more in cheaper(known[place + 1 :], cost - edit.cost):
            yield (edit, *more)
