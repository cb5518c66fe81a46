"""The rules of notes."""

from typing import Any

import pytest

from solver.rules.notes import EnginesListen, NoStrayNotes, TracksSend
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
    jam,
    lives,
    module,
    named,
    plain_plan,
    plan,
)


def _engines(**engines: Any) -> dict[str, Any]:
    """Planned engines of the module, by number: a channel, or a channel and a level."""
    found = {}
    for name, value in engines.items():
        channel, level = value if isinstance(value, tuple) else (value, "up")
        found[f"reef/{name[1:]}"] = {"channel": channel, "level": level}
    return found


def test_tracks_that_send_on_a_channel_they_have() -> None:
    assert breaches(TracksSend, dock_and_reef(), plain_plan()) == []


def test_a_track_on_a_channel_that_it_does_not_have() -> None:
    dock = desk(track=[named("PADS", channels=[]), named("EXT 1", channels=[1, 2]), named("EXT 2", channels=[])])
    table = dock_and_reef(dock=dock)
    moved = plain_plan(kick=KICK | {"channel": 4}, bass=BASS | {"channel": 3}, arp=ARP | {"channel": None})
    assert breaches(TracksSend, table, moved) == [
        "dock/PADS with kick sends on channel 4, it has no channel",
        "dock/EXT 1 with bass sends on channel 3, it has 1 and 2",
    ]


def test_a_track_that_sends_nothing_out() -> None:
    silent = plain_plan(bass=BASS | {"channel": None}, arp=ARP | {"channel": None})
    assert breaches(TracksSend, dock_and_reef(), silent) == [
        "dock/EXT 2 with arp sends nothing out, its sending cannot be switched off"
    ]


def test_parts_of_one_track_share_its_channel() -> None:
    layered = plain_plan(arp=ARP | {"track": "dock/EXT 1", "channel": 1})
    assert breaches(TracksSend, dock_and_reef(), layered) == []
    torn = plain_plan(arp=ARP | {"track": "dock/EXT 1"})
    assert breaches(TracksSend, dock_and_reef(), torn) == [
        "dock/EXT 1 with bass and arp has channels 1 and 2, a track has one"
    ]


def test_engines_that_sound_for_their_tracks() -> None:
    assert breaches(EnginesListen, dock_and_reef(), plain_plan()) == []


def test_an_engine_on_a_channel_that_it_does_not_have() -> None:
    reef = module(engine=[named("1", channels=[1, 2], can_be_off=True), named("2", channels=[2, 4])])
    table = dock_and_reef(reef=reef)
    assert breaches(EnginesListen, table, plain_plan(engines=_engines(_1="off"), without=["bass"])) == []
    wrong = plain_plan(engines=_engines(_1="all", _2="off"), without=["bass", "arp"])
    assert breaches(EnginesListen, table, wrong) == [
        "reef/1 is set to channel all, it has 1, 2 and off",
        "reef/2 is set to channel off, it has 2 and 4",
    ]


def test_an_engine_on_another_channel_than_its_track() -> None:
    assert breaches(EnginesListen, dock_and_reef(), plain_plan(engines=_engines(_1=5))) == [
        "reef/1 with bass does not sound for dock/EXT 1: the track sends on 1, the engine listens to 5"
    ]
    reef = module(engine=[named("1", can_be_off=True), named("2", channel=2)])
    assert breaches(EnginesListen, dock_and_reef(reef=reef), plain_plan(engines=_engines(_1="off"))) == [
        "reef/1 with bass does not sound for dock/EXT 1: the track sends on 1, the engine is off"
    ]


def test_an_engine_that_the_plan_leaves_out_stands_as_its_box_says() -> None:
    reef = module(engine=[named("1", channel=9), named("2", channel=2)])
    assert breaches(EnginesListen, dock_and_reef(reef=reef), plain_plan()) == [
        "reef/1 with bass does not sound for dock/EXT 1: the track sends on 1, the engine listens to 9"
    ]


def test_an_engine_that_listens_to_all() -> None:
    reef = module(engine=[named("1", channels="all"), named("2", channel=2)])
    assert breaches(EnginesListen, dock_and_reef(reef=reef), plain_plan(engines=_engines(_1="all"))) == []


def test_notes_that_do_not_reach_the_box() -> None:
    said = "reef/1 with bass does not sound for dock/EXT 1: its notes do not reach reef"
    assert said in breaches(EnginesListen, dock_and_reef(), plain_plan([LEFT, RIGHT]))
    backwards = cable("din", "reef/MIDI IN", "dock/MIDI OUT")
    assert said in breaches(EnginesListen, dock_and_reef(), plain_plan([LEFT, RIGHT, backwards]))


