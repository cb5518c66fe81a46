"""The cheapest MIDI side of a plan: cables, channels, and what every engine listens to."""

from collections.abc import Iterator, Mapping
from itertools import product
from typing import NamedTuple

from solver.gear.rig import Rig
from solver.gear.words import Channel, Spot
from solver.jam.intents import Avoid, Clock, Keep
from solver.jam.jam import Jam
from tests.enumeration.plugging import (
    Lead,
    comes_round,
    drawer_of,
    keeps_all,
    kept_pairs,
    midi_leads,
    onward_from,
    sets_of,
    shunned,
)

Reach = frozenset[tuple[str, str]]
"""From which box with tracks notes come to which other box."""


class Listening(NamedTuple):
    """What one engine is set to, and what that costs."""

    silenced: int
    moved: int
    channel: Channel


class MidiSide(NamedTuple):
    """A MIDI side: what it costs first, then all that it sets."""

    cables: int
    silenced: int
    moved: int
    leads: tuple[Lead, ...]
    channels: tuple[Channel, ...]
    listening: tuple[Listening, ...]


class Casting(NamedTuple):
    """The engine of each part and the track of each layer, both in file order."""

    homes: tuple[Spot, ...]
    tracks: tuple[Spot, ...]


def _steps(rig: Rig, leads: tuple[Lead, ...]) -> list[tuple[object, object]]:
    """Where what is at the way out of, or the way into, a port goes next."""
    steps: list[tuple[object, object]] = []
    for lead in leads:
        (start,), (end,) = lead.start, lead.end
        steps.append((("out", start), ("in", end)))
        if rig.ports[start].way == rig.ports[end].way == "both":
            steps.append((("out", end), ("in", start)))
    for spot, port in rig.ports.items():
        repeated = port.repeats if port.copies is None else (port.copies,)
        steps.extend((("in", Spot(spot.box, name)), ("out", spot)) for name in repeated)
    return steps


def _ways_out(rig: Rig, box: str) -> list[tuple[str, Spot]]:
    """The ports that send a box's own tracks: not its thrus."""
    return [("out", spot) for spot, port in rig.ports.items() if spot.box == box and port.way in ("out", "both")]


def _reach(jam: Jam, leads: tuple[Lead, ...]) -> Reach | None:
    """Which boxes hear which; None where a note comes round or back, or the clock does not arrive."""
    rig, steps = jam.rig, _steps(jam.rig, leads)
    if comes_round(steps):
        return None
    pairs: set[tuple[str, str]] = set()
    for name, box in rig.boxes.items():
        if box.tracks:
            heard = {ports[1].box for ports in _ins(onward_from(_ways_out(rig, name), steps))}
            if name in heard:
                return None
            pairs.update((name, other) for other in heard)
    if not _clocked(jam, steps):
        return None
    return frozenset(pairs)


def _ins(halves: set[object]) -> Iterator[tuple[str, Spot]]:
    return (half for half in halves if isinstance(half, tuple) and half[0] == "in")


def _clocked(jam: Jam, steps: list[tuple[object, object]]) -> bool:
    """Whether the leader's clock comes to every box that should follow it, over ports that all carry clock."""
    named = {box for _, intent in jam.stated(Clock) for box in intent.clock} - {jam.leader}
    carry = {(half, spot) for spot, port in jam.rig.ports.items() if port.clock for half in ("in", "out")}
    starts = [half for half in _ways_out(jam.rig, jam.leader) if half in carry]
    passed = onward_from(starts, [(start, end) for start, end in steps if start in carry and end in carry])
    return named <= {spot.box for _, spot in _ins(passed)}


def reaches(jam: Jam) -> list[tuple[Reach, tuple[Lead, ...]]]:
    """Every way in which boxes can hear each other, each with the fewest cables that make it, few cables first.

    Which notes come to which box is all that the channels, the engines and the goals ever ask of the MIDI cables;
    so of all sets with the same reach, one with the fewest cables stands for the rest.
    """
    away = shunned(jam, "ports")
    leads = [lead for lead in midi_leads(jam.rig) if away.isdisjoint(lead.sockets)]
    kept = kept_pairs(jam, jam.rig.ports)
    found: dict[Reach, tuple[Lead, ...]] = {}
    for chosen in sorted(sets_of(leads, drawer_of(jam)), key=len):
        reach = _reach(jam, chosen) if keeps_all(chosen, kept) else None
        if reach is not None:
            found.setdefault(reach, chosen)
    return sorted(found.items(), key=lambda pair: len(pair[1]))


