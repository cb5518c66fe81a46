"""The time that notes take on serial MIDI cables; tests/outside compares it with MIDI 1.0."""

from typing import Any

from solver.flow.followed import Followed
from solver.flow.own_words import misstated
from solver.flow.timing import running_bytes, spread, timing
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
    module,
    named,
    plain_plan,
)
from tests.building import plan as a_plan


def test_notes_that_are_not_there_take_no_time() -> None:
    assert spread(0) == spread(1) == 0
    assert running_bytes({1: 0, 2: 3}) == running_bytes({2: 3}) == 7


def timed(of: Jam, in_plan: Plan) -> list[dict[str, Any]]:
    return [cable.model_dump(by_alias=True) for cable in timing(Followed(of, in_plan))]


def _notes(bass: int, arp: int, *intents: Any, **keys: Any) -> Jam:
    parts = {"kick": {"notes": 99}, "bass": {"notes": bass}, "arp": {"notes": arp}}
    return dock_and_reef(*intents, parts=parts, **keys)


def test_all_parts_that_pass_a_cable_start_together() -> None:
    assert timed(_notes(4, 2, tempo=120), plain_plan()) == [
        {
            "from": "dock/MIDI OUT",
            "to": "reef/MIDI IN",
            "parts": ("bass", "arp"),
            "notes": 6,
            "bytes": 18,
            "late_ms": 4.8,
            "running_bytes": 14,
            "running_late_ms": 3.52,
            "clock_percent": 1.536,
            "thrus": 0,
        }
    ]


def test_a_layer_sends_its_notes_once() -> None:
    layered = plain_plan(arp=ARP | {"track": "dock/EXT 1", "channel": 1})
    one = timed(_notes(4, 2, {"layer": ["bass", "arp"]}), layered)[0]
    assert (one["parts"], one["notes"], one["running_bytes"]) == (("bass", "arp"), 4, 9)


def test_two_tracks_on_one_channel_share_a_status_byte() -> None:
    one = timed(_notes(4, 2), plain_plan(arp=ARP | {"channel": 1}))[0]
    assert (one["notes"], one["running_bytes"]) == (6, 13)


def test_a_cable_without_clock_or_notes() -> None:
    dock = desk(midi=[named("MIDI OUT", way="out")])
    assert timed(_notes(1, 1, dock=dock), plain_plan())[0]["clock_percent"] == 0
    silent = plain_plan(bass=BASS | {"channel": None}, arp=ARP | {"channel": None})
    one = timed(_notes(4, 4), silent)[0]
    assert [one[key] for key in ("parts", "notes", "bytes", "late_ms", "running_bytes", "running_late_ms")] == [
        (),
        0,
        0,
        0,
        0,
        0,
    ]


def test_usb_and_cables_that_carry_nothing_are_not_timed() -> None:
    dock = desk(midi=[named("MIDI OUT", way="both", plug="usb-host")])
    reef = module(midi=[named("MIDI IN", way="both", plug="usb-device")])
    usb = cable("usb", "dock/MIDI OUT", "reef/MIDI IN")
    assert timed(_notes(4, 4, dock=dock, reef=reef), plain_plan([LEFT, RIGHT, usb])) == []
    assert timed(_notes(4, 4), plain_plan([cable("din", "dock/MIDI OUT", "reef/MIDI THRU")])) == []


def test_thrus_in_a_row() -> None:
    relay = box("Relay", midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")])
    table = jam({"dock": desk(), "one": relay, "two": relay, "reef": module()}, ("bass",))
    outs, ins = ("dock/MIDI OUT", "one/THRU", "two/THRU"), ("one/IN", "two/IN", "reef/MIDI IN")
    chain = [cable("din", *ends) for ends in zip(outs, ins, strict=True)]
    found = timed(table, a_plan({"bass": BASS}, chain))
    assert [(one["thrus"], one["notes"]) for one in found] == [(0, 1), (1, 1), (2, 1)]


def test_a_plan_file_that_says_another_timing_is_noted() -> None:
    table = _notes(4, 2)
    right = plain_plan().model_copy(update={"timing": timing(Followed(table, plain_plan()))})
    assert misstated(table, right) == misstated(table, plain_plan())
    wrong = right.model_copy(update={"timing": (right.timing[0].model_copy(update={"notes": 5}),)})
    assert (
        "The timing of the cable from dock/MIDI OUT to reef/MIDI IN is not what it comes to in this jam."
        in misstated(table, wrong)
    )
    assert [NOTES["from"], NOTES["to"]] == [right.timing[0].source, right.timing[0].to]


def test_timing_is_read_back_and_may_be_left_out() -> None:
    kept = plain_plan().model_copy(update={"timing": timing(Followed(_notes(4, 2), plain_plan()))})
    data = kept.to_json()
    assert Plan.from_json(data) == kept
    del data["timing"]
    assert Plan.from_json(data).timing == ()
