"""Leaving a claim out means what the contract says, and never takes a plan away."""

from collections.abc import Collection, Iterator
from itertools import combinations
from random import Random
from typing import NamedTuple

import pytest

from solver.jam.claims import Claim, claims
from solver.jam.jam import Jam
from solver.jam.loosened import loosened, readings
from solver.search.clock import Clock
from solver.search.planner import is_possible
from tests.building import Table, desk, dock_and_reef, jam, module, named
from tests.enumeration.rigs import seeded
from tests.explain.slow import Slow

ON_REEF = {"on": "reef"}
BASS_AND_ARP: Table = {"parts": {"bass": ON_REEF, "arp": ON_REEF}}
SEQUENCER = module(track=[named("SEQ", channel=1, plays="1")], midi=[named("MIDI OUT", way="out")])
PLAIN_STRIP = [named("IN 1", from_="LINE/left")]


class Case(NamedTuple):
    """A jam that is impossible, a claim without which it is not, and what else is not in the way."""

    jam: Jam
    statement: str
    piece: tuple[str, ...]
    innocent: tuple[str, ...] = ()


def _kept(**kept: object) -> Table:
    return {"keep": kept}


def _bass(**kept: object) -> Table:
    return _kept(part="bass", **kept)


def _cases() -> Iterator[tuple[str, Case]]:
    three = {"bass": ON_REEF, "arp": ON_REEF, "pad": ON_REEF}
    yield "a part", Case(dock_and_reef(parts=three), "part.pad", ("part",))
    yield "a part's place", Case(dock_and_reef(parts=three), "part.pad.on", ("on",))
    noise = {"kick": {}, "bass": {"sound": "noise"}}
    yield "a part's sound", Case(dock_and_reef(parts=noise), "part.bass.sound", ("sound",))
    tracks = (_bass(track="dock/EXT 1"), _kept(part="arp", track="dock/EXT 2"))
    yield "a layer", Case(dock_and_reef({"layer": ["bass", "arp"]}, *tracks), "intent.1", ("layer", "bass", "arp"))
    shifted = {"layer": ["bass", "arp"], "shift": {"bass": 12, "arp": 25}}
    yield "a shift", Case(dock_and_reef(shifted), "intent.1", ("shift", "arp"), ("shift", "bass"))
    strips = (_bass(strip="dock/IN 1"), _kept(part="arp", strip="dock/IN 1"))
    apart = dock_and_reef({"separate": ["kick", "bass", "arp"]}, *strips)
    yield "a pair", Case(apart, "intent.1", ("separate", "bass", "arp"), ("separate", "kick", "bass"))
    wet = {"treat": ["arp", "bass"], "with": {"reverb": 20, "ducking": 0}}
    wetter = {"treat": ["bass"], "with": {"reverb": 40}}
    pieces = (("treat", "bass", "reverb"), ("treat", "arp", "reverb"))
    yield "an amount", Case(dock_and_reef(wet, wetter), "intent.1", *pieces)
    yield "the other amount", Case(dock_and_reef(wet, wetter), "intent.2", pieces[0])
    ducked = {"treat": ["bass"], "with": {"ducking": 30, "reverb": 20}, "key": "arp"}
    yield "a key", Case(dock_and_reef(ducked, **BASS_AND_ARP), "part.arp", ("part",), ("treat", "bass", "reverb"))
    wide = ({"stereo": ["bass"]}, {"separate": ["bass", "arp"]})
    yield "both sides", Case(dock_and_reef(*wide, **BASS_AND_ARP), "intent.1", ("stereo", "bass"))
    crossed = (_bass(track="dock/EXT 2"), _bass(strip="dock/IN 1"))
    matched = dock_and_reef({"match": ["kick", "bass"]}, *crossed)
    yield "a match", Case(matched, "intent.1", ("match", "bass"), ("match", "kick"))
    deaf = dock_and_reef({"program": ["bass", "arp"]}, **BASS_AND_ARP)
    yield "a program", Case(deaf, "intent.1", ("program", "arp"))
    # Its track is in another box than the leader, which no jam without ``play`` may use.
    played = dock_and_reef(
        {"play": ["bass"], "from": "dock"}, _bass(track="reef/SEQ"), reef=module(track=[named("SEQ", plays="1")])
    )
    yield "a play", Case(played, "intent.1", ("play", "bass"))
    clockless = module(midi=[named("MIDI IN", way="in")])
    boxes = {"dock": desk(), "reef": module(), "cove": clockless}
    timed = jam(boxes, ("kick",), {"clock": ["reef", "cove"]})
    yield "a clock", Case(timed, "intent.1", ("clock", "cove"), ("clock", "reef"))
    every = {"channels": list(range(1, 17)), "jacks": ["dock/IN 1"]}
    silent = dock_and_reef({"avoid": every}, parts={"bass": ON_REEF})
    yield "a channel", Case(silent, "intent.1", ("channel", "7"), ("jack", "dock/IN 1"))
    closed = dock_and_reef({"avoid": {"jacks": ["dock/IN 1", "dock/IN 2"], "channels": [3]}})
    yield "a jack", Case(closed, "intent.1", ("jack", "dock/IN 2"), ("channel", "3"))
    cut = dock_and_reef({"avoid": {"ports": ["dock/MIDI OUT", "reef/MIDI THRU"]}})
    yield "a port", Case(cut, "intent.1", ("port", "dock/MIDI OUT"), ("port", "reef/MIDI THRU"))
    yield "what is kept", Case(dock_and_reef(_bass(engine="dock/PAD"), **BASS_AND_ARP), "intent.1", ("keep",))
    yield "the drawer", Case(dock_and_reef(cables={"din": 1}), "cables", ("cables",), ("cable", "din"))
    drawer = {"din": 0, "6.35 mono": 2, "6.35 stereo": 0}
    leads = dock_and_reef(cables=drawer)
    yield "a kind", Case(leads, "cables.din", ("cable", "din"), ("cable", "6.35 stereo"))
    leaning = dock_and_reef(_kept(part="kick", pan="left"), parts={"kick": {"on": "dock"}})
    yield "the mains", Case(leaning, "mains", ("mains",))


