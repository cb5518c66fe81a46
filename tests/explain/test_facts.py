"""A fact of the gear is told where the conflict is gone without it, and nowhere else."""

from collections.abc import Iterator
from typing import NamedTuple

import pytest

from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.reasons.box_facts import box_facts
from solver.reasons.conflicts import Conflict, conflicts
from solver.reasons.easing import Fact
from solver.reasons.facts import facts
from solver.reasons.trial import Trial
from solver.reasons.wish_facts import counted_facts, wish_facts
from solver.search.clock import Clock
from tests.building import Table, desk, jam, module, named

KINDS = {
    *("strip", "side", "stereo", "engine", "track", "in", "thru", "out", "clock", "hears", "sends", "pan", "sum"),
    *("jack", "inside", "copy", "offers", "key", "shift", "program", "owner", "wiring", "drawer", "channels"),
}
ON = {"on": "reef"}
COVE = {"on": "cove"}
BASS: dict[str, Table] = {"bass": ON}
BOTH: dict[str, Table] = {"bass": ON, "arp": ON}
KICK: dict[str, Table] = {"kick": {"on": "dock/PAD"}}
APART = {"separate": ["bass", "arp"]}
PADS = named("PADS", channels=[], plays="PAD")
LANES = [named(f"EXT {n}", channel=n) for n in (1, 2, 3)]
ONE = [named("EXT 1", channels=[1])]
IN = [named("MIDI IN", way="in")]
PHONES = [named("PHONES", stereo="PHONES", plug="3.5")]
SPLITTER = "3.5 stereo > 2x 6.35 mono"
PAIRS = [named("MAIN", left="L", right="R", alone="sum"), named("MORE", left="M L", right="M R", mirrors="MAIN")]
DRUMS: Table = {
    "engine": [named("PAD", channels=[]), named("TOM", channels=[])],
    "track": [PADS, named("TOMS", channels=[], plays="TOM"), *LANES[:2]],
    "strip": [named("IN 1", from_="LINE/left", offers=["ducking"], key=["PAD"])],
}


class Case(NamedTuple):
    """A jam, and the fact that is told of one of its conflicts."""

    jam: Jam
    fact: Fact


def _jam(*wishes: Table, parts: dict[str, Table], dock: Box | None = None, reef: Box | None = None, **keys: Box) -> Jam:
    return jam({"dock": dock or desk(), "reef": reef or module(), **keys}, parts, *wishes)


def _held(drawer: dict[str, int], *wishes: Table, parts: dict[str, Table] = BASS, reef: Box | None = None) -> Jam:
    return jam({"dock": desk(), "reef": reef or module()}, parts, *wishes, cables=drawer)


def _duck(part: str, amount: int, key: str = "kick") -> Table:
    return {"treat": [part], "with": {"ducking": amount}, "key": key}


def _wet(part: str, amount: int) -> Table:
    return {"treat": [part], "with": {"reverb": amount}}


def _engines(count: int, **keys: object) -> Box:
    return module(engine=[named(str(n), channel=n, **keys) for n in range(1, count + 1)])


def _mixing(strips: int, **keys: object) -> Box:
    """A desk with so many strips and three lanes."""
    inlets = [named(f"IN {n}", mono=f"JACK {n}") for n in range(1, strips + 1)]
    lines = [named(inlet["name"], from_=inlet["name"], **keys) for inlet in inlets]
    return desk(in_=inlets, strip=lines, track=[*LANES, PADS])


def _bare(*lanes: Table) -> Box:
    """A desk whose strips go with no track."""
    return desk(track=lanes, strip=[named("IN 1", from_="LINE/left"), named("IN 2", from_="LINE/right")], engine=[])


