"""Every cable that could be plugged: one choice for each pair of sockets that a cable joins."""

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from solver.gear.cables import BREAKOUT_LEG, BREAKOUTS, Kind, audio_kind, midi_kind
from solver.gear.rig import Rig
from solver.gear.words import Side, Spot
from tests.twin.clauses import Clauses, Lit
from tests.twin.spread import Edge


class Joint(NamedTuple):
    """A plug in each of two sockets: a cable, or one leg of a breakout. Only cables that ``count`` are counted."""

    one: Spot
    other: Spot
    kind: Kind
    given: Lit
    counts: bool = True


Jack = tuple[str, Spot, Side]


class Cabling:
    """All cables of a table."""

    def __init__(self, rig: Rig, clauses: Clauses) -> None:
        self._rig, self._clauses = rig, clauses
        self.audio = [*self._straight(), *self._breakouts()]
        self.midi = list(self._leads())
        for socket in dict.fromkeys((*rig.jacks, *rig.ports)):
            for joints in (self.audio, self.midi):
                clauses.between(0, 1, (j.given for j in joints if socket == j.other or (socket == j.one and j.counts)))

    def _straight(self) -> Iterator[Joint]:
        for one, other in combinations(self._rig.jacks, 2):
            here, there = self._rig.jacks[one], self._rig.jacks[other]
            if one.box != other.box and here.sends != there.sends and here.jack.stereo == there.jack.stereo:
                kind = audio_kind(here.jack.plug, there.jack.plug, here.jack.stereo)
                yield Joint(one, other, kind, self._clauses.new())

    def _breakouts(self) -> Iterator[Joint]:
        """Left legs count, right legs come with them."""
        for single, socket in self._rig.jacks.items():
            if not socket.jack.stereo:
                continue
            kind, legs = BREAKOUTS[socket.jack.plug], list[list[Joint]]()
            for counts in (True, False):
                legs.append(
                    [
                        Joint(single, plug, kind, self._clauses.new(), counts)
                        for plug, other in self._rig.jacks.items()
                        if plug.box != single.box
                        and other.sends != socket.sends
                        and not other.jack.stereo
                        and other.jack.plug == BREAKOUT_LEG
                    ]
                )
            self._breakout(*legs)
            yield from (*legs[0], *legs[1])

    def _breakout(self, left: list[Joint], right: list[Joint]) -> None:
        """Both legs are plugged, or none."""
        for joints, others in ((left, right), (right, left)):
            self._clauses.between(0, 1, (joint.given for joint in joints))
            for joint in joints:
                self._clauses.clause(-joint.given, *(other.given for other in others))

    def _leads(self) -> Iterator[Joint]:
        for (one, here), (other, there) in combinations(self._rig.ports.items(), 2):
            kind = midi_kind(here.plug, there.plug)
            passes = (here.sends and there.takes) or (there.sends and here.takes)
            if one.box != other.box and kind is not None and passes:
                yield Joint(one, other, kind, self._clauses.new())

    def plugs(self, socket: Spot) -> list[Lit]:
        """All choices that put a plug in an audio jack."""
        return [joint.given for joint in self.audio if socket in (joint.one, joint.other)]

    def leads(self, port: Spot) -> list[Lit]:
        """All choices that put a plug in a port."""
        return [joint.given for joint in self.midi if port in (joint.one, joint.other)]

    def joining(self, one: Spot, other: Spot) -> list[Lit]:
        """All choices that join two sockets."""
        return [joint.given for joint in (*self.audio, *self.midi) if {joint.one, joint.other} == {one, other}]

    def sound(self) -> Iterator[Edge]:
        """From the sides of jacks that send to those of jacks that take."""
        for joint in self.audio:
            one, other = self._rig.jacks[joint.one].jack, self._rig.jacks[joint.other].jack
            if one.stereo == other.stereo:
                pairs = list(zip(one.sides, other.sides, strict=True))
            else:
                pairs = [("left" if joint.counts else "right", other.sides[0])]
            for here, there in pairs:
                ends = ("jack", joint.one, here), ("jack", joint.other, there)
                start, end = ends if self._rig.jacks[joint.one].sends else ends[::-1]
                yield Edge(start, end, joint.given)

    def notes(self) -> Iterator[Edge]:
        """From ports that send to ports that take; over USB both ways at once."""
        for joint in self.midi:
            for start, end in ((joint.one, joint.other), (joint.other, joint.one)):
                if self._rig.ports[start].sends and self._rig.ports[end].takes:
                    yield Edge(("out of", start), ("into", end), joint.given)