def test_notes_do_not_cross_from_one_sort_of_trs_plug_to_the_other() -> None:
    reef = module(midi=[named("MIDI IN", way="in", plug="trs-b")])
    dock = desk(midi=[named("MIDI OUT", way="out", plug="trs-a")])
    table = dock_and_reef(dock=dock, reef=reef)
    crossed = plain_plan([LEFT, RIGHT, cable("trs", "dock/MIDI OUT", "reef/MIDI IN")])
    assert len(breaches(EnginesListen, table, crossed)) == 2


def test_a_track_that_is_off_plays_nothing_outside() -> None:
    assert breaches(EnginesListen, dock_and_reef(), plain_plan(bass=BASS | {"channel": None})) == [
        "reef/1 with bass does not sound for dock/EXT 1: that track sends nothing out"
    ]


def test_no_track_plays_another_engine_of_its_own_box() -> None:
    dock = desk(engine=[named("PAD", channels=[1])])
    wrong = plain_plan(kick=lives("dock/PAD", "dock/EXT 1", 1), without=["bass", "arp"])
    assert breaches(EnginesListen, dock_and_reef(dock=dock), wrong) == [
        "dock/PAD with kick does not sound for dock/EXT 1: that track does not play it inside the box"
    ]


@pytest.mark.parametrize("repeats", [["MIDI IN"], []])
def test_notes_pass_an_out_that_repeats(repeats: list[str]) -> None:
    pool = module(engine=[], out=[], midi=[named("MIDI IN", way="in"), named("MIDI OUT", way="out", repeats=repeats)])
    table = jam({"dock": desk(), "pool": pool, "reef": module()}, ("bass",))
    leads = [cable("din", "dock/MIDI OUT", "pool/MIDI IN"), cable("din", "pool/MIDI OUT", "reef/MIDI IN")]
    found = breaches(EnginesListen, table, plan({"bass": BASS}, [LEFT, *leads]))
    assert len(found) == (0 if repeats else 1)


def test_no_stray_notes_in_a_plain_plan() -> None:
    assert breaches(NoStrayNotes, dock_and_reef(), plain_plan()) == []


def test_two_engines_on_one_channel() -> None:
    stray = plain_plan(engines=_engines(_2=1))
    assert breaches(NoStrayNotes, dock_and_reef(), stray) == ["reef/2 with arp also sounds for dock/EXT 1 (bass)"]


def test_a_track_of_the_leader_that_plays_inside_and_also_sends() -> None:
    pads = [named("PADS", channels=[10, 1], channel=10, plays="PAD", can_be_off=True), named("EXT 1", channel=1)]
    pads.append(named("EXT 2", channel=2))
    table = dock_and_reef(dock=desk(track=pads), parts=("kick", "bass"))
    for channel, said in ((10, []), (None, []), (1, ["reef/1 with bass also sounds for dock/PADS (kick)"])):
        sent = plain_plan(kick=KICK | {"channel": channel}, engines=_engines(_2=5), without=["arp"])
        assert breaches(NoStrayNotes, table, sent) == said


def test_a_track_without_a_part_sends_nothing() -> None:
    alone = plain_plan(without=["bass"], engines=_engines(_1=1))
    assert breaches(NoStrayNotes, dock_and_reef(), alone) == []


def test_an_engine_without_a_part_on_a_channel_that_is_sent() -> None:
    stray = plain_plan(without=["arp"], engines=_engines(_2=1))
    assert breaches(NoStrayNotes, dock_and_reef(), stray) == [
        "reef/2 has no part and sounds for dock/EXT 1 (bass), its level is up"
    ]


def test_an_engine_left_out_of_the_plan_can_still_stray() -> None:
    reef = module(engine=[named("1", channel=1), named("2", channel=1)])
    assert breaches(NoStrayNotes, dock_and_reef(reef=reef), plain_plan(without=["arp"])) == [
        "reef/2 has no part and sounds for dock/EXT 1 (bass), its level is up"
    ]


