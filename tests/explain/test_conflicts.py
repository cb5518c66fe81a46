"""Conflicts fail, nothing in them can be left out, and there are no others than the slow twin finds."""

from collections.abc import Iterable
from functools import cache
from random import Random

import pytest

from solver.jam.claims import Claim, claims, in_force
from solver.jam.jam import Jam
from solver.outcome import InternalError
from solver.reading import read_jam
from solver.reasons.conflicts import Conflict, conflict_in, conflicts, unrelated
from solver.reasons.trial import Trial
from solver.search.clock import Clock
from tests.enumeration.rigs import seeded
from tests.explain.slow import Slow
from tests.showing import SCENARIOS

SEEDS = (
    *(10, 11, 12, 15, 16, 17, 18, 21, 22, 28, 32, 33, 58, 64, 65, 66, 68, 74, 76, 99, 103, 107, 110, 121),
    *(137, 143, 158, 160, 166, 182, 197, 220, 230, 238, 242, 254, 258, 263, 268, 271, 278, 287, 296, 362, 407, 435),
)
"""Seeds of impossible jams with few claims, together about every rule and every kind of claim."""

MANY = (32, 66, 68, 103, 166, 258)
"""Those of them with many conflicts."""

KINDS = {
    "part",
    "on",
    "sound",
    "layer",
    "shift",
    "separate",
    "treat",
    "stereo",
    "play",
    "match",
    "program",
    "clock",
} | {
    *("channel", "jack", "port", "keep", "cables", "cable", "mains"),
}


@cache
def _jam(seed: int) -> Jam:
    return seeded(seed)


@cache
def _slow(seed: int) -> Slow:
    return Slow(_jam(seed))


def _trial(jam: Jam, clock: Clock | None = None) -> Trial:
    return Trial(jam, clock or Clock(None))


@cache
def _found(seed: int) -> tuple[Conflict, ...]:
    found = conflicts(_trial(_jam(seed)))
    assert found.all
    return found.conflicts


class Looks(Clock):
    """A clock that is up once it has been looked at so many times."""

    def __init__(self, looks: int) -> None:
        super().__init__(None)
        self._looks = looks

    @property
    def over(self) -> bool:
        """Whether this look is one too many."""
        self._looks -= 1
        return self._looks < 0


def _content(jam: Jam, found: Iterable[Claim]) -> frozenset[object]:
    """Claims by what they say, wherever in the file."""
    intents = {f"intent.{number}": repr(intent) for number, intent in enumerate(jam.intents, start=1)}
    return frozenset((intents.get(claim.statement, claim.statement), claim.piece, claim.parts) for claim in found)


def _shuffled(jam: Jam, dice: Random) -> Jam:
    parts, intents, cables = list(jam.parts.items()), list(jam.intents), list((jam.cables or {}).items())
    for things in (parts, intents, cables):
        dice.shuffle(things)
    drawer = None if jam.cables is None else dict(cables)
    return jam.changed(parts=dict(parts), intents=tuple(intents), cables=drawer)


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_a_conflict_fails_and_nothing_in_it_can_be_left_out(seed: int) -> None:
    slow, trial = _slow(seed), _trial(_jam(seed))
    assert _found(seed)
    for conflict in _found(seed):
        assert conflict.minimal
        assert slow.fails(conflict.claims)
        trial.confirm(conflict.claims)
        assert in_force(conflict.claims) == set(conflict.claims)
        assert list(conflict.claims) == [claim for claim in slow.claims if claim in conflict.claims]
        assert not any(slow.fails(set(conflict.claims) - {claim}) for claim in conflict.claims)


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_all_conflicts_are_those_of_the_slow_twin(seed: int) -> None:
    found = [frozenset(conflict.claims) for conflict in _found(seed)]
    assert len(found) == len(set(found))
    assert set(found) == _slow(seed).conflicts()
    lengths = [(len(conflict.statements), len(conflict.claims)) for conflict in _found(seed)]
    assert lengths == sorted(lengths)


@pytest.mark.parametrize("seed", SEEDS[::2])
def test_the_order_of_the_file_does_not_matter(seed: int) -> None:
    jam = _jam(seed)
    mixed = _shuffled(jam, Random(seed))
    found = conflicts(_trial(mixed)).conflicts
    assert {_content(mixed, c.claims) for c in found} == {_content(jam, c.claims) for c in _found(seed)}


@pytest.mark.parametrize("seed", SEEDS[::4])
def test_the_answer_is_the_same_twice(seed: int) -> None:
    assert conflicts(_trial(_jam(seed))).conflicts == _found(seed)


