"""Follows notes through a plan: which tracks reach which boxes, and which engines sound for them."""

from collections.abc import Iterator, Mapping
from functools import cached_property

from solver.flow.loops import reachable
from solver.flow.wires import Half, Lead, is_midi, midi_leads
from solver.gear.rig import Rig
from solver.gear.words import Channel, Spot
from solver.plans import Cable, Level, Plan, PlannedPart


class Notes:
    """The notes of a plan.

    Args:
        rig: The boxes.
        plan: The plan to follow.
        parts: The parts of the plan that the jam knows, in file order.
    """

    def __init__(self, rig: Rig, plan: Plan, parts: Mapping[str, PlannedPart]) -> None:
        self._rig, self._plan, self._parts = rig, plan, parts

    @cached_property
    def playing(self) -> dict[Spot, tuple[str, ...]]:
        """The tracks that play a part, and the parts of each."""
        found: dict[Spot, tuple[str, ...]] = {}
        for part, planned in self._parts.items():
            track = Spot.parse(planned.track)
            found[track] = (*found.get(track, ()), part)
        return found

    @cached_property
    def sending(self) -> dict[Spot, int]:
        """The channel of every track that sends notes out; its first part says it."""
        channels = {track: self._parts[parts[0]].channel for track, parts in self.playing.items()}
        return {track: channel for track, channel in channels.items() if channel is not None}

    @cached_property
    def leads(self) -> tuple[tuple[Cable, tuple[Lead, ...]], ...]:
        """Every MIDI cable with the ways that notes take over it."""
        return tuple((cable, midi_leads(self._rig, cable)) for cable in self._plan.cables if is_midi(cable))

    @cached_property
    def onward(self) -> dict[Half, list[Half]]:
        """Where what is at each half of a port goes next: over cables, and inside boxes by thrus and repeats."""
        return self._onward(False)

    @cached_property
    def clocked(self) -> dict[Half, list[Half]]:
        """The same for the clock, which passes only ports that carry it."""
        return self._onward(True)

    def _onward(self, clock: bool) -> dict[Half, list[Half]]:
        found: dict[Half, list[Half]] = {}
        for source, target in self._steps():
            if not clock or (self._rig.ports[source.port].clock and self._rig.ports[target.port].clock):
                found.setdefault(source, []).append(target)
        return found

    def _steps(self) -> Iterator[Lead]:
        for _, leads in self.leads:
            yield from leads
        for spot, port in self._rig.ports.items():
            for name in port.passes_on:
                yield Lead(Half(Spot(spot.box, name), False), Half(spot, True))

    def outs(self, box: str) -> tuple[Half, ...]:
        """The ports of a box that send its own tracks."""
        ports = self._rig.boxes[box].ports
        return tuple(Half(Spot(box, port.name), True) for port in ports if port.way in ("out", "both"))

    @cached_property
    def passed(self) -> dict[str, dict[Half, None]]:
        """All halves of ports that the notes of each box with tracks pass."""
        boxes = (name for name, box in self._rig.boxes.items() if box.tracks)
        return {name: reachable(self.outs(name), self.onward) for name in boxes}

    @cached_property
    def arriving(self) -> dict[str, dict[Spot, int]]:
        """The tracks of other boxes whose notes arrive at each box, with the channels they send on."""
        found: dict[str, dict[Spot, int]] = {name: {} for name in self._rig.boxes}
        reached = {box: {h.port.box for h in passed if not h.leaves} for box, passed in self.passed.items()}
        for track, channel in self.sending.items():
            for box, tracks in found.items():
                if box != track.box and box in reached[track.box]:
                    tracks[track] = channel
        return found

    def channel(self, engine: Spot) -> Channel:
        """What an engine listens to; where the plan says nothing, as the box file says."""
        planned = self._plan.engines.get(str(engine))
        return planned.channel if planned is not None else self._rig.engines[engine].stands

    def level(self, engine: Spot) -> Level:
        """Whether the level of an engine is up or at zero; up where the plan says nothing."""
        planned = self._plan.engines.get(str(engine))
        return planned.level if planned is not None else "up"

    def shift(self, engine: Spot) -> int:
        """How far an engine shifts what it plays, in semitones; 0 where the plan says nothing."""
        planned = self._plan.engines.get(str(engine))
        return planned.shift if planned is not None else 0

    @cached_property
    def inside(self) -> dict[Spot, tuple[Spot, ...]]:
        """The tracks with a part that play each engine inside its own box."""
        found: dict[Spot, tuple[Spot, ...]] = {}
        for track in self.playing:
            plays = self._rig.tracks[track].plays
            if plays is not None:
                engine = Spot(track.box, plays)
                found[engine] = (*found.get(engine, ()), track)
        return found

    @cached_property
    def sounding(self) -> dict[Spot, tuple[Spot, ...]]:
        """The tracks for which every engine of the table sounds."""
        return {engine: (*self.inside.get(engine, ()), *self._struck(engine)) for engine in self._rig.engines}

    def _struck(self, engine: Spot) -> tuple[Spot, ...]:
        arriving = self.arriving[engine.box]
        listens = self.channel(engine) if arriving else "off"
        return tuple(t for t, sent in arriving.items() if listens in ("all", sent))
