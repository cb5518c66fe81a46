"""The time that notes take on serial MIDI cables, against MIDI 1.0; each check names its source and how sure it is."""

from typing import Any

import pytest

from solver.flow.followed import Followed
from solver.flow.own_words import misstated
from solver.flow.timing import BYTE, MOST_THRUS, NOTE, TIGHT, clock_load, running_bytes, spread, timing
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

PAGE_5 = [(4, 2.88), (8, 5.44), (10, 6.72), (16, 10.56)]
"""Milliseconds that a run of k notes on one channel takes with running status (MIDI 1.0 p. 5, computed)."""


def test_a_byte_takes_320_microseconds_and_a_note_three_bytes() -> None:
    """MIDI 1.0 p. 1 and p. 9, published."""
    assert pytest.approx(0.000_320) == BYTE
    assert pytest.approx(0.000_960) == NOTE


@pytest.mark.parametrize(
    ("notes", "milliseconds"), [(0, 0), (1, 0), (2, 0.96), (4, 2.88), (11, 9.6), (12, 10.56), (16, 14.4), (21, 19.2)]
)
def test_how_far_notes_of_one_start_lie_apart(notes: int, milliseconds: float) -> None:
    """0.96 (k - 1) ms (MIDI 1.0 p. 9, computed): 10 ms holds 11 notes, 20 ms holds 21."""
    assert spread(notes) * 1000 == pytest.approx(milliseconds)


@pytest.mark.parametrize(("notes", "milliseconds"), PAGE_5)
def test_running_status_saves_a_byte_a_note(notes: int, milliseconds: float) -> None:
    assert running_bytes({1: notes}) == 1 + 2 * notes
    assert running_bytes({1: notes}) * BYTE * 1000 == pytest.approx(milliseconds)


@pytest.mark.parametrize(("notes", "milliseconds"), [(4, 3.84), (8, 7.68), (10, 9.6), (16, 15.36)])
def test_a_new_channel_is_a_new_status_byte(notes: int, milliseconds: float) -> None:
    """960 k microseconds for k notes, each on another channel (MIDI 1.0 p. 5 and table I, computed)."""
    each = dict.fromkeys(range(1, notes + 1), 1)
    assert running_bytes(each) * BYTE * 1000 == pytest.approx(milliseconds)
    assert running_bytes({1: 0, 2: 3}) == 7


@pytest.mark.parametrize(("tempo", "percent"), [(120, 1.536), (60, 0.768), (118, 1.5104)])
def test_the_load_of_the_clock(tempo: float, percent: float) -> None:
    """24 bytes a quarter note (MIDI 1.0 p. 30, published): 48 a second at 120, of 3125."""
    assert 100 * clock_load(tempo) == pytest.approx(percent)


def test_what_is_common_practice() -> None:
    """10 ms and three thrus: common practice; MIDI 1.0 p. 1 names three instruments for the chain."""
    assert (TIGHT, MOST_THRUS) == (0.010, 3)


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
