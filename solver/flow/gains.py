"""Follows how loud each part is on every side of every outlet and inlet, against its own engine."""

from functools import cached_property

from solver.flow.followed import Followed
from solver.flow.levels import CENTRE, HALF, unrelated
from solver.flow.loops import ahead
from solver.flow.sound import Signal, Step, Voice
from solver.flow.wires import Place, Wire
from solver.gear.words import Spot

Heard = dict[Voice, float]
"""The gain of each voice of a part in one place, 1 for as loud as its engine gives it."""


class Gains:
    """The levels of a plan.

    All engines count as equally loud. Where a sound comes by several ways it adds up in phase, the worst case. A way
    that leads back to where the sound was already adds nothing, so this ends on any plan.
    """

    def __init__(self, followed: Followed) -> None:
        self._followed = followed
        self._sound = followed.sound
        self._known: dict[str, dict[Place, Heard]] = {}

    def of(self, part: str) -> dict[Place, Heard]:
        """The gains of a part wherever it is, each place before those that it goes on to."""
        if part not in self._known:
            self._known[part] = self._spread(part)
        return self._known[part]

    def _spread(self, part: str) -> dict[Place, Heard]:
        onward = self._sound.onward
        starts = {signal: self._sound.starts_of(signal) for signal in self._sound.signals if signal.part == part}
        places = ahead((place for there in starts.values() for place in there), onward)
        found: dict[Place, Heard] = {place: {} for place in places}
        for signal, there in starts.items():
            gains = dict.fromkeys(ahead(there, onward), 0.0)
            rank = {place: number for number, place in enumerate(gains)}
            gains |= {place: _first(signal, place, len(there)) for place in there}
            for place, gain in gains.items():
                found[place][signal.voice] = gain
                for step in self._sound.steps.get(place, ()):
                    if rank[step.target] > rank[place]:
                        gains[step.target] += gain * self.gain(step)
        return found

    def gain(self, step: Step) -> float:
        """What one step does to the level."""
        if isinstance(step.by, Wire):
            return HALF if self._sound.sums(step.source.connection) else 1.0
        sides = self._sides(step.target)
        if isinstance(step.by, Spot) and not self._followed.effects.is_stereo(step.by):
            return CENTRE if self._sound.stand(step.by)[1] == "centre" and len(sides) == 2 else 1.0
        return HALF if len(sides) < len(self._sides(step.source)) else 1.0

    def _sides(self, place: Place) -> tuple[str, ...]:
        rig = self._followed.rig
        return (rig.outlets if place.leaves else rig.inlets)[place.connection].sides

    @cached_property
    def strips(self) -> dict[Spot, dict[str, float]]:
        """The gain of each part in each strip that any enters; in a stereo strip, that of its louder side."""
        found: dict[Spot, dict[str, float]] = {}
        for strip, (inlet, sides) in self._sound.feeds.items():
            for part in self._followed.parts:
                heard = [self.of(part).get(Place(inlet, side, False), {}) for side in sides]
                if any(heard):
                    found.setdefault(strip, {})[part] = max(unrelated(voices.values()) for voices in heard)
        return found


def _first(signal: Signal, place: Place, places: int) -> float:
    """The gain with which a voice leaves its engine; a stereo sound at centre keeps its halves as they are."""
    if signal.voice == "whole":
        return CENTRE if places == 2 else 1.0
    return 1.0 if signal.voice == place.side else HALF
