"""What hands must do to get from one plan to another: cables to pull, plug and move, and settings to move."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from solver.flow.settings import spare_effects
from solver.flow.wires import sockets
from solver.gear.box import Memory
from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.plans import Cable, Plan, PlannedPart

Value = int | str | None


class Place(NamedTuple):
    """Where something is set: ``of`` says whether it is an engine, a strip or a track."""

    box: str
    of: str
    where: str
    what: str


class Turn(NamedTuple):
    """A setting that differs: its old and its new value, None for an amount or key that is not wanted."""

    place: Place
    old: Value
    new: Value
    stored: Memory | None


class Move(NamedTuple):
    """A cable of which some plug goes elsewhere and another stays."""

    old: Cable
    new: Cable


class Difference(NamedTuple):
    """What differs between two plans, in the order of the plans: nothing is told twice, what stays is counted."""

    pulled: tuple[Cable, ...]
    plugged: tuple[Cable, ...]
    moved: tuple[Move, ...]
    stay: int
    settings: tuple[Turn, ...]
    parts: Mapping[str, tuple[PlannedPart | None, PlannedPart | None]]

    @property
    def plugs(self) -> int:
        """How many plugs of cables that were there have to move, out or elsewhere."""
        return sum(len(_plugs(cable)) for cable in self.pulled) + sum(
            len(_plugs(move.old)) - _common(move.old, move.new) for move in self.moved
        )

    @property
    def moves_plugs(self) -> bool:
        """Whether any cable is pulled, moved or plugged."""
        return bool(self.pulled or self.moved or self.plugged)

    @property
    def turned(self) -> int:
        """How many settings have to be changed."""
        return sum(turn.new is not None for turn in self.settings)

    @property
    def none(self) -> bool:
        """Whether nothing differs."""
        return not (self.pulled or self.plugged or self.moved or self.settings or self.parts)


class Side(NamedTuple):
    """A jam and a plan of it."""

    jam: Jam
    plan: Plan


def difference(old: Side | None, new: Side) -> Difference:
    """What differs between the plan in use and a new one, which may be of a changed jam.

    Of boxes that are not the same on both tables it is not known how they are set, so they stand as they come.

    Args:
        old: The plan in use; None where there is none, so that all is new.
        new: The plan to get to.
    """
    had = old.plan.cables if old is not None else ()
    left = [cable for cable in had if cable not in new.plan.cables]
    fresh = [cable for cable in new.plan.cables if cable not in had]
    turned = _turned(left, fresh)
    parts_had = old.plan.parts if old is not None else {}
    names = dict.fromkeys((*parts_had, *new.plan.parts))
    parts = {name: (parts_had.get(name), new.plan.parts.get(name)) for name in names}
    return Difference(
        pulled=tuple(cable for place, cable in enumerate(left) if place not in turned),
        plugged=tuple(cable for place, cable in enumerate(fresh) if place not in turned.values()),
        moved=tuple(Move(left[one], fresh[other]) for one, other in sorted(turned.items())),
        stay=len(new.plan.cables) - len(fresh),
        settings=tuple(_turns(old, new)),
        parts={name: (one, other) for name, (one, other) in parts.items() if one != other},
    )


def _plugs(cable: Cable) -> tuple[Spot, ...]:
    return (*sockets(cable.source), *sockets(cable.to))


def _common(old: Cable, new: Cable) -> int:
    """How many plugs the two have in the same place; none where they are of different kinds."""
    if old.kind != new.kind or len(sockets(old.source)) != len(sockets(new.source)):
        return 0
    if len(_plugs(old)) == 2:
        return len(set(_plugs(old)) & set(_plugs(new)))
    return sum(one == other for one, other in zip(_plugs(old), _plugs(new), strict=True))


def _turned(left: Sequence[Cable], fresh: Sequence[Cable]) -> dict[int, int]:
    """Which old cable becomes which new one, so that as many as can be keep a plug: by augmenting paths.

    Source: H. W. Kuhn, "The Hungarian method for the assignment problem", 1955 (from memory); each path adds one pair.
    """
    likes = []
    for old in left:
        fits = [(-_common(old, new), old.source != new.source, place) for place, new in enumerate(fresh)]
        likes.append([place for common, _, place in sorted(fits) if common])
    taken: dict[int, int] = {}

    def seat(one: int, seen: set[int]) -> bool:
        for other in likes[one]:
            if other not in seen:
                seen.add(other)
                if other not in taken or seat(taken[other], seen):
                    taken[other] = one
                    return True
        return False

    for one in range(len(left)):
        seat(one, set())
    return {one: other for other, one in taken.items()}


def _turns(old: Side | None, new: Side) -> Iterator[Turn]:
    """Every setting that differs, box by box and thing by thing, in the order of the old plan, then of the new one.

    An effect that was wanted and is not goes to 0 where a part still passes, and is of no account elsewhere.
    """
    before = dict(_set(old)) if old is not None else {}
    if old is not None:
        same = {name for name, box in new.jam.boxes.items() if old.jam.boxes.get(name) == box}
        before = {place: said for place, said in before.items() if place.box in same}
    after = dict(_set(new))
    every = dict.fromkeys((*before, *after))
    boxes, things = list(dict.fromkeys(place.box for place in every)), list(dict.fromkeys(place[:3] for place in every))
    for place in sorted(every, key=lambda place: (boxes.index(place.box), things.index(place[:3]))):
        one, other = before.get(place), after.get(place)
        known = other or one
        assert known is not None
        stood = known.stood
        was, becomes = (one.value if one else stood), (other.value if other else stood)
        if was != becomes and (other is not None or not known.spare):
            yield Turn(place, was, becomes, known.stored)


def stored_turns(old: Iterable[Side], new: Iterable[Side]) -> tuple[Turn, ...]:
    """What differs of all that boxes store for the jams of a set, box by box; what no jam needs any more stays."""
    before, after = (_stored(sides) for sides in (old, new))
    found: list[Turn] = []
    for place in dict.fromkeys((*before, *after)):
        one, other = before.get(place), after.get(place)
        known = other or one
        assert known is not None
        was, becomes = (one.value if one else known.stood), (other.value if other else known.stood)
        if was != becomes and (other is not None or not known.spare):
            found.append(Turn(place, was, becomes, known.stored))
    boxes = list(dict.fromkeys(turn.place.box for turn in found))
    return tuple(sorted(found, key=lambda turn: (boxes.index(turn.place.box), turn.place[:3])))


def _stored(sides: Iterable[Side]) -> dict[Place, _Set]:
    """Every value that some jam needs of what boxes store; a wanted one before one that is at 0 unasked."""
    found: dict[Place, _Set] = {}
    for side in sides:
        for place, said in _set(side):
            if said.stored == "box" and (place not in found or found[place].spare):
                found[place] = said
    return found


class _Set(NamedTuple):
    """A value that a plan sets, where it stood before any plan, what stores it, and whether nobody asks for it."""

    value: int | str
    stood: Value
    stored: Memory | None
    spare: bool = False


def _set(side: Side) -> Iterator[tuple[Place, _Set]]:
    """Every setting of a plan with every effect that is at 0 because nobody wants it, and every key of a ducking."""
    jam, plan = side
    for setting in plan.settings:
        place = Place(setting.box, setting.of or "", setting.where, setting.what)
        yield place, _Set(setting.value, setting.was, setting.stored)
    for (of, spot), effect in spare_effects(jam, plan):
        stored = jam.rig.emitters[Emission(of, spot)].memory(effect)
        yield Place(spot.box, of, spot.name, effect), _Set(0, None, stored, spare=True)
    for of, treated in (("strip", plan.strips), ("engine", plan.engines)):
        for name, thing in treated.items():
            if thing.key is not None:
                box, where = Spot.parse(name)
                yield Place(box, of, where, "key"), _Set(thing.key, None, None)
