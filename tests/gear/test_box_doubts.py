"""Every doubt about a box, with a box that raises it and one nearly the same that does not."""

from typing import Any

import pytest

from solver.gear.box import Box
from solver.gear.box_doubts import DOUBTS, box_doubts
from tests.building import Table, box, named

IN = named("MIDI IN", way="in", clock=True)
OUT = named("MIDI OUT", way="out", clock=True)
MAIN = named("MAIN", mono="MAIN")
MIRROR = named("PHONES", stereo="PHONES", mirrors="MAIN")
VOICE = named("VOICE", channel=1)
INSIDE = named("V", plays="VOICE", channels=[])
OTHER = named("OTHER", channel=1)


def one(kind: str, *tables: Table, **more: Any) -> Box:
    """A box in which nothing is doubtful but for the tables of one kind that are given."""
    plain: dict[str, Any] = {"out": [MAIN], "engine": [VOICE], "midi": [IN]}
    return box(**(plain | {kind: list(tables)} | more))


def pair(left: str, **keys: Any) -> Table:
    return named("PAIR", left=left, right="R", **keys)


def thru(**keys: Any) -> Table:
    return named("THRU", way="thru", copies="MIDI IN", **keys)


def strip(**keys: Any) -> Box:
    return one("strip", named("S", from_="LINE", **keys), in_=[named("LINE", mono="LINE")])


def reached(*tables: Table, **keys: Any) -> Box:
    """A box without a MIDI in, and what plays its engine."""
    return one("midi", OUT, engine=[named("VOICE", **keys)], track=list(tables))


