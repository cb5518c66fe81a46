"""Everything a plan leaves open, as choices that rules can ask for by what they mean."""

from collections.abc import Mapping
from functools import cached_property
from itertools import product
from typing import Any, Literal, NamedTuple

from solver.gear.rig import Emission
from solver.gear.words import Channel, Pan, Side, Spot
from solver.jam.intents import Stereo
from solver.jam.jam import Jam
from solver.search.model import NO, YES, Lit, Model
from solver.search.network import Network
from solver.search.wires import Wires

Layer = tuple[str, ...]


class Place(NamedTuple):
    """A point that sound passes: one side of an outlet or inlet, or of a jack as a plug meets it."""

    where: Literal["outlet", "inlet", "jack"]
    spot: Spot
    side: Side


class Pass(NamedTuple):
    """A point that notes and clock pass: a MIDI port, on their way in or out."""

    way: Literal["into", "out of"]
    port: Spot


Half = Literal["whole", "left", "right"]


class Signal(NamedTuple):
    """What a part sends: one signal, or a left and a right one where it is stereo."""

    part: str
    half: Half


class Choices:
    """The open choices of one jam; rules post what ties them together.

    The networks carry sound (signals over places), notes (a box's tracks over ports) and clock (over ports).
    """

    def __init__(self, jam: Jam) -> None:
        self.jam = jam
        self.rig = rig = jam.rig
        self.model = model = Model()
        self.wires = Wires(rig, model)
        self.sound, self.notes, self.clock = Network(model), Network(model), Network(model)
        self._lives = {key: model.new() for key in product(jam.parts, rig.engines)}
        self._plays = {key: model.new() for key in product(jam.layers, rig.tracks)}
        self._sends = {key: model.new() for key in product(jam.layers, self.track_options)}
        self._listens = {
            (engine, option): YES if len(self.engine_options(engine)) == 1 else model.new()
            for engine in rig.engines
            for option in self.engine_options(engine)
        }
        self._silenced = {engine: model.new() for engine in rig.engines}
        self._emits = {
            (emitter, outlet): YES if len(rig.ways_out(emitter)) == 1 else model.new()
            for emitter in rig.emitters
            for outlet in rig.ways_out(emitter)
        }
        self._pans = {
            (emitter, pan): YES if len(rig.pans(emitter)) == 1 else model.new()
            for emitter in rig.emitters
            for pan in rig.pans(emitter)
        }
        self._amounts = {
            (emitter, want.effect, want.amount): model.new()
            for emitter, thing in rig.emitters.items()
            for want in jam.wanted
            if want.amount > 0 and want.effect in thing.offers
        }
        self._keys = {
            (emitter, want.key): model.new()
            for emitter, thing in rig.emitters.items()
            for want in jam.wanted
            if want.key is not None and thing.key
        }
        self._entered: dict[tuple[str, Spot], Lit] = {}

    @cached_property
    def track_options(self) -> tuple[Channel, ...]:
        """Every channel that some track can be set to, "off" last."""
        options = {option for track in self.rig.tracks.values() for option in track.options}
        return (*sorted(o for o in options if isinstance(o, int)), *(o for o in options if o == "off"))

    def engine_options(self, engine: Spot) -> tuple[Channel, ...]:
        """The channels that an engine can be set to; one that no MIDI cable can reach stays where it stands."""
        thing = self.rig.engines[engine]
        reachable = any(port.takes for port in self.rig.boxes[engine.box].ports)
        return thing.options if reachable else (thing.stands,)

    def lives(self, part: str, engine: Spot) -> Lit:
        """The part lives on the engine."""
        return self.model.value(self._lives[part, engine])

    def homes(self, part: str) -> list[Spot]:
        """The engines on which a part may still live."""
        return [engine for engine in self.rig.engines if self.lives(part, engine) != NO]

    def holds(self, engine: Spot, parts: Layer) -> Lit:
        """The engine holds one of these parts."""
        return self.model.either(self.lives(part, engine) for part in parts)

    def plays(self, layer: Layer, track: Spot) -> Lit:
        """The track plays the layer."""
        return self.model.value(self._plays[layer, track])

    def plays_from(self, layer: Layer, box: str) -> Lit:
        """Some track of the box plays the layer."""
        return self.model.either(self.plays(layer, track) for track in self.rig.tracks if track.box == box)

    def plays_inside(self, layer: Layer, engine: Spot) -> Lit:
        """The layer's track plays the engine inside their box, whatever the channel."""
        return self.model.either(
            self.plays(layer, track)
            for track, thing in self.rig.tracks.items()
            if track.box == engine.box and thing.plays == engine.name
        )

    def sends(self, layer: Layer, channel: Channel) -> Lit:
        """The layer's track sends on the channel ("off": it sends nothing out)."""
        return self.model.value(self._sends.get((layer, channel), NO))

    def arriving(self, start: str, port: Spot) -> Lit:
        """Notes of the tracks of box ``start`` come in at the port."""
        return self.notes.present(start, Pass("into", port))

    def reaches(self, start: str, box: str) -> Lit:
        """Notes of the tracks of box ``start`` reach the other box."""
        ports = (port for port, thing in self.rig.ports.items() if port.box == box and thing.takes)
        return self.model.either(self.arriving(start, port) for port in ports)

    def arrives(self, layer: Layer, box: str) -> Lit:
        """The layer's notes come to the box over MIDI cables."""
        both = self.model.both
        there = self.model.either(
            both(self.plays_from(layer, start), self.reaches(start, box)) for start in self.rig.boxes if start != box
        )
        return both(there, -self.sends(layer, "off"))

    def strikes(self, layer: Layer, box: str, channel: Channel) -> Lit:
        """The layer's notes come to the box on the channel."""
        return self.model.both(self.arrives(layer, box), self.sends(layer, channel))

    def listens(self, engine: Spot, channel: Channel) -> Lit:
        """The engine is set to the channel ("off", or "all")."""
        return self.model.value(self._listens.get((engine, channel), NO))

    def silenced(self, engine: Spot) -> Lit:
        """The engine's level is at zero."""
        return self.model.value(self._silenced[engine])

    def emits(self, emitter: Emission, outlet: Spot) -> Lit:
        """The strip or engine goes to the outlet."""
        return self.model.value(self._emits.get((emitter, outlet), NO))

    def pans(self, emitter: Emission, pan: Pan) -> Lit:
        """The strip or engine is panned there."""
        return self.model.value(self._pans.get((emitter, pan), NO))

    def amounts(self, emitter: Emission, effect: str) -> dict[int, Lit]:
        """The amounts above 0 that the strip or engine could have of an effect."""
        return {a: lit for (e, x, a), lit in self._amounts.items() if e == emitter and x == effect}

    def keys(self, emitter: Emission) -> dict[str, Lit]:
        """The parts that could trigger the ducking of the strip or engine."""
        return {part: lit for (e, part), lit in self._keys.items() if e == emitter}

    def signals(self, part: str) -> tuple[Signal, ...]:
        """What the part sends."""
        if part in self.jam.parts_of(Stereo):
            return (Signal(part, "left"), Signal(part, "right"))
        return (Signal(part, "whole"),)

    def heard(self, signal: Signal, outlet: Spot, side: Side) -> Lit:
        """The signal is on that side of the outlet."""
        return self.sound.present(signal, Place("outlet", outlet, side))

    def into(self, signal: Signal, strip: Spot) -> Lit:
        """The signal enters the strip."""
        inlet, sides = self.rig.feed(strip)
        return self.model.either(self.sound.present(signal, Place("inlet", inlet, side)) for side in sides)

    def enters(self, part: str, strip: Spot) -> Lit:
        """The part enters the strip."""
        if (part, strip) not in self._entered:
            self._entered[part, strip] = self.model.either(self.into(signal, strip) for signal in self.signals(part))
        return self._entered[part, strip]

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
