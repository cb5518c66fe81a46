"""Cable kinds, and which two sockets each of them joins."""

from typing import Literal, get_args

AudioPlug = Literal["6.35", "3.5"]
MidiPlug = Literal["din", "trs-a", "trs-b", "usb-host", "usb-device"]

Kind = Literal[
    "6.35 mono",
    "3.5 mono",
    "6.35 stereo",
    "3.5 stereo",
    "3.5 mono > 6.35 mono",
    "3.5 stereo > 6.35 stereo",
    "3.5 stereo > 2x 6.35 mono",
    "6.35 stereo > 2x 6.35 mono",
    "din",
    "trs",
    "din > trs-a",
    "din > trs-b",
    "usb",
]
KINDS: tuple[Kind, ...] = get_args(Kind)

BREAKOUTS: dict[AudioPlug, Kind] = {
    "3.5": "3.5 stereo > 2x 6.35 mono",
    "6.35": "6.35 stereo > 2x 6.35 mono",
}
"""The breakout whose single end is a stereo plug of that size; its two legs are 6.35 mono plugs."""

BREAKOUT_LEG: AudioPlug = "6.35"

SERIAL: tuple[Kind, ...] = ("din", "trs", "din > trs-a", "din > trs-b")
"""Kinds that pass one byte after another at 31.25 kbaud (MIDI 1.0 Detailed Specification 4.2.1, p. 1)."""

MIDI_KINDS: tuple[Kind, ...] = (*SERIAL, "usb")

_AUDIO: dict[tuple[AudioPlug, AudioPlug, bool], Kind] = {
    ("6.35", "6.35", False): "6.35 mono",
    ("3.5", "3.5", False): "3.5 mono",
    ("6.35", "6.35", True): "6.35 stereo",
    ("3.5", "3.5", True): "3.5 stereo",
    ("3.5", "6.35", False): "3.5 mono > 6.35 mono",
    ("3.5", "6.35", True): "3.5 stereo > 6.35 stereo",
}
# A TRS A plug has its tip on DIN pin 5 (RP-054), B has it on pin 4 (no standard): a plain cable joins like with like.
_MIDI: dict[frozenset[MidiPlug], Kind] = {
    frozenset({"din"}): "din",
    frozenset({"trs-a"}): "trs",
    frozenset({"trs-b"}): "trs",
    frozenset({"din", "trs-a"}): "din > trs-a",
    frozenset({"din", "trs-b"}): "din > trs-b",
    frozenset({"usb-host", "usb-device"}): "usb",
}


def audio_kind(one: AudioPlug, other: AudioPlug, stereo: bool) -> Kind:
    """The kind that joins two jacks of these sizes, both stereo or both mono; either may send."""
    return _AUDIO.get((one, other, stereo)) or _AUDIO[(other, one, stereo)]


def midi_kind(one: MidiPlug, other: MidiPlug) -> Kind | None:
    """The kind that joins two MIDI sockets, or None where no cable does."""
    return _MIDI.get(frozenset({one, other}))
