"""Follows the sound of one part to the ears, point by point; where it does not get there, says what stops it."""

from collections.abc import Iterator
from functools import cached_property
from typing import Literal, NamedTuple

from solver.flow.company import company
from solver.flow.followed import Followed
from solver.flow.gains import Gains
from solver.flow.levels import HALF, decibels, in_step, unrelated
from solver.flow.loops import ahead, reachable
from solver.flow.sound_stops import goes_round, sound_stops
from solver.flow.sound_way import AtEngine, AtOutlet, AtStrip, Level, OnCable, Point, SoundWay
from solver.flow.wires import Place, Wire
from solver.gear.rig import Emission
from solver.gear.words import SIDES, Spot


class _Node(NamedTuple):
    """An outlet, inlet or strip by its spot, or a cable by its number."""

    of: Literal["outlet", "inlet", "strip", "cable"]
    spot: Spot
    number: int = 0


_CABLE = Spot("", "")


def sound_way(followed: Followed, gains: Gains, part: str) -> SoundWay:
    """Follow the sound of a part of the plan."""
    way = _Way(followed, gains, part)
    nodes = [node for node in way.nodes if node.of != "inlet"]
    on_way = way.to_the_ears if way.heard else set(nodes)
    return SoundWay(
        points=(way.engine, *(way.point(node) for node in nodes if node in on_way)),
        aside=tuple(way.point(node) for node in nodes if node not in on_way),
        heard=way.heard,
        mono=way.mono if way.heard and followed.jam.mains == "mono" else None,
        stops=() if way.heard else tuple(sound_stops(followed, gains.of(part))),
        round=goes_round(followed, gains.of(part)),
    )


class _Way:
    def __init__(self, followed: Followed, gains: Gains, part: str) -> None:
        self._followed, self._gains, self._part = followed, gains, part
        self._sound = followed.sound
        self._here = gains.of(part)
        ears = followed.jam.ears
        self._ears = [Place(ears, side, True) for side in followed.rig.outlets[ears].sides]

    @cached_property
    def _links(self) -> dict[_Node, dict[_Node, bool]]:
        """What each thing on the way leads to, and whether that is on a way to the ears."""
        before: dict[Place, list[Place]] = {}
        for source, targets in self._sound.onward.items():
            for target in targets:
                before.setdefault(target, []).append(source)
        onto_ears = reachable(self._ears, before)
        found: dict[_Node, dict[_Node, bool]] = {}
        for place in self._here:
            for one, other, onto in self._links_from(place):
                after = found.setdefault(one, {})
                after[other] = after.get(other, False) or onto in onto_ears
        return found

    def _links_from(self, place: Place) -> Iterator[tuple[_Node, _Node, Place | None]]:
        node = _node(place)
        for strip, (inlet, sides) in self._sound.feeds.items():
            if not place.leaves and inlet == place.connection and place.side in sides:
                yield node, _Node("strip", strip), None
        for step in self._sound.steps.get(place, ()):
            target = _node(step.target)
            if isinstance(step.by, Wire):
                for number in self._cables[step.by]:
                    cable = _Node("cable", _CABLE, number)
                    yield node, cable, step.target
                    yield cable, target, step.target
            elif isinstance(step.by, Spot):
                yield node, _Node("strip", step.by), step.target
                yield _Node("strip", step.by), target, step.target
            elif target != node:
                yield node, target, step.target

    @cached_property
    def _cables(self) -> dict[Wire, list[int]]:
        found: dict[Wire, list[int]] = {}
        for number, cable in enumerate(self._followed.plan.cables, start=1):
            for wire in self._sound.wires_of(cable):
                found.setdefault(wire, []).append(number)
        return found

    @cached_property
    def nodes(self) -> list[_Node]:
        """All that the sound passes, each before what it leads to."""
        return ahead(dict.fromkeys(map(_node, self._here)), {node: list(after) for node, after in self._links.items()})

    @cached_property
    def to_the_ears(self) -> set[_Node]:
        """What is on a way to the ears, and the ears."""
        ends = {_Node("outlet", self._followed.jam.ears)}
        return ends | {node for node, after in self._links.items() if any(after.values())}

    @property
    def engine(self) -> AtEngine:
        """Where the part is made."""
        planned, home = self._followed.parts[self._part], self._followed.homes[self._part]
        notes, emitter = self._followed.notes, Emission("engine", home)
        return AtEngine(
            engine=home,
            listens=notes.channel(home),
            shift=notes.shift(home),
            pan=planned.pan,
            outlet=Spot(home.box, planned.outlet),
            amounts=self._followed.effects.amounts(emitter),
            key=self._followed.effects.key(emitter),
        )

    def point(self, node: _Node) -> Point:
        """What is to be told of an outlet, strip or cable."""
        if node.of == "cable":
            return self._on_cable(node.number)
        if node.of == "strip":
            return self._at_strip(node.spot)
        outlet = self._followed.rig.outlets[node.spot]
        mirrored = Spot(node.spot.box, outlet.mirrors) if outlet.mirrors is not None else None
        came = mirrored if any(place.connection == mirrored and place.leaves for place in self._here) else None
        return AtOutlet(node.spot, self._levels(Place(node.spot, side, True) for side in outlet.sides), came)

    def _on_cable(self, number: int) -> OnCable:
        cable = self._followed.plan.cables[number - 1]
        wires = [wire for wire in self._sound.wires_of(cable) if wire.source in self._here]
        steps = [step for wire in wires for step in self._sound.steps.get(wire.target, ())]
        return OnCable(
            number=number,
            cable=cable,
            sums=any(self._sound.sums(wire.source.connection) for wire in wires),
            copies=any(step.by == "copy" for step in steps),
            levels=self._levels(dict.fromkeys(wire.target for wire in wires)),
        )

    def _at_strip(self, strip: Spot) -> AtStrip:
        inlet, sides = self._sound.feeds[strip]
        outlet, pan = self._sound.stand(strip)
        emitter = Emission("strip", strip)
        return AtStrip(
            strip=strip,
            stereo=len(sides) == 2,
            pan=pan,
            outlet=outlet,
            amounts=self._followed.effects.amounts(emitter),
            key=self._followed.effects.key(emitter),
            levels=self._levels(Place(inlet, side, False) for side in sides),
            company=company(self._followed.jam, self._gains, strip),
        )

    def _levels(self, places: "Iterator[Place] | dict[Place, None] | list[Place]") -> tuple[Level, ...]:
        return tuple(
            Level(place.side, voice, decibels(gain))
            for place in sorted(places, key=lambda place: SIDES.index(place.side))
            for voice, gain in self._here.get(place, {}).items()
        )

    @cached_property
    def heard(self) -> tuple[Level, ...]:
        """The levels on the listening outlet."""
        return self._levels(self._ears)

    @property
    def mono(self) -> float:
        """The level where both sides of the listening outlet are summed."""
        sides = [self._here.get(place, {}) for place in self._ears]
        share = HALF if len(sides) == 2 else 1.0
        voices = dict.fromkeys(voice for side in sides for voice in side)
        return decibels(unrelated(share * in_step(side.get(voice, 0.0) for side in sides) for voice in voices))


def _node(place: Place) -> _Node:
    return _Node("outlet" if place.leaves else "inlet", place.connection)
