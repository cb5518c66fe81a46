"""Explanations against satisfiability solvers: conflicts, ways out, fewest cables."""

from collections.abc import Callable, Sequence
from functools import cache
from itertools import combinations
from typing import NamedTuple

import solver
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned
from solver.reading import read_jam
from solver.reasons.changes import edits
from solver.reasons.conflicts import conflicts
from solver.reasons.edits import Edit, edited
from solver.reasons.explained import WhyImpossible
from solver.reasons.trial import Trial
from solver.search.clock import Clock
from tests.enumeration import rigs as tiny
from tests.outside.checks import check
from tests.outside.diagnoses import Diagnosed
from tests.outside.formulas import fewest, has_plan
from tests.outside.leaving_out import cheaper, cheapest_left_out, leaves_out
from tests.showing import SCENARIOS
from tests.twin import rigs as small

HITTING = "PySAT, pysat.examples.hitman (implicit hitting sets, Reiter 1987) over CNF for CaDiCaL"

NAMED = ("deaf-lookout", "dry-dock", "loose-letter", "tied-oars", "wrong-wires")
"""Scenarios that are impossible and told quickly."""

SEEDS = (0, 8, 9, 11, 15, 17, 33, 37, 43)
"""The same of tiny jams, counted from ``FROM``."""

FROM = 6_000_000
"""Seeds from here on; those before are compared with the slow twin."""

MOST_PRICE = 8
"""Up to which price of the cheapest way out all cheaper sets of changes are tried."""

FEW_CLAIMS = 8
"""Up to how many claims all conflicts of a jam are looked for."""

Named = str | int


@cache
def _jam(name: Named) -> Jam:
    return read_jam(SCENARIOS / "impossible" / f"{name}.toml") if isinstance(name, str) else tiny.seeded(FROM + name)


@cache
def _told(name: Named) -> WhyImpossible:
    told = solver.explain(_jam(name), every=True, time_limit=None)
    assert isinstance(told, WhyImpossible)
    return told


@cache
def _diagnosed(name: Named) -> Diagnosed:
    return Diagnosed(_jam(name))


class Explained(NamedTuple):
    """A jam that is explained, and one that PySAT takes apart; the two should be the same."""

    told: Named
    diagnosed: Named


@check(
    "Explaining finds all minimal conflicts of a jam and no others, and what hits each of them leaves a plan",
    source=HITTING,
    kind="reference library",
    right={str(name): Explained(name, name) for name in (*NAMED, *SEEDS)},
    wrong=Explained("loose-letter", "wrong-wires"),
)
def test_conflicts_and_hitting_sets(value: Explained) -> None:
    told, diagnosed = _told(value.told), _diagnosed(value.diagnosed)
    found = {frozenset(clash.conflict.claims) for clash in told.clashes}
    assert told.all and all(clash.conflict.minimal for clash in told.clashes)
    assert found == diagnosed.conflicts
    assert all(repair & conflict for repair in diagnosed.repairs for conflict in found)


class Batch(NamedTuple):
    """Seeds of jams whose conflicts are looked for, and taken apart by PySAT."""

    invent: Callable[[int], Jam]
    searched: range
    diagnosed: range


def _batch(invent: Callable[[int], Jam], first: int, count: int) -> Batch:
    seeds = range(FROM + first, FROM + first + count)
    return Batch(invent, seeds, seeds)


@check(
    "A jam is impossible just where its formula cannot be satisfied, and of a tiny one the search finds all conflicts",
    source=HITTING,
    kind="reference library",
    right={
        "tiny jams": _batch(tiny.seeded, 100, 10),
        "small jams": _batch(small.seeded, 100, 6),
    },
    wrong=Batch(tiny.seeded, range(FROM, FROM + 3), range(FROM + 8, FROM + 11)),
)
def test_every_conflict_of_small_jams(value: Batch) -> None:
    compared = 0
    for seed, other in zip(value.searched, value.diagnosed, strict=True):
        jam, diagnosed = value.invent(seed), Diagnosed(value.invent(other))
        trial = Trial(jam, Clock(None))
        possible = isinstance(solver.plan(jam, time_limit=None), Planned)
        assert possible == has_plan(value.invent(other)), f"seed {seed}"
        if not possible and len(trial.claims) <= FEW_CLAIMS:
            found = {frozenset(conflict.claims) for conflict in conflicts(trial).conflicts}
            assert found == diagnosed.conflicts, f"seed {seed}"
            compared += 1
    assert compared


class WaysOut(NamedTuple):
    """A jam, and what is done to each way out of it before it is judged."""

    name: Named
    change: Callable[[Jam, Sequence[Edit]], Sequence[Edit]]


def _as_told(jam: Jam, told: Sequence[Edit]) -> Sequence[Edit]:
    return told


def _with_one_more(jam: Jam, told: Sequence[Edit]) -> Sequence[Edit]:
    return [*told, next(edit for edit in edits(jam) if edit not in told and edited(jam, [*told, edit]))]


@check(
    "Each way out leaves a plan, no change of it can be spared, nothing cheaper than the cheapest does, and to leave"
    " things out costs what the lightest hitting set of the conflicts weighs",
    source="PySAT, CaDiCaL for plans and pysat.examples.rc2 (MaxSAT) for the lightest hitting set",
    kind="reference library",
    right={str(name): WaysOut(name, _as_told) for name in (*NAMED, *SEEDS)},
    wrong=WaysOut("deaf-lookout", _with_one_more),
)
def test_ways_out(value: WaysOut) -> None:
    jam, found = _jam(value.name), _told(value.name).repaired
    lightest = cheapest_left_out(jam, _diagnosed(value.name).conflicts)
    told = [tuple(value.change(jam, repair.edits)) for repair in found.repairs]
    assert told and found.done
    for chosen in told:
        assert _possible(jam, chosen)
        assert not any(_possible(jam, fewer) for size in range(len(chosen)) for fewer in combinations(chosen, size))
        assert lightest is None or not all(map(leaves_out, chosen)) or _price(chosen) >= lightest
    best = min(map(_price, told))
    assert lightest is None or best <= lightest
    if best <= MOST_PRICE:
        assert not any(_possible(jam, chosen) for chosen in cheaper(edits(jam), best))


def _possible(jam: Jam, chosen: Sequence[Edit]) -> bool:
    after = edited(jam, chosen)
    return after is not None and has_plan(after)


def _price(chosen: Sequence[Edit]) -> int:
    return sum(edit.cost for edit in chosen)


@check(
    "The fewest cables of a jam are the least that a MaxSAT solver has to give up of a wish for none",
    source="PySAT, pysat.examples.rc2 (MaxSAT, guided by cores)",
    kind="reference library",
    right={"tiny jams": _batch(tiny.seeded, 200, 12), "small jams": _batch(small.seeded, 200, 5)},
    wrong=Batch(tiny.seeded, range(FROM, FROM + 3), range(FROM + 1, FROM + 4)),
)
def test_fewest_cables(value: Batch) -> None:
    for seed, other in zip(value.searched, value.diagnosed, strict=True):
        outcome = solver.plan(value.invent(seed), time_limit=None)
        assert isinstance(outcome, Planned | Impossible)
        planned = len(outcome.best.cables) if isinstance(outcome, Planned) else None
        assert planned == fewest(value.invent(other)), f"seed {seed}"
