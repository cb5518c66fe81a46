"""The line check as a file, and the bytes that notes take on a cable, against mido."""

from collections.abc import Callable
from io import BytesIO
from typing import Any, NamedTuple

import pytest
from mido import Message, MidiFile, bpm2tempo, tick2second

from solver.jam.jam import Jam
from solver.plans import Timing
from solver.sheet.midi_file import midi_file
from tests.browser.pages import planned
from tests.outside.checks import check

NAMES = ("low-tide", "three-rivers", "narrow-channel", "tide-tables", "confluence", "rain-on-tin")
"""Scenarios that are planned quickly."""


def _read(data: bytes) -> MidiFile:
    return MidiFile(file=BytesIO(data), charset="utf-8")


class File(NamedTuple):
    """The file of a scenario, and what is done to it before it is read."""

    name: str
    change: Callable[[bytes], bytes] = bytes

    @property
    def data(self) -> bytes:
        """The bytes of it."""
        return self.change(midi_file(*planned(self.name)))


def _with_a_chunk_more(data: bytes) -> bytes:
    return data + b"XTRA" + bytes(4)


@check(
    "The file of a line check is one track that mido reads and writes again byte by byte",
    source="mido, MidiFile",
    kind="reference library",
    right={name: File(name) for name in NAMES},
    wrong=File("low-tide", _with_a_chunk_more),
)
def test_it_reads_and_writes_the_same(value: File) -> None:
    read, again = _read(value.data), BytesIO()
    read.save(file=again)
    assert again.getvalue() == value.data
    assert (read.type, len(read.tracks)) == (0, 1) and read.tracks[0][-1].type == "end_of_track"
    assert not [message for message in read.tracks[0][:-1] if message.type == "end_of_track"]


class Channels(NamedTuple):
    """A scenario, and the number that the first channel has in a message."""

    name: str
    first: int = 0


@check(
    "After the marker of each part, all messages have the status bytes that mido gives notes on its planned channel",
    source="mido, Message.bytes (channels from 0)",
    kind="reference library",
    right={name: Channels(name) for name in NAMES},
    wrong=Channels("low-tide", 1),
)
def test_notes_are_on_the_planned_channels(value: Channels) -> None:
    jam, plan = planned(value.name)
    part, met = None, dict[str, set[int]]()
    for message in _read(midi_file(jam, plan)).tracks[0]:
        if message.type == "marker":
            part = message.text.partition(":")[0]
        elif part is not None and message.type in ("note_on", "note_off"):
            met.setdefault(part, set()).add(message.bytes()[0])
    channels = {part: (plan.parts[part].channel or 0) - 1 + value.first for part in met}
    assert met
    assert met == {part: {Message(kind, channel=n).bytes()[0] for kind in KINDS} for part, n in channels.items()}


KINDS = ("note_on", "note_off")


class Tempo(NamedTuple):
    """A scenario, and how many times as fast as the jam its file is played."""

    name: str
    times: float = 1


@check(
    "The tempo in the file is that of the jam, and each note lasts 0.4 seconds by it, within a tick",
    source="mido, bpm2tempo and tick2second",
    kind="reference library",
    right={name: Tempo(name) for name in NAMES},
    wrong=Tempo("low-tide", 0.5),
)
def test_notes_last_as_they_should(value: Tempo) -> None:
    jam, plan = planned(value.name)
    read, beat = _read(midi_file(jam, plan)), bpm2tempo(jam.tempo * value.times)
    assert [message.tempo for message in read.tracks[0] if message.type == "set_tempo"] == [beat]
    lasts = [tick2second(m.time, read.ticks_per_beat, beat) for m in read.tracks[0] if m.type == "note_off"]
    assert lasts == pytest.approx([0.4] * len(lasts), abs=tick2second(1, read.ticks_per_beat, beat))


class Bytes(NamedTuple):
    """A scenario, and whether status bytes are left out where they say the same again."""

    name: str
    running: bool = True


@check(
    "Notes that start together take the bytes that are told, plain and by running status, which mido reads as the same"
    " notes, and the clock its share",
    source="mido, Message.bytes and MidiFile (running status)",
    kind="reference library",
    right={name: Bytes(name) for name in NAMES},
    wrong=Bytes("low-tide", running=False),
)
def test_bytes_on_a_cable(value: Bytes) -> None:
    jam, plan = planned(value.name)
    for timed in plan.timing:
        notes = _together(jam, timed, {part: planned.channel for part, planned in plan.parts.items()})
        stream = _stream(notes, value.running)
        assert _messages(stream) == notes
        assert sum(len(note.bytes()) for note in notes) == timed.bytes
        assert len(stream) - len(notes) == timed.running_bytes
        share = 24 * len(Message("clock").bytes()) * 10 / 31_250 / (bpm2tempo(jam.tempo) / 1_000_000)
        assert timed.clock_percent in (0, pytest.approx(100 * share, abs=0.001))


def _together(jam: Jam, timed: Timing, channels: dict[str, int | None]) -> list[Message]:
    """The notes of the parts on a cable; a layer sends once, as many as its fullest part has."""
    most: dict[int, int] = {}
    for part in timed.parts:
        channel = (channels[part] or 0) - 1
        most[channel] = max(most.get(channel, 0), jam.parts[part].notes)
    return [Message("note_on", channel=on, note=60 + n) for on, count in most.items() for n in range(count)]


def _stream(notes: list[Message], running: bool) -> bytes:
    """The notes of a track, each behind its time, which is 0."""
    stream, status = bytearray(), None
    for note in notes:
        first, *rest = note.bytes()
        stream += bytes([0, *rest] if running and first == status else [0, first, *rest])
        status = first
    return bytes(stream)


def _messages(stream: bytes) -> list[Any]:
    """What mido reads of a track."""
    track = stream + b"\x00\xff\x2f\x00"
    header = b"MThd\x00\x00\x00\x06\x00\x00\x00\x01\x01\xe0"
    read = _read(header + b"MTrk" + len(track).to_bytes(4, "big") + track)
    return list(read.tracks[0][:-1])
