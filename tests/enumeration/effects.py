"""Finds amounts and keys for what the parts of a plan pass, by trying all that could matter."""

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from itertools import product
from typing import NamedTuple

from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.jam import Jam

Entered = tuple[Spot, ...]
Stations = list[tuple[Emission, ...]]
"""What a part passes, one after another; the two strips of a stereo part count as one."""


class Dose(NamedTuple):
    """What one emitter does of one effect, and which part triggers it."""

    amount: int
    key: str | None


NONE = Dose(0, None)
Doses = dict[Emission, dict[str, Dose]]


class Treatments:
    """Finds what engines and strips must be set to so that every part gets what is wanted of it."""

    def __init__(self, jam: Jam, stereo: frozenset[str]) -> None:
        self._jam, self._rig, self._stereo = jam, jam.rig, stereo
        self._known: dict[tuple[object, ...], Doses | None] = {}

    @cached_property
    def _effects(self) -> list[str]:
        return list(dict.fromkeys(want.effect for want in self._jam.wanted))

    def find(
        self, homes: Mapping[str, Spot], entered: Mapping[str, Entered], heard: Mapping[str, Entered]
    ) -> Doses | None:
        """Amounts above 0 and keys that please everyone, or None.

        Effects do not affect each other, so each is settled alone. What no part passes stays at 0: an amount there
        is wanted by no part there.
        """
        if not self._effects:
            return {}
        known = (*homes.values(), *entered.values(), *heard.values())
        if known not in self._known:
            self._known[known] = self._find(homes, entered, heard)
        return self._known[known]

    def _find(
        self, homes: Mapping[str, Spot], entered: Mapping[str, Entered], heard: Mapping[str, Entered]
    ) -> Doses | None:
        stations = {part: self._stations(part, homes[part], entered[part]) for part in homes}
        found: Doses = {}
        for effect in self._effects:
            doses = self._settle(effect, stations, homes, heard)
            if doses is None:
                return None
            for emitter, dose in doses.items():
                if dose != NONE:
                    found.setdefault(emitter, {})[effect] = dose
        return found

    def _stations(self, part: str, home: Spot, entered: Entered) -> Stations:
        stations: Stations = [(Emission("engine", home),)]
        boxes = dict.fromkeys(strip.box for strip in entered)
        for box in boxes:
            strips = [Emission("strip", strip) for strip in entered if strip.box == box]
            stations.extend([tuple(strips)] if part in self._stereo else [(strip,) for strip in strips])
        return stations

    def _settle(
        self, effect: str, stations: Mapping[str, Stations], homes: Mapping[str, Spot], heard: Mapping[str, Entered]
    ) -> dict[Emission, Dose] | None:
        """The first choice of doses on all that parts pass that breaks nothing."""
        passing: dict[Emission, list[str]] = {}
        for part, way in stations.items():
            for emitter in (emitter for station in way for emitter in station):
                passing.setdefault(emitter, []).append(part)
        options = [list(self._doses(effect, emitter, homes)) for emitter in passing]
        for chosen in product(*options):
            doses = dict(zip(passing, chosen, strict=True))
            if self._wanted_there(effect, doses, passing) and self._pleases(effect, doses, stations, heard):
                return doses
        return None

    def _doses(self, effect: str, emitter: Emission, homes: Mapping[str, Spot]) -> Iterator[Dose]:
        """Nothing, or an amount that some part wants: any other can please none. Ducking only with a key it lists."""
        yield NONE
        gear = self._rig.emitters[emitter]
        wants = [want for want in self._jam.wanted if want.effect == effect and want.amount]
        for amount in dict.fromkeys(want.amount for want in wants) if effect in gear.offers else ():
            if effect != "ducking":
                yield Dose(amount, None)
                continue
            for key in dict.fromkeys(want.key for want in wants):
                home = homes.get(key or "")
                if home is not None and home.box == emitter.spot.box and home.name in gear.key:
                    yield Dose(amount, key)

    def _wanted_there(
        self, effect: str, doses: Mapping[Emission, Dose], passing: Mapping[Emission, Sequence[str]]
    ) -> bool:
        """Whether each dose is wanted by a part there, and every part there that wants ducking agrees on the key."""
        for emitter, dose in doses.items():
            if dose.amount:
                wants = [want for want in self._jam.wanted if want.effect == effect and want.part in passing[emitter]]
                wants = [want for want in wants if want.amount]
                if not wants or (effect == "ducking" and any(want.key != dose.key for want in wants)):
                    return False
        return True

    def _pleases(
        self,
        effect: str,
        doses: Mapping[Emission, Dose],
        stations: Mapping[str, Stations],
        heard: Mapping[str, Entered],
    ) -> bool:
        """Whether each part gets what it wants once, on its way to your ears, and strips of a pair are alike."""
        if any(len({doses[e] for e in station}) > 1 for way in stations.values() for station in way):
            return False
        for want in self._jam.wanted:
            if want.effect == effect:
                dosed = [station for station in stations[want.part] if doses[station[0]].amount]
                had = [(s[0].spot.box, doses[s[0]].amount) for s in dosed]
                if any(e.of == "strip" and e.spot not in heard[want.part] for station in dosed for e in station):
                    return False
                if any(amount != want.amount or want.at not in (None, box) for box, amount in had):
                    return False
                if len(had) != (1 if want.amount else 0):
                    return False
        return True