def _counted() -> Iterator[tuple[str, Case]]:
    three = {**BOTH, "pad": COVE}
    apart = {"separate": ["bass", "arp", "pad"]}
    two = Fact("strip", "dock has 2 strips: IN 1 and IN 2", 2, 3)
    yield "strip", Case(_jam(apart, parts=three, dock=_mixing(2), cove=module()), two)
    small = desk(in_=[named("LINE", left="IN 1", right="IN 2", plug="3.5")])
    both_legs = Case(_jam(parts=BASS, dock=small, reef=module(out=PHONES)), two._replace(needs=4))
    yield "strip, one for each leg", both_legs
    yield "no strip", Case(_jam(parts=BASS, dock=_mixing(0)), Fact("strip", "dock has no strip", 0, 1))
    amounts = [_duck("bass", 20), _duck("arp", 30), _duck("pad", 40)]
    ducking = _mixing(3, offers=["ducking"], key=["PAD"])
    sides = Fact("side", "reef has 2 sides to send sound on: MAIN (left and right)", 2, 3)
    yield "side", Case(_jam(*amounts, parts={**KICK, **BOTH, "pad": ON}, dock=ducking, reef=_engines(3)), sides)
    yield "engine", Case(_jam(parts=BOTH, reef=_engines(1)), Fact("engine", "reef has 1 engine", 1, 2))
    lane = Fact("track", "dock has 1 track for other boxes", 1, 2)
    yield "track", Case(_jam(parts=BOTH, dock=_bare(LANES[0])), lane)
    chain = _jam(parts={"bass": ON, "arp": COVE}, reef=module(midi=IN), cove=module(midi=IN))
    yield "thru", Case(chain, Fact("thru", "reef passes MIDI on at no socket", 0, 1))
    yield "out", Case(chain, Fact("out", "dock has 1 MIDI out: MIDI OUT", 1, 2))
    deep = Fact("shift", "reef/1 can shift by 24 semitones either way, and nothing farther", 24, 36)
    yield "shift", Case(_jam({"layer": ["bass"], "shift": {"bass": -36}}, parts=BASS), deep)
    yield "drawer", Case(_held({"6.35 mono": 1, "din": 0}), Fact("drawer", "the drawer holds no cable of din", 0, 1))
    fewer = Fact("drawer", "the drawer holds 1 cable of 6.35 mono", 1, 2)
    yield "drawer, one short", Case(_held({"6.35 mono": 1, "din": 1}, APART, parts=BOTH), fewer)
    ends = Fact("drawer", "the drawer holds no cable of din", 0, 1)
    yield "drawer, another kind", Case(_held({"6.35 mono": 1}), ends)
    avoided = {"avoid": {"channels": list(range(2, 17))}}
    one = Fact("channels", "a MIDI cable has 16 channels, and you avoid all but 1", 1, 2)
    yield "channels", Case(_jam(avoided, parts=BOTH), one)
    # The kick is played where it lives, over no cable.
    ducked = _jam(
        avoided, _duck("bass", 20), _duck("arp", 20), parts={**KICK, "bass": {}, "arp": {}}, dock=desk(**DRUMS)
    )
    yield "channels for two of three", Case(ducked, one)


