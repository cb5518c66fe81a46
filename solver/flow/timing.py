"""The time that notes take on serial MIDI cables: bytes, delays, the load of the clock, and thrus in a row."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.loops import reachable
from solver.flow.wires import Half, Lead
from solver.gear.cables import SERIAL
from solver.gear.words import Spot
from solver.plans import Cable, Timing

BIT = 1 / 31_250
"""Seconds a bit takes on a serial MIDI cable (MIDI 1.0 Detailed Specification 4.2.1, p. 1: 31.25 kbaud)."""

BYTE = 10 * BIT
"""Seconds a byte takes: a start bit, 8 data bits and a stop bit, 320 microseconds in all (the same page)."""

NOTE_BYTES = 3
"""Bytes of a note message with its status byte; running status is not counted on."""

NOTE = NOTE_BYTES * BYTE
"""Seconds a note message takes: 0.96 ms."""

CLOCKS = 24
"""Clock messages a quarter note, one byte each (MIDI 1.0 Detailed Specification 4.2.1, p. 30)."""

TIGHT = 0.010
"""Seconds between the first and the last note of one start beyond which a caution is due (common practice)."""

MOST_THRUS = 3
"""How many thrus in a row pass without a caution; each rounds the edges of the bits a little more (p. 1)."""


def spread(notes: int) -> float:
    """Seconds from the first to the last of notes that start together on one serial cable.

    Three bytes of 320 microseconds a note, without running status (MIDI 1.0 Detailed Specification 4.2.1, p. 9).
    """
    return max(notes - 1, 0) * NOTE


def running_bytes(notes: dict[int, int]) -> int:
    """Bytes of notes that start together with running status: one status byte a channel, two bytes a note (p. 5).

    Args:
        notes: How many there are on each channel; the notes of a channel are sent one after the other.
    """
    return sum(1 + 2 * number for number in notes.values() if number)


def clock_load(tempo: float) -> float:
    """The share of a serial cable that the clock takes, 0 to 1, at a tempo in quarter notes a minute."""
    return CLOCKS * tempo / 60 * BYTE


def timing(followed: Followed) -> tuple[Timing, ...]:
    """The time that each serial cable of a plan takes when all the parts that pass it start together."""
    clocked = _clocked(followed)
    return tuple(
        _timed(followed, cable, leads, clocked)
        for cable, leads in followed.notes.leads
        if leads and cable.kind in SERIAL
    )


def _timed(followed: Followed, cable: Cable, leads: tuple[Lead, ...], clocked: dict[Half, None]) -> Timing:
    parts = followed.jam.parts
    sent: dict[int, int] = {}
    tracks = list(_passing(followed, leads))
    for track in tracks:  # a layer sends its notes once
        channel = followed.notes.sending[track]
        sent[channel] = sent.get(channel, 0) + max(parts[part].notes for part in followed.notes.playing[track])
    notes, running = sum(sent.values()), running_bytes(sent)
    return Timing(
        source=str(leads[0].source.port),
        to=str(leads[0].target.port),
        parts=tuple(part for part in followed.parts if followed.tracks[part] in tracks),
        notes=notes,
        bytes=notes * NOTE_BYTES,
        late_ms=round(spread(notes) * 1000, 2),
        running_bytes=running,
        running_late_ms=round(max(running - NOTE_BYTES, 0) * BYTE * 1000, 2),
        clock_percent=round(100 * clock_load(followed.jam.tempo), 3) if leads[0].target in clocked else 0,
        thrus=len(thrus_before(followed, leads[0].target)),
    )


def _passing(followed: Followed, leads: tuple[Lead, ...]) -> Iterator[Spot]:
    """The tracks whose notes pass a cable."""
    passed = followed.notes.passed
    boxes = {box for box, halves in passed.items() if any(lead.source in halves for lead in leads)}
    return (track for track in followed.notes.sending if track.box in boxes)


def _clocked(followed: Followed) -> dict[Half, None]:
    starts = [half for half in followed.notes.outs(followed.jam.leader) if followed.rig.ports[half.port].clock]
    return reachable(starts, followed.notes.clocked)


def thrus_before(followed: Followed, target: Half) -> tuple[Spot, ...]:
    """The thrus in a row that lead to a port that takes notes in, first to last."""
    before = {lead.target: lead.source for _, leads in followed.notes.leads for lead in leads}
    found: list[Spot] = []
    at = before.get(target)
    while at is not None and at.port not in found:
        copied = followed.rig.ports[at.port].copies
        if copied is None:
            break
        found.append(at.port)
        at = before.get(Half(Spot(at.port.box, copied), False))
    return tuple(reversed(found))