def test_level_zero_is_the_last_resort() -> None:
    silenced = plain_plan(without=["arp"], engines=_engines(_2=(1, "zero")))
    assert breaches(NoStrayNotes, dock_and_reef(), silenced) == [
        "reef/2 is at level zero, it could listen to channel 2 where nothing is sent"
    ]
    two = module(engine=[named("1", channel=1), named("2", channels=[1, 9])])
    assert breaches(NoStrayNotes, dock_and_reef(reef=two), silenced) == [
        "reef/2 is at level zero, it could listen to channel 9 where nothing is sent"
    ]
    only_one = module(engine=[named("1", channel=1), named("2", channels=[1])])
    assert breaches(NoStrayNotes, dock_and_reef(reef=only_one), silenced) == []
    can_be_off = module(engine=[named("1", channel=1), named("2", channels=[1], can_be_off=True)])
    assert breaches(NoStrayNotes, dock_and_reef(reef=can_be_off), silenced) == [
        "reef/2 is at level zero, it could be off"
    ]
    off = plain_plan(without=["arp"], engines=_engines(_2="off"))
    assert breaches(NoStrayNotes, dock_and_reef(reef=can_be_off), off) == []


def test_an_engine_that_listens_to_all_and_has_no_part() -> None:
    reef = module(engine=[named("1", channel=1), named("2", channels="all")])
    up = plain_plan(without=["arp"], engines=_engines(_2="all"))
    assert breaches(NoStrayNotes, dock_and_reef(reef=reef), up) == [
        "reef/2 has no part and sounds for dock/EXT 1 (bass), its level is up"
    ]
    zero = plain_plan(without=["arp"], engines=_engines(_2=("all", "zero")))
    assert breaches(NoStrayNotes, dock_and_reef(reef=reef), zero) == []
    also = module(engine=[named("1", channel=1), named("2", channels="all", can_be_off=True)])
    assert breaches(NoStrayNotes, dock_and_reef(reef=also), zero) == ["reef/2 is at level zero, it could be off"]


def test_an_avoided_channel_is_no_way_out_unless_the_engine_stands_there() -> None:
    silenced = plain_plan(without=["arp"], engines=_engines(_2=(1, "zero")))
    reef = module(engine=[named("1", channel=1), named("2", channels=[1, 7], channel=1)])
    avoid = {"avoid": {"channels": [7]}}
    assert breaches(NoStrayNotes, dock_and_reef(avoid, reef=reef), silenced) == []
    stands = module(engine=[named("1", channel=1), named("2", channels=[1, 7], channel=7)])
    assert breaches(NoStrayNotes, dock_and_reef(avoid, reef=stands), silenced) == [
        "reef/2 is at level zero, it could listen to channel 7 where nothing is sent"
    ]


def test_level_zero_where_nothing_strikes() -> None:
    calm = plain_plan(without=["arp"], engines=_engines(_2=(2, "zero")))
    assert breaches(NoStrayNotes, dock_and_reef(), calm) == [
        "reef/2 has no part and nothing plays it, its level is at zero"
    ]


def test_level_zero_with_a_part() -> None:
    assert breaches(NoStrayNotes, dock_and_reef(), plain_plan(engines=_engines(_1=(1, "zero")))) == [
        "reef/1 plays bass, its level is at zero"
    ]


def test_an_engine_that_its_own_track_plays_without_a_part() -> None:
    """Off or not, the track still plays it inside the box: only its level silences it."""
    dock = desk(
        engine=[named("PAD", channels=[], can_be_off=True)],
        track=[named("EXT 1", channel=1, plays="PAD"), named("EXT 2", channel=2)],
    )
    table = dock_and_reef(dock=dock, parts=("bass",))
    for channel, level, said in (
        ("off", "up", ["dock/PAD has no part and sounds for dock/EXT 1 (bass), its level is up"]),
        ("off", "zero", []),
    ):
        engines = _engines(_2=2) | {"dock/PAD": {"channel": channel, "level": level}}
        assert breaches(NoStrayNotes, table, plan({"bass": BASS}, [LEFT, NOTES], engines=engines)) == said


@pytest.mark.parametrize("channel", [1, 2])
def test_notes_that_go_round_end(channel: int) -> None:
    reef = module(midi=[named("MIDI IN", way="in"), named("MIDI OUT", way="out", repeats="MIDI IN")])
    dock = desk(midi=[named("MIDI OUT", way="out", repeats="MIDI IN"), named("MIDI IN", way="in")])
    round_ = plain_plan(
        [LEFT, RIGHT, NOTES, cable("din", "reef/MIDI OUT", "dock/MIDI IN")], engines=_engines(_2=channel)
    )
    found = breaches(NoStrayNotes, dock_and_reef(dock=dock, reef=reef), round_)
    assert found == (["reef/2 with arp also sounds for dock/EXT 1 (bass)"] if channel == 1 else [])
