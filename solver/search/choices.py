"""Everything a plan leaves open, as choices that rules can ask for by what they mean."""

from collections.abc import Mapping
from functools import cached_property
from typing import Any

from solver.gear.rig import Emission
from solver.gear.words import PANS, Pan, Side, Spot
from solver.search.ground import Ground, Place, Value
from solver.search.hearing import Hearing
from solver.search.model import NO, YES, Lit
from solver.search.played import Played
from solver.search.questions import once
from solver.search.voices import Half, Voices


class Choices(Played):
    """All open choices of one jam; rules post what ties them together.

    ``rig`` is the table with all that is alike merged: an engine of it has room for as many parts as it stands for.
    The networks carry notes (a box's tracks over ports) and clock (over ports); ``voices`` has that of sound.

    Args:
        ground: What the jams of a set share.
        turn: Which of its jams this is, counted from 0.
    """

    def __init__(self, ground: Ground, turn: int = 0) -> None:
        super().__init__(ground, turn)
        jam, rig, model = self.jam, self.rig, self.model
        self._emits = {
            (strip, outlet): YES if len(rig.ways_out(Emission("strip", strip))) == 1 else model.new()
            for strip in rig.strips
            for outlet in rig.ways_out(Emission("strip", strip))
        }
        self._pans = {
            (strip, pan): YES if len(rig.pans(Emission("strip", strip))) == 1 else model.new()
            for strip in rig.strips
            for pan in rig.pans(Emission("strip", strip))
        }
        wanted = {want.effect: dict[int, None]() for want in jam.wanted}
        for want in jam.wanted:
            wanted[want.effect].update({want.amount: None} if want.amount else {})
        self._amounts = {
            (emitter, effect): {amount: model.new() for amount in wanted.get(effect, ())}
            for emitter, thing in rig.emitters.items()
            for effect in thing.offers
        }
        keys = dict.fromkeys(want.key for want in jam.wanted if want.key is not None)
        self._keys = {
            emitter: {part: model.new() for part in (keys if thing.key else ())}
            for emitter, thing in rig.emitters.items()
        }

    def state(self, place: Place, value: Value) -> Lit:
        """The setting of something tied is at the value while this jam is played."""
        return self.ground.at(self.turn, place, value)

    def is_tied(self, place: Place) -> bool:
        """Whether it is about something tied."""
        return place.spot in self.ground.tied[place.of]

    def is_once(self, place: Place) -> bool:
        """Whether the setting has one value for all jams."""
        return self.ground.once(place)

    @once
    def away(self, place: Place) -> Lit:
        """A tied setting that counts for this jam is not where it stands; what counts for all does for the first."""
        if self.turn and self.is_once(place):
            return NO
        return -self.state(place, self.ground.stands(place))

    @once
    def at_zero(self, engine: Spot) -> Lit:
        """The level of a tied engine is at zero."""
        return self.state(Place("engine", engine, "level"), "zero")

    @once
    def carries(self, strip: Spot) -> Lit:
        """A part enters the strip."""
        return self.model.either(self.voices.enters(voice, strip) for voice in self.voices.every)

    @cached_property
    def voices(self) -> Voices:
        """What the parts send, first asked for when all is posted that narrows where they live."""
        return Voices(self.jam, self.rig, self.model, self._lives, self.ground.tied["engine"])

    def ways(self, part: str) -> list[Spot]:
        """The outlets by which the part may leave the box it lives in."""
        return list(dict.fromkeys(way for voice in self.voices.of(part) for way in self.voices.ways(voice)))

    def leaves(self, part: str, outlet: Spot) -> Lit:
        """The part's engine goes to the outlet."""
        return self.voices.part_leaves(part, outlet)

    def panned(self, part: str, pan: Pan) -> Lit:
        """The part's engine is panned there."""
        return self.voices.part_panned(part, pan)

    def enters(self, part: str, strip: Spot) -> Lit:
        """The part enters the strip."""
        return self.voices.part_enters(part, strip)

    def emits(self, strip: Spot, outlet: Spot) -> Lit:
        """The strip goes to the outlet."""
        return self.model.value(self._emits.get((strip, outlet), NO))

    def pans(self, strip: Spot, pan: Pan) -> Lit:
        """The strip is panned there."""
        return self.model.value(self._pans.get((strip, pan), NO))

    @once
    def passes_on(self, strip: Spot, start: Side, outlet: Spot, side: Side) -> Lit:
        """The strip brings what it takes from one side of its inlet to one side of the outlet."""
        _, taken = self.rig.feed(strip)
        half: Half = start if start != "mono" and len(taken) == 2 else "whole"
        at = {pan: self.pans(strip, pan) for pan in PANS}
        return self.model.both(self.emits(strip, outlet), self.lands(at, half, side))

    def lands(self, at: Mapping[Pan, Lit], half: Half, side: Side) -> Lit:
        """That half of a sound falls on the side: centre keeps halves apart and puts wholes on both."""
        if side == "mono":
            return YES
        return self.model.either([at[side], at["centre"] if half in ("whole", side) else NO])

    @cached_property
    def hearing(self) -> Hearing:
        """What is heard over which strips, first asked for when the ways of sound are posted."""
        return Hearing(self)

    def amounts(self, emitter: Emission, effect: str) -> dict[int, Lit]:
        """The amounts above 0 that the strip or engine could have of an effect."""
        return self._amounts.get((emitter, effect), {})

    def keys(self, emitter: Emission) -> dict[str, Lit]:
        """The parts that could trigger the ducking of the strip or engine."""
        return self._keys[emitter]

    def passes(self, part: str, emitter: Emission) -> Lit:
        """The part lives on the engine, or enters the strip."""
        return self.lives(part, emitter.spot) if emitter.of == "engine" else self.enters(part, emitter.spot)

    def alike(self, given: Lit, one: Emission, other: Emission) -> None:
        """Where ``given`` holds, two strips have equal amounts of every effect and the same key."""
        for effect in dict.fromkeys(wanted.effect for wanted in self.jam.wanted):
            self._equal(given, self.amounts(one, effect), self.amounts(other, effect))
        self._equal(given, self.keys(one), self.keys(other))

    def _equal(self, given: Lit, one: Mapping[Any, Lit], other: Mapping[Any, Lit]) -> None:
        for option in dict.fromkeys((*one, *other)):
            here, there = one.get(option, NO), other.get(option, NO)
            self.model.clause(-given, -here, there)
            self.model.clause(-given, here, -there)
