"""What a box file may well say and rarely means: each doubt is one small function in ``DOUBTS``."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from solver.codes import Code
from solver.gear.box import Box, Emitter, Engine
from solver.gear.connections import Connection
from solver.gear.words import DUCKING

DRUM_CHANNEL = 10
"""The channel of drums by common practice; General MIDI Level 1 keeps it for percussion."""

_DRUMS = re.compile(r"\b(drum|perc|kick|snare|hat|hihat|clap|cymbal|tom|rim|shaker|beat|kit)")
_SIZE = re.compile(r"(?<![\d.])(6\.35?|3\.5)(?!\d)")
_SOCKETS = {"USB": ("usb-host", "usb-device"), "TRS": ("trs-a", "trs-b"), "DIN": ("din",)}
_MOST = 6


class Doubt(NamedTuple):
    """One thing to look at again: of which kind, where in the file, as a path from its top, and a sentence."""

    code: Code
    path: tuple[str | int, ...]
    sentence: str


def box_doubts(box: Box) -> Iterator[Doubt]:
    """Yield every doubt about a box in which nothing is wrong."""
    for doubts, code in DOUBTS.items():
        yield from (Doubt(code, *seen) for seen in doubts(box))


class _Seen(NamedTuple):
    """Where there is something to look at again, and a sentence."""

    path: tuple[str | int, ...]
    sentence: str


def _stereo_says_mono(box: Box) -> Iterator[_Seen]:
    for path, at in _connections(box):
        if at.stereo is not None and _says(at.stereo, "MONO"):
            yield _Seen((*path, "stereo"), f'{at.stereo} is given as a stereo jack and says MONO: should it be "mono"?')


def _mono_says_stereo(box: Box) -> Iterator[_Seen]:
    for path, at in _connections(box):
        if at.mono is not None and _says(at.mono, "STEREO"):
            yield _Seen((*path, "mono"), f'{at.mono} is given as a mono jack and says STEREO: should it be "stereo"?')


def _left_says_mono(box: Box) -> Iterator[_Seen]:
    for path, at, both, does in _pairs(box):
        if at.alone == "own" and _says(at.left, "MONO"):
            told = f'alone = "own" says that its plug alone {does} its own side'
            yield _Seen((*path, "left"), f'{at.left} says MONO, yet {told}: should it be "{both}"?')


def _left_says_no_mono(box: Box) -> Iterator[_Seen]:
    for path, at, both, does in _pairs(box):
        if at.alone == both and not _says(at.left, "MONO"):
            told = f'alone = "{both}" says that its plug alone {does} both sides'
            yield _Seen((*path, "alone"), f"{at.left} does not say MONO, yet {told}: look at the box or its manual.")


def _size_says_other(box: Box) -> Iterator[_Seen]:
    for path, at in _connections(box):
        for jack in at.jacks:
            named = _SIZE.search(jack.label)
            if named is not None and named[1][:3] != jack.plug[:3]:
                yield _Seen(path, f"{jack.label} names a size, and its plug is given as {jack.plug} mm.")


def _differ_by_case(box: Box) -> Iterator[_Seen]:
    seen: dict[str, str] = {}
    for path, at in _connections(box):
        for jack in at.jacks:
            other = seen.setdefault(jack.label.casefold(), jack.label)
            if other != jack.label:
                said = f"The jacks {other} and {jack.label} differ only in capital and small letters"
                yield _Seen(path, f"{said}: are they labelled so?")


def _out_of_reach(box: Box) -> Iterator[_Seen]:
    for i, engine in enumerate(box.engines):
        if not _played_inside(box, engine) and not _played_from_outside(box, engine):
            why = "the box has no MIDI in" if engine.channels else "it has no MIDI channel"
            yield _Seen(("engine", i), f"Nobody can play the engine {engine.name}: {why}, and no track plays it.")


def _left_to_others(box: Box) -> Iterator[_Seen]:
    alone = [i for i, engine in enumerate(box.engines) if not _played_inside(box, engine)]
    reached = [i for i in alone if _played_from_outside(box, box.engines[i])]
    if box.tracks and reached:
        names = _and(box.engines[i].name for i in reached)
        what = f"the engine{'s' if len(reached) > 1 else ''} {names}"
        yield _Seen(("engine", reached[0]), f"No track of this box plays {what}, only other boxes can: is that so?")


def _drum_channel(box: Box) -> Iterator[_Seen]:
    for i, engine in enumerate(box.engines):
        said = f"{engine.sound} {engine.name}".casefold()
        if engine.stands == DRUM_CHANNEL and engine.sound and not _DRUMS.search(said):
            told = f"The engine {engine.name} is no drum and stands on channel {DRUM_CHANNEL}, which is often for drums"
            yield _Seen(("engine", i, "channel"), f"{told}.")


def _one_channel(box: Box) -> Iterator[_Seen]:
    on: defaultdict[object, list[int]] = defaultdict(list)
    for i, engine in enumerate(box.engines):
        if isinstance(engine.stands, int) and _played_from_outside(box, engine):
            on[engine.stands].append(i)
    for channel, those in on.items():
        if len(those) > 1:
            names = _and(box.engines[i].name for i in those)
            told = f"The engines {names} stand on channel {channel} and sound together"
            yield _Seen(("engine", those[1], "channel"), f"{told}: is that how they stand?")


def _no_way_out(box: Box) -> Iterator[_Seen]:
    for kind, things in _emitters(box):
        if things and not box.outlets:
            names = _and(thing.name for thing in things)
            told = f"The {kind}s {names} go" if len(things) > 1 else f"The {kind} {names} goes"
            yield _Seen((kind, 0), f"{told} to no outlet: the box has none.")


def _nothing_goes_there(box: Box) -> Iterator[_Seen]:
    used = {outlet.name for _, things in _emitters(box) for thing in things for outlet in box.outlets_of(thing)}
    for i, outlet in enumerate(box.outlets):
        if outlet.name not in used and outlet.mirrors is None:
            told = f"No engine and no strip goes to the outlet {outlet.name}"
            yield _Seen(("out", i), f'{told}: name it in their "to", or say what it mirrors.')


def _ducks_without_key(box: Box) -> Iterator[_Seen]:
    for kind, things in _emitters(box):
        for i, thing in enumerate(things):
            if DUCKING in thing.offers and not thing.key:
                told = f"The {kind} {thing.name} offers ducking, and nothing can trigger it"
                yield _Seen((kind, i, "offers"), f'{told}: name the engines that can in its "key".')


def _few_voices(box: Box) -> Iterator[_Seen]:
    if box.voices is not None and box.voices < len(box.engines):
        told = f"{len(box.engines)} engines share {box.voices} {'voice' if box.voices == 1 else 'voices'}"
        yield _Seen(("voices",), f"{told}: they cannot all sound at once.")


def _loses_clock(box: Box) -> Iterator[_Seen]:
    clocked = {port.name for port in box.ports if port.takes and port.clock}
    for i, port in enumerate(box.ports):
        ins = [name for name in port.passes_on if name in clocked]
        if ins and not port.clock:
            yield _Seen(("midi", i), f"Clock comes in at {_and(ins)} and does not leave by {port.name}: is that so?")


def _in_without_clock(box: Box) -> Iterator[_Seen]:
    for i, port in enumerate(box.ports):
        if port.takes and not port.clock:
            yield _Seen(("midi", i), f"No clock comes in at {port.name}, so nothing there can follow one: is that so?")


def _plug_says_other(box: Box) -> Iterator[_Seen]:
    for i, port in enumerate(box.ports):
        named = [plugs for word, plugs in _SOCKETS.items() if _says(port.name, word)]
        if named and not any(port.plug in plugs for plugs in named):
            told = f"The socket {port.name} names a plug"
            yield _Seen(("midi", i), f'{told}, and its plug is given as "{port.plug}".')


def _sends_nowhere(box: Box) -> Iterator[_Seen]:
    if any(port.way in ("out", "both") for port in box.ports):
        return
    for i, track in enumerate(box.tracks):
        if track.channels:
            told = f"The track {track.name} has channels to send on, and the box has no MIDI out"
            what = "say channels = [], or add the socket" if track.plays else "add the socket, or what it plays inside"
            yield _Seen(("track", i), f"{told}: {what}.")


DOUBTS: dict[Callable[[Box], Iterator[_Seen]], Code] = {
    _stereo_says_mono: Code.DOUBTED_LABEL,
    _mono_says_stereo: Code.DOUBTED_LABEL,
    _left_says_mono: Code.DOUBTED_ALONE,
    _left_says_no_mono: Code.DOUBTED_ALONE,
    _size_says_other: Code.DOUBTED_LABEL,
    _differ_by_case: Code.DOUBTED_LABEL,
    _nothing_goes_there: Code.DOUBTED_OUTLET,
    _no_way_out: Code.DOUBTED_OUTLET,
    _ducks_without_key: Code.DOUBTED_KEY,
    _out_of_reach: Code.DOUBTED_PLAYER,
    _left_to_others: Code.DOUBTED_PLAYER,
    _drum_channel: Code.DOUBTED_CHANNEL,
    _one_channel: Code.DOUBTED_CHANNEL,
    _few_voices: Code.DOUBTED_VOICES,
    _sends_nowhere: Code.DOUBTED_TRACK,
    _plug_says_other: Code.DOUBTED_PLUG,
    _loses_clock: Code.DOUBTED_CLOCK,
    _in_without_clock: Code.DOUBTED_CLOCK,
}
"""Every doubt with its code, in the order in which they are told of where they stand on one line."""


def _connections(box: Box) -> Iterator[tuple[tuple[str | int, ...], Connection]]:
    """Outlets and inlets with their paths."""
    yield from ((("out", i), outlet) for i, outlet in enumerate(box.outlets))
    yield from ((("in", i), inlet) for i, inlet in enumerate(box.inlets))


def _pairs(box: Box) -> Iterator[tuple[tuple[str | int, ...], _Pair, str, str]]:
    """Pairs of jacks with their paths, the word for both sides, and what the left plug does."""
    for i, outlet in enumerate(box.outlets):
        if outlet.left is not None:
            yield ("out", i), _Pair(outlet.left, outlet.alone), "sum", "carries"
    for i, inlet in enumerate(box.inlets):
        if inlet.left is not None:
            yield ("in", i), _Pair(inlet.left, inlet.alone), "copy", "feeds"


class _Pair(NamedTuple):
    """The left jack of a pair, and what its plug does alone."""

    left: str
    alone: str


def _emitters(box: Box) -> tuple[tuple[str, tuple[Emitter, ...]], ...]:
    return ("engine", box.engines), ("strip", box.strips)


def _played_inside(box: Box, engine: Engine) -> bool:
    return any(track.plays == engine.name for track in box.tracks)


def _played_from_outside(box: Box, engine: Engine) -> bool:
    return bool(engine.channels) and any(port.takes for port in box.ports)


def _says(label: str, word: str) -> bool:
    """Whether a label has a word, in capital or small letters, perhaps with a number behind it."""
    return re.search(rf"(?<![A-Z]){word}(?![A-Z])", label.upper()) is not None


def _and(names: Iterable[str]) -> str:
    words = list(names)
    if len(words) > _MOST + 1:
        words = [*words[:_MOST], f"{len(words) - _MOST} more"]
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
