"""What a jam file can get wrong beyond single fields: names of boxes, engines, parts and sockets that are not there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from typing import TYPE_CHECKING

from solver.codes import Code
from solver.gear.box_faults import one_of
from solver.gear.words import Fault, quoted
from solver.jam.intents import Avoid, Clock, Keep, Layer, Play, Separate, Treat, Wish

if TYPE_CHECKING:
    from solver.jam.jam import Jam

Path = tuple[str | int, ...]

MOST_ON_TABLE = 20_000
"""How many outlets, inlets, strips, engines, tracks and ports all boxes of a jam may have."""


def jam_faults(jam: Jam) -> Iterator[Fault]:
    """Yield every name in the jam that stands for nothing on its table."""
    there = sum(len(things) for box in jam.boxes.values() for things in box.tables.values())
    if there > MOST_ON_TABLE:
        found = f"boxes with {there} outlets, inlets, strips, engines, tracks and ports"
        yield Fault(Code.OUT_OF_RANGE, ("boxes",), found, f"at most {MOST_ON_TABLE} on one table")
        return
    table = _Table(jam)
    for name in jam.boxes:
        if "/" in name:
            yield Fault(Code.WRONG_NAME, ("boxes", name), quoted(name), "a box name without a slash")
    yield from _unknown(jam.leader, table.boxes, ("leader",))
    yield from _unknown(jam.listen, table.outlets, ("listen",))
    for name, part in jam.parts.items():
        if part.on is not None:
            yield from _unknown(part.on, table.homes, ("part", name, "on"))
    for name in jam.recall:
        yield from _unknown(name, table.boxes, ("recall", name))
    for number, intent in enumerate(jam.intents):
        yield from _intent_faults(table, intent, ("intent", number))


class _Known:
    """Names that stand for something, and what they are names of."""

    def __init__(self, what: str, names: Iterable[str]) -> None:
        self.what = what
        self.listed = tuple(names)
        self._listed = frozenset(self.listed)

    def __contains__(self, name: str) -> bool:
        return name in self._listed


class _Table:
    """All that a jam can name."""

    def __init__(self, jam: Jam) -> None:
        self._jam = jam
        self.boxes = _Known("a box of this jam", jam.boxes)
        self.parts = _Known("a part of this jam", jam.parts)

    @cached_property
    def outlets(self) -> _Known:
        return _Known("an outlet of a box", map(str, self._jam.rig.outlets))

    @cached_property
    def jacks(self) -> _Known:
        return _Known("a jack", map(str, self._jam.rig.jacks))

    @cached_property
    def ports(self) -> _Known:
        return _Known("a port", map(str, self._jam.rig.ports))

    @cached_property
    def sockets(self) -> _Known:
        return _Known("a jack or port", (*self.jacks.listed, *self.ports.listed))

    @cached_property
    def engines(self) -> _Known:
        return _Known("an engine of a box", map(str, self._jam.rig.engines))

    @cached_property
    def tracks(self) -> _Known:
        return _Known("a track of a box", map(str, self._jam.rig.tracks))

    @cached_property
    def strips(self) -> _Known:
        return _Known("a strip of a box", map(str, self._jam.rig.strips))

    @cached_property
    def homes(self) -> _Known:
        return _Known("a box of this jam, or one of its engines", (*self.boxes.listed, *self.engines.listed))

    @cached_property
    def players(self) -> _Known:
        return _Known("a box of this jam, or one of its tracks", (*self.boxes.listed, *self.tracks.listed))


def _unknown(name: str, known: _Known, path: Path) -> Iterator[Fault]:
    if name not in known:
        yield Fault(Code.UNKNOWN_NAME, path, quoted(name), one_of(known.listed, known.what), known.listed)


def _intent_faults(table: _Table, intent: Wish, path: Path) -> Iterator[Fault]:
    kind = intent.kind
    if isinstance(intent, Avoid):
        yield from _each(intent.avoid.jacks, table.jacks, (*path, kind, "jacks"))
        yield from _each(intent.avoid.ports, table.ports, (*path, kind, "ports"))
        return
    if isinstance(intent, Keep):
        yield from _keep_faults(table, intent, (*path, kind))
        return
    yield from _each(getattr(intent, kind), table.boxes if isinstance(intent, Clock) else table.parts, (*path, kind))
    if isinstance(intent, Separate | Treat) and intent.at is not None:
        yield from _unknown(intent.at, table.boxes, (*path, "at"))
    if isinstance(intent, Treat) and intent.key is not None:
        yield from _unknown(intent.key, table.parts, (*path, "key"))
    if isinstance(intent, Play):
        yield from _unknown(intent.source, table.players, (*path, "from"))
    if isinstance(intent, Layer):
        yield from _each(intent.shift, table.parts, (*path, "shift"))


def _each(names: Iterable[str], known: _Known, path: Path) -> Iterator[Fault]:
    seen: set[str] = set()
    for i, name in enumerate(names):
        if name in seen:
            yield Fault(Code.NAMED_TWICE, (*path, i), quoted(name), "each name once")
        else:
            yield from _unknown(name, known, (*path, i))
        seen.add(name)


def _keep_faults(table: _Table, intent: Keep, path: Path) -> Iterator[Fault]:
    kept = intent.keep
    if kept.cable is not None:
        if not any(all(end in known for end in kept.cable) for known in (table.jacks, table.ports)):
            for i, end in enumerate(kept.cable):
                yield from _unknown(end, table.sockets, (*path, "cable", i))
            if all(end in table.sockets for end in kept.cable):
                yield Fault(Code.OUT_OF_PLACE, (*path, "cable"), "a jack and a port", "two jacks, or two ports")
        return
    if kept.part is not None:
        yield from _unknown(kept.part, table.parts, (*path, "part"))
    for key, name in (("engine", kept.engine), ("track", kept.track), ("strip", kept.strip)):
        if name is not None:
            known: _Known = getattr(table, f"{key}s")
            yield from _unknown(name, known, (*path, key))