CASES = dict(_cases())


def _possible(of: Jam, kept: Collection[Claim]) -> bool:
    """Whether these claims alone leave a plan, in any reading."""
    open_, every = readings(of, kept, claims(of)), claims(of)
    ways = (way for count in range(len(open_) + 1) for way in combinations(open_, count))
    answers = [is_possible(loosened(of, kept, every, way), Clock(None)) for way in ways]
    assert None not in answers
    return any(answers)


@pytest.mark.parametrize("name", CASES)
def test_without_the_claim_it_is_possible(name: str) -> None:
    case = CASES[name]
    every = claims(case.jam)
    (claim,) = (c for c in every if (c.statement, c.piece) == (case.statement, case.piece))
    without = [other for other in every if other != claim]
    assert not _possible(case.jam, every)
    assert _possible(case.jam, without)
    slow = Slow(case.jam)
    assert slow.fails(every)
    assert not slow.fails(without)


@pytest.mark.parametrize("name", [name for name, case in CASES.items() if case.innocent])
def test_the_pieces_beside_it_are_claims_of_their_own(name: str) -> None:
    case = CASES[name]
    every = claims(case.jam)
    assert case.innocent in {claim.piece for claim in every}
    assert not _possible(case.jam, [claim for claim in every if claim.piece != case.innocent])


def _half(of: Collection[Claim], dice: Random) -> list[Claim]:
    return [claim for claim in of if dice.random() < 0.7]


@pytest.mark.parametrize("first", [0, 20, 60, 80])
def test_leaving_claims_out_takes_no_plan_away(first: int) -> None:
    told = []
    for seed in range(first, first + 20):
        tiny, dice = seeded(seed), Random(seed)
        more = _half(claims(tiny), dice)
        less = _half(more, dice)
        told.append(_possible(tiny, more))
        assert _possible(tiny, less) or not told[-1], f"seed {seed}"
    assert set(told) == {True, False}


@pytest.mark.parametrize("first", [0, 20, 60])
def test_any_claims_leave_a_plan_where_the_slow_twin_finds_one(first: int) -> None:
    told = []
    for seed in range(first, first + 20):
        tiny, dice = seeded(seed), Random(-seed)
        kept = _half(claims(tiny), dice)
        told.append(_possible(tiny, kept))
        assert told[-1] != Slow(tiny).fails(kept), f"seed {seed}"
    assert set(told) == {True, False}


@pytest.mark.parametrize("first", [0, 20, 60])
def test_with_all_claims_it_is_the_jam(first: int) -> None:
    told = []
    for seed in range(first, first + 20):
        tiny = seeded(seed)
        assert readings(tiny, claims(tiny), claims(tiny)) == ()
        whole = loosened(tiny, claims(tiny), claims(tiny))
        told.append(is_possible(tiny, Clock(None)))
        assert is_possible(whole, Clock(None)) == told[-1], f"seed {seed}"
    assert set(told) == {True, False}
