"""The boxes on the table seen as one rig: every named thing by its spot, and what joins what inside a box."""

from collections.abc import Mapping
from functools import cached_property
from typing import Literal, NamedTuple

from solver.gear.box import Box, Emitter, Engine, Port, Strip, Track
from solver.gear.cables import BREAKOUT_LEG, BREAKOUTS, KINDS, Kind, audio_kind, midi_kind
from solver.gear.connections import Inlet, Jack, Outlet
from solver.gear.words import PANS, Pan, Side, Spot


class Socket(NamedTuple):
    """An audio jack in its place: on which outlet or inlet it is."""

    jack: Jack
    connection: Spot
    sends: bool


class Emission(NamedTuple):
    """A strip or an engine as something that sends sound to an outlet; the two may share a name."""

    of: Literal["engine", "strip"]
    spot: Spot


class Rig:
    """An index over the boxes of a jam; spots are in file order everywhere."""

    def __init__(self, boxes: Mapping[str, Box]) -> None:
        self.boxes: dict[str, Box] = dict(boxes)
        self._ways_out: dict[Emission, tuple[Spot, ...]] = {}

    @cached_property
    def engines(self) -> dict[Spot, Engine]:
        """Every engine on the table."""
        return {Spot(name, e.name): e for name, box in self.boxes.items() for e in box.engines}

    @cached_property
    def strips(self) -> dict[Spot, Strip]:
        """Every mixer strip on the table."""
        return {Spot(name, s.name): s for name, box in self.boxes.items() for s in box.strips}

    @cached_property
    def tracks(self) -> dict[Spot, Track]:
        """Every sequencer track on the table."""
        return {Spot(name, t.name): t for name, box in self.boxes.items() for t in box.tracks}

    @cached_property
    def ports(self) -> dict[Spot, Port]:
        """Every MIDI socket on the table."""
        return {Spot(name, p.name): p for name, box in self.boxes.items() for p in box.ports}

    @cached_property
    def outlets(self) -> dict[Spot, Outlet]:
        """Every outlet on the table."""
        return {Spot(name, o.name): o for name, box in self.boxes.items() for o in box.outlets}

    @cached_property
    def inlets(self) -> dict[Spot, Inlet]:
        """Every inlet on the table."""
        return {Spot(name, i.name): i for name, box in self.boxes.items() for i in box.inlets}

    @cached_property
    def jacks(self) -> dict[Spot, Socket]:
        """Every audio jack on the table by its label, those of outlets before those of inlets in each box."""
        found: dict[Spot, Socket] = {}
        for name, box in self.boxes.items():
            for connections, sends in ((box.outlets, True), (box.inlets, False)):
                for connection in connections:
                    for jack in connection.jacks:
                        found[Spot(name, jack.label)] = Socket(jack, Spot(name, connection.name), sends)
        return found

    @cached_property
    def emitters(self) -> dict[Emission, Emitter]:
        """Every engine, then every strip."""
        engines: dict[Emission, Emitter] = {Emission("engine", spot): thing for spot, thing in self.engines.items()}
        return engines | {Emission("strip", spot): thing for spot, thing in self.strips.items()}

    @cached_property
    def kinds(self) -> tuple[Kind, ...]:
        """Every kind of cable that could join two sockets of this table."""
        found: set[Kind | None] = set()
        jacks = [(socket.jack, socket.sends) for socket in self.jacks.values()]
        for one, sends in jacks:
            for other, sends_too in jacks:
                if sends and not sends_too and one.stereo == other.stereo:
                    found.add(audio_kind(one.plug, other.plug, one.stereo))
                if one.stereo and not other.stereo and other.plug == BREAKOUT_LEG and sends != sends_too:
                    found.add(BREAKOUTS[one.plug])
        ports = self.ports.values()
        found |= {midi_kind(one.plug, other.plug) for one in ports if one.sends for other in ports if other.takes}
        return tuple(kind for kind in KINDS if kind in found)

    def ways_out(self, emitter: Emission) -> tuple[Spot, ...]:
        """The outlets that a strip or engine can go to, where it stands first."""
        if emitter not in self._ways_out:
            box = emitter.spot.box
            outlets = self.boxes[box].outlets_of(self.emitters[emitter])
            self._ways_out[emitter] = tuple(Spot(box, outlet.name) for outlet in outlets)
        return self._ways_out[emitter]

    def pans(self, emitter: Emission) -> tuple[Pan, ...]:
        """The pans that a strip or engine can take, where it stands first."""
        fixed = self.emitters[emitter].pan == "fixed" or (emitter.of == "strip" and self.is_stereo_strip(emitter.spot))
        return PANS[:1] if fixed else PANS

    def feed(self, strip: Spot) -> tuple[Spot, tuple[Side, ...]]:
        """The inlet that feeds a strip and the sides that it takes."""
        return self._feeds[strip]

    @cached_property
    def _feeds(self) -> dict[Spot, tuple[Spot, tuple[Side, ...]]]:
        found = {strip: self.boxes[strip.box].source(thing) for strip, thing in self.strips.items()}
        return {strip: (Spot(strip.box, inlet.name), sides) for strip, (inlet, sides) in found.items()}

    def is_stereo_strip(self, strip: Spot) -> bool:
        """Whether a strip keeps two sides apart."""
        return len(self.feed(strip)[1]) == 2

    def jack_of(self, connection: Spot, side: Side, sends: bool) -> Spot:
        """The label of the jack that holds one side of an outlet (``sends``) or inlet."""
        found: Outlet | Inlet = self.outlets[connection] if sends else self.inlets[connection]
        return Spot(connection.box, next(jack.label for jack in found.jacks if side in jack.sides))
