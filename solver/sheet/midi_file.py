"""A Standard MIDI File that sets up a rig and line-checks it, part by part."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import TYPE_CHECKING

from solver.flow.levels import PAN_VALUES
from solver.flow.wording import listing
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.cells import clean
from solver.sheet.formats import LINE_CHECK
from solver.sheet.hand_steps import LOUD, hand_steps
from solver.sheet.line_check import Check, LineCheck

if TYPE_CHECKING:
    from mido import Message, MetaMessage

__all__ = ["hand_steps", "midi_file"]

CHARSET = "utf-8"
"""How names are written. Standard MIDI Files 1.0 asks for ASCII and allows other bytes: UTF-8 is ASCII for plain names,
and can say every name."""

TICKS = 480
"""Ticks a quarter note."""

VOLUME, PAN, ALL_NOTES_OFF = 7, 10, 123
"""Controller numbers (MIDI 1.0 Detailed Specification 4.2.1, tables III and IV)."""

NOTES = (36, 48, 60)
"""Three octaves, low to high; each is a drum in General MIDI as well (from memory)."""

STRENGTH = 80
"""Velocity of the notes."""

SOUNDS, RESTS, BETWEEN = 0.4, 0.1, 1.0
"""Seconds that a note sounds, rests after it, and before each part."""

SLOWEST = 0xFFFFFF
"""Microseconds of the longest quarter note that a file can say."""


def midi_file(jam: Jam, plan: Plan) -> bytes:
    """Make the line check of a plan, as a format 0 file that reads the same on every run.

    First each channel that plays a part gets its volume, and its pan where all engines on it want the same. Then each
    part, in plan order, gets a marker that says where it must be heard, and three notes. All notes off ends it.

    Args:
        jam: What the plan is for.
        plan: Any plan; parts that are silent in it, or played inside a box, are left to ``hand_steps``.
    """
    from mido import MetaMessage, MidiFile, MidiTrack  # noqa: PLC0415  only this file writes MIDI

    beat = min(round(60_000_000 / jam.tempo), SLOWEST)
    file = MidiFile(type=0, ticks_per_beat=TICKS, charset=CHARSET)
    track = MidiTrack()
    track.append(MetaMessage("track_name", name=clean(jam.title)))
    track.append(MetaMessage("text", text=LINE_CHECK))
    track.append(MetaMessage("set_tempo", tempo=beat))
    track.extend(_messages(LineCheck(jam, plan), beat))
    track.append(MetaMessage("end_of_track"))
    file.tracks.append(track)
    written = BytesIO()
    file.save(file=written)
    return written.getvalue()


def _messages(check: LineCheck, beat: int) -> Iterator[Message | MetaMessage]:
    from mido import Message, MetaMessage  # noqa: PLC0415

    def ticks(seconds: float) -> int:
        return max(1, round(seconds * 1_000_000 * TICKS / beat))

    checks = check.checks
    channels = tuple(dict.fromkeys(one.channel for one in checks))
    for channel in channels:
        yield Message("control_change", channel=channel - 1, control=VOLUME, value=LOUD)
        pan = check.pan(channel)
        if pan is not None:
            yield Message("control_change", channel=channel - 1, control=PAN, value=PAN_VALUES[pan])
    for one in checks:
        yield MetaMessage("marker", text=_marker(check, one), time=ticks(BETWEEN))
        for number, note in enumerate(NOTES):
            wait = ticks(RESTS) if number else 0
            yield Message("note_on", channel=one.channel - 1, note=note, velocity=STRENGTH, time=wait)
            yield Message("note_off", channel=one.channel - 1, note=note, velocity=0, time=ticks(SOUNDS))
    for number, channel in enumerate(channels):
        wait = 0 if number else ticks(BETWEEN)
        yield Message("control_change", channel=channel - 1, control=ALL_NOTES_OFF, value=0, time=wait)


def _marker(check: LineCheck, one: Check) -> str:
    along = f", with {listing(one.together)} sounding along" if one.together else ""
    place = f", played in the place of {check.places[one]}" if len(set(check.places.values())) > 1 else ""
    return clean(f"{one.part}: on {check.where(one.part)}{along}{place}")
