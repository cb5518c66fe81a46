"""Everything a plan leaves open, as choices that rules can ask for by what they mean."""

from collections.abc import Mapping
from functools import cached_property
from itertools import product
from typing import Any, Literal, NamedTuple

from solver.gear.rig import Emission
from solver.gear.words import ALL_CHANNELS, PANS, Channel, Pan, Side, Spot
from solver.jam.intents import Clock
from solver.search.ground import Ground, Place, Value
from solver.search.hearing import Hearing
from solver.search.model import NO, YES, Lit
from solver.search.questions import Asked, once
from solver.search.voices import Half, Voices

Layer = tuple[str, ...]


class Pass(NamedTuple):
    """A point that notes and clock pass: a MIDI port, on their way in or out."""

    way: Literal["into", "out of"]
    port: Spot


class Choices(Asked):
    """The open choices of one jam; rules post what ties them together.

    ``rig`` is the table with all that is alike merged: an engine of it has room for as many parts as it stands for.
    The networks carry notes (a box's tracks over ports) and clock (over ports); ``voices`` has that of sound.

    Args:
        ground: What the jams of a set share.
        turn: Which of its jams this is, counted from 0.
    """

    def __init__(self, ground: Ground, turn: int = 0) -> None:
        self.ground, self.turn = ground, turn
        self.jam = jam = ground.jams[turn]
        self.table = ground.table
        self.rig = rig = self.table.rig
        super().__init__(model := ground.model)
        self.wires = ground.wires
        self.notes, self.clock = ground.notes, ground.clock
        self._lives = {key: model.new() for key in product(jam.parts, rig.engines)}
        self._plays = {key: model.new() for key in product(jam.layers, rig.tracks)}
        self._sends = {key: model.new() for key in product(jam.layers, self.track_options)}
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
        self._idle: dict[Spot, tuple[Lit, ...]] = {}

    @cached_property
    def track_options(self) -> tuple[Channel, ...]:
        """Every channel that some track can be set to, "off" last."""
        options = {option for track in self.rig.tracks.values() for option in track.options}
        return (*sorted(o for o in options if isinstance(o, int)), *(o for o in options if o == "off"))

    def room(self, engine: Spot) -> int:
        """How many engines it stands for."""
        return len(self.table.stacks[engine])

    def lives(self, part: str, engine: Spot) -> Lit:
        """The part lives on the engine."""
        return self.model.value(self._lives[part, engine])

    def homes(self, part: str) -> list[Spot]:
        """The engines on which a part may still live."""
        return [engine for engine in self.rig.engines if self.lives(part, engine) != NO]

    @once
    def holds(self, engine: Spot, parts: Layer) -> Lit:
        """The engine holds one of these parts."""
        return self.model.either(self.lives(part, engine) for part in parts)

    def idle(self, engine: Spot) -> tuple[Lit, ...]:
        """Literals of which as many hold, the first ones first, as engines of the stack are without a part."""
        if engine not in self._idle:
            tenants = (self.lives(part, engine) for part in self.jam.parts)
            self._idle[engine] = self.model.counted(tenants, self.room(engine))
        return self._idle[engine]

    def plays(self, layer: Layer, track: Spot) -> Lit:
        """The track plays the layer."""
        return self.model.value(self._plays[layer, track])

    @once
    def plays_from(self, layer: Layer, box: str) -> Lit:
        """Some track of the box plays the layer."""
        here = [self.plays(layer, track) for track in self.rig.tracks if track.box == box]
        elsewhere = (self.plays(layer, track) for track in self.rig.tracks if track.box != box)
        return self.model.either(here) if any(lit != NO for lit in elsewhere) else YES

    @once
    def plays_inside(self, layer: Layer, engine: Spot) -> Lit:
        """The layer's track plays the engine inside their box, whatever the channel."""
        return self.model.either(
            self.plays(layer, track)
            for track, thing in self.rig.tracks.items()
            if track.box == engine.box and thing.plays == engine.name
        )

    @once
    def over_midi(self, part: str, engine: Spot) -> Lit:
        """The part lives on the engine and is not played inside the box."""
        inside = self.plays_inside(self.jam.layer_of(part), engine)
        return self.model.both(self.lives(part, engine), -inside)

    @once
    def stands(self, part: str, channel: Channel) -> Lit:
        """The part is played over MIDI, on an engine that stands on the channel and comes with the project."""
        free = (engine for engine in self.rig.engines if engine not in self.ground.tied["engine"])
        engines = (engine for engine in free if self.rig.engines[engine].stands == channel)
        return self.model.either(self.over_midi(part, engine) for engine in engines)

    def sends(self, layer: Layer, channel: Channel) -> Lit:
        """The layer's track sends on the channel ("off": it sends nothing out)."""
        return self.model.value(self._sends.get((layer, channel), NO))

    def arriving(self, start: str, port: Spot) -> Lit:
        """Notes of the tracks of box ``start`` come in at the port."""
        return self.notes.present(start, Pass("into", port))

    @once
    def reaches(self, start: str, box: str) -> Lit:
        """Notes of the tracks of box ``start`` reach the other box, as the leader's do wherever its clock must come."""
        if start == self.jam.leader and any(box in intent.clock for _, intent in self.jam.stated(Clock)):
            return YES
        ports = (port for port, thing in self.rig.ports.items() if port.box == box and thing.takes)
        return self.model.either(self.arriving(start, port) for port in ports)

    @once
    def arrives(self, layer: Layer, box: str) -> Lit:
        """The layer's notes come to the box over MIDI cables."""
        both = self.model.both
        there = self.model.either(
            both(self.plays_from(layer, start), self.reaches(start, box)) for start in self.rig.boxes if start != box
        )
        return both(there, -self.sends(layer, "off"))

    @once
    def struck(self, box: str, channel: Channel) -> Lit:
        """Some layer's notes come to the box on the channel; nothing strikes "off"."""
        if channel == "off":
            return NO
        ways: dict[Lit, list[Lit]] = {}
        for layer in self.jam.layers:
            sent = YES if channel == "all" else self.sends(layer, channel)
            ways.setdefault(self.arrives(layer, box), []).append(sent)
        return self.model.either(self.model.both(way, self.model.either(sent)) for way, sent in ways.items())

    def share_channel(self, one: Layer, other: Layer) -> Lit:
        """Holds at least where both layers are sent on one channel."""
        return self._share_channel(*sorted((one, other)))

    @once
    def _share_channel(self, one: Layer, other: Layer) -> Lit:
        shared = self.model.new()
        for channel in ALL_CHANNELS:
            self.model.clause(-self.sends(one, channel), -self.sends(other, channel), shared)
        return shared

    @once
    def held(self, layer: Layer, box: str) -> Lit:
        """A part of the layer lives in the box and is played over MIDI."""
        engines = [engine for engine in self.rig.engines if engine.box == box]
        inside = any(self.plays_inside(layer, engine) != NO for engine in engines)
        if not inside and any(all(home.box == box for home in self.homes(part)) for part in layer):
            return YES
        return self.model.either(self.over_midi(part, engine) for part in layer for engine in engines)

    @once
    def stirred(self, engine: Spot) -> Lit:
        """Notes come to the engine's box on the channel where it stands."""
        return self.struck(engine.box, self.rig.engines[engine].stands)

    @once
    def escape(self, engine: Spot) -> Lit:
        """There is a channel for the engine that no note strikes, or it can be off."""
        options = self.jam.quiet_options(self.rig.engines[engine])
        if "off" in options or len(options) > len(self.jam.layers):
            return YES
        return self.model.either(-self.struck(engine.box, option) for option in options)

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

    def hears_midi(self, box: str) -> bool:
        """Whether the box has a MIDI in."""
        return any(port.takes for port in self.rig.boxes[box].ports)

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