def _plain() -> Iterator[tuple[str, Case]]:
    mono = module(out=[named("MAIN", mono="OUT")])
    yield "stereo", Case(_jam({"stereo": ["bass"]}, parts=BASS, reef=mono), Fact("stereo", "reef has no stereo outlet"))
    yield "in", Case(_jam(parts=BASS, reef=module(midi=[])), Fact("in", "reef has no MIDI in"))
    clock = Fact("clock", "reef passes no clock at MIDI IN")
    yield "clock", Case(_jam({"clock": ["reef"]}, parts={}, reef=module(midi=IN)), clock)
    five = module(engine=[named("1", channels=[5]), named("2", channels=[5])])
    hears = Fact("hears", "reef/1 and reef/2 listen to channel 5 only")
    yield "hears", Case(_jam(parts=BOTH, reef=five), hears)
    every = module(engine=[named("1", channels="all"), named("2")])
    yield "hears all", Case(_jam(parts=BOTH, reef=every), Fact("hears", "reef/1 listens to all channels"))
    fixed = _jam(parts=BASS, dock=_bare(*ONE), reef=module(engine=[named("1", channels=[2])]))
    yield "sends", Case(fixed, Fact("sends", "dock/EXT 1 sends on channel 1 only"))
    still = _jam(APART, parts=BOTH, reef=_engines(2, pan="fixed"))
    yield "pan", Case(still, Fact("pan", "reef/1 and reef/2 stay at centre"))
    summed = _jam(APART, {"avoid": {"jacks": ["reef/R", "reef/M L"]}}, parts=BOTH, reef=module(out=PAIRS))
    yield "sum", Case(summed, Fact("sum", "reef/L carries both sides while R is empty"))
    wide = _held({"6.35 mono": 2, "din": 1}, reef=module(out=PHONES))
    yield "jack", Case(wide, Fact("jack", "reef/PHONES is one stereo jack"))
    doubled = desk(in_=[named("LINE", left="IN 1", right="IN 2", alone="copy")])
    copied = _jam({"avoid": {"jacks": ["dock/IN 2"]}}, parts=BASS, dock=doubled)
    yield "copy", Case(copied, Fact("copy", "dock/IN 1 feeds both sides while IN 2 is empty"))
    warm = {"treat": ["bass"], "with": {"warmth": 20}}
    yield "offers, nobody", Case(_jam(warm, parts=BASS), Fact("offers", "no box here offers warmth"))
    one = [named("IN 1", from_="LINE/left", offers=["reverb"]), named("IN 2", from_="LINE/right")]
    few = _jam(_wet("bass", 20), _wet("arp", 30), parts=BOTH, dock=desk(strip=one))
    yield "offers", Case(few, Fact("offers", "only dock/PAD and dock/IN 1 offer reverb"))
    one = [named("IN 1", from_="LINE/left", offers=["ducking"], key=["PAD"]), named("IN 2", from_="LINE/right")]
    ducked = _jam(_duck("bass", 20), _duck("arp", 30), parts={**KICK, **BOTH}, dock=desk(strip=one))
    yield "offers ducking", Case(ducked, Fact("offers", "only dock/IN 1 offers ducking"))
    tom = _jam(_duck("bass", 20, "tom"), parts={"tom": {"on": "dock/TOM"}, **BASS}, dock=desk(**DRUMS))
    yield "key", Case(tom, Fact("key", "dock/IN 1 can duck under PAD only"))
    obeying = _jam({"layer": ["bass", "arp"]}, {"program": ["bass"]}, parts=BOTH, reef=_engines(2, program_change=True))
    yield "program", Case(obeying, Fact("program", "reef/1 and reef/2 obey program changes"))
    deaf = Fact("program", "reef/1 and reef/2 ignore program changes")
    yield "program, nobody", Case(_jam({"program": ["bass"]}, parts=BASS, reef=_engines(2)), deaf)
    deaf = Fact("program", "reef/2 ignores program changes")
    yield "program, one engine", Case(_jam({"program": ["bass"]}, parts={"bass": {"on": "reef/2"}}), deaf)
    mute = Fact("program", "dock/EXT 1 and dock/EXT 2 send no program changes")
    yield "program, tracks", Case(_jam({"program": ["bass"]}, parts=BASS, dock=_bare(*LANES[:2])), mute)
    third = {"keep": {"part": "bass", "track": "dock/EXT 3"}}
    lanes = desk(track=[PADS, *LANES])
    owner = Fact("owner", "no strip of dock goes with EXT 3")
    yield "owner", Case(_jam({"match": ["bass"]}, third, parts=BASS, dock=lanes), owner)
    ports = (desk(midi=[named("OUT", way="out", plug="trs-a")]), module(midi=[named("IN", way="in", plug="trs-b")]))
    wiring = Fact("wiring", "the MIDI sockets are trs-a on dock; trs-b on reef")
    yield "wiring", Case(_jam(parts=BASS, dock=ports[0], reef=ports[1]), wiring)


def _inside() -> Iterator[tuple[str, Case]]:
    """What one box cannot do for itself."""
    drums = desk(engine=[named("PAD", channels=[]), named("TOM", channel=1)])
    inside = Fact("inside", "no track of dock plays dock/TOM")
    yield "inside", Case(_jam(parts={"tom": {"on": "dock/TOM"}}, dock=drums), inside)
    wide = desk(in_=[named("LINE", stereo="AUX")], strip=[named("IN", from_="LINE")])
    lone = module(out=[named("MAIN", mono="OUT")])
    yield "jack, in", Case(_jam(parts=BASS, dock=wide, reef=lone), Fact("jack", "dock/AUX is one stereo jack"))


