"""The best plan of a set by trying everything: every wiring, every value of what boxes store, every way to play a jam.

Jams of a set have the same boxes here, and recall a project on each of them. Of what boxes store for themselves, the
channels, outlets and pans of engines are tried.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from typing import NamedTuple

from solver.gear.rig import Emission, Rig
from solver.gear.words import Channel, Spot
from solver.jam.jam import Jam
from tests.enumeration.audio import AudioSides, Way, audio_sets
from tests.enumeration.exhaustive import Cost, castings
from tests.enumeration.midi import Casting, Listening, MidiSides, Reach, reach_of
from tests.enumeration.plugging import Lead, midi_leads, sets_of
from tests.enumeration.wiring import Flow, Stand, Wiring

Channels = tuple[tuple[Spot, Channel], ...]
Stands = tuple[tuple[Spot, Stand], ...]
Notes = Mapping[Casting, tuple[int, int]]
"""Engines at zero and settings moved, at least, for each casting."""
Sound = Mapping[Casting, int]
"""Settings moved, at least, for each casting."""


class Stored(NamedTuple):
    """What boxes store, the same for every jam: channels, and where engines send."""

    channels: dict[Spot, Channel]
    stands: dict[Spot, Stand]

    def moved(self, rig: Rig) -> int:
        """How much of it is not where it stands."""
        channels = sum(channel != rig.engines[engine].stands for engine, channel in self.channels.items())
        return channels + sum(stand.moved for stand in self.stands.values())


class _Midi(MidiSides):
    """MIDI sides with stored channels, which cost nothing here."""

    def __init__(self, jam: Jam, stored: Stored) -> None:
        super().__init__(jam)
        self.stored = stored

    def _ways(self, engine: Spot, own: Spot | None, sent: Mapping[Spot, Channel], reach: Reach) -> Iterator[Listening]:
        channel = self.stored.channels.get(engine)
        for way in super()._ways(engine, own, sent, reach):
            if channel is None:
                yield way
            elif way.channel == channel:
                yield way._replace(moved=way.silenced)

    def _last_resort(self, engine: Spot, struck: set[Channel]) -> bool:
        """A stored channel is the only one that the engine can take."""
        channel = self.stored.channels.get(engine)
        if channel is None:
            return super()._last_resort(engine, struck)
        return "off" not in self._rig.engines[engine].options and channel in struck

    def least(self, reach: Reach) -> dict[Casting, tuple[int, int]]:
        """Engines at zero and settings moved, at least, for each casting that has a way."""
        found: dict[Casting, tuple[int, int]] = {}
        for casting in castings(self._jam):
            if self._arrive(casting, reach):
                costs = [(side.silenced, side.moved) for side in self._sides(casting, reach, ())]
                if costs:
                    found[casting] = min(costs)
        return found


class _Audio(AudioSides):
    """Audio sides with stored outlets and pans, which cost nothing here."""

    def __init__(self, jam: Jam, stored: Stored) -> None:
        super().__init__(jam)
        self.stored = stored

    def _ways(self, part: str, home: Spot, flow: Flow, strips: Mapping[Spot, Stand]) -> Iterator[Way]:
        stand = self.stored.stands.get(home)
        for way in super()._ways(part, home, flow, strips):
            if stand is None:
                yield way
            elif way.stand[:2] == stand[:2]:
                yield way._replace(stand=way.stand._replace(moved=0))

    def least(self, leads: tuple[Lead, ...]) -> dict[Casting, int]:
        """Settings moved, at least, for each casting that has a way."""
        found: dict[Casting, int] = {}
        for casting, side in self._with(leads, list(castings(self._jam))):
            found[casting] = min(side.moved, found.get(casting, side.moved))
        return found


def best_of_set(jams: Sequence[Jam]) -> Cost | None:
    """What the best plan of a set costs; None where it has none."""
    rig = jams[0].rig
    wirings = list(_midi_wirings(jams))
    audio = sorted(set.intersection(*(set(audio_sets(jam)) for jam in jams)), key=len)
    found: list[Cost] = []
    every_notes: dict[Channels, list[tuple[int, list[Notes]]]] = {}
    every_sound: dict[Stands, list[tuple[tuple[Lead, ...], list[Sound]]]] = {}
    for channels, stands in _stored(rig):
        # Notes know nothing of where engines send, and sound knows nothing of channels.
        if channels not in every_notes:
            midi = [_Midi(jam, Stored(dict(channels), {})) for jam in jams]
            every_notes[channels] = [
                (count, [jam.least(reach) for jam, reach in zip(midi, reaches, strict=True)])
                for count, reaches in wirings
            ]
        if stands not in every_sound:
            sides = [_Audio(jam, Stored({}, dict(stands))) for jam in jams]
            every_sound[stands] = [(leads, [jam.least(leads) for jam in sides]) for leads in audio]
        stored = Stored(dict(channels), dict(stands))
        for leads, heard in every_sound[stands]:
            for count, least in every_notes[channels]:
                costs = [_cheapest(one, other) for one, other in zip(least, heard, strict=True)]
                if all(cost is not None for cost in costs):
                    known = [cost for cost in costs if cost is not None]
                    silenced, moved = (sum(values) for values in zip(*known, strict=True))
                    found.append(Cost(count + len(leads), silenced, moved + stored.moved(rig)))
    return min(found, default=None)


def _cheapest(notes: Notes, sound: Sound) -> tuple[int, int] | None:
    both = ((notes[casting][0], notes[casting][1] + sound[casting]) for casting in notes if casting in sound)
    return min(both, default=None)


def _stored(rig: Rig) -> Iterator[tuple[Channels, Stands]]:
    """Every value of all that boxes store for themselves."""
    wiring = Wiring(rig)
    tuned = [spot for spot, engine in rig.engines.items() if engine.memory("channel") == "box"]
    placed = [spot for spot, engine in rig.engines.items() if engine.memory("pan") == "box"]
    options = [rig.engines[spot].options for spot in tuned]
    stands = [wiring.stands(Emission("engine", spot), pans=True) for spot in placed]
    for channels, ways in product(product(*options), product(*stands)):
        yield tuple(zip(tuned, channels, strict=True)), tuple(zip(placed, ways, strict=True))


def _midi_wirings(jams: Sequence[Jam]) -> Iterator[tuple[int, tuple[Reach, ...]]]:
    """For each way in which boxes hear each other in all jams, the fewest cables that make it."""
    found: dict[tuple[Reach, ...], int] = {}
    for chosen in sorted(sets_of(midi_leads(jams[0].rig), None), key=len):
        reaches = [reach_of(jam, chosen) for jam in jams]
        if all(reach is not None for reach in reaches):
            found.setdefault(tuple(reach for reach in reaches if reach is not None), len(chosen))
    return ((count, reaches) for reaches, count in found.items())
