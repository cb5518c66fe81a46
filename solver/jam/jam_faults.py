"""What a jam file can get wrong beyond single fields: names of boxes, engines, parts and sockets that are not there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from solver.codes import Code
from solver.gear.box_faults import one_of
from solver.gear.words import Fault, Spot, quoted
from solver.jam.intents import Avoid, Clock, Keep, Layer, Play, Separate, Treat, Wish

if TYPE_CHECKING:
    from solver.jam.jam import Jam

Path = tuple[str | int, ...]


def jam_faults(jam: Jam) -> Iterator[Fault]:
    """Yield every name in the jam that stands for nothing on its table."""
    for name in jam.boxes:
        if "/" in name:
            yield Fault(Code.WRONG_NAME, ("boxes", name), quoted(name), "a box name without a slash")
    yield from _unknown(jam.leader, jam.boxes, ("leader",), "a box of this jam")
    yield from _unknown(jam.listen, map(str, jam.rig.outlets), ("listen",), "an outlet of a box")
    for name, part in jam.parts.items():
        if part.on is not None and part.on not in jam.boxes and Spot.parse(part.on) not in jam.rig.engines:
            known = (*jam.boxes, *map(str, jam.rig.engines))
            yield from _unknown(part.on, known, ("part", name, "on"), "a box of this jam, or one of its engines")
    for name in jam.recall:
        yield from _unknown(name, jam.boxes, ("recall", name), "a box of this jam")
    for number, intent in enumerate(jam.intents):
        yield from _intent_faults(jam, intent, ("intent", number))


def _unknown(name: str, known: Iterable[str], path: Path, what: str) -> Iterator[Fault]:
    listed = tuple(known)
    if name not in listed:
        yield Fault(Code.UNKNOWN_NAME, path, quoted(name), one_of(listed, what), listed)


def _intent_faults(jam: Jam, intent: Wish, path: Path) -> Iterator[Fault]:
    kind = intent.kind
    if isinstance(intent, Avoid):
        yield from _each(intent.avoid.jacks, map(str, jam.rig.jacks), (*path, kind, "jacks"), "a jack")
        yield from _each(intent.avoid.ports, map(str, jam.rig.ports), (*path, kind, "ports"), "a port")
        return
    if isinstance(intent, Keep):
        yield from _keep_faults(jam, intent, (*path, kind))
        return
    named = getattr(intent, kind)
    if isinstance(intent, Clock):
        yield from _each(named, jam.boxes, (*path, kind), "a box of this jam")
        return
    yield from _each(named, jam.parts, (*path, kind), "a part of this jam")
    if isinstance(intent, Separate | Treat) and intent.at is not None:
        yield from _unknown(intent.at, jam.boxes, (*path, "at"), "a box of this jam")
    if isinstance(intent, Treat) and intent.key is not None:
        yield from _unknown(intent.key, jam.parts, (*path, "key"), "a part of this jam")
    if isinstance(intent, Play) and intent.source not in jam.boxes and Spot.parse(intent.source) not in jam.rig.tracks:
        what = "a box of this jam, or one of its tracks"
        yield from _unknown(intent.source, (*jam.boxes, *map(str, jam.rig.tracks)), (*path, "from"), what)
    if isinstance(intent, Layer):
        yield from _each(tuple(intent.shift), jam.parts, (*path, "shift"), "a part of this jam")


def _each(names: Iterable[str], known: Iterable[str], path: Path, what: str) -> Iterator[Fault]:
    listed, seen = dict.fromkeys(known), set[str]()
    for i, name in enumerate(names):
        if name in seen:
            yield Fault(Code.NAMED_TWICE, (*path, i), quoted(name), "each name once")
        elif name not in listed:
            yield from _unknown(name, listed, (*path, i), what)
        seen.add(name)


def _keep_faults(jam: Jam, intent: Keep, path: Path) -> Iterator[Fault]:
    kept, rig = intent.keep, jam.rig
    if kept.cable is not None:
        ends = [Spot.parse(end) for end in kept.cable]
        if not all(end in rig.jacks for end in ends) and not all(end in rig.ports for end in ends):
            for i, end in enumerate(ends):
                if end not in rig.jacks and end not in rig.ports:
                    known = (*map(str, rig.jacks), *map(str, rig.ports))
                    allowed = one_of(known, "a jack or port")
                    yield Fault(Code.UNKNOWN_NAME, (*path, "cable", i), quoted(kept.cable[i]), allowed, known)
            if all(end in rig.jacks or end in rig.ports for end in ends):
                yield Fault(Code.OUT_OF_PLACE, (*path, "cable"), "a jack and a port", "two jacks, or two ports")
        return
    if kept.part is not None:
        yield from _unknown(kept.part, jam.parts, (*path, "part"), "a part of this jam")
    forms: tuple[tuple[str, str | None, Iterable[Spot]], ...] = (
        ("an engine", kept.engine, rig.engines),
        ("a track", kept.track, rig.tracks),
        ("a strip", kept.strip, rig.strips),
    )
    for what, name, spots in forms:
        if name is not None:
            yield from _unknown(name, map(str, spots), (*path, what.split()[1]), f"{what} of a box")