CASES = {
    "stereo jack says mono": (
        one("in_", named("LINE", stereo="L/MONO")),
        one("in_", named("LINE", stereo="MONOLITH")),
        'L/MONO is given as a stereo jack and says MONO: should it be "mono"?',
    ),
    "mono jack says stereo": (
        one("in_", named("LINE", mono="Stereo in")),
        one("in_", named("LINE", mono="IN")),
        'Stereo in is given as a mono jack and says STEREO: should it be "stereo"?',
    ),
    "left outlet jack says mono": (
        one("out", pair("L/MONO")),
        one("out", pair("L/MONO", alone="sum")),
        'L/MONO says MONO, yet alone = "own" says that its plug alone carries its own side: should it be "sum"?',
    ),
    "left inlet jack says mono": (
        one("in_", pair("L (mono)")),
        one("in_", pair("L (mono)", alone="copy")),
        'L (mono) says MONO, yet alone = "own" says that its plug alone feeds its own side: should it be "copy"?',
    ),
    "left outlet jack says no mono": (
        one("out", pair("L", alone="sum")),
        one("out", pair("L")),
        'L does not say MONO, yet alone = "sum" says that its plug alone carries both sides: '
        "look at the box or its manual.",
    ),
    "left inlet jack says no mono": (
        one("in_", pair("L", alone="copy")),
        one("in_", pair("L")),
        'L does not say MONO, yet alone = "copy" says that its plug alone feeds both sides: '
        "look at the box or its manual.",
    ),
    "jack says another size": (
        one("out", named("MAIN", mono="OUT 3.5")),
        one("out", named("MAIN", mono="OUT 3.5", plug="3.5")),
        "OUT 3.5 names a size, and its plug is given as 6.35 mm.",
    ),
    "jack says the larger size": (
        one("out", named("MAIN", mono="6.3 mm", plug="3.5")),
        one("out", named("MAIN", mono="6.3 mm")),
        "6.3 mm names a size, and its plug is given as 3.5 mm.",
    ),
    "jacks differ by case": (
        one("in_", named("LINE", mono="Main")),
        one("in_", named("LINE", mono="Main 2")),
        "The jacks MAIN and Main differ only in capital and small letters: are they labelled so?",
    ),
    "outlet that nothing goes to": (
        one("out", MAIN, named("AUX", mono="AUX")),
        one("out", MAIN, MIRROR),
        'No engine and no strip goes to the outlet AUX: name it in their "to", or say what it mirrors.',
    ),
    "engine that goes nowhere": (
        one("out"),
        one("out", MAIN),
        "The engine VOICE goes to no outlet: the box has none.",
    ),
    "strips that go nowhere": (
        one("out", engine=[], in_=[named("LINE", mono="LINE")], strip=[named(n, from_="LINE") for n in "AB"]),
        one("out", engine=[]),
        "The strips A and B go to no outlet: the box has none.",
    ),
    "strip that ducks without a key": (
        strip(offers=["ducking"]),
        strip(offers=["ducking"], key=["VOICE"]),
        'The strip S offers ducking, and nothing can trigger it: name the engines that can in its "key".',
    ),
    "engine that ducks without a key": (
        one("engine", named("VOICE", offers=["ducking"])),
        one("engine", named("VOICE", offers=["reverb"])),
        'The engine VOICE offers ducking, and nothing can trigger it: name the engines that can in its "key".',
    ),
    "engine without a MIDI in": (
        reached(),
        reached(named("T", plays="VOICE")),
        "Nobody can play the engine VOICE: the box has no MIDI in, and no track plays it.",
    ),
    "engine without a channel": (
        one("engine", named("VOICE", channels=[])),
        one("engine", named("VOICE", channels=[]), track=[named("T", plays="VOICE", channels=[])]),
        "Nobody can play the engine VOICE: it has no MIDI channel, and no track plays it.",
    ),
    "engine that is left to other boxes": (
        one("track", named("T"), midi=[IN, OUT]),
        one("track", named("T"), INSIDE, midi=[IN, OUT]),
        "No track of this box plays the engine VOICE, only other boxes can: is that so?",
    ),
    "engines that are left to other boxes": (
        one("engine", named("A", channel=1), named("B", channel=2), track=[named("T")], midi=[IN, OUT]),
        one("engine", named("A", channel=1), named("B", channel=2)),
        "No track of this box plays the engines A and B, only other boxes can: is that so?",
    ),
    "channel of drums": (
        one("engine", named("VOICE", channel=10, sound="glass")),
        one("engine", named("VOICE", channel=10, sound="drum")),
        "The engine VOICE is no drum and stands on channel 10, which is often for drums.",
    ),
    "channel of drums, drum by name": (
        one("engine", named("VOICE", channel=10, sound="noise")),
        one("engine", named("Snare", channel=10, sound="noise")),
        "The engine VOICE is no drum and stands on channel 10, which is often for drums.",
    ),
    "two on a channel": (
        one("engine", VOICE, OTHER),
        one("engine", VOICE, named("OTHER", channel=2)),
        "The engines VOICE and OTHER stand on channel 1 and sound together: is that how they stand?",
    ),
    "two on a channel that nothing reaches": (
        one("engine", VOICE, OTHER, named("THIRD", channel=2)),
        one("engine", VOICE, OTHER, midi=[OUT], track=[named(n, plays=n) for n in ("VOICE", "OTHER")]),
        "The engines VOICE and OTHER stand on channel 1 and sound together: is that how they stand?",
    ),
    "few voices": (
        one("engine", VOICE, named("OTHER", channel=2), voices=1),
        one("engine", VOICE, named("OTHER", channel=2), voices=2),
        "2 engines share 1 voice: they cannot all sound at once.",
    ),
    "track without an out": (
        one("track", named("T"), INSIDE),
        one("track", named("T"), INSIDE, midi=[IN, OUT]),
        "The track T has channels to send on, and the box has no MIDI out: add the socket, or what it plays inside.",
    ),
    "track that plays inside, without an out": (
        one("track", named("T", plays="VOICE")),
        one("track", named("T", plays="VOICE", channels=[])),
        "The track T has channels to send on, and the box has no MIDI out: say channels = [], or add the socket.",
    ),
    "socket says another plug": (
        one("midi", named("USB 1", way="in", clock=True)),
        one("midi", named("USB 1", way="both", plug="usb-device", clock=True)),
        'The socket USB 1 names a plug, and its plug is given as "din".',
    ),
    "thru without clock": (
        one("midi", IN, thru()),
        one("midi", IN, thru(clock=True)),
        "Clock comes in at MIDI IN and does not leave by THRU: is that so?",
    ),
    "repeat without clock": (
        one("midi", IN, named("OUT", way="out", repeats="MIDI IN")),
        one("midi", IN, named("OUT", way="out")),
        "Clock comes in at MIDI IN and does not leave by OUT: is that so?",
    ),
    "in without clock": (
        one("midi", named("MIDI IN", way="in")),
        one("midi", IN),
        "No clock comes in at MIDI IN, so nothing there can follow one: is that so?",
    ),
}


def said(of: Box) -> list[str]:
    return [doubt.sentence for doubt in box_doubts(of)]


@pytest.mark.parametrize("case", CASES)
def test_doubts_what_is_doubtful(case: str) -> None:
    met, _, sentence = CASES[case]
    assert said(met) == [sentence]


@pytest.mark.parametrize("case", CASES)
def test_does_not_doubt_what_is_not(case: str) -> None:
    assert said(CASES[case][1]) == []


def test_every_doubt_has_a_case() -> None:
    raised = {doubts for doubts in DOUBTS for met, _, _ in CASES.values() if list(doubts(met))}
    assert raised == set(DOUBTS)


def test_many_engines_on_one_channel_are_one_doubt() -> None:
    crowd = one("engine", *(named(f"E{n}", channel=3) for n in range(1, 13)))
    assert said(crowd) == [
        "The engines E1, E2, E3, E4, E5, E6 and 6 more stand on channel 3 and sound together: is that how they stand?"
    ]


def test_a_doubt_says_where() -> None:
    (doubt,) = box_doubts(one("engine", VOICE, OTHER))
    assert doubt.path == ("engine", 1, "channel")
