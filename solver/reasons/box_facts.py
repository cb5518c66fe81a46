"""Facts of boxes that may matter whatever is wished: what there could be one more of, sockets, channels, pans."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from typing import Any

from solver.flow.wording import counted, listing, some
from solver.gear.box import Box
from solver.gear.connections import Outlet
from solver.gear.words import ALL_CHANNELS, Spot
from solver.jam.jam import Jam
from solver.reasons import easing


def box_facts(jam: Jam) -> Iterator[easing.Ease]:
    """The facts of each box in turn, and then those of how boxes fit together."""
    for name, box in jam.boxes.items():
        yield from _counted(name, box, hears=name == jam.ears.box, leads=name == jam.leader)
        yield from _notes(name, box)
        yield from _sounds(name, box)
    yield from _sockets(jam)


def stored_facts(jam: Jam) -> Iterator[easing.Ease]:
    """What boxes store for themselves, which only matters to several jams."""
    for name, box in jam.boxes.items():
        kept = [thing.name for thing in (*box.engines, *box.strips, *box.tracks) if thing.keeps]
        if kept:
            said = f"{name} keeps settings of {some(kept)} for all projects"
            yield easing.on_box(name, "stored", said, easing.stored_by_nobody)


def _counted(name: str, box: Box, hears: bool, leads: bool) -> Iterator[easing.Ease]:
    """What there could be one more of."""
    if box.strips or hears:
        strips = f": {some(strip.name for strip in box.strips)}" if box.strips else ""
        said = f"{name} has {counted(len(box.strips), 'strip')}{strips}"
        yield easing.on_box(name, "strip", said, easing.one_more_strip, len(box.strips))
    if box.engines:
        count = len(box.engines)
        yield easing.on_box(name, "engine", f"{name} has {counted(count, 'engine')}", easing.one_more_engine, count)
        ways = [outlet for outlet in box.outlets if any(outlet in box.outlets_of(engine) for engine in box.engines)]
        sides = sum(len(outlet.sides) for outlet in ways)
        said = f"{name} has {counted(sides, 'side')} to send sound on: {listing(map(_sides, ways))}"
        yield easing.on_box(name, "side", said, partial(easing.one_more_outlet, stereo=False), sides)
        if all(outlet.mono is not None for outlet in ways):
            yield easing.on_box(
                name, "stereo", f"{name} has no stereo outlet", partial(easing.one_more_outlet, stereo=True)
            )
    lanes = [track for track in box.tracks if track.plays is None]
    if lanes or leads:
        said = f"{name} has {counted(len(lanes), 'track')} for other boxes"
        yield easing.on_box(name, "track", said, easing.one_more_track, len(lanes))


def _notes(name: str, box: Box) -> Iterator[easing.Ease]:
    """MIDI sockets and channels."""
    takes = [port for port in box.ports if port.takes]
    outs = [port for port in box.ports if port.way in ("out", "both")]
    thrus = [port for port in box.ports if port.sends and port.passes_on]
    if box.engines and not takes:
        yield easing.on_box(name, "in", f"{name} has no MIDI in", easing.one_more_in)
    if takes:
        said = f"{name} passes MIDI on at {counted(len(thrus), 'socket')}"
        yield easing.on_box(name, "thru", said, easing.one_more_thru, len(thrus))
    if outs:
        said = f"{name} has {counted(len(outs), 'MIDI out')}: {listing(port.name for port in outs)}"
        yield easing.on_box(name, "out", said, easing.one_more_out, len(outs))
    played = {track.plays for track in box.tracks}
    alone = [engine.name for engine in box.engines if engine.name not in played]
    if box.tracks and alone:
        said = f"no track of {name} plays {some(Spot(name, engine) for engine in alone)}"
        yield easing.on_box(name, "inside", said, partial(easing.played_inside, engines=alone))
    if any(not port.clock for port in box.ports):
        deaf = listing(port.name for port in box.ports if not port.clock)
        yield easing.on_box(name, "clock", f"{name} passes no clock at {deaf}", easing.changing("ports", clock=True))
    for channels in dict.fromkeys(engine.channels for engine in box.engines):
        if channels != ALL_CHANNELS:
            few = [Spot(name, engine.name) for engine in box.engines if engine.channels == channels]
            heard = "all channels" if channels == "all" else _only("channel", channels)
            said = f"{some(few)} {'listen' if len(few) > 1 else 'listens'} to {heard}"
            yield easing.on_box(
                name, "hears", said, easing.changing("engines", among=few, channels=ALL_CHANNELS, channel=None)
            )
    for lanes in dict.fromkeys(track.channels for track in box.tracks):
        if lanes != ALL_CHANNELS:
            few = [Spot(name, track.name) for track in box.tracks if track.channels == lanes]
            said = f"{some(few)} {'send' if len(few) > 1 else 'sends'} on {_only('channel', lanes)}"
            yield easing.on_box(
                name, "sends", said, easing.changing("tracks", among=few, channels=ALL_CHANNELS, channel=None)
            )


def _sounds(name: str, box: Box) -> Iterator[easing.Ease]:
    """Pans, and jacks that do more than they seem to."""
    still = [Spot(name, thing.name) for thing in (*box.engines, *box.strips) if thing.pan == "fixed"]
    if still:
        said = f"{some(still)} {'stay' if len(still) > 1 else 'stays'} at centre"
        yield easing.on_box(name, "pan", said, easing.changing("engines", "strips", pan="full"))
    for outlet in box.outlets:
        if outlet.alone == "sum":
            said = f"{name}/{outlet.left} carries both sides while {outlet.right} is empty"
            yield easing.on_box(name, "sum", said, easing.changing("outlets", "inlets", alone="own"))
        if outlet.stereo is not None:
            pairs = partial(easing.two_jacks, kind="outlets")
            yield easing.on_box(name, "jack", f"{name}/{outlet.stereo} is one stereo jack", pairs)
    for inlet in box.inlets:
        if inlet.stereo is not None:
            pairs = partial(easing.two_jacks, kind="inlets")
            yield easing.on_box(name, "jack", f"{name}/{inlet.stereo} is one stereo jack", pairs)
        if inlet.alone == "copy":
            said = f"{name}/{inlet.left} feeds both sides while {inlet.right} is empty"
            yield easing.on_box(name, "copy", said, easing.changing("outlets", "inlets", alone="own"))


def _sockets(jam: Jam) -> Iterator[easing.Ease]:
    """MIDI plugs that no cable joins."""
    plugs: dict[str, list[str]] = {}
    for name, box in jam.boxes.items():
        for plug in dict.fromkeys(port.plug for port in box.ports):
            plugs.setdefault(plug, []).append(name)
    if len(plugs) > 1:
        said = "; ".join(f"{plug} on {listing(names)}" for plug, names in plugs.items())
        eased = partial(easing.every_box, change=easing.changing("ports", plug="din"))
        yield easing.Ease(easing.Fact("wiring", f"the MIDI sockets are {said}"), eased)


def _only(what: str, values: Iterable[Any]) -> str:
    listed = tuple(values)
    return f"{what if len(listed) == 1 else what + 's'} {listing(listed)} only" if listed else f"no {what}"


def _sides(outlet: Outlet) -> str:
    return f"{outlet.name} ({listing(outlet.sides)})" if outlet.mono is None else outlet.name
