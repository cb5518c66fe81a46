"""Everything that a plan leaves open, one choice for each thing."""

from collections import defaultdict
from functools import cached_property
from itertools import product

from solver.gear.rig import Emission
from solver.gear.words import Channel, Pan, Side, Spot
from solver.jam.intents import Play, Stereo
from solver.jam.jam import Jam
from tests.twin.cabling import Cabling
from tests.twin.clauses import NO, Clauses, Lit

Layer = tuple[str, ...]
Signal = tuple[str, str]
"""A part, and "whole", or "left" or "right" of a stereo part."""


class Table:
    """The choices of one jam by what they mean; a choice that is not there does not hold."""

    def __init__(self, jam: Jam) -> None:
        self.jam, self.rig = jam, jam.rig
        self.clauses = clauses = Clauses()
        self.cabling = Cabling(jam.rig, clauses)
        never = NO.__int__
        self.lives: dict[tuple[str, Spot], Lit] = defaultdict(never)
        self.plays: dict[tuple[Layer, Spot], Lit] = defaultdict(never)
        self.sends: dict[tuple[Layer, Channel], Lit] = defaultdict(never)
        self.listens: dict[tuple[Spot, Channel], Lit] = defaultdict(never)
        self.goes: dict[tuple[Emission, Spot], Lit] = defaultdict(never)
        self.pans: dict[tuple[Emission, Pan], Lit] = defaultdict(never)
        self.amounts: dict[tuple[Emission, str, int], Lit] = defaultdict(never)
        self.keys: dict[tuple[Emission, str], Lit] = defaultdict(never)
        self.zero = {engine: clauses.new() for engine in self.rig.engines}
        self.sound: dict[Signal, dict[object, Lit]] = {}
        self.leads_on: dict[tuple[Spot, Side], Lit] = {}
        self.notes: dict[str, dict[object, Lit]] = {}
        self._open_midi()
        self._open_audio()

    def _open_midi(self) -> None:
        new = self.clauses.new
        for part, stated in self.jam.parts.items():
            for engine, gear in self.rig.engines.items():
                if stated.on in (None, engine.box, str(engine)) and stated.sound in (None, gear.sound):
                    self.lives[part, engine] = new()
        for layer in self.jam.layers:
            said = [wish.source for _, wish in self.jam.stated(Play) if not set(wish.play).isdisjoint(layer)]
            for track in self.rig.tracks:
                if all(source in (track.box, str(track)) for source in said or [self.jam.leader]):
                    self.plays[layer, track] = new()
            for channel in (*range(1, 17), "off"):
                self.sends[layer, channel] = new()
        for engine, gear in self.rig.engines.items():
            wired = any(port.takes for port in self.rig.boxes[engine.box].ports)
            for channel in gear.options if wired else (gear.stands,):
                self.listens[engine, channel] = new()

    def _open_audio(self) -> None:
        new, jam = self.clauses.new, self.jam
        for emitter, gear in self.rig.emitters.items():
            for outlet in self.rig.ways_out(emitter):
                self.goes[emitter, outlet] = new()
            for pan in self.rig.pans(emitter):
                self.pans[emitter, pan] = new()
            for effect, amount in dict.fromkeys((w.effect, w.amount) for w in jam.wanted):
                if amount and effect in gear.offers:
                    self.amounts[emitter, effect, amount] = new()
            for key in dict.fromkeys(w.key for w in jam.wanted if w.key is not None):
                if gear.key:
                    self.keys[emitter, key] = new()

    def signals(self, part: str) -> list[Signal]:
        """What a part sends."""
        return [(part, "left"), (part, "right")] if part in self.jam.parts_of(Stereo) else [(part, "whole")]

    def inside(self, layer: Layer, engine: Spot) -> Lit:
        """The layer's track plays the engine inside their box."""
        return self._inside[layer, engine]

    @cached_property
    def _inside(self) -> dict[tuple[Layer, Spot], Lit]:
        tracks = self.rig.tracks.items()
        return {
            (layer, engine): self.clauses.either(
                self.plays[layer, track]
                for track, gear in tracks
                if track.box == engine.box and gear.plays == engine.name
            )
            for layer, engine in product(self.jam.layers, self.rig.engines)
        }

    def arrives(self, layer: Layer, box: str) -> Lit:
        """The layer's notes come in at the box."""
        return self._arrives[layer, box]

    @cached_property
    def _arrives(self) -> dict[tuple[Layer, str], Lit]:
        both, either = self.clauses.both, self.clauses.either
        found: dict[tuple[Layer, str], Lit] = {}
        for box, thing in self.rig.boxes.items():
            ins = [("into", Spot(box, port.name)) for port in thing.ports if port.takes]
            come = {start: either(self.notes[start][port] for port in ins) for start in self.rig.boxes if start != box}
            for layer in self.jam.layers:
                ways = [both(self.plays[layer, t], come[t.box]) for t in self.rig.tracks if t.box != box]
                found[layer, box] = both(either(ways), -self.sends[layer, "off"])
        return found

    def strikes(self, layer: Layer, box: str, channel: Channel) -> Lit:
        """The layer's notes come in at the box on the channel; "all" is any."""
        if (layer, box, channel) not in self._strikes:
            on = self.arrives(layer, box)
            struck = on if channel == "all" else self.clauses.both(on, self.sends[layer, channel])
            self._strikes[layer, box, channel] = NO if channel == "off" else struck
        return self._strikes[layer, box, channel]

    @cached_property
    def _strikes(self) -> dict[tuple[Layer, str, Channel], Lit]:
        return {}

    def heard(self, signal: Signal, side: Side) -> Lit:
        """The signal is on that side of the outlet that is listened to."""
        return self.sound[signal]["outlet", self.jam.ears, side]

    def into(self, signal: Signal, strip: Spot) -> Lit:
        """The signal enters the strip."""
        if (signal, strip) not in self._into:
            inlet, sides = self.rig.feed(strip)
            lits = (self.sound[signal]["inlet", inlet, side] for side in sides)
            self._into[signal, strip] = self.clauses.either(lits)
        return self._into[signal, strip]

    @cached_property
    def _into(self) -> dict[tuple[Signal, Spot], Lit]:
        return {}

    def enters(self, part: str, strip: Spot) -> Lit:
        """The part enters the strip."""
        if (part, strip) not in self._enters:
            lits = (self.into(signal, strip) for signal in self.signals(part))
            self._enters[part, strip] = self.clauses.either(lits)
        return self._enters[part, strip]

    @cached_property
    def _enters(self) -> dict[tuple[str, Spot], Lit]:
        return {}

    def heard_over(self, part: str, strip: Spot) -> Lit:
        """The part enters the strip and goes on from there to the outlet that is listened to."""
        both, (inlet, sides) = self.clauses.both, self.rig.feed(strip)
        return self.clauses.either(
            both(self.sound[signal]["inlet", inlet, side], self.leads_on[strip, side])
            for signal, side in product(self.signals(part), sides)
        )

    def passes(self, part: str, emitter: Emission) -> Lit:
        """The part lives on the engine, or enters the strip."""
        return self.lives[part, emitter.spot] if emitter.of == "engine" else self.enters(part, emitter.spot)
