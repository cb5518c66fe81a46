"""What about the gear matters to a conflict: a fact matters where the conflict is gone once the gear is eased there.

Every fact comes with its ease: the same gear with one more of something, or without one limit. What can be counted is
added until the conflict is gone, which tells how many it needs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import Any, NamedTuple

from solver.flow.wording import listing, some
from solver.gear.box import Box, Outlet
from solver.gear.words import ALL_CHANNELS, DUCKING, Spot, dotted
from solver.jam.claims import Claim
from solver.jam.intents import Layer
from solver.jam.jam import Jam
from solver.reasons import easing
from solver.reasons.trial import Trial

MOST_ADDED = 6
"""How many of a thing are added at most to find out how many a conflict needs."""


class Fact(NamedTuple):
    """Something that the gear is, and how many of it there are and would be needed, where that can be counted."""

    kind: str
    sentence: str
    has: int | None = None
    needs: int | None = None


class Ease(NamedTuple):
    """A fact and the gear without it."""

    fact: Fact
    eased: Callable[[Jam], Jam] | None = None
    """None where the fact alone is enough to see that it matters."""


def facts(trial: Trial, claims: Iterable[Claim]) -> Iterator[Fact]:
    """The facts without any one of which the claims would have a plan.

    Raises:
        OutOfTimeError: time is up before all are known.
    """
    listed = tuple(claims)
    for ease in eases(trial.jam, listed):
        if ease.eased is None:
            yield ease.fact
            continue
        jam, fact = trial.jam, ease.fact
        steps = [jam := ease.eased(jam) for _ in range(MOST_ADDED if fact.has is not None else 1)]
        if not trial.within(steps[-1]).fails(listed):
            enough = (n for n, eased in enumerate(steps, 1) if not trial.within(eased).fails(listed))
            yield fact if fact.has is None else fact._replace(needs=fact.has + next(enough))


def eases(jam: Jam, claims: Iterable[Claim]) -> Iterator[Ease]:
    """Every ease that could make a difference to these claims."""
    listed = tuple(claims)
    kinds = {claim.piece[0] for claim in listed}
    yield from _drawer(jam, listed)
    yield from _channels(jam, listed)
    for name, box in jam.boxes.items():
        yield from _counted(name, box, hears=name == jam.ears.box)
        yield from _notes(name, box)
        yield from _sounds(name, box)
    for effect in _wanted(jam, listed):
        yield from _effects(jam, effect)
    yield from _shifts(jam, listed)
    if "program" in kinds:
        yield from _programs(jam)
    if "match" in kinds:
        yield from _owners(jam)
    yield from _sockets(jam)


def _wanted(jam: Jam, claims: Iterable[Claim]) -> Iterable[str]:
    """The effects of which the claims want more than nothing."""
    treated = {(claim.statement, *claim.piece[1:]) for claim in claims if claim.piece[0] == "treat"}
    return dict.fromkeys(w.effect for w in jam.wanted if w.amount and (w.statement, w.part, w.effect) in treated)


def _drawer(jam: Jam, claims: Iterable[Claim]) -> Iterator[Ease]:
    """The kinds of cable of which there could be one more."""
    stated = {
        claim.piece[1] if claim.piece[0] == "cable" else "" for claim in claims if claim.piece[0].startswith("cable")
    }
    for kind in jam.rig.kinds if jam.cables is not None and stated else ():
        has = (jam.cables or {}).get(kind)
        if kind in stated or (has is None and "" in stated):
            said = f"the drawer holds {_number(has or 0, 'cable')} of {kind}"
            yield Ease(Fact("drawer", said, has or 0), partial(easing.one_more_cable, kind=kind))


def _channels(jam: Jam, claims: Sequence[Claim]) -> Iterator[Ease]:
    """The 16 channels of a cable (MIDI 1.0 Detailed Specification 4.2.1, p. 3), without those that are avoided."""
    parts = {claim.parts[0] for claim in claims if claim.piece[0] == "part"}
    layers = [layer for layer in jam.layers if not parts.isdisjoint(layer)]
    avoided = [claim.piece[1] for claim in claims if claim.piece[0] == "channel"]
    left = len(ALL_CHANNELS) - len(avoided)
    if len(layers) > left:
        avoiding = f", and you avoid all but {left}" if avoided else ""
        said = f"a MIDI cable has {len(ALL_CHANNELS)} channels{avoiding}"
        yield Ease(Fact("channels", said, left, len(layers)))


def _counted(name: str, box: Box, hears: bool) -> Iterator[Ease]:
    """What there could be one more of."""
    if box.strips or hears:
        strips = f": {some(strip.name for strip in box.strips)}" if box.strips else ""
        said = f"{name} has {_number(len(box.strips), 'strip')}{strips}"
        yield _on(name, "strip", said, easing.one_more_strip, len(box.strips))
    if box.engines:
        count = len(box.engines)
        yield _on(name, "engine", f"{name} has {_number(count, 'engine')}", easing.one_more_engine, count)
        ways = [outlet for outlet in box.outlets if any(outlet in box.outlets_of(engine) for engine in box.engines)]
        sides = sum(len(outlet.sides) for outlet in ways)
        said = f"{name} has {_number(sides, 'side')} to send sound on: {listing(map(_sides, ways))}"
        yield _on(name, "side", said, partial(easing.one_more_outlet, stereo=False), sides)
        if all(outlet.mono is not None for outlet in ways):
            yield _on(name, "stereo", f"{name} has no stereo outlet", partial(easing.one_more_outlet, stereo=True))
    lanes = [track for track in box.tracks if track.plays is None]
    if lanes:
        said = f"{name} has {_number(len(lanes), 'track')} for other boxes"
        yield _on(name, "track", said, easing.one_more_track, len(lanes))


def _notes(name: str, box: Box) -> Iterator[Ease]:
    """MIDI sockets and channels."""
    takes = [port for port in box.ports if port.takes]
    outs = [port for port in box.ports if port.way in ("out", "both")]
    thrus = [port for port in box.ports if port.sends and port.passes_on]
    if box.engines and not takes:
        yield _on(name, "in", f"{name} has no MIDI in", easing.one_more_in)
    if takes:
        said = f"{name} passes MIDI on at {_number(len(thrus), 'socket')}"
        yield _on(name, "thru", said, easing.one_more_thru, len(thrus))
    if outs:
        said = f"{name} has {_number(len(outs), 'MIDI out')}: {listing(port.name for port in outs)}"
        yield _on(name, "out", said, easing.one_more_out, len(outs))
    if any(not port.clock for port in box.ports):
        deaf = listing(port.name for port in box.ports if not port.clock)
        yield _on(name, "clock", f"{name} passes no clock at {deaf}", partial(easing.all_ports, clock=True))
    for channels in dict.fromkeys(engine.channels for engine in box.engines):
        if channels != ALL_CHANNELS:
            few = [Spot(name, engine.name) for engine in box.engines if engine.channels == channels]
            heard = "all channels" if channels == "all" else _only("channel", channels)
            said = f"{some(few)} {'listen' if len(few) > 1 else 'listens'} to {heard}"
            yield _on(name, "hears", said, easing.engines_among(few, channels=ALL_CHANNELS, channel=None))
    for lanes in dict.fromkeys(track.channels for track in box.tracks if track.plays is None):
        if lanes != ALL_CHANNELS:
            few = [Spot(name, track.name) for track in box.tracks if track.channels == lanes]
            said = f"{some(few)} {'send' if len(few) > 1 else 'sends'} on {_only('channel', lanes)}"
            yield _on(name, "sends", said, partial(easing.all_tracks, channels=ALL_CHANNELS))


def _sounds(name: str, box: Box) -> Iterator[Ease]:
    """Pans, and jacks that do more than they seem to."""
    still = [Spot(name, thing.name) for thing in (*box.engines, *box.strips) if thing.pan == "fixed"]
    if still:
        said = f"{some(still)} {'stay' if len(still) > 1 else 'stays'} at centre"
        yield _on(name, "pan", said, easing.free_pans)
    for outlet in box.outlets:
        if outlet.alone == "sum":
            said = f"{name}/{outlet.left} carries both sides while {outlet.right} is empty"
            yield _on(name, "sum", said, partial(easing.all_connections, alone="own"))
        if outlet.stereo is not None:
            yield _on(name, "jack", f"{name}/{outlet.stereo} is one stereo jack", easing.two_jacks)
    for inlet in box.inlets:
        if inlet.alone == "copy":
            said = f"{name}/{inlet.left} feeds both sides while {inlet.right} is empty"
            yield _on(name, "copy", said, partial(easing.all_connections, alone="own"))


def _effects(jam: Jam, effect: str) -> Iterator[Ease]:
    """Who offers an effect, and what can trigger it."""
    able = [e.spot for e, thing in jam.rig.emitters.items() if effect in thing.offers]
    if not able:
        yield Ease(Fact("offers", f"no box here offers {effect}"))
        return
    said = f"{some(able)} {'offer' if len(able) > 1 else 'offers'} {effect}"
    yield Ease(Fact("offers", said), partial(easing.every_box, change=partial(easing.offering, effect=effect)))
    for spot, thing in ((e.spot, thing) for e, thing in jam.rig.emitters.items() if effect == DUCKING):
        if effect in thing.offers:
            keys = listing(thing.key) if thing.key else "nothing"
            every = tuple(engine.name for engine in jam.boxes[spot.box].engines)
            if set(every) - set(thing.key):
                said = f"{spot} can duck under {keys} only"
                yield _on(spot.box, "key", said, partial(easing.all_emitters, key=every))


def _shifts(jam: Jam, claims: Sequence[Claim]) -> Iterator[Ease]:
    """How far the engines go on which a part may live that is shifted."""
    for claim in (claim for claim in claims if claim.piece[0] == "shift"):
        part = claim.parts[0]
        on = jam.parts[part].on if Claim(dotted("part", part, "on"), ("on",), (part,)) in claims else None
        reach = {s: engine.shift for s, engine in jam.rig.engines.items() if on in (None, s.box, str(s))}
        farthest = max(reach.values(), default=0)
        best = [spot for spot, shift in reach.items() if shift == farthest]
        wanted = abs(_intent_of(jam, claim).shift[part])
        if wanted > farthest:
            said = f"{some(best)} can shift by {farthest} semitones either way"
            if len(best) < len(reach):
                said += ", and nothing farther" if on is None else f", and nothing on {on} farther"
            yield Ease(Fact("shift", said, farthest, wanted))


def _intent_of(jam: Jam, claim: Claim) -> Layer:
    intent = jam.intents[int(claim.statement.removeprefix("intent.")) - 1]
    assert isinstance(intent, Layer)
    return intent


def _programs(jam: Jam) -> Iterator[Ease]:
    for name, box in jam.boxes.items():
        for obeys in dict.fromkeys(engine.program_change for engine in box.engines):
            few = [Spot(name, engine.name) for engine in box.engines if engine.program_change == obeys]
            verb = ("obey" if obeys else "ignore") + ("s" if len(few) == 1 else "")
            said = f"{some(few)} {verb} program changes"
            yield _on(name, "program", said, easing.with_twins(few, program_change=not obeys))
        mute = [Spot(name, track.name) for track in box.tracks if not track.program_change]
        if mute:
            said = f"{some(mute)} {'send' if len(mute) > 1 else 'sends'} no program changes"
            yield _on(name, "program", said, partial(easing.all_tracks, program_change=True))


def _owners(jam: Jam) -> Iterator[Ease]:
    """Tracks that no strip goes with."""
    for name, box in jam.boxes.items():
        owned = {strip.track for strip in box.strips}
        without = [track.name for track in box.tracks if track.name not in owned and track.plays is None]
        if without and box.strips:
            said = f"no strip of {name} goes with {listing(without)}"
            yield _on(name, "owner", said, partial(easing.strips_with, tracks=without))


def _sockets(jam: Jam) -> Iterator[Ease]:
    """MIDI plugs that no cable joins."""
    plugs: dict[str, list[str]] = {}
    for name, box in jam.boxes.items():
        for plug in dict.fromkeys(port.plug for port in box.ports):
            plugs.setdefault(plug, []).append(name)
    if len(plugs) > 1:
        said = "; ".join(f"{plug} on {listing(names)}" for plug, names in plugs.items())
        eased = partial(easing.every_box, change=partial(easing.all_ports, plug="din"))
        yield Ease(Fact("wiring", f"the MIDI sockets are {said}"), eased)


def _on(name: str, kind: str, said: str, change: Callable[[Box], Box], has: int | None = None) -> Ease:
    return Ease(Fact(kind, said, has), lambda jam: jam.changed(boxes={**jam.boxes, name: change(jam.boxes[name])}))


def _number(count: int, one: str) -> str:
    return f"{count or 'no'} {one}" if count < 2 else f"{count} {one}s"


def _only(what: str, values: Iterable[Any]) -> str:
    listed = tuple(values)
    return f"{what if len(listed) == 1 else what + 's'} {listing(listed)} only" if listed else f"no {what}"


def _sides(outlet: Outlet) -> str:
    return f"{outlet.name} ({listing(outlet.sides)})" if outlet.mono is None else outlet.name
