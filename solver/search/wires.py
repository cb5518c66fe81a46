"""Every cable that could be plugged on a table."""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from solver.gear.cables import BREAKOUT_LEG, BREAKOUTS, Kind, audio_kind, midi_kind
from solver.gear.rig import Rig
from solver.gear.words import Side, Spot
from solver.search.alike import Feeder, Table
from solver.search.model import NO, Lit, Model


class Link(NamedTuple):
    """One way on which sound passes a cable: from a side of a sending jack to a side of a taking jack."""

    start: tuple[Spot, Side]
    end: tuple[Spot, Side]
    given: Lit


class Straight(NamedTuple):
    """A cable with one plug at either end."""

    kind: Kind
    start: Spot
    end: Spot
    given: Lit


class Hop(NamedTuple):
    """One way on which notes pass a cable: from a sending port to a taking port."""

    start: Spot
    end: Spot
    given: Lit


class Breakout(NamedTuple):
    """A cable from one stereo jack to two mono jacks; ``legs`` holds the choices for its left and right plug."""

    kind: Kind
    single: Spot
    sends: bool
    legs: tuple[dict[Spot, Lit], dict[Spot, Lit]]
    given: Lit


class Wires:
    """The cables that fit, each with the choice to plug it."""

    def __init__(self, table: Table, model: Model) -> None:
        rig = table.rig
        self._model = model
        self._feeders = {jack: feeder for shelf in table.shelves for jack, feeder in shelf.stand_ins.items()}
        self._plugs: dict[Spot, list[Lit]] = defaultdict(list)
        self._leads_at: dict[Spot, list[Lit]] = defaultdict(list)
        self._plugged: dict[Spot, Lit] = {}
        self.audio: list[Straight] = list(self._straight_audio(rig))
        self.breakouts: list[Breakout] = list(self._broken_out(rig))
        self.leads: list[Straight] = list(self._leads(rig))
        self.links: list[Link] = list(self._links(rig))
        self.hops: list[Hop] = list(self._hops(rig))

    def _offer(self, ends: dict[Spot, list[Lit]], kind: Kind, start: Spot, end: Spot) -> Straight:
        given = self._model.new()
        ends[start].append(given)
        ends[end].append(given)
        return Straight(kind, start, end, given)

    def _straight_audio(self, rig: Rig) -> Iterator[Straight]:
        for start, out in rig.jacks.items():
            feeder = Feeder(start, out.jack.sides[0])
            for end, into in rig.jacks.items():
                fits = out.sends and not into.sends and out.jack.stereo == into.jack.stereo
                if fits and start.box != end.box and self._may_feed(end, feeder):
                    kind = audio_kind(out.jack.plug, into.jack.plug, out.jack.stereo)
                    yield self._offer(self._plugs, kind, start, end)

    def _broken_out(self, rig: Rig) -> Iterator[Breakout]:
        for single, one in rig.jacks.items():
            if not one.jack.stereo:
                continue
            fitting = [
                spot
                for spot, other in rig.jacks.items()
                if other.sends != one.sends
                and not other.jack.stereo
                and other.jack.plug == BREAKOUT_LEG
                and spot.box != single.box
            ]
            if len(fitting) < 2:
                continue
            left, right = one.jack.sides
            legs = (self._leg(fitting, Feeder(single, left)), self._leg(fitting, Feeder(single, right)))
            given = self._model.new()
            self._plugs[single].append(given)
            for leg in legs:
                for spot, lit in leg.items():
                    self._plugs[spot].append(lit)
            yield Breakout(BREAKOUTS[one.jack.plug], single, one.sends, legs, given)

    def _may_feed(self, end: Spot, feeder: Feeder) -> bool:
        """Whether the jack ``end`` is no stand-in, or the stand-in for this feeder."""
        return self._feeders.get(end, feeder) == feeder

    def _leg(self, fitting: list[Spot], feeder: Feeder) -> dict[Spot, Lit]:
        return {spot: self._model.new() for spot in fitting if self._may_feed(spot, feeder)}

    def _leads(self, rig: Rig) -> Iterator[Straight]:
        ports = list(rig.ports.items())
        for i, (start, out) in enumerate(ports):
            for j, (end, into) in enumerate(ports):
                kind = midi_kind(out.plug, into.plug)
                if i == j or kind is None or not (out.sends and into.takes) or start.box == end.box:
                    continue
                if kind == "usb" and out.plug != "usb-host" and into.sends and out.takes:
                    continue
                yield self._offer(self._leads_at, kind, start, end)

    def _links(self, rig: Rig) -> Iterator[Link]:
        for cable in self.audio:
            out, into = rig.jacks[cable.start].jack, rig.jacks[cable.end].jack
            for one, other in zip(out.sides, into.sides, strict=True):
                yield Link((cable.start, one), (cable.end, other), cable.given)
        for breakout in self.breakouts:
            for side, leg in zip(rig.jacks[breakout.single].jack.sides, breakout.legs, strict=True):
                for spot, lit in leg.items():
                    single, plug = (breakout.single, side), (spot, rig.jacks[spot].jack.sides[0])
                    yield Link(single, plug, lit) if breakout.sends else Link(plug, single, lit)

    def _hops(self, rig: Rig) -> Iterator[Hop]:
        for cable in self.leads:
            yield Hop(cable.start, cable.end, cable.given)
            if cable.kind == "usb" and rig.ports[cable.start].takes and rig.ports[cable.end].sends:
                yield Hop(cable.end, cable.start, cable.given)

    def plugs(self, jack: Spot) -> list[Lit]:
        """The choices that put a plug into an audio jack."""
        return self._plugs[jack]

    def leads_at(self, port: Spot) -> list[Lit]:
        """The choices that put a plug into a MIDI port."""
        return self._leads_at[port]

    def plugged(self, jack: Spot) -> Lit:
        """Whether any plug is in an audio jack."""
        if jack not in self._plugged:
            self._plugged[jack] = self._model.either(self._plugs[jack])
        return self._plugged[jack]

    def joining(self, one: Spot, other: Spot) -> Lit:
        """Whether some cable, or the leg of a breakout, joins two sockets."""
        straight = [c.given for c in (*self.audio, *self.leads) if {c.start, c.end} == {one, other}]
        legs = [
            leg[spot]
            for cable in self.breakouts
            for leg in cable.legs
            for single, spot in ((one, other), (other, one))
            if single == cable.single and spot in leg
        ]
        return self._model.either([*straight, *legs]) if straight or legs else NO

    def every(self) -> Iterator[tuple[Kind, Lit]]:
        """Each cable with its kind; a breakout is one."""
        yield from ((cable.kind, cable.given) for cable in self.audio)
        yield from ((cable.kind, cable.given) for cable in self.breakouts)
        yield from ((cable.kind, cable.given) for cable in self.leads)
