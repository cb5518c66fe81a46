"""Voices: what parts send while they live on engines of one kind, followed once for all parts that sound alike."""

from collections import defaultdict
from collections.abc import Collection, Hashable, Mapping
from typing import Any, Literal, NamedTuple

from solver.gear.rig import Emission, Rig
from solver.gear.words import Pan, Side, Spot
from solver.jam.intents import Keep, Match, Separate, Stereo
from solver.jam.jam import Jam, Wanted
from solver.search.model import NO, YES, Lit, Model
from solver.search.network import Network
from solver.search.questions import Asked, once


class Place(NamedTuple):
    """A point that sound passes: one side of an outlet or inlet, or of a jack as a plug meets it."""

    where: Literal["outlet", "inlet", "jack"]
    spot: Spot
    side: Side


class Voice(NamedTuple):
    """The first of the parts that sound alike, and the first of the engines from which they go alike."""

    part: str
    home: Spot


Half = Literal["whole", "left", "right"]


class Signal(NamedTuple):
    """What a voice sends: one signal, or a left and a right one where it is stereo."""

    voice: Voice
    half: Half


class Voices(Asked):
    """The voices of a jam: engines of one box with equal ways out, and parts with equal wishes about their sound.

    A voice is in use where some part of it lives on some engine of it; else it sends nothing. All its parts leave by
    one outlet and at one pan, for what is good for one is good for all. A part has a voice for each kind of engine on
    which it may live; engines that are kept ``apart`` are each a kind of their own.
    """

    def __init__(
        self, jam: Jam, rig: Rig, model: Model, lives: Mapping[tuple[str, Spot], Lit], apart: Collection[Spot]
    ) -> None:
        super().__init__(model)
        self._apart = apart
        self._jam, self._rig, self._lives = jam, rig, lives
        self.sound = Network(model)
        self._parts: dict[Voice, list[str]] = defaultdict(list)
        self._homes: dict[Voice, dict[Spot, None]] = defaultdict(dict)
        self._of: dict[str, list[Voice]] = {part: [] for part in jam.parts}
        first: dict[Hashable, Voice] = {}
        for part in jam.parts:
            for gear, homes in self._gears(part).items():
                voice = first.setdefault((gear, self._sound_of(part, homes)), Voice(part, homes[0]))
                self._parts[voice].append(part)
                self._homes[voice].update(dict.fromkeys(homes))
                self._of[part].append(voice)
        self.every = tuple(self._parts)

    def _gears(self, part: str) -> dict[Hashable, list[Spot]]:
        """The engines on which a part may live, by where they can go and how."""
        gears: dict[Hashable, list[Spot]] = defaultdict(list)
        for engine, thing in self._rig.engines.items():
            if self.model.value(self._lives[part, engine]) != NO:
                alone = engine.name if engine in self._apart else None
                gears[engine.box, thing.to, thing.pan, alone].append(engine)
        return gears

    def _sound_of(self, part: str, homes: list[Spot]) -> Any:
        """What parts have in common that sound alike from there; one asked about by name sounds like none."""
        jam = self._jam
        wanted = tuple(want[1:5] for want in jam.wanted if want.part == part)
        treats_itself = any(want[0] in self._rig.engines[home].offers for want in wanted for home in homes)
        separate = any(part in intent.separate for _, intent in jam.stated(Separate))
        kept = any(part == intent.keep.part for _, intent in jam.stated(Keep))
        if treats_itself or separate or kept:
            return part
        matched = jam.layer_of(part) if part in jam.parts_of(Match) else None
        return wanted, matched, part in jam.parts_of(Stereo)

    def of(self, part: str) -> list[Voice]:
        """The voices that a part may have, one for each kind of engine."""
        return self._of[part]

    def parts(self, voice: Voice) -> list[str]:
        """The parts that may have the voice."""
        return self._parts[voice]

    def wanted(self, voice: Voice) -> list[Wanted]:
        """What the parts of the voice want of effects."""
        return [want for want in self._jam.wanted if want.part == voice.part]

    def homes(self, voice: Voice) -> list[Spot]:
        """The engines that the voice may come from."""
        return list(self._homes[voice])

    def has(self, part: str, voice: Voice) -> Lit:
        """The part lives on an engine of the voice."""
        return YES if len(self._of[part]) == 1 else self._has(part, voice)

    @once
    def _has(self, part: str, voice: Voice) -> Lit:
        return self.model.either(self._lives[part, home] for home in self._homes[voice])

    @once
    def used(self, voice: Voice) -> Lit:
        """Some part has the voice."""
        return self.model.either(self.has(part, voice) for part in self._parts[voice])

    def ways(self, voice: Voice) -> tuple[Spot, ...]:
        """The outlets by which the voice may leave its box, where its engines stand first."""
        return self._rig.ways_out(Emission("engine", voice.home))

    def pans(self, voice: Voice) -> tuple[Pan, ...]:
        """The pans that its engines have."""
        return self._rig.pans(Emission("engine", voice.home))

    def leaves(self, voice: Voice, outlet: Spot) -> Lit:
        """The voice is in use and goes to the outlet."""
        ways = self.ways(voice)
        if outlet not in ways:
            return NO
        return self.used(voice) if len(ways) == 1 else self._open("leaves", voice, outlet)

    def panned(self, voice: Voice, pan: Pan) -> Lit:
        """The voice is in use and panned there."""
        pans = self.pans(voice)
        if pan not in pans:
            return NO
        return self.used(voice) if len(pans) == 1 else self._open("panned", voice, pan)

    @once
    def _open(self, *_: object) -> Lit:
        """A choice of its own for what it is asked about."""
        return self.model.new()

    def signals(self, voice: Voice) -> tuple[Signal, ...]:
        """What the voice sends."""
        if voice.part in self._jam.parts_of(Stereo):
            return (Signal(voice, "left"), Signal(voice, "right"))
        return (Signal(voice, "whole"),)

    def heard(self, signal: Signal, outlet: Spot, side: Side) -> Lit:
        """The signal is on that side of the outlet."""
        return self.sound.present(signal, Place("outlet", outlet, side))

    def into(self, signal: Signal, strip: Spot) -> Lit:
        """The signal enters the strip."""
        inlet, sides = self._rig.feed(strip)
        return self.model.either(self.sound.present(signal, Place("inlet", inlet, side)) for side in sides)

    @once
    def enters(self, voice: Voice, strip: Spot) -> Lit:
        """The voice enters the strip."""
        return self.model.either(self.into(signal, strip) for signal in self.signals(voice))

    @once
    def passes(self, voice: Voice, emitter: Emission) -> Lit:
        """The voice comes from the engine, or enters the strip."""
        if emitter.of == "strip":
            return self.enters(voice, emitter.spot)
        if emitter.spot not in self._homes[voice]:
            return NO
        return self.model.either(self._lives[part, emitter.spot] for part in self._parts[voice])

    @once
    def part_leaves(self, part: str, outlet: Spot) -> Lit:
        """The part's engine goes to the outlet."""
        return self.of_part(part, {voice: self.leaves(voice, outlet) for voice in self.of(part)})

    @once
    def part_panned(self, part: str, pan: Pan) -> Lit:
        """The part's engine is panned there."""
        return self.of_part(part, {voice: self.panned(voice, pan) for voice in self.of(part)})

    @once
    def part_enters(self, part: str, strip: Spot) -> Lit:
        """The part enters the strip."""
        return self.of_part(part, {voice: self.enters(voice, strip) for voice in self.of(part)})

    def of_part(self, part: str, said: Mapping[Voice, Lit]) -> Lit:
        """What is said of the voice that the part has; what holds of a voice without other parts holds of this one."""
        alone = {voice for voice in said if len(self._parts[voice]) == 1}
        return self.model.either(
            lit if voice in alone else self.model.both(self.has(part, voice), lit) for voice, lit in said.items()
        )
