"""The line check as a Standard MIDI File, read back with mido and judged by the numbers of MIDI 1.0."""

import os
import subprocess
import sys
from io import BytesIO
from typing import Any

import pytest
from mido import MidiFile

import solver
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from solver.reading import read_jam
from solver.sheet.midi_file import midi_file
from tests.building import (
    ARP,
    BASS,
    LEFT,
    NOTES,
    RIGHT,
    box,
    cable,
    dock_and_reef,
    jam,
    lives,
    module,
    named,
    plain_plan,
    plan,
)
from tests.showing import ROOT, SCENARIOS

CONTROL, NOTE_ON, NOTE_OFF = 0xB0, 0x90, 0x80
"""Status bytes on channel 1, the low four bits counting channels from 0 (MIDI 1.0 tables I and II, published)."""

VOLUME, PAN, ALL_NOTES_OFF = 7, 10, 123
"""Controllers (MIDI 1.0 tables III and IV, published)."""


def messages(data: bytes) -> list[Any]:
    """The messages of the one track of a file."""
    file = MidiFile(file=BytesIO(data), charset="utf-8")
    assert (file.type, len(file.tracks)) == (0, 1)
    return list(file.tracks[0])


def written(of: Jam, in_plan: Plan) -> list[Any]:
    return messages(midi_file(of, in_plan))


def sent(found: list[Any]) -> list[tuple[int, ...]]:
    """The bytes of every message that goes out on a cable."""
    return [tuple(message.bytes()) for message in found if not message.is_meta]


def markers(found: list[Any]) -> list[str]:
    return [message.text for message in found if message.type == "marker"]


def three(status: int) -> list[tuple[int, ...]]:
    """Three notes one after the other, each let go."""
    return [one for note in (36, 48, 60) for one in ((NOTE_ON + status, note, 80), (NOTE_OFF + status, note, 0))]


def test_a_plan_is_set_up_checked_and_left_silent() -> None:
    found = written(dock_and_reef(), plain_plan())
    assert sent(found) == [
        (CONTROL, VOLUME, 100),
        (CONTROL, PAN, 0),
        (CONTROL + 1, VOLUME, 100),
        (CONTROL + 1, PAN, 127),
        *three(0),
        *three(1),
        (CONTROL, ALL_NOTES_OFF, 0),
        (CONTROL + 1, ALL_NOTES_OFF, 0),
    ]
    assert markers(found) == ["bass: on dock/IN 1", "arp: on dock/IN 2"]
    metas = [message.type for message in found if message.is_meta]
    assert metas == ["track_name", "text", "set_tempo", "marker", "marker", "end_of_track"]


def test_each_marker_stands_before_the_notes_of_its_part() -> None:
    found = [m for m in written(dock_and_reef(), plain_plan()) if m.type in ("marker", "note_on")]
    assert [m.text if m.is_meta else m.channel for m in found] == [
        "bass: on dock/IN 1",
        *[0] * 3,
        "arp: on dock/IN 2",
        *[1] * 3,
    ]


@pytest.mark.parametrize(("pan", "value"), [("left", 0), ("centre", 64), ("right", 127)])
def test_pan_is_0_64_or_127(pan: str, value: int) -> None:
    """RP-036, published: 0 is hard left, 64 the centre, 127 hard right."""
    found = sent(written(dock_and_reef(), plain_plan(bass=BASS | {"pan": pan}, without=["arp"])))
    assert (CONTROL, PAN, value) in found


def layered(*pans: str) -> tuple[Jam, Plan]:
    parts = {"bass": BASS | {"pan": pans[0]}, "arp": BASS | {"engine": "reef/2", "pan": pans[1]}}
    tuned = {"reef/2": {"channel": 1}}
    return dock_and_reef({"layer": ["bass", "arp"]}), plain_plan([LEFT, RIGHT, NOTES], engines=tuned, **parts)


def test_a_layer_is_set_up_once_and_said_to_sound_together() -> None:
    found = written(*layered("left", "left"))
    assert sent(found) == [
        (CONTROL, VOLUME, 100),
        (CONTROL, PAN, 0),
        *three(0),
        *three(0),
        (CONTROL, ALL_NOTES_OFF, 0),
    ]
    assert markers(found) == [
        "bass: on dock/IN 1, with arp sounding along",
        "arp: on dock/IN 1, with bass sounding along",
    ]


def test_pan_is_left_alone_where_engines_on_a_channel_differ() -> None:
    assert not [one for one in sent(written(*layered("left", "right"))) if one[:2] == (CONTROL, PAN)]


def test_parts_stand_in_plan_order() -> None:
    swapped = plan({"arp": ARP, "bass": BASS}, [LEFT, RIGHT, NOTES])
    assert markers(written(dock_and_reef(parts=("bass", "arp")), swapped)) == [
        "arp: on dock/IN 2",
        "bass: on dock/IN 1",
    ]


@pytest.mark.parametrize(
    "changed",
    [
        {"bass": BASS | {"channel": None}},
        {"engines": {"reef/1": {"channel": 9}}},
        {"engines": {"reef/1": {"channel": 1, "level": "zero"}}},
        {"cables": [RIGHT, NOTES]},
    ],
)
def test_a_part_that_is_silent_is_not_played(changed: dict[str, Any]) -> None:
    assert markers(written(dock_and_reef(), plain_plan(**changed))) == ["arp: on dock/IN 2"]