TOLD = dict([*_counted(), *_plain(), *_inside()])


def _of(found: Jam) -> tuple[Trial, tuple[Conflict, ...]]:
    trial = Trial(found, Clock(None))
    assert trial.fails(trial.claims)
    return trial, conflicts(trial).conflicts


def _facts(found: Jam) -> set[Fact]:
    trial, every = _of(found)
    return {fact._replace(box="") for conflict in every for fact in facts(trial, conflict.claims)}


@pytest.mark.parametrize("name", TOLD)
def test_a_fact_that_matters_is_told(name: str) -> None:
    assert TOLD[name].fact in _facts(TOLD[name].jam)


def test_a_fact_of_every_kind_is_told() -> None:
    assert {case.fact.kind for case in TOLD.values()} == KINDS
    plain = dict([*_plain(), *_inside()])
    assert all((case.fact.needs is None) == (name in plain) for name, case in TOLD.items())


def _quiet() -> Iterator[tuple[str, Jam, str]]:
    """Jams with a fact that their conflict does not turn on."""
    warm = {"treat": ["bass"], "with": {"warmth": 20}}
    stated = ("offers", "key", "program", "owner", "drawer", "channels", "shift", "sends")
    for name, case in TOLD.items():
        if case.fact.kind not in stated:
            yield name, jam(case.jam.boxes, ("bass",), warm), case.fact.sentence
    yield "sends", _jam(warm, parts=BASS, dock=_bare(*ONE)), "dock/EXT 1 sends on channel 1 only"
    wet = _jam(_wet("bass", 20), _wet("bass", 30), parts=BASS)
    yield "offers", wet, "only dock/PAD, dock/IN 1 and dock/IN 2 offer reverb"
    ducked = _jam(_duck("bass", 20), _duck("bass", 30), parts={**KICK, **BASS}, dock=desk(**DRUMS))
    yield "key", ducked, "dock/IN 1 can duck under PAD only"
    yield "program", TOLD["program, tracks"].jam, "reef/1 obeys program changes"
    yield "program, tracks", TOLD["program, nobody"].jam, "dock/PADS and dock/EXT 2 send no program changes"
    kept = ({"keep": {"part": "bass", **where}} for where in ({"track": "dock/EXT 1"}, {"strip": "dock/IN 2"}))
    crossed = _jam({"match": ["bass"]}, *kept, parts=BASS, dock=desk(track=[PADS, *LANES]))
    yield "owner", crossed, "no strip of dock goes with EXT 3"
    outs = [named("MAIN", left="L", right="R"), *PHONES]
    yield "drawer", _held({"6.35 mono": 1}, reef=module(out=outs)), f"the drawer holds no cable of {SPLITTER}"


QUIET = {name: (of, sentence) for name, of, sentence in _quiet()}


@pytest.mark.parametrize("name", QUIET)
def test_a_fact_that_does_not_matter_is_not_told(name: str) -> None:
    of, sentence = QUIET[name]
    trial, every = _of(of)
    for conflict in every:
        stated = (*counted_facts(of, conflict.claims), *wish_facts(of, conflict.claims))
        assert sentence in {ease.fact.sentence for ease in (*box_facts(of), *stated)}
        assert sentence not in {fact.sentence for fact in facts(trial, conflict.claims)}


def test_what_is_within_reach_is_not_counted() -> None:
    shifts = ({"layer": ["bass"], "shift": {"bass": by}} for by in (12, 24))
    assert "shift" not in {fact.kind for fact in _facts(_jam(*shifts, parts=BASS))}
    low = module(engine=[named("1", channels=[1, 2]), named("2", channels=[1, 2])])
    assert "channels" not in {fact.kind for fact in _facts(_jam({"avoid": {"channels": [2]}}, parts=BOTH, reef=low))}


def test_more_than_can_be_counted_to_is_not_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("solver.reasons.facts.MOST_ADDED", 2)
    case = TOLD["strip, one for each leg"]
    assert case.fact in _facts(case.jam)
    monkeypatch.setattr("solver.reasons.facts.MOST_ADDED", 1)
    assert "strip" not in {fact.kind for fact in _facts(case.jam)}
