"""What is alike on a table, so that the search asks how many of it a jam, or each jam of a set, needs and not which.

Engines of a box that differ in nothing but their name are one engine with room for several parts. Mono strips that
differ in nothing but their name and jack give way to stand-ins, one for each jack that could feed them; no more of
these are in use than there are strips. Afterwards every choice is spread out over the named engines and strips again,
in file order.
"""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from solver.gear.box import Box, Engine, Remembers, Strip
from solver.gear.cables import BREAKOUT_LEG, AudioPlug
from solver.gear.connections import Inlet, Jack
from solver.gear.rig import Rig
from solver.gear.words import Side, Spot
from solver.jam.intents import Avoid, Keep, Match
from solver.jam.jam import Jam

Tied = Callable[[str, Remembers], bool]
"""Whether something of a box is tied, so that it is like nothing else."""


def nothing_tied(_: str, __: Remembers) -> bool:
    """What one jam alone says."""
    return False


class Feeder(NamedTuple):
    """One side of a sending jack."""

    jack: Spot
    side: Side


class Unit(NamedTuple):
    """A mono strip and the jack that feeds it alone."""

    strip: Spot
    jack: Spot


@dataclass(frozen=True)
class Shelf:
    """Units that are alike, and for each feeder the stand-in that it would feed: strip, inlet and jack of one name."""

    units: tuple[Unit, ...]
    stand_ins: dict[Spot, Feeder]


@dataclass(frozen=True)
class Table:
    """The rig as the search sees it: each engine may stand for a stack of them, and shelves stand for strips."""

    rig: Rig
    stacks: dict[Spot, tuple[Spot, ...]]
    shelves: tuple[Shelf, ...]

    @cached_property
    def shelf_of(self) -> dict[Spot, int]:
        """The number of the shelf that a jack or its stand-in belongs to."""
        return {
            jack: number
            for number, shelf in enumerate(self.shelves)
            for jack in (*(unit.jack for unit in shelf.units), *shelf.stand_ins)
        }


def table(jams: Sequence[Jam], tied: Tied) -> Table:
    """Merge what is alike for every jam, but for what is tied; they have the same boxes."""
    named = {name for jam in jams for name in _named(jam)}
    tracked = any(True for jam in jams for _ in jam.stated(Match))
    stacks: dict[Spot, tuple[Spot, ...]] = {}
    shelves: list[Shelf] = []
    boxes: dict[str, Box] = {}
    for name, box in jams[0].boxes.items():
        own = _stacks(jams, name, box, named, tied)
        stacks |= own
        engines = tuple(engine for engine in box.engines if Spot(name, engine.name) in own)
        shelved = _shelved(name, box, named, tracked, tied)
        boxes[name] = box.model_copy(update={"engines": engines})
        for place, units in enumerate(shelved):
            plug = jams[0].rig.jacks[units[0].jack].jack.plug
            feeders = _feeders(jams, name, plug)
            stand_ins = {Spot(name, f"{place}: {feeder.jack} {feeder.side}"): feeder for feeder in feeders}
            shelves.append(Shelf(tuple(units), stand_ins))
            boxes[name] = _with_stand_ins(boxes[name], units, plug, stand_ins)
    return Table(Rig(boxes), stacks, tuple(shelves))


def _named(jam: Jam) -> Iterator[str]:
    """Every engine, strip and jack that the jam speaks of by name."""
    yield from (part.on for part in jam.parts.values() if part.on is not None)
    for _, avoid in jam.stated(Avoid):
        yield from avoid.avoid.jacks
    for _, keep in jam.stated(Keep):
        yield from keep.keep.cable or ()
        yield from (name for name in (keep.keep.engine, keep.keep.strip) if name is not None)


def _stacks(jams: Sequence[Jam], name: str, box: Box, named: set[str], tied: Tied) -> dict[Spot, tuple[Spot, ...]]:
    linked = {track.plays for track in box.tracks} | {key for thing in (*box.engines, *box.strips) for key in thing.key}
    wanted = {want.effect for jam in jams for want in jam.wanted}
    alike: dict[Hashable, list[Spot]] = defaultdict(list)
    for engine in box.engines:
        spot = Spot(name, engine.name)
        asked = engine.name in linked or str(spot) in named or not wanted.isdisjoint(engine.offers)
        alike[spot if asked or tied(name, engine) else _traits(engine)].append(spot)
    return {spots[0]: tuple(spots) for spots in alike.values()}


def _traits(engine: Engine) -> Hashable:
    hears = (engine.channels, engine.stands, engine.can_be_off, engine.program_change)
    return (engine.sound, engine.to, engine.pan, engine.shift, *hears)


def _shelved(name: str, box: Box, named: set[str], tracked: bool, tied: Tied) -> list[list[Unit]]:
    """The units of a box that are alike, where every jack of an inlet belongs to such a unit."""
    alike: dict[Hashable, list[tuple[str, Unit]]] = defaultdict(list)
    for inlet in box.inlets:
        for jack, strip in _alone(box, inlet):
            unit = Unit(Spot(name, strip.name), Spot(name, jack.label))
            asked = named.intersection(map(str, unit)) or (tracked and strip.track is not None)
            if not asked and not tied(name, strip):
                alike[strip.to, strip.pan, strip.offers, strip.key, jack.plug].append((inlet.name, unit))
    many = [units for units in alike.values() if len(units) > 1]
    covered = [inlet for units in many for inlet, _ in units]
    whole = {inlet.name for inlet in box.inlets if covered.count(inlet.name) == len(inlet.jacks)}
    kept = [[unit for inlet, unit in units if inlet in whole] for units in many]
    return [units for units in kept if units]


def _alone(box: Box, inlet: Inlet) -> Iterator[tuple[Jack, Strip]]:
    """The mono jacks of an inlet that feed just one strip, which takes nothing else."""
    if inlet.stereo is None and inlet.alone == "own":
        takers = [(strip, box.source(strip)) for strip in box.strips]
        for jack in inlet.jacks:
            fed = [(strip, sides) for strip, (source, sides) in takers if source == inlet and jack.sides[0] in sides]
            if len(fed) == 1 and fed[0][1] == jack.sides:
                yield jack, fed[0][0]


def _feeders(jams: Sequence[Jam], box: str, plug: AudioPlug) -> Iterator[Feeder]:
    """Every jack side of another box from which a cable or the leg of a breakout fits a mono jack of that size."""
    ears = {jam.ears for jam in jams}
    for spot, socket in jams[0].rig.jacks.items():
        fits = not socket.jack.stereo or plug == BREAKOUT_LEG
        if socket.sends and spot.box != box and socket.connection not in ears and fits:
            yield from (Feeder(spot, side) for side in socket.jack.sides)


def _with_stand_ins(box: Box, units: list[Unit], plug: AudioPlug, stand_ins: dict[Spot, Feeder]) -> Box:
    strips, jacks = {unit.strip.name for unit in units}, {unit.jack.name for unit in units}
    model = next(strip for strip in box.strips if strip.name in strips)
    names = [spot.name for spot in stand_ins]
    return box.model_copy(
        update={
            "inlets": (
                *(inlet for inlet in box.inlets if jacks.isdisjoint(jack.label for jack in inlet.jacks)),
                *(Inlet.model_construct(name=name, mono=name, plug=plug) for name in names),
            ),
            "strips": (
                *(strip for strip in box.strips if strip.name not in strips),
                *(model.model_copy(update={"name": name, "source": name, "track": None}) for name in names),
            ),
        }
    )
