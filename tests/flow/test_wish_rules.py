"""The rules of plain wishes."""

from typing import Any

import pytest

from solver.rules.wishes import Avoids, Keeps, LivesWhere
from tests.building import (
    ARP,
    BASS,
    LEFT,
    NOTES,
    RIGHT,
    breaches,
    cable,
    desk,
    dock_and_reef,
    module,
    named,
    plain_plan,
)


def _avoid(**keys: Any) -> dict[str, Any]:
    return {"avoid": keys}


def test_nothing_uses_what_is_avoided() -> None:
    avoid = _avoid(channels=[3, 16], jacks=["dock/OUT L"], ports=["dock/MIDI IN"])
    assert breaches(Avoids, dock_and_reef(avoid), plain_plan()) == []


def test_a_track_on_an_avoided_channel() -> None:
    assert breaches(Avoids, dock_and_reef(_avoid(channels=[2])), plain_plan()) == [
        "dock/EXT 2 sends on channel 2, which you avoid"
    ]
    assert breaches(Avoids, dock_and_reef(_avoid(channels=[2])), plain_plan(without=["arp"])) == []


def test_an_engine_moved_to_an_avoided_channel() -> None:
    moved = plain_plan(engines={"reef/1": {"channel": 7}}, without=["bass", "arp"])
    assert breaches(Avoids, dock_and_reef(_avoid(channels=[7])), moved) == [
        "reef/1 is moved to channel 7, which you avoid"
    ]
    stands = module(engine=[named("1", channel=7), named("2", channel=2)])
    assert breaches(Avoids, dock_and_reef(_avoid(channels=[7]), reef=stands), moved) == []


@pytest.mark.parametrize(
    ("avoid", "said"),
    [
        (_avoid(jacks=["reef/R"]), "the 6.35 mono cable from reef/R to dock/IN 2 uses reef/R, which you avoid"),
        (_avoid(jacks=["dock/IN 2"]), "the 6.35 mono cable from reef/R to dock/IN 2 uses dock/IN 2, which you avoid"),
        (
            _avoid(ports=["reef/MIDI IN"]),
            "the din cable from dock/MIDI OUT to reef/MIDI IN uses reef/MIDI IN, which you avoid",
        ),
    ],
)
def test_a_cable_in_an_avoided_socket(avoid: dict[str, Any], said: str) -> None:
    assert breaches(Avoids, dock_and_reef(avoid), plain_plan()) == [said]


def test_a_leg_of_a_breakout_in_an_avoided_jack() -> None:
    table = dock_and_reef(_avoid(jacks=["dock/IN 2"]), reef=module(out=[named("MAIN", stereo="OUT", plug="3.5")]))
    legs = cable("3.5 stereo > 2x 6.35 mono", "reef/OUT", ("dock/IN 1", "dock/IN 2"))
    assert breaches(Avoids, table, plain_plan([legs, NOTES])) == [
        "the 3.5 stereo > 2x 6.35 mono cable from reef/OUT to dock/IN 1 + dock/IN 2 uses dock/IN 2, which you avoid"
    ]


def _keep(**keys: Any) -> dict[str, Any]:
    return {"keep": keys}


@pytest.mark.parametrize("ends", [["reef/L/MONO", "dock/IN 1"], ["dock/IN 1", "reef/L/MONO"]])
def test_a_cable_that_stays(ends: list[str]) -> None:
    table = dock_and_reef(_keep(cable=ends))
    assert breaches(Keeps, table, plain_plan()) == []
    assert breaches(Keeps, table, plain_plan([RIGHT, NOTES])) == [
        f"no cable joins {ends[0]} and {ends[1]}, you keep one there"
    ]
    elsewhere = [cable("6.35 mono", "reef/L/MONO", "dock/IN 2"), cable("6.35 mono", "reef/R", "dock/IN 1"), NOTES]
    assert len(breaches(Keeps, table, plain_plan(elsewhere))) == 1


def test_a_leg_of_a_breakout_counts_as_the_cable_that_stays() -> None:
    reef = module(out=[named("MAIN", stereo="OUT", plug="3.5")])
    table = dock_and_reef(_keep(cable=["dock/IN 2", "reef/OUT"]), reef=reef)
    legs = cable("3.5 stereo > 2x 6.35 mono", "reef/OUT", ("dock/IN 1", "dock/IN 2"))
    assert breaches(Keeps, table, plain_plan([legs, NOTES])) == []
    legs_only = dock_and_reef(_keep(cable=["dock/IN 1", "dock/IN 2"]), reef=reef)
    assert len(breaches(Keeps, legs_only, plain_plan([legs, NOTES]))) == 1


def test_a_midi_cable_that_stays() -> None:
    table = dock_and_reef(_keep(cable=["dock/MIDI OUT", "reef/MIDI IN"]))
    assert breaches(Keeps, table, plain_plan()) == []
    assert len(breaches(Keeps, table, plain_plan([LEFT]))) == 1


@pytest.mark.parametrize(
    ("kept", "other", "said"),
    [
        ({"engine": "reef/1"}, {"engine": "reef/2"}, "bass lives on reef/2, you keep it on reef/1"),
        ({"channel": 1}, {"channel": 3}, "bass is sent on channel 3, you keep it on channel 1"),
        ({"channel": 1}, {"channel": None}, "bass is sent on no channel, you keep it on channel 1"),
        ({"pan": "left"}, {"pan": "centre"}, "bass is panned centre, you keep it left"),
        ({"track": "dock/EXT 1"}, {"track": "dock/EXT 2"}, "dock/EXT 2 plays bass, you keep dock/EXT 1 for it"),
        ({"strip": "dock/IN 1"}, {"pan": "right"}, "bass does not enter dock/IN 1, you keep it there"),
    ],
)
def test_a_choice_about_a_part_that_stays(kept: dict[str, Any], other: dict[str, Any], said: str) -> None:
    table = dock_and_reef(_keep(part="bass", **kept))
    assert breaches(Keeps, table, plain_plan()) == []
    assert breaches(Keeps, table, plain_plan(bass=BASS | other)) == [said]


@pytest.mark.parametrize(
    ("stated", "said"),
    [
        ({}, None),
        ({"on": "reef"}, None),
        ({"on": "reef/1"}, None),
        ({"on": "reef/1", "sound": "synth"}, None),
        ({"on": "dock"}, "bass lives on reef/1, you want it on dock"),
        ({"on": "reef/2"}, "bass lives on reef/1, you want it on reef/2"),
        ({"sound": "bell"}, 'bass lives on reef/1 with the sound "synth", you want "bell"'),
    ],
)
def test_a_part_lives_where_it_is_stated(stated: dict[str, Any], said: str | None) -> None:
    table = dock_and_reef(parts={"kick": {}, "bass": stated, "arp": {}})
    assert breaches(LivesWhere, table, plain_plan()) == ([] if said is None else [said])


def test_two_parts_may_be_stated_on_one_box_and_live_there() -> None:
    table = dock_and_reef(parts={"kick": {"on": "dock"}, "bass": {"on": "reef"}, "arp": {"on": "reef"}}, dock=desk())
    assert breaches(LivesWhere, table, plain_plan(arp=ARP | {"engine": "reef/1"})) == []
