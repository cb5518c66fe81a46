"""What is followed through a plan, and that it ends on any."""

from typing import Any

import pytest

from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.flow.loops import loops, reachable
from solver.flow.sound import sides_at
from solver.gear.words import Spot
from solver.rules import RULES
from tests.building import (
    ARP,
    BASS,
    KICK,
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


def test_every_rule_of_the_table_has_an_id_of_its_own_and_a_sentence() -> None:
    audio, midi = [f"A{n}" for n in range(1, 13)], [f"M{n}" for n in range(1, 11)]
    assert sorted(rule.id for rule in RULES) == sorted([*audio, *midi, "D1", "K1", "P1", "S1"])
    assert all(rule.sentence.endswith(".") for rule in RULES)


def test_a_plain_plan_breaks_no_rule() -> None:
    wishes: list[dict[str, Any]] = [
        {"treat": ["bass"], "with": {"ducking": 30, "reverb": 20}, "key": "kick"},
        {"separate": ["bass", "arp"]},
        {"match": ["kick", "bass", "arp"]},
        {"clock": ["reef"]},
        {"program": ["bass"]},
    ]
    settings = {"outlet": "MAIN", "settings": {"ducking": 30, "reverb": 20}, "key": "kick"}
    good = plain_plan(strips={"dock/IN 1": settings})
    assert [line for rule in RULES for line in breaches(type(rule), dock_and_reef(*wishes), good)] == []


TANGLES: list[list[dict[str, Any]]] = [
    [cable("6.35 mono", "dock/SEND", "dock/IN 1"), cable("6.35 mono", "dock/SEND", "dock/IN 2")],
    [LEFT, RIGHT, cable("6.35 mono", "dock/SEND", "reef/IN"), cable("6.35 mono", "reef/R", "reef/IN")],
    [NOTES, cable("din", "reef/MIDI THRU", "dock/MIDI IN"), cable("din", "reef/MIDI THRU", "reef/MIDI IN")],
    [cable("din", "dock/OUT L", "dock/OUT L"), cable("trs", "dock/MIDI OUT", ("reef/MIDI IN", "reef/MIDI IN"))],
    [cable("3.5 stereo > 2x 6.35 mono", ("dock/IN 1", "reef/R"), ("dock/IN 1", "reef/IN"))],
    [cable("usb", "reef/L/MONO", "dock/MIDI IN"), cable("3.5 stereo", "dock/MIDI OUT", "nowhere/X")],
]


@pytest.mark.parametrize("cables", TANGLES)
@pytest.mark.parametrize("without", [[], ["kick"], ["kick", "bass", "arp"]])
def test_following_ends_on_any_plan(cables: list[dict[str, Any]], without: list[str]) -> None:
    dock = desk(
        out=[named("MAIN", left="OUT L", right="OUT R"), named("SEND", mono="SEND", mirrors="MAIN")],
        in_=[named("LINE", left="IN 1", right="IN 2", alone="copy")],
        midi=[named("MIDI OUT", way="out", repeats="MIDI IN"), named("MIDI IN", way="in")],
    )
    reef = module(
        in_=[named("LINE", mono="IN")],
        strip=[named("IN", from_="LINE")],
        engine=[named("1", channel=1), named("2", channels="all")],
    )
    table = dock_and_reef({"stereo": ["arp"]}, {"clock": ["reef"]}, {"match": ["bass"]}, dock=dock, reef=reef)
    tangled = plain_plan(cables, without=without)
    told = [line for rule in RULES for line in breaches(type(rule), table, tangled)]
    assert told
    assert told == [line for rule in RULES for line in breaches(type(rule), table, tangled)]
    assert all(isinstance(line, str) for line in cautions(Followed(table, tangled)))


def test_the_strips_that_parts_enter_and_what_of_them() -> None:
    wide = plain_plan(bass=BASS | {"pan": "centre"})
    sound = Followed(dock_and_reef({"stereo": ["bass"]}), wide).sound
    in1, in2 = Spot("dock", "IN 1"), Spot("dock", "IN 2")
    assert sound.entered == {"kick": (), "bass": (in1, in2), "arp": (in2,)}
    assert (sound.voices_in(in1, "bass"), sound.voices_in(in2, "bass")) == (("left",), ("right",))
    assert (sound.voices_in(in1, "arp"), sound.voices_in(in2, "arp")) == ((), ("whole",))


def test_a_strip_that_the_plan_leaves_out_stands_at_its_first_outlet_and_centre() -> None:
    dock = desk(
        out=[named("MAIN", left="OUT L", right="OUT R"), named("CUE", mono="CUE")],
        strip=[named("IN 1", from_="LINE/left", to=["CUE", "MAIN"]), named("IN 2", from_="LINE/right")],
    )
    followed = Followed(dock_and_reef(dock=dock), plain_plan())
    assert followed.sound.stand(Spot("dock", "IN 1")) == (Spot("dock", "CUE"), "centre")
    assert followed.sound.stand(Spot("dock", "IN 2")) == (Spot("dock", "MAIN"), "centre")


def test_an_engine_that_the_plan_leaves_out_stands_as_its_box_says() -> None:
    notes = Followed(dock_and_reef(), plain_plan(engines={"reef/2": {"channel": 9, "level": "zero"}})).notes
    one, two = Spot("reef", "1"), Spot("reef", "2")
    assert (notes.channel(one), notes.level(one), notes.shift(one)) == (1, "up", 0)
    assert (notes.channel(two), notes.level(two), notes.shift(two)) == (9, "zero", 0)


def test_the_tracks_for_which_engines_sound() -> None:
    notes = Followed(dock_and_reef(), plain_plan(engines={"reef/2": {"channel": 1}}, kick=KICK)).notes
    assert notes.sounding == {
        Spot("dock", "PAD"): (Spot("dock", "PADS"),),
        Spot("reef", "1"): (Spot("dock", "EXT 1"),),
        Spot("reef", "2"): (Spot("dock", "EXT 1"),),
    }


def test_parts_stand_in_the_order_of_the_jam() -> None:
    followed = Followed(dock_and_reef(parts=("arp", "kick", "bass")), plain_plan(arp=ARP))
    assert list(followed.parts) == ["arp", "kick", "bass"]


@pytest.mark.parametrize(
    ("pan", "sides", "on"),
    [
        ("centre", ("left", "right"), ("left", "right")),
        ("left", ("left", "right"), ("left",)),
        ("right", ("left", "right"), ("right",)),
        ("right", ("mono",), ("mono",)),
        ("centre", ("mono",), ("mono",)),
    ],
)
def test_the_sides_that_a_pan_reaches(pan: Any, sides: Any, on: Any) -> None:
    assert sides_at(pan, sides) == on


def test_loops_of_a_graph() -> None:
    assert loops({"a": ["b"], "b": ["c"], "c": []}) == []
    assert loops({"a": ["a"]}) == [("a", "a")]
    assert loops({"a": ["b", "c"], "b": ["c"], "c": ["a"], "d": ["e"], "e": ["d", "a"]}) == [
        ("a", "c", "a"),
        ("d", "e", "d"),
    ]
    assert loops({"x": ["a"], "a": ["b"], "b": ["a"]}) == [("a", "b", "a")]


def test_what_can_be_reached_is_listed_nearest_first() -> None:
    assert list(reachable(["a"], {"a": ["c", "b"], "c": ["d"], "b": ["a"], "e": ["a"]})) == ["a", "c", "b", "d"]
