"""How long a serial MIDI cable takes for notes that start together."""

BIT = 1 / 31_250
"""Seconds a bit takes on a serial MIDI cable (MIDI 1.0 Detailed Specification 4.2.1, p. 1: 31.25 kbaud)."""

BYTE = 10 * BIT
"""Seconds a byte takes: a start bit, 8 data bits and a stop bit, 320 microseconds in all (the same page)."""

NOTE_BYTES = 3
"""Bytes of a note message with its status byte; running status is not counted on."""

NOTE = NOTE_BYTES * BYTE
"""Seconds a note message takes: 0.96 ms."""

TIGHT = 0.010
"""Seconds between the first and the last note of one start beyond which a caution is due."""


def spread(notes: int) -> float:
    """Seconds from the first to the last of notes that start together on one serial cable.

    Three bytes of 320 microseconds a note, without running status (MIDI 1.0 Detailed Specification 4.2.1, p. 9).
    """
    return max(notes - 1, 0) * NOTE
