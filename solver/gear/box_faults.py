"""What a box file can get wrong beyond single fields: names used twice, names of nothing, settings out of reach."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import accumulate
from typing import TYPE_CHECKING

from solver.codes import Code
from solver.gear.words import DUCKING, SETTINGS, Fault, quoted

if TYPE_CHECKING:
    from solver.gear.box import Box, Emitter, Engine, Track
    from solver.gear.connections import Outlet


MOST_NAMES = 40
"""How many names one message lists at most."""
MOST_SPELLED = 1500
"""How many characters these names have at most, the first of them aside."""


def box_faults(box: Box) -> Iterator[Fault]:
    """Yield every fault of a box whose fields are right one by one."""
    yield from _doubles(box)
    by_name = {outlet.name: outlet for outlet in box.outlets}
    for i, outlet in enumerate(box.outlets):
        yield from _mirror_faults(outlet, by_name, ("out", i))
    for i, strip in enumerate(box.strips):
        at = ("strip", i)
        try:
            box.source(strip)
        except KeyError:
            sources = tuple(_sources(box))
            allowed = one_of(sources, "an inlet of this box")
            yield Fault(Code.UNKNOWN_NAME, (*at, "from"), quoted(strip.source), allowed, sources)
        yield from _emitter_faults(box, strip, at)
        if strip.track is not None:
            yield from _unknown(strip.track, [t.name for t in box.tracks], (*at, "track"), "a track of this box")
    for i, engine in enumerate(box.engines):
        yield from _emitter_faults(box, engine, ("engine", i))
        yield from _channel_faults(engine, ("engine", i))
    for i, track in enumerate(box.tracks):
        yield from _channel_faults(track, ("track", i))
        if track.plays is not None:
            engines = [e.name for e in box.engines]
            yield from _unknown(track.plays, engines, ("track", i, "plays"), "an engine of this box")
    yield from _port_faults(box)


def one_of(names: Iterable[str], what: str) -> str:
    """``what: "A", "B"`` (the first of them, where they are many), or that there is none."""
    every = tuple(names)
    spelled = accumulate(map(len, every[:MOST_NAMES]))
    shown = max(1, sum(so_far <= MOST_SPELLED for so_far in spelled))
    listed = ", ".join(map(quoted, every[:shown]))
    if len(every) > shown:
        listed += f" and {len(every) - shown} more"
    return f"{what}: {listed}" if listed else f"{what} (there is none)"


def _unknown(name: str, known: list[str], path: tuple[str | int, ...], what: str) -> Iterator[Fault]:
    if name not in known:
        yield Fault(Code.UNKNOWN_NAME, path, quoted(name), one_of(known, what), tuple(known))


def _told(names: Iterable[str]) -> Iterator[tuple[str, bool]]:
    """Yield each name, and whether it has been told already."""
    seen: set[str] = set()
    for name in names:
        yield name, name in seen
        seen.add(name)


def _doubles(box: Box) -> Iterator[Fault]:
    for kind, things in box.tables.items():
        seen: set[str] = set()
        for i, thing in enumerate(things):
            if thing.name in seen:
                allowed = f"a name that no other [[{kind}]] of this box has"
                yield Fault(Code.NAME_TAKEN, (kind, i, "name"), quoted(thing.name), allowed)
            seen.add(thing.name)
    labels: set[str] = set()
    for kind, connections in (("out", box.outlets), ("in", box.inlets)):
        for i, connection in enumerate(connections):
            for shape in ("left", "right", "stereo", "mono"):
                label = getattr(connection, shape)
                if label in labels:
                    allowed = "a label that no other jack of this box has"
                    yield Fault(Code.JACK_TAKEN, (kind, i, shape), quoted(label), allowed)
                labels.update([label] if label is not None else [])


def _mirror_faults(outlet: Outlet, by_name: dict[str, Outlet], path: tuple[str | int, ...]) -> Iterator[Fault]:
    if outlet.mirrors is None:
        return
    yield from _unknown(outlet.mirrors, list(by_name), (*path, "mirrors"), "an outlet of this box")
    seen, at = {outlet.name}, by_name.get(outlet.mirrors)
    while at is not None:
        if at.name in seen:
            allowed = "an outlet that does not mirror this one in turn"
            yield Fault(Code.IN_CIRCLE, (*path, "mirrors"), quoted(outlet.mirrors), allowed)
            return
        seen.add(at.name)
        at = by_name.get(at.mirrors) if at.mirrors is not None else None


def _sources(box: Box) -> Iterator[str]:
    for inlet in box.inlets:
        yield inlet.name
        for side in inlet.sides:
            if side != "mono":
                yield f"{inlet.name}/{side}"


def _emitter_faults(box: Box, emitter: Emitter, path: tuple[str | int, ...]) -> Iterator[Fault]:
    outlets, engines = [o.name for o in box.outlets], [e.name for e in box.engines]
    for i, (name, again) in enumerate(_told(emitter.to)):
        where = (*path, "to") if len(emitter.to) == 1 else (*path, "to", i)
        if again:
            yield Fault(Code.NAMED_TWICE, where, quoted(name), "each outlet once")
        else:
            yield from _unknown(name, outlets, where, "an outlet of this box")
    for i, name in enumerate(emitter.key):
        yield from _unknown(name, engines, (*path, "key", i), "an engine of this box")
    for i, (effect, again) in enumerate(_told(emitter.offers)):
        if effect in SETTINGS or again:
            others = ", ".join(map(quoted, SETTINGS))
            code = Code.WRONG_NAME if effect in SETTINGS else Code.NAMED_TWICE
            allowed = f"an effect, each once, with another name than {others}"
            yield Fault(code, (*path, "offers", i), quoted(effect), allowed)
    if emitter.key and DUCKING not in emitter.offers:
        yield Fault(Code.OUT_OF_PLACE, (*path, "key"), "a key", f'a key only where offers has "{DUCKING}"')
    if isinstance(emitter.stored, dict):
        known = (*SETTINGS, *emitter.offers)
        for what in emitter.stored:
            yield from _unknown(what, list(known), (*path, "stored", what), "a setting")


def _channel_faults(thing: Engine | Track, path: tuple[str | int, ...]) -> Iterator[Fault]:
    if thing.channel is not None and thing.channel not in thing.options:
        found = quoted(thing.channel) if isinstance(thing.channel, str) else str(thing.channel)
        options = ", ".join(quoted(o) if isinstance(o, str) else str(o) for o in thing.options)
        allowed = f"one of the channels it can be set to: {options}"
        yield Fault(Code.OUT_OF_REACH, (*path, "channel"), found, allowed)


def _port_faults(box: Box) -> Iterator[Fault]:
    ins = [port.name for port in box.ports if port.takes]
    for i, port in enumerate(box.ports):
        at = ("midi", i)
        if port.way == "both" and port.plug not in ("usb-host", "usb-device"):
            allowed = '"both" only on a USB plug; else "out", "in" or "thru"'
            yield Fault(Code.OUT_OF_PLACE, (*at, "way"), '"both"', allowed)
        if port.repeats and port.way in ("in", "thru"):
            allowed = "repeats only on an out (a thru has copies)"
            yield Fault(Code.OUT_OF_PLACE, (*at, "repeats"), "repeats", allowed)
        if port.way == "thru" and port.copies is None:
            allowed = one_of(ins, "copies = an in port of this box")
            yield Fault(Code.NEEDS_MORE, at, "a thru without copies", allowed)
        if port.copies is not None and port.way != "thru":
            allowed = "copies only on a thru (an out has repeats)"
            yield Fault(Code.OUT_OF_PLACE, (*at, "copies"), quoted(port.copies), allowed)
        for j, (name, again) in enumerate(_told(port.repeats)):
            where = (*at, "repeats") if len(port.repeats) == 1 else (*at, "repeats", j)
            if again:
                yield Fault(Code.NAMED_TWICE, where, quoted(name), "each port once")
            else:
                yield from _unknown(name, ins, where, "an in port of this box")
        if port.copies is not None:
            yield from _unknown(port.copies, ins, (*at, "copies"), "an in port of this box")