def reach_of(jam: Jam, leads: tuple[Lead, ...]) -> Reach | None:
    """Which boxes hear which over these cables; None where the jam does not allow them."""
    away = shunned(jam, "ports")
    drawer = drawer_of(jam)
    if any(not away.isdisjoint(lead.sockets) for lead in leads) or not keeps_all(leads, kept_pairs(jam, jam.rig.ports)):
        return None
    if drawer is not None and any(sum(o.kind == lead.kind for o in leads) > drawer.get(lead.kind, 0) for lead in leads):
        return None
    return _reach(jam, leads)


class MidiSides:
    """Finds the cheapest MIDI side for any casting of one jam."""

    def __init__(self, jam: Jam) -> None:
        self._jam, self._rig = jam, jam.rig
        self._reaches = reaches(jam)
        self._avoided = {channel for _, intent in jam.stated(Avoid) for channel in intent.avoid.channels}

    def cheapest(self, casting: Casting) -> MidiSide | None:
        """The cheapest MIDI side, or None where there is none: fewest cables, engines at zero, settings moved.

        Reaches come by rising count, so the first count that works is the fewest; all of that count are compared.
        """
        best: MidiSide | None = None
        for reach, leads in self._reaches:
            if best is not None and len(leads) > best.cables:
                break
            for side in self._sides(casting, reach, leads) if self._arrive(casting, reach) else ():
                if best is None or side[:3] < best[:3]:
                    best = side
        return best

    def _arrive(self, casting: Casting, reach: Reach) -> bool:
        """Whether each part can be played at all: inside its box, or over a cable. Saves trying channels in vain."""
        return all(
            self._plays_inside(track, home) if track.box == home.box else (track.box, home.box) in reach
            for home, track in zip(casting.homes, self._tracks(casting), strict=True)
        )

    def _tracks(self, casting: Casting) -> list[Spot]:
        """The track of each part."""
        by_layer = dict(zip(self._jam.layers, casting.tracks, strict=True))
        return [by_layer[self._jam.layer_of(part)] for part in self._jam.parts]

    def _plays_inside(self, track: Spot, engine: Spot) -> bool:
        return track.box == engine.box and self._rig.tracks[track].plays == engine.name

    def _options(self, layer: tuple[str, ...], track: Spot) -> list[Channel]:
        """The channels that a layer's track may send on."""
        kept = {
            intent.keep.channel
            for _, intent in self._jam.stated(Keep)
            if intent.keep.part in layer and intent.keep.channel is not None
        }
        options = [c for c in self._rig.tracks[track].options if c not in self._avoided]
        return [channel for channel in options if kept <= {channel}]

    def _sides(self, casting: Casting, reach: Reach, leads: tuple[Lead, ...]) -> Iterator[MidiSide]:
        """For every choice of channels, the side in which each engine is set as cheaply as it can be.

        Engines do not affect each other, and goals in strict order add up, so each takes its own cheapest setting.
        """
        options = [self._options(layer, track) for layer, track in zip(self._jam.layers, casting.tracks, strict=True)]
        homes = dict(zip(casting.homes, self._tracks(casting), strict=True))
        for channels in product(*options):
            sent = dict(zip(casting.tracks, channels, strict=True))
            listening: list[Listening] = []
            for engine in self._rig.engines:
                ways = list(self._ways(engine, homes.get(engine), sent, reach))
                if not ways:
                    break
                listening.append(min(ways, key=lambda way: way[:2]))
            else:
                moved = sum(channel != self._rig.tracks[track].stands for track, channel in sent.items())
                yield MidiSide(
                    len(leads),
                    sum(way.silenced for way in listening),
                    moved + sum(way.moved for way in listening),
                    leads,
                    channels,
                    tuple(listening),
                )

    def _ways(self, engine: Spot, own: Spot | None, sent: Mapping[Spot, Channel], reach: Reach) -> Iterator[Listening]:
        """Every setting of an engine in which it sounds for its own track alone, or is silent without a part."""
        gear = self._rig.engines[engine]
        inside = {track for track in sent if self._plays_inside(track, engine)}
        struck = {t: c for t, c in sent.items() if c != "off" and t.box != engine.box and (t.box, engine.box) in reach}
        last = self._last_resort(engine, set(struck.values())) or bool(inside)
        for channel in gear.options:
            if channel in self._avoided and channel != gear.stands:
                continue
            sounds = inside | {track for track, number in struck.items() if channel in ("all", number)}
            moved = int(channel != gear.stands)
            if sounds == ({own} if own is not None else set()):
                yield Listening(0, moved, channel)
            elif own is None and last:
                yield Listening(1, moved + 1, channel)

    def _last_resort(self, engine: Spot, struck: set[Channel]) -> bool:
        """Whether an engine cannot be off and has no channel that it may take and nothing is sent on."""
        gear = self._rig.engines[engine]
        if "off" in gear.options:
            return False
        free = [c for c in gear.options if c == gear.stands or c not in self._avoided]
        return bool(struck) if gear.channels == "all" else all(channel in struck for channel in free)