def test_a_plan_with_nothing_to_send() -> None:
    found = written(dock_and_reef(), plain_plan(without=["bass", "arp"]))
    assert [message.type for message in found] == ["track_name", "text", "set_tempo", "end_of_track"]


def test_a_part_that_passes_no_strip_is_heard_at_the_ears() -> None:
    pool = box("Pool", out=[named("MAIN", mono="OUT")], engine=[named("1")], midi=[named("IN", way="in")])
    table = jam({"pool": pool, "dock": dock_and_reef().boxes["dock"]}, ["bass"], {"play": ["bass"], "from": "dock"})
    planned = plan({"bass": lives("pool/1", "dock/EXT 1", 1)}, [cable("din", "dock/MIDI OUT", "pool/IN")])
    assert markers(written(table, planned)) == ["bass: on pool/MAIN"]


def test_parts_of_two_senders_say_in_whose_place_the_file_is_played() -> None:
    pool = box("Pool", track=[named("T")], midi=[named("OUT", way="out")])
    reef = module()
    boxes = {"dock": dock_and_reef().boxes["dock"], "pool": pool, "reef": reef, "wreck": reef}
    table = jam(boxes, ["bass", "arp"], {"play": ["arp"], "from": "pool"})
    parts = {"bass": BASS, "arp": lives("wreck/2", "pool/T", 2)}
    leads = [LEFT, cable("6.35 mono", "wreck/L/MONO", "dock/IN 2"), NOTES, cable("din", "pool/OUT", "wreck/MIDI IN")]
    assert markers(written(table, plan(parts, leads))) == [
        "bass: on dock/IN 1, played in the place of dock",
        "arp: on dock/IN 2, played in the place of pool",
    ]


@pytest.mark.parametrize("tempo", [0.5, 3.5, 118.0, 1000.0])
def test_notes_last_as_long_at_any_tempo(tempo: float) -> None:
    data = midi_file(dock_and_reef(tempo=tempo), plain_plan())
    file = MidiFile(file=BytesIO(data), charset="utf-8")
    assert file.length == pytest.approx(5.8, abs=0.05)
    assert file.ticks_per_beat == 480
    beat = next(message.tempo for message in file.tracks[0] if message.type == "set_tempo")
    assert beat == min(round(60_000_000 / tempo), 0xFFFFFF)  # three bytes (Standard MIDI Files 1.0)


def hanging(found: list[Any]) -> set[tuple[int, int]]:
    """Notes that are on at the end; two of one pitch on one channel at a time are a mistake."""
    on: set[tuple[int, int]] = set()
    for message in found:
        if message.type == "note_on" and message.velocity:
            assert (message.channel, message.note) not in on
            on.add((message.channel, message.note))
        elif message.type in ("note_on", "note_off"):  # velocity 0 is a note off (MIDI 1.0 p. 10, published)
            on.remove((message.channel, message.note))
    return on


@pytest.mark.parametrize("path", sorted(SCENARIOS.glob("*.toml")), ids=lambda path: path.stem)
def test_no_scenario_leaves_a_note_hanging_or_plays_a_channel_of_no_part(path: Any) -> None:
    table = read_jam(path)
    outcome = solver.plan(table, time_limit=None)
    if not isinstance(outcome, Planned):
        assert path.stem == "short-rope"
        return
    found = written(table, outcome.best)
    assert hanging(found) == set()
    used = {part.channel - 1 for part in outcome.best.parts.values() if part.channel is not None}
    on = [message.channel for message in found if not message.is_meta]
    assert set(on) <= used
    ends = [message.channel for message in found if not message.is_meta and getattr(message, "control", 0) == 123]
    assert ends == on[len(on) - len(ends) :] and set(ends) == set(on)


NAMES = ["<b>&amp; \"q\" 'r'", "🎹 🥁", "שלום עולם", "مرحبا", "x" * 200, "ü", "two\nlines"]


@pytest.mark.parametrize("name", NAMES)
def test_names_survive(name: str) -> None:
    table = dock_and_reef(parts=("kick", name), title=name)
    planned = plan({name: BASS}, [LEFT, NOTES])
    data = midi_file(table, planned)
    shown = name.replace("\n", " ")
    found = messages(data)
    assert (found[0].name, markers(found)) == (shown, [f"{shown}: on dock/IN 1"])
    assert shown.encode() in data


def test_the_same_bytes_every_time() -> None:
    code = (
        "import sys\nfrom tests.building import *\nfrom solver.sheet.midi_file import midi_file\n"
        "sys.stdout.buffer.write(midi_file(dock_and_reef(), plain_plan()))"
    )
    seeds = ({**os.environ, "PYTHONPATH": str(ROOT), "PYTHONHASHSEED": seed} for seed in ("0", "7"))
    runs = {
        subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, check=True).stdout for env in seeds
    }
    assert runs == {midi_file(dock_and_reef(), plain_plan())}


def test_mido_is_loaded_only_to_write() -> None:
    code = "import sys, solver.sheet.midi_file\nprint('mido' in sys.modules)"
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    assert subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, check=True).stdout == b"False\n"
