"""Which engines hold the parts, which tracks play them, and where their notes come: choices that rules ask for."""

from functools import cached_property
from itertools import product
from typing import Literal, NamedTuple

from solver.gear.words import ALL_CHANNELS, Channel, Spot
from solver.jam.intents import Clock
from solver.search.ground import Ground
from solver.search.model import NO, YES, Lit
from solver.search.questions import Asked, once

Layer = tuple[str, ...]


class Pass(NamedTuple):
    """A point that notes and clock pass: a MIDI port, on their way in or out."""

    way: Literal["into", "out of"]
    port: Spot


class Played(Asked):
    """The open choices of one jam about engines, tracks and notes.

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

    def hears_midi(self, box: str) -> bool:
        """Whether the box has a MIDI in."""
        return any(port.takes for port in self.rig.boxes[box].ports)
