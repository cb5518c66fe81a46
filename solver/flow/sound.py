"""Follows sound through a plan: which part is on which side of every outlet and inlet."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import cached_property
from typing import Literal, NamedTuple

from solver.flow.wires import Place, Wire, audio_wires, is_midi, sockets
from solver.gear.rig import Emission, Rig
from solver.gear.words import Pan, Side, Spot
from solver.plans import Cable, Plan, PlannedPart

Voice = Literal["left", "right", "whole"]
"""What a signal holds of its part: the left or right of a stereo part, or all of a mono part."""


class Signal(NamedTuple):
    """One voice of one part."""

    part: str
    voice: Voice


class Step(NamedTuple):
    """One way on from a side of an outlet or inlet, and what takes the sound there; a strip is named by its spot."""

    source: Place
    target: Place
    by: Wire | Spot | Literal["mirror", "copy"]


def sides_at(pan: Pan, sides: tuple[Side, ...]) -> tuple[Side, ...]:
    """The sides of an outlet that a sound at this pan is on."""
    return sides if "mono" in sides or pan == "centre" else (pan,)


class Sound:
    """The signals of a plan, on every side of every outlet and inlet.

    Args:
        rig: The boxes.
        plan: The plan to follow.
        parts: The parts of the plan that the jam knows, in file order.
        stereo: The parts that are stated stereo.
        sums: Whether a left jack alone carries both sides where its outlet sums.
        copies: Whether a left jack alone feeds both sides where its inlet copies.
    """

    def __init__(
        self,
        rig: Rig,
        plan: Plan,
        parts: Mapping[str, PlannedPart],
        stereo: Collection[str],
        *,
        sums: bool = True,
        copies: bool = True,
    ) -> None:
        self._rig, self._plan, self._parts, self._stereo = rig, plan, parts, stereo
        self._sums, self._copies = sums, copies
        voices: dict[str, tuple[Voice, ...]] = {p: ("left", "right") if p in stereo else ("whole",) for p in parts}
        self.signals = tuple(Signal(part, voice) for part in parts for voice in voices[part])
        self._bits = {signal: 1 << i for i, signal in enumerate(self.signals)}

    @cached_property
    def plugged(self) -> frozenset[Spot]:
        """Every jack with a plug in it."""
        cables = (cable for cable in self._plan.cables if not is_midi(cable))
        return frozenset(spot for cable in cables for ends in (cable.source, cable.to) for spot in sockets(ends))

    @cached_property
    def wires(self) -> tuple[Wire, ...]:
        """Every side that a cable carries on."""
        return tuple(wire for cable in self._plan.cables for wire in self.wires_of(cable))

    def wires_of(self, cable: Cable) -> Iterator[Wire]:
        """The sides that one cable carries on; a left jack that sums has one wire for each of the two sides."""
        for wire in () if is_midi(cable) else audio_wires(self._rig, cable):
            yield wire
            if wire.source.side == "left" and self.sums(wire.source.connection):
                yield wire._replace(source=wire.source._replace(side="right"))

    def sums(self, spot: Spot) -> bool:
        """Whether the left jack of an outlet carries both sides, because the right one is empty."""
        outlet = self._rig.outlets[spot]
        if not self._sums or outlet.alone != "sum" or outlet.right is None:
            return False
        return Spot(spot.box, outlet.right) not in self.plugged

    @cached_property
    def onward(self) -> dict[Place, list[Place]]:
        """Where the sound on each side goes next."""
        return {source: [step.target for step in steps] for source, steps in self.steps.items()}

    @cached_property
    def steps(self) -> dict[Place, list[Step]]:
        """The same with what takes it there."""
        found: dict[Place, list[Step]] = {}
        for step in self._steps():
            found.setdefault(step.source, []).append(step)
        return found

    def _steps(self) -> Iterator[Step]:
        for wire in self.wires:
            yield Step(wire.source, wire.target, wire)
        yield from self._mirrors()
        if self._copies:
            yield from self._copied()
        for strip, (inlet, sides) in self.feeds.items():
            yield from self._through(strip, inlet, sides)

    def _mirrors(self) -> Iterator[Step]:
        for spot, outlet in self._rig.outlets.items():
            if outlet.mirrors is not None:
                mirrored = Spot(spot.box, outlet.mirrors)
                sides = self._rig.outlets[mirrored].sides
                for pair in _side_by_side(mirrored, sides, True, spot, outlet.sides):
                    yield Step(*pair, "mirror")

    def _copied(self) -> Iterator[Step]:
        for spot, inlet in self._rig.inlets.items():
            if inlet.alone == "copy" and inlet.right and Spot(spot.box, inlet.right) not in self.plugged:
                yield Step(Place(spot, "left", False), Place(spot, "right", False), "copy")

    def _through(self, strip: Spot, inlet: Spot, sides: tuple[Side, ...]) -> Iterator[Step]:
        outlet, pan = self.stand(strip)
        if outlet is None:
            return
        onto = self._rig.outlets[outlet].sides
        if len(sides) == 2:
            for pair in _side_by_side(inlet, sides, False, outlet, onto):
                yield Step(*pair, strip)
            return
        for side in sides_at(pan, onto):
            yield Step(Place(inlet, sides[0], False), Place(outlet, side, True), strip)

    @cached_property
    def feeds(self) -> dict[Spot, tuple[Spot, tuple[Side, ...]]]:
        """The inlet of every strip, and the sides that the strip takes from it."""
        return {strip: self._rig.feed(strip) for strip in self._rig.strips}

    def stand(self, strip: Spot) -> tuple[Spot | None, Pan]:
        """The outlet and pan of a strip; where the plan says nothing, its first outlet (if it has one) and centre."""
        planned = self._plan.strips.get(str(strip))
        if planned is not None:
            return Spot(strip.box, planned.outlet), planned.pan
        first = self._rig.ways_out(Emission("strip", strip))[:1]
        return (first[0] if first else None), "centre"

    @cached_property
    def starts(self) -> dict[Place, int]:
        """The signals that engines put on the sides of outlets, as bits."""
        found: dict[Place, int] = {}
        for signal, bit in self._bits.items():
            for place in self.starts_of(signal):
                found[place] = found.get(place, 0) | bit
        return found

    def starts_of(self, signal: Signal) -> tuple[Place, ...]:
        """The sides of its outlet on which an engine puts a signal."""
        planned = self._parts[signal.part]
        outlet = Spot(Spot.parse(planned.engine).box, planned.outlet)
        sides = sides_at(planned.pan, self._rig.outlets[outlet].sides)
        return tuple(Place(outlet, side, True) for side in ((signal.voice,) if signal.voice in sides else sides))

    @cached_property
    def _present(self) -> dict[Place, int]:
        """The signals on every side that any reach, as bits; each bit can only be added, so this ends on any plan."""
        found = dict(self.starts)
        waiting = list(found)
        while waiting:
            place = waiting.pop()
            for after in self.onward.get(place, ()):
                held = found.get(after, 0)
                if held | found[place] != held:
                    found[after] = held | found[place]
                    waiting.append(after)
        return found

    def _mask(self, places: Iterable[Place]) -> int:
        mask = 0
        for place in places:
            mask |= self._present.get(place, 0)
        return mask

    @cached_property
    def _taken(self) -> dict[Spot, int]:
        """The signals that enter each strip that any enter, as bits."""
        masks = {s: self._mask(Place(inlet, side, False) for side in sides) for s, (inlet, sides) in self.feeds.items()}
        return {strip: mask for strip, mask in masks.items() if mask}

    @cached_property
    def entered(self) -> dict[str, tuple[Spot, ...]]:
        """The strips that each part enters, in file order."""
        return {p: tuple(s for s, taken in self._taken.items() if taken & mask) for p, mask in self._whole.items()}

    @cached_property
    def _whole(self) -> dict[str, int]:
        """All signals of each part, as bits."""
        whole = dict.fromkeys(self._parts, 0)
        for signal, bit in self._bits.items():
            whole[signal.part] |= bit
        return whole

    def heard_over(self, outlet: Spot) -> dict[str, tuple[Spot, ...]]:
        """The strips from which each part goes on to an outlet, in file order."""
        leading = self._leading_to(outlet)
        masks: dict[Spot, int] = {}
        for strip, (inlet, sides) in self.feeds.items():
            ways = self._through(strip, inlet, sides)
            masks[strip] = self._mask({step.source for step in ways if step.target in leading})
        return {p: tuple(s for s, taken in masks.items() if taken & mask) for p, mask in self._whole.items()}

    def _leading_to(self, outlet: Spot) -> set[Place]:
        """Every side from which sound comes to an outlet, its own among them."""
        before: dict[Place, list[Place]] = {}
        for start, ends in self.onward.items():
            for end in ends:
                before.setdefault(end, []).append(start)
        waiting = [Place(outlet, side, True) for side in self._rig.outlets[outlet].sides]
        found = set(waiting)
        while waiting:
            new = [start for start in before.get(waiting.pop(), ()) if start not in found]
            found.update(new)
            waiting.extend(new)
        return found

    def voices_in(self, strip: Spot, part: str) -> tuple[Voice, ...]:
        """What a strip takes of a part."""
        return self._voices(self._taken.get(strip, 0), part)

    def voices_on(self, outlet: Spot, side: Side, part: str) -> tuple[Voice, ...]:
        """What one side of an outlet carries of a part."""
        return self._voices(self._present.get(Place(outlet, side, True), 0), part)

    def _voices(self, mask: int, part: str) -> tuple[Voice, ...]:
        voices: tuple[Voice, ...] = ("left", "right") if part in self._stereo else ("whole",)
        return tuple(voice for voice in voices if mask & self._bits[Signal(part, voice)])


def _side_by_side(
    one: Spot, sides: tuple[Side, ...], leaves: bool, onto: Spot, onto_sides: tuple[Side, ...]
) -> Iterator[tuple[Place, Place]]:
    """Left to left and right to right; a mono end takes both, and gives to both."""
    for side in sides:
        for other in (side,) if side in onto_sides else onto_sides:
            yield Place(one, side, leaves), Place(onto, other, True)