def test_together_the_seeds_have_conflicts_of_many_kinds() -> None:
    assert {claim.piece[0] for seed in SEEDS for conflict in _found(seed) for claim in conflict.claims} >= KINDS
    assert all(len(claims(_jam(seed))) <= 10 for seed in SEEDS)


@pytest.mark.parametrize("seed", MANY)
def test_a_conflict_among_some_claims_is_one_of_all(seed: int) -> None:
    """Also where the search starts from what is left when others are gone."""
    trial = _trial(_jam(seed))
    for other in _found(seed):
        kept = in_force(claim for claim in trial.claims if claim != other.claims[-1])
        if trial.fails(kept):
            conflict = conflict_in(trial, kept)
            assert conflict in _found(seed)
            assert kept.issuperset(conflict.claims)


@pytest.mark.parametrize("seed", MANY)
def test_no_more_are_found_than_are_asked_for(seed: int) -> None:
    every, trial = _found(seed), _trial(_jam(seed))
    for most in range(1, len(every) + 1):
        found = conflicts(trial, most)
        assert len(found.conflicts) == most
        assert set(found.conflicts) <= set(every)
        assert found.all == (most == len(every))
    assert conflicts(trial, len(every) + 1).conflicts == every


@pytest.mark.parametrize("seed", MANY)
def test_whenever_time_is_up_nothing_is_said_that_is_not_shown(seed: int) -> None:
    slow, seen, looks = _slow(seed), set[bool](), 0
    while True:
        found = conflicts(_trial(_jam(seed), Looks(looks)))
        if found.all:
            break
        for conflict in found.conflicts:
            seen.add(conflict.minimal)
            assert slow.fails(conflict.claims)
            assert (conflict in _found(seed)) == conflict.minimal
        looks += 1 + looks // 4
    assert found.conflicts == _found(seed)
    assert seen == {True, False}


def test_without_time_no_conflict_is_found() -> None:
    assert conflicts(_trial(_jam(32), Clock(0))) == ((), False)


def test_without_time_a_conflict_stays_as_it_was() -> None:
    trial = _trial(_jam(32), Clock(0))
    assert conflict_in(trial, frozenset(trial.claims)) == (trial.claims, False)


def test_a_conflict_that_is_none_is_not_confirmed() -> None:
    trial = _trial(_jam(32))
    less = set(_found(32)[0].claims[1:])
    with pytest.raises(InternalError, match="a conflict that one search has proved has a plan in another"):
        trial.confirm(less)


def _claim(statement: str, kind: str = "keep") -> Claim:
    return Claim(statement, (kind,))


def test_an_id_stands_for_all_above_it() -> None:
    names = ("part.bass", "part.bass.on", "part.bassoon", "intent.1", "intent.1", "intent.12", "cables", "cables.din")
    conflict = Conflict(tuple(map(_claim, names)), minimal=True)
    assert conflict.statements == ("part.bass.on", "part.bassoon", "intent.1", "intent.12", "cables.din")


def test_conflicts_that_share_a_claim_are_one_group_however_far_around() -> None:
    a, b, c, d, e = (_claim(f"intent.{number}") for number in range(1, 6))
    of_a, of_c, of_e = (Conflict((claim,), minimal=True) for claim in (a, c, e))
    of_ab, of_bc, of_d = (Conflict(shared, minimal=True) for shared in ((a, b), (b, c), (d,)))
    assert unrelated(()) == ()
    assert unrelated((of_a, of_c, of_d)) == ((of_a,), (of_c,), (of_d,))
    assert unrelated((of_a, of_e, of_c, of_d, of_ab, of_bc)) == ((of_a, of_c, of_ab, of_bc), (of_e,), (of_d,))


def test_pieces_of_one_statement_relate_conflicts() -> None:
    one, other = (Conflict((Claim("intent.1", ("clock", box)),), minimal=True) for box in ("reef", "cove"))
    assert unrelated((one, other)) == ((one, other),)


@pytest.mark.parametrize(("name", "groups"), [("double-leak", 2), ("deaf-lookout", 2), ("one-rope-two-ears", 1)])
def test_unrelated_conflicts_of_a_jam_are_told_apart(name: str, groups: int) -> None:
    found = conflicts(_trial(read_jam(SCENARIOS / "impossible" / f"{name}.toml"))).conflicts
    assert len(found) == 2
    assert len(unrelated(found)) == groups
