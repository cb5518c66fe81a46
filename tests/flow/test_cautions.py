"""Cautions: what a musician should know about a plan that breaks no rule."""

from typing import Any

import pytest

from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.building import (
    ARP,
    BASS,
    LEFT,
    NOTES,
    RIGHT,
    box,
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


def _told(word: str, of: Jam, in_plan: Plan) -> list[str]:
    """The cautions that hold a word."""
    return [line for line in cautions(Followed(of, in_plan)) if word in line]


def test_a_plan_without_a_caution() -> None:
    quiet = plan({"bass": BASS | {"pan": "centre"}}, [cable("6.35 mono", "reef/OUT", "dock/IN"), NOTES])
    dock = desk(in_=[named("LINE", mono="IN")], strip=[named("IN", from_="LINE")], engine=[], track=[named("EXT 1")])
    reef = module(out=[named("MAIN", mono="OUT")], engine=[named("1")])
    assert cautions(Followed(dock_and_reef(dock=dock, reef=reef, parts=("bass",)), quiet)) == ()


def _notes(bass: int, arp: int, *intents: Any, **keys: Any) -> Jam:
    return dock_and_reef(
        *intents, parts={"kick": {"notes": 99}, "bass": {"notes": bass}, "arp": {"notes": arp}}, **keys
    )


def test_notes_that_come_late_on_a_serial_cable() -> None:
    assert _told(" ms ", _notes(6, 5), plain_plan()) == []
    assert _told(" ms ", _notes(6, 6), plain_plan()) == [
        "When all 12 notes from dock/MIDI OUT to reef/MIDI IN start together, the last is 10.6 ms late: let fewer "
        "notes start at once on this cable, or send some of its parts by another port, such as USB."
    ]


def test_the_same_late_notes_on_a_chain_are_told_once() -> None:
    relay = box("Relay", midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")])
    table = jam({"dock": desk(), "relay": relay, "reef": module()}, {"bass": {"notes": 12}})
    chain = [cable("din", "relay/THRU", "reef/MIDI IN"), cable("din", "dock/MIDI OUT", "relay/IN")]
    told = _told(" ms ", table, plan({"bass": BASS}, chain))
    assert [line.partition(" start")[0] for line in told] == ["When all 12 notes from dock/MIDI OUT to relay/IN"]


def test_a_layer_sends_its_notes_once() -> None:
    layered = plain_plan(arp=ARP | {"track": "dock/EXT 1", "channel": 1})
    assert _told(" ms ", _notes(11, 11, {"layer": ["bass", "arp"]}), layered) == []
    assert len(_told(" ms ", _notes(11, 12, {"layer": ["bass", "arp"]}), layered)) == 1


def test_a_track_that_is_off_sends_no_notes() -> None:
    assert _told(" ms ", _notes(6, 6), plain_plan(bass=BASS | {"channel": None})) == []


def test_usb_is_not_serial() -> None:
    dock = desk(midi=[named("MIDI OUT", way="both", plug="usb-host")])
    reef = module(midi=[named("MIDI IN", way="both", plug="usb-device")])
    usb = cable("usb", "dock/MIDI OUT", "reef/MIDI IN")
    assert _told(" ms ", _notes(20, 20, dock=dock, reef=reef), plain_plan([LEFT, RIGHT, usb])) == []


def test_only_notes_that_pass_a_cable_count_on_it() -> None:
    pool = box("Pool", track=[named("T")], midi=[named("OUT", way="out"), named("OUT 2", way="out")])
    reef = module(midi=[named("MIDI IN", way="in"), named("IN 2", way="in")])
    table = jam({"dock": desk(), "pool": pool, "reef": reef}, {"bass": {"notes": 6}, "arp": {"notes": 6}})
    parts = {"bass": BASS, "arp": ARP | {"track": "pool/T"}}
    leads = [NOTES, cable("din", "pool/OUT", "reef/IN 2")]
    assert _told(" ms ", table, plan(parts, leads)) == []


def test_more_notes_than_voices() -> None:
    reef = module().model_copy(update={"voices": 8})
    assert _told("at once", _notes(4, 4, reef=reef), plain_plan()) == []
    assert _told("at once", _notes(4, 5, reef=reef), plain_plan()) == [
        "reef can sound 8 notes at once, bass and arp can ask for 9."
    ]


@pytest.mark.parametrize("count", [3, 4, 5])
def test_more_than_three_thrus_in_a_row(count: int) -> None:
    relay = box("Relay", midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")])
    names = [f"r{number}" for number in range(count)]
    table = jam({"dock": desk(), "reef": module()} | dict.fromkeys(names, relay), ("bass",))
    outs = ["dock/MIDI OUT", *(f"{name}/THRU" for name in names)]
    ins = [*(f"{name}/IN" for name in names), "reef/MIDI IN"]
    chained = plan({"bass": BASS}, [cable("din", *ends) for ends in zip(outs, ins, strict=True)])
    first = "r0/THRU, r1/THRU, r2/THRU and r3/THRU"
    remedy = "A thru box near the sender, one in to several thrus, makes the way short."
    said = {
        3: [],
        4: [f"Notes for reef pass more than 3 thrus in a row: {first}. {remedy}"],
        5: [f"Notes for r4 pass more than 3 thrus in a row: {first}. {remedy}"],
    }
    assert _told("thrus", table, chained) == said[count]


def test_thrus_that_nothing_feeds() -> None:
    relay = box("Relay", midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")])
    table = jam({"dock": desk(), "reef": module(), "r0": relay}, ("bass",))
    assert _told("thrus", table, plan({"bass": BASS}, [cable("din", "r0/THRU", "reef/MIDI IN")])) == []


def test_thrus_in_a_ring_end() -> None:
    relay = box("Relay", midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")])
    names = ["r0", "r1", "r2"]
    table = jam({"dock": desk(), "reef": module()} | dict.fromkeys(names, relay), ("bass",))
    ring = [cable("din", f"{a}/THRU", f"{b}/IN") for a, b in zip(names, [*names[1:], names[0]], strict=True)]
    assert _told("thrus", table, plan({"bass": BASS}, ring)) == []


def test_a_sound_taken_from_one_side() -> None:
    assert _told("one side", dock_and_reef(), plain_plan()) == [
        "bass and arp leave reef on one side: choose sounds that lose nothing without the other. A stereo "
        "sound loses one half there, 3 dB if the two are unrelated."
    ]
    own = module(out=[named("MAIN", left="L/MONO", right="R")])
    centred = plain_plan([LEFT, NOTES], bass=BASS | {"pan": "centre"}, without=["arp"])
    assert _told("one side", dock_and_reef(reef=own), centred) == [
        "bass leaves reef on one side: choose sounds that lose nothing without the other. A stereo "
        "sound loses one half there, 3 dB if the two are unrelated."
    ]


def test_a_sound_that_is_heard_where_it_is_made_and_also_sent_by_one_side() -> None:
    dock = desk(
        out=[named("MAIN", left="OUT L", right="OUT R"), named("SEND", left="S L", right="S R", mirrors="MAIN")]
    )
    pool = box("Pool", in_=[named("LINE", mono="IN")], out=[named("MAIN", mono="OUT")])
    table = jam({"dock": dock, "pool": pool, "reef": module()}, ("kick", "bass", "arp"))
    sent = plain_plan([cable("6.35 mono", "dock/S L", "pool/IN")], without=["bass", "arp"])
    assert _told("one side", table, sent) == []


def test_a_sound_taken_from_both_sides_or_stated_stereo() -> None:
    centred = plain_plan(bass=BASS | {"pan": "centre"}, without=["arp"])
    assert _told("one side", dock_and_reef(), centred) == []
    summed = plain_plan([LEFT, NOTES], bass=BASS | {"pan": "centre"}, without=["arp"])
    assert _told("one side", dock_and_reef(), summed) == []
    stereo = dock_and_reef({"stereo": ["bass"]})
    assert _told("one side", stereo, plain_plan(without=["arp"])) == []


def _wet_desk(*effects: str) -> Box:
    sides = {"IN 1": "LINE/left", "IN 2": "LINE/right"}
    return desk(strip=[named(name, from_=side, offers=effects) for name, side in sides.items()])


def _share(*treats: Any, amounts: dict[str, int]) -> list[str]:
    """What is told of bass and arp, which share the left side, and of what they get there."""
    settings = {"dock/IN 1": {"outlet": "MAIN", "settings": amounts}}
    dock = _wet_desk("reverb", "delay")
    table = dock_and_reef(*treats, dock=dock, parts=("kick", "bass", "arp"))
    return _told("too", table, plain_plan([LEFT, NOTES], arp=ARP | {"pan": "left"}, strips=settings))


def test_effects_that_come_with_a_shared_strip() -> None:
    wet = {"treat": ["bass"], "with": {"reverb": 20, "delay": 5}}
    amounts = {"reverb": 20, "delay": 5}
    assert _share(wet, amounts=amounts) == [
        "arp shares dock/IN 1 with bass, so it gets reverb 20 % and delay 5 % too. If it is to stay without, ask for "
        "reverb = 0 and delay = 0."
    ]
    said = {"treat": ["arp"], "with": {"reverb": 20}}
    (told,) = _share(wet, said, amounts=amounts)
    assert "so it gets delay 5 % too" in told
    assert _share(wet, {"treat": ["arp"], "with": amounts}, amounts=amounts) == []
    assert _share(wet, amounts={"reverb": 0, "delay": 0}) == []
    assert _share(amounts=amounts) == [], "nobody asks for it: a rule is broken, and says so"


def test_several_parts_with_the_same_effects_are_told_together() -> None:
    dock = _wet_desk("reverb")
    reef = module(engine=[named("1"), named("2"), named("3")])
    wet = {"treat": ["bass"], "with": {"reverb": 20}}
    table = dock_and_reef(wet, dock=dock, reef=reef, parts=("bass", "arp", "bell"))
    parts = {
        "bass": BASS | {"pan": "centre"},
        "arp": ARP | {"pan": "centre"},
        "bell": lives("reef/3", "dock/EXT 3", 3, "centre"),
    }
    strips = {f"dock/IN {n}": {"outlet": "MAIN", "settings": {"reverb": 20}} for n in (1, 2)}
    assert _told("too", table, plan(parts, [LEFT, RIGHT, NOTES], strips=strips)) == [
        "arp and bell share dock/IN 1 and dock/IN 2 with bass, so they get reverb 20 % too. If they are to stay "
        "without, ask for reverb = 0."
    ]


def test_parts_on_the_two_sides_of_one_outlet() -> None:
    assert _told("bleed", dock_and_reef(), plain_plan()) == [
        "bass and arp share the two sides of reef: its shared effects come back in stereo and bleed across, "
        "keep them at zero (common practice)."
    ]
    assert _told("bleed", dock_and_reef(), plain_plan(arp=ARP | {"pan": "left"})) == []
    two = module(out=[named("MAIN", left="L/MONO", right="R"), named("AUX", left="A L", right="A R")])
    apart = plain_plan(arp=lives("reef/2", "dock/EXT 2", 2, "right", "AUX"))
    assert _told("bleed", dock_and_reef(reef=two), apart) == []


def test_a_mono_outlet_has_no_sides_to_bleed_across() -> None:
    mono = dock_and_reef(reef=module(out=[named("MAIN", mono="OUT")]))
    assert _told("bleed", mono, plain_plan()) == []


def test_a_part_at_centre_shares_no_sides() -> None:
    assert _told("bleed", dock_and_reef(), plain_plan(arp=ARP | {"pan": "centre"})) == []


def test_strips_without_a_cable_in_a_box_that_mixes() -> None:
    assert _told("IN", dock_and_reef(), plain_plan([LEFT, NOTES])) == [
        "dock: nothing comes in on IN 2, turn the faders down."
    ]
    assert _told("comes in", dock_and_reef(), plain_plan()) == []
    assert _told("comes in", dock_and_reef(), plain_plan([NOTES])) == []
    copied = desk(in_=[named("LINE", left="IN 1", right="IN 2", alone="copy")])
    assert _told("comes in", dock_and_reef(dock=copied), plain_plan([LEFT, NOTES])) == []


def test_strips_of_a_box_that_mixes_nothing() -> None:
    pool = box(
        "Pool", in_=[named("LINE", mono="IN")], out=[named("MAIN", mono="OUT")], strip=[named("P", from_="LINE")]
    )
    table = jam({"dock": desk(), "pool": pool, "reef": module()}, ("kick", "bass", "arp"))
    assert _told("comes in", table, plain_plan()) == []


def test_engines_without_a_part_that_listen() -> None:
    assert _told("no part", dock_and_reef(), plain_plan(without=["arp"])) == [
        "reef: no part is on 2, turn the levels down so that a stray note stays silent."
    ]
    for calm in ({"channel": 1, "level": "zero"}, {"channel": "off"}):
        assert _told("no part", dock_and_reef(), plain_plan(without=["arp"], engines={"reef/2": calm})) == []


def test_many_free_strips_and_engines_are_one_line() -> None:
    inlets = [named(f"I{n}", mono=f"IN {n}") for n in range(1, 13)]
    strips = [named(f"IN {n}", from_=f"I{n}") for n in range(1, 13)]
    engines = [named(f"E{n}") for n in range(1, 4)]
    dock = desk(in_=inlets, strip=strips, engine=engines, track=[named("EXT 1")])
    assert _told("dock:", dock_and_reef(dock=dock, parts=("bass",)), plan({"bass": BASS}, [LEFT, NOTES])) == [
        "dock: nothing comes in on IN 2, IN 3, IN 4, IN 5, IN 6, IN 7, IN 8, IN 9 and 3 more, turn the faders down; "
        "no part is on E1, E2 and E3, turn the levels down so that a stray note stays silent."
    ]
