"""What the jams of a set have in common: the table, the cables, and settings that no project recalls."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property, partial
from itertools import chain
from typing import Literal, NamedTuple

from solver.gear.box import Engine, Remembers, Track
from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.intents import Layer
from solver.jam.jam import Jam
from solver.jam.sets import by_hand, is_tied
from solver.search.alike import table
from solver.search.model import NO, YES, Lit, Model
from solver.search.network import Network
from solver.search.wires import Wires

Value = str | int
Of = Literal["engine", "strip", "track"]


class Place(NamedTuple):
    """One setting of one engine, strip or track."""

    of: Of
    spot: Spot
    what: str


class Ground:
    """What several jams share; one jam alone shares nothing, and nothing is tied.

    An engine, strip or track is tied where its box stores something of it for itself, so that all jams have one value,
    or where no project is recalled before some jam, so that hands must move it. What is tied has states: the value at
    which each of its settings is while a jam is played, whether that matters to the jam or not.

    Args:
        jams: The jams, in playing order; they have the same boxes.
        hands: Whether it is counted what hands move between jams.
    """

    def __init__(self, jams: Sequence[Jam], hands: bool = True) -> None:
        self.jams = tuple(jams)
        self.model = Model()
        self._is_tied = partial(is_tied, self.jams, hands=hands)
        self.table = table(self.jams, self._is_tied)
        self.wires = Wires(self.table, self.model)
        self.notes, self.clock = Network(self.model), Network(self.model)
        self._states: dict[tuple[Place, int | None], dict[Value, Lit]] = {}
        self._once: dict[Place, bool] = {}

    @cached_property
    def _things(self) -> dict[Of, Mapping[Spot, Remembers]]:
        rig = self.table.rig
        return {"engine": rig.engines, "strip": rig.strips, "track": rig.tracks}

    @cached_property
    def tied(self) -> dict[Of, frozenset[Spot]]:
        """Everything that is tied, by what it is."""
        return {
            of: frozenset(spot for spot, gear in things.items() if self._is_tied(spot.box, gear))
            for of, things in self._things.items()
        }

    def gear(self, place: Place) -> Remembers:
        """What is set there."""
        return self._things[place.of][place.spot]

    def once(self, place: Place) -> bool:
        """Whether the setting has one value for all jams."""
        if place not in self._once:
            self._once[place] = place.spot in self.tied[place.of] and self.gear(place).memory(place.what) == "box"
        return self._once[place]

    def at(self, turn: int, place: Place, value: Value) -> Lit:
        """The setting of something tied is at the value while the jam is played."""
        return self.model.value(self._family(turn, place).get(value, NO))

    def stands(self, place: Place) -> Value:
        """Where the setting stands in the box file."""
        return next(self._values(place))

    def _family(self, turn: int, place: Place) -> dict[Value, Lit]:
        """A literal for each value that the setting can be at while a jam is played; one of them holds."""
        key = (place, None if self.once(place) else turn)
        if key not in self._states:
            values = tuple(self._values(place))
            self._states[key] = {value: YES if len(values) == 1 else self.model.new() for value in values}
            self.model.exactly_one(self._states[key].values())
        return self._states[key]

    def _values(self, place: Place) -> Iterator[Value]:
        """Every value that some jam could want there, each once, where it stands first."""
        gear, rig = self.gear(place), self.table.rig
        values: Iterator[Value]
        if place.what == "channel" and isinstance(gear, Engine | Track):
            values = chain([gear.stands], gear.options)
        elif place.what == "level":
            values = iter(("up", "zero"))
        elif place.what == "shift":
            shifts = (intent.shift for jam in self.jams for _, intent in jam.stated(Layer))
            values = chain([0], (by for shift in shifts for by in shift.values()))
        elif place.what == "key":
            values = iter(rig.emitters[Emission(self._emits(place), place.spot)].key)
        elif place.what in ("outlet", "pan"):
            emitter = Emission(self._emits(place), place.spot)
            ways = (way.name for way in rig.ways_out(emitter))
            values = ways if place.what == "outlet" else iter(rig.pans(emitter))
        else:
            wanted = (want for jam in self.jams for want in jam.wanted)
            values = chain([0], (want.amount for want in wanted if want.effect == place.what))
        return iter(dict.fromkeys(values))

    @staticmethod
    def _emits(place: Place) -> Literal["engine", "strip"]:
        assert place.of != "track"
        return place.of

    def moved_by_hand(self) -> list[Lit]:
        """Each setting that hands must move between one jam and the next."""
        moved: list[Lit] = []
        for place in dict.fromkeys(place for place, turn in self._states if turn is not None):
            for turn in by_hand(self.jams, place.spot.box):
                before, after = self._family(turn - 1, place), self._family(turn, place)
                gone = (self.model.both(lit, -after[value]) for value, lit in before.items())
                moved.append(self.model.either(gone))
        return moved
