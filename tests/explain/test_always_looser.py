"""Corners in which leaving something out would take a plan away, if it were read too literally."""

import pytest

from solver.jam.jam import Jam
from solver.reasons.conflicts import conflicts
from solver.reasons.trial import Trial
from solver.search.clock import Clock
from tests.building import Table, desk, dock_and_reef, module, named
from tests.explain.slow import Slow

ON_REEF = {"on": "reef"}
ONE_STRIP = [named("IN 1", from_="LINE/left")]


def _engines(count: int, **keys: object) -> list[Table]:
    return [named(str(number), channel=1, **keys) for number in range(1, count + 1)]


def _named(*programs: Table) -> Jam:
    """Two parts of one lane that both obey program changes, so both are named or none; they have one strip."""
    return dock_and_reef(
        {"layer": ["bass", "arp"]},
        *programs,
        {"separate": ["bass", "arp"]},
        dock=desk(strip=ONE_STRIP, engine=[], track=[named("EXT 1", program_change=True)]),
        reef=module(engine=_engines(2, program_change=True)),
        parts={"bass": ON_REEF, "arp": ON_REEF},
    )


def _bridged() -> Jam:
    """Three parts on the only lane; bass and pad share it only over the arp. They have one strip."""
    return dock_and_reef(
        {"layer": ["bass", "arp"]},
        {"layer": ["arp", "pad"]},
        {"separate": ["bass", "pad"]},
        dock=desk(strip=ONE_STRIP, track=[named("EXT 1", channel=1)]),
        reef=module(engine=_engines(3)),
        parts=dict.fromkeys(("bass", "arp", "pad"), ON_REEF),
    )


def _played() -> Jam:
    """A layer of two; who plays it is stated of the kick. No box has what the bass wants."""
    return dock_and_reef(
        {"layer": ["kick", "bass"]},
        {"play": ["kick"], "from": "reef"},
        {"treat": ["bass"], "with": {"warmth": 20}},
        dock=desk(strip=ONE_STRIP, track=[], engine=[named("PAD", channel=1)]),
        reef=module(track=[named("SEQ", channel=1, plays="1")], midi=[named("OUT", way="out")]),
        parts={"kick": {"on": "dock/PAD"}, "bass": {"on": "reef/1"}},
    )


def _centred() -> Jam:
    """Two parts at centre of one outlet: where one keeps both sides, the other gets in only if it does so too."""
    strips = [named(f"IN {number}", from_=f"LINE/{side}") for number, side in ((1, "left"), (2, "right"))]
    return dock_and_reef(
        {"stereo": ["bass", "arp"]},
        {"separate": ["bass", "arp"]},
        dock=desk(strip=strips, engine=[], track=[named("EXT 1"), named("EXT 2")]),
        reef=module(engine=_engines(2, pan="fixed")),
        parts={"bass": ON_REEF, "arp": ON_REEF},
    )


def _wide() -> Jam:
    """The kick keeps both sides; what is wrong with the bass is wrong without the kick too."""
    return dock_and_reef({"stereo": ["kick"]}, parts={"kick": {}, "bass": {"sound": "noise"}})


CORNERS: dict[str, tuple[Jam, list[tuple[str, ...]]]] = {
    "program": (_named({"program": ["bass", "arp"]}), [("part.bass", "part.arp", "intent.3")]),
    "program, one by one": (
        _named({"program": ["bass"]}, {"program": ["arp"]}),
        [("part.bass", "part.arp", "intent.4")],
    ),
    "a layer over a third": (_bridged(), [("part.bass", "part.pad", "intent.3")]),
    "a player of another": (_played(), [("part.bass", "intent.3")]),
    "both sides of both": (_centred(), [("part.bass", "part.arp", "intent.2")]),
    "both sides of another": (_wide(), [("part.bass.sound",)]),
}


@pytest.mark.parametrize("name", CORNERS)
def test_what_is_wrong_is_found_and_nothing_else(name: str) -> None:
    jam, expected = CORNERS[name]
    assert sorted(conflict.statements for conflict in conflicts(Trial(jam, Clock(None))).conflicts) == sorted(expected)


@pytest.mark.parametrize("name", CORNERS)
def test_the_slow_twin_says_so_too(name: str) -> None:
    jam, _ = CORNERS[name]
    assert {frozenset(c.claims) for c in conflicts(Trial(jam, Clock(None))).conflicts} == Slow(jam).conflicts()


def test_any_of_many_layers_that_are_left_out_may_hold() -> None:
    """Eight parts on six lanes: two layers are needed, and the first two of the four cannot be had."""
    kept = ({"keep": {"part": part, "track": f"dock/{lane}"}} for lane, part in enumerate("abcd", start=1))
    jam = dock_and_reef(
        *({"layer": list(pair)} for pair in ("ab", "cd", "ef", "gh")),
        *kept,
        dock=desk(strip=ONE_STRIP, track=[named(str(lane), channel=lane) for lane in range(1, 7)]),
        reef=module(engine=_engines(8)),
        parts=dict.fromkeys("abcdefgh", ON_REEF),
    )
    trial = Trial(jam, Clock(None))
    more = [claim for claim in trial.claims if claim.statement not in ("intent.1", "intent.2")]
    less = [claim for claim in more if claim.piece[0] != "layer"]
    assert trial.fails(trial.claims)
    assert not trial.fails(more)
    assert not trial.fails(less)
