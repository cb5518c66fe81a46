"""Facts of the gear, and boxes and jams without them: with one more of something, or without one limit.

What is added has names that no box has.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, Literal, NamedTuple

from solver.gear.box import Box, Engine, Port, Strip, Track
from solver.gear.cables import Kind
from solver.gear.connections import Connection, Inlet, Outlet
from solver.gear.words import DUCKING, Spot
from solver.jam.jam import Jam

Kinds = Literal["engines", "strips", "tracks", "ports", "outlets", "inlets"]


class Fact(NamedTuple):
    """Something that the gear is, and how many of it there are and would be needed, where that can be counted."""

    kind: str
    sentence: str
    has: int | None = None
    needs: int | None = None
    box: str = ""


class Ease(NamedTuple):
    """A fact and the gear without it."""

    fact: Fact
    eased: Callable[[Jam], Jam] | None = None
    """None where the fact alone is enough to see that it matters."""


def on_box(name: str, kind: str, said: str, change: Callable[[Box], Box], has: int | None = None) -> Ease:
    """A fact of one box, and the change that eases it."""
    return Ease(
        Fact(kind, said, has, box=name), lambda jam: jam.changed(boxes={**jam.boxes, name: change(jam.boxes[name])})
    )


def one_more_strip(box: Box) -> Box:
    """The box with one more mono strip, like its last one, on a jack of its own."""
    name = f"line {len(box.inlets) + 1} more"
    model = box.strips[-1] if box.strips else Strip.model_construct(name=name, source=name)
    strip = model.model_copy(update={"name": name, "source": name, "track": None})
    inlet = Inlet.model_construct(name=name, mono=name)
    return box.model_copy(update={"inlets": (*box.inlets, inlet), "strips": (*box.strips, strip)})


def one_more_cable(jam: Jam, kind: Kind) -> Jam:
    """One more cable of a kind in the drawer."""
    cables = jam.cables or {}
    return jam.changed(cables={**cables, kind: cables.get(kind, 0) + 1})


def every_box(jam: Jam, change: Callable[[Box], Box]) -> Jam:
    """A jam with the same change on every box."""
    return jam.changed(boxes={name: change(box) for name, box in jam.boxes.items()})


def changing(*kinds: Kinds, among: Iterable[Spot] | None = None, **fields: Any) -> Callable[[Box], Box]:
    """A change of the things of these kinds that a box has: of those among some, or of all."""
    names = None if among is None else {spot.name for spot in among}

    def changed(thing: Any) -> Any:
        return thing.model_copy(update=fields) if names is None or thing.name in names else thing

    return lambda box: box.model_copy(update={kind: tuple(map(changed, getattr(box, kind))) for kind in kinds})


def with_twins(few: Iterable[Spot], **changes: Any) -> Callable[[Box], Box]:
    """The box with a second engine like each of these, but for the changes."""
    names = {spot.name for spot in few}

    def change(box: Box) -> Box:
        twins = (e.model_copy(update=changes | {"name": f"{e.name} twin"}) for e in box.engines if e.name in names)
        return box.model_copy(update={"engines": (*box.engines, *twins)})

    return change


def offering(box: Box, effect: str) -> Box:
    """The box with an effect on every strip; where that is ducking, each of its engines can trigger it."""
    changes: dict[str, Any] = {"key": tuple(engine.name for engine in box.engines)} if effect == DUCKING else {}
    strips = (s.model_copy(update=changes | {"offers": tuple(dict.fromkeys((*s.offers, effect)))}) for s in box.strips)
    return box.model_copy(update={"strips": tuple(strips)})


def two_jacks(box: Box, kind: Literal["outlets", "inlets"]) -> Box:
    """The box with a pair of mono jacks in place of each stereo jack that sends, or of each that takes."""
    more = {"alone": "copy"} if kind == "inlets" else {}
    split = (_split(connection, more) if connection.stereo else connection for connection in getattr(box, kind))
    return box.model_copy(update={kind: tuple(split)})


def _split(connection: Connection, more: dict[str, str]) -> Connection:
    pair = {"left": f"{connection.stereo} L", "right": f"{connection.stereo} R"}
    return connection.model_copy(update={"stereo": None, "plug": "6.35", **pair, **more})


def one_more_engine(box: Box) -> Box:
    """The box with one more engine of each kind of sound."""
    more = [
        engine.model_copy(update={"name": f"{engine.name} more {len(box.engines)}"}) for engine in _last_of_each(box)
    ]
    return box.model_copy(update={"engines": (*box.engines, *more)})


def _last_of_each(box: Box) -> Iterable[Engine]:
    """The last engine of each kind of sound."""
    return {engine.sound: engine for engine in box.engines}.values()


def one_more_outlet(box: Box, stereo: bool) -> Box:
    """The box with one more outlet that all its engines reach."""
    name = f"out {len(box.outlets) + 1} more"
    if stereo:
        more = Outlet.model_construct(name=name, left=f"{name} L", right=f"{name} R")
    else:
        more = Outlet.model_construct(name=name, mono=name)
    first = box.outlets[0].name if box.outlets else ""
    engines = tuple(e.model_copy(update={"to": (*(e.to or (first,)), name)}) for e in box.engines)
    return box.model_copy(update={"outlets": (*box.outlets, more), "engines": engines})


def one_more_track(box: Box, plays: str | None = None) -> Box:
    """The box with one more track, like its last one for other boxes; it may play an engine of the box."""
    name = f"track {len(box.tracks) + 1} more"
    last = next((track for track in reversed(box.tracks) if track.plays is None), Track(name=name))
    more = last.model_copy(update={"name": name, "plays": plays})
    return box.model_copy(update={"tracks": (*box.tracks, more)})


def played_inside(box: Box, engines: Iterable[str]) -> Box:
    """The box with one more track for each of these engines, which plays it."""
    for engine in engines:
        box = one_more_track(box, engine)
    return box


def _with_port(box: Box, port: Port) -> Box:
    """The box with one more MIDI socket."""
    return box.model_copy(update={"ports": (*box.ports, port)})


def one_more_in(box: Box) -> Box:
    """The box with one more MIDI in."""
    return _with_port(box, Port(name="new in", way="in", clock=True))


def one_more_thru(box: Box) -> Box:
    """The box with one more thru of its first MIDI in."""
    source = next(port for port in box.ports if port.takes)
    name = f"thru {len(box.ports) + 1} more"
    return _with_port(box, Port(name=name, way="thru", copies=source.name, plug=source.plug, clock=source.clock))


def one_more_out(box: Box) -> Box:
    """The box with one more MIDI out, like its first."""
    model = next(port for port in box.ports if port.way in ("out", "both"))
    return _with_port(box, model.model_copy(update={"name": f"out {len(box.ports) + 1} more"}))


def strips_with(box: Box, tracks: Iterable[str]) -> Box:
    """The box with one more strip for each of these tracks."""
    for track in tracks:
        box = one_more_strip(box)
        strips = (*box.strips[:-1], box.strips[-1].model_copy(update={"track": track}))
        box = box.model_copy(update={"strips": strips})
    return box


def stored_by_nobody(box: Box) -> Box:
    """The box with everything recalled with a project that it stores for itself."""
    return changing("engines", "strips", "tracks", stored="project")(box)
