"""Follows effects through a plan: the engines and strips on a part's way, their amounts and keys."""

from collections.abc import Iterator
from functools import cached_property

from solver.flow.sound import Sound
from solver.gear.box import Emitter
from solver.gear.rig import Emission, Rig
from solver.gear.words import Spot
from solver.plans import Plan, Treated


class Effects:
    """The effects of a plan.

    Args:
        rig: The boxes.
        plan: The plan to follow.
        sound: The sound of the plan.
        homes: The engine of each part.
        stereo: The parts that are stated stereo.
    """

    def __init__(self, rig: Rig, plan: Plan, sound: Sound, homes: dict[str, Spot], stereo: frozenset[str]) -> None:
        self._rig, self._plan, self._sound, self._homes, self._stereo = rig, plan, sound, homes, stereo

    def gear(self, emitter: Emission) -> Emitter:
        """What the box file says of an engine or strip."""
        return self._rig.emitters[emitter]

    @cached_property
    def _treated(self) -> dict[Emission, Treated]:
        """What the plan sets on engines and strips, where it sets an amount or a key."""
        found: dict[Emission, Treated] = {}
        for name, engine in self._plan.engines.items():
            if engine.settings or engine.key is not None:
                found[Emission("engine", Spot.parse(name))] = engine
        for name, strip in self._plan.strips.items():
            if strip.settings or strip.key is not None:
                found[Emission("strip", Spot.parse(name))] = strip
        return found

    @cached_property
    def emitters(self) -> tuple[Emission, ...]:
        """Every engine and strip that has an amount or a key, in file order."""
        if not self._treated:
            return ()
        return tuple(e for e in self._rig.emitters if self.amounts(e) or self.key(e) is not None)

    def amount(self, emitter: Emission, effect: str) -> int:
        """The amount of an effect in percent; 0 where the plan says nothing."""
        treated = self._treated.get(emitter)
        return treated.settings.get(effect, 0) if treated is not None else 0

    def amounts(self, emitter: Emission) -> dict[str, int]:
        """The amounts above 0 by effect."""
        treated = self._treated.get(emitter)
        return {effect: amount for effect, amount in treated.settings.items() if amount} if treated is not None else {}

    def key(self, emitter: Emission) -> str | None:
        """The part that triggers the ducking, if the plan names one."""
        treated = self._treated.get(emitter)
        return treated.key if treated is not None else None

    @cached_property
    def ways(self) -> dict[str, tuple[tuple[Emission, ...], ...]]:
        """Each part's engine and the strips it enters; a stereo part's two mono strips of one box stand together."""
        return {
            part: ((Emission("engine", home),), *self._strips(part, self._sound.entered[part]))
            for part, home in self._homes.items()
        }

    def _strips(self, part: str, entered: tuple[Spot, ...]) -> Iterator[tuple[Emission, ...]]:
        for box in dict.fromkeys(spot.box for spot in entered):
            strips = tuple(spot for spot in entered if spot.box == box)
            emitters = tuple(Emission("strip", spot) for spot in strips)
            if part in self._stereo and len(strips) == 2 and not any(map(self.is_stereo, strips)):
                yield emitters
            else:
                yield from ((emitter,) for emitter in emitters)

    def is_stereo(self, strip: Spot) -> bool:
        """Whether a strip keeps two sides apart."""
        return len(self._sound.feeds[strip][1]) == 2

    @cached_property
    def passing(self) -> dict[Emission, tuple[str, ...]]:
        """The parts that pass each engine and strip that any pass."""
        found: dict[Emission, tuple[str, ...]] = {}
        for part, way in self.ways.items():
            for emitters in way:
                for emitter in emitters:
                    found[emitter] = (*found.get(emitter, ()), part)
        return found
