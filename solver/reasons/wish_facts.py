"""Facts that matter to certain wishes only: the drawer, the channels of a cable, effects, shifts, program changes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from functools import partial

from solver.flow.wording import counted, listing, some
from solver.gear.words import ALL_CHANNELS, DUCKING, Spot, dotted
from solver.jam.claims import Claim, intent_of
from solver.jam.intents import Layer
from solver.jam.jam import Jam
from solver.reasons import easing


def counted_facts(jam: Jam, claims: Sequence[Claim]) -> Iterator[easing.Ease]:
    """What is counted over the whole table: cables in the drawer, and channels."""
    yield from _drawer(jam, claims)
    yield from _channels(jam, claims)


def wish_facts(jam: Jam, claims: Sequence[Claim]) -> Iterator[easing.Ease]:
    """What matters to the kinds of wishes that there are among the claims."""
    kinds = {claim.piece[0] for claim in claims}
    yield from _homes(jam, claims)
    yield from _amounts(jam, claims)
    yield from _offered_there(jam, claims)
    for effect in _wanted(jam, claims):
        yield from _effects(jam, effect)
    yield from _shifts(jam, claims)
    if "program" in kinds:
        yield from _programs(jam)
    if "match" in kinds:
        yield from _owners(jam)


def _drawer(jam: Jam, claims: Iterable[Claim]) -> Iterator[easing.Ease]:
    """The kinds of cable of which there could be one more."""
    stated = {
        claim.piece[1] if claim.piece[0] == "cable" else "" for claim in claims if claim.piece[0].startswith("cable")
    }
    for kind in jam.rig.kinds if jam.cables is not None and stated else ():
        has = (jam.cables or {}).get(kind)
        if kind in stated or (has is None and "" in stated):
            said = f"the drawer holds {counted(has or 0, 'cable')} of {kind}"
            yield easing.Ease(easing.Fact("drawer", said, has or 0), partial(easing.one_more_cable, kind=kind))


def _channels(jam: Jam, claims: Sequence[Claim]) -> Iterator[easing.Ease]:
    """The 16 channels of a cable (MIDI 1.0 Detailed Specification 4.2.1, p. 3), without those that are avoided."""
    parts = {claim.parts[0] for claim in claims if claim.piece[0] == "part"}
    layers = [layer for layer in jam.layers if any(_needs_midi(jam, part) for part in parts.intersection(layer))]
    avoided = [claim.piece[1] for claim in claims if claim.piece[0] == "channel"]
    left = len(ALL_CHANNELS) - len(avoided)
    if len(layers) > left:
        avoiding = f", and you avoid all but {left}" if avoided else ""
        said = f"a MIDI cable has {len(ALL_CHANNELS)} channels{avoiding}"
        yield easing.Ease(easing.Fact("channels", said, left, len(layers)))


def _needs_midi(jam: Jam, part: str) -> bool:
    """Whether no engine of the place that is stated for the part is played by a track of its own box."""
    inside = {Spot(spot.box, track.plays) for spot, track in jam.rig.tracks.items() if track.plays is not None}
    on = jam.parts[part].on
    return not any(on in (spot.box, str(spot)) for spot in inside)


def _offered_there(jam: Jam, claims: Sequence[Claim]) -> Iterator[easing.Ease]:
    """Boxes that do not offer the effect that is wanted in them."""
    stated = {(c.statement, *c.piece[1:]) for c in claims if c.piece[0] == "treat"}
    wanted = (w for w in jam.wanted if w.amount and w.at and (w.statement, w.part, w.effect) in stated)
    for at, effect in dict.fromkeys((want.at, want.effect) for want in wanted):
        if not any(e.spot.box == at and effect in thing.offers for e, thing in jam.rig.emitters.items()):
            yield easing.Ease(easing.Fact("offers", f"{at} offers no {effect}"))


def _homes(jam: Jam, claims: Sequence[Claim]) -> Iterator[easing.Ease]:
    """Engines that several parts are to live on, and sounds that no engine of the place has."""
    on = {claim.parts[0]: jam.parts[claim.parts[0]].on for claim in claims if claim.piece[0] == "on"}
    for place, parts in Counter(on.values()).items():
        if parts > 1 and place is not None and "/" in place:
            yield easing.Ease(easing.Fact("holds", f"{place} holds one part", 1, parts))
    for part, sound in ((c.parts[0], jam.parts[c.parts[0]].sound) for c in claims if c.piece[0] == "sound"):
        place = on.get(part)
        engines = [e for spot, e in jam.rig.engines.items() if place in (None, spot.box, str(spot))]
        if all(engine.sound != sound for engine in engines):
            where = "no engine here" if place is None else f"{place}" if "/" in place else f"no engine of {place}"
            verb = "has not" if place is not None and "/" in place else "has"
            yield easing.Ease(easing.Fact("sound", f'{where} {verb} the sound "{sound}"'))


def _amounts(jam: Jam, claims: Sequence[Claim]) -> Iterator[easing.Ease]:
    """Parts of which several amounts of one effect are wanted."""
    stated = {(c.statement, *c.piece[1:]) for c in claims if c.piece[0] == "treat"}
    wanted: dict[tuple[str, str], set[int]] = {}
    for want in jam.wanted:
        if (want.statement, want.part, want.effect) in stated:
            wanted.setdefault((want.part, want.effect), set()).add(want.amount)
    for (part, effect), amounts in wanted.items():
        if len(amounts) > 1:
            yield easing.Ease(easing.Fact("amounts", f"{part} can have one amount of {effect}", 1, len(amounts)))


def _effects(jam: Jam, effect: str) -> Iterator[easing.Ease]:
    """Who offers an effect, and what can trigger it."""
    able = [e.spot for e, thing in jam.rig.emitters.items() if effect in thing.offers]
    if not able:
        yield easing.Ease(easing.Fact("offers", f"no box here offers {effect}"))
        return
    said = f"only {some(able)} {'offer' if len(able) > 1 else 'offers'} {effect}"
    yield easing.Ease(
        easing.Fact("offers", said), partial(easing.every_box, change=partial(easing.offering, effect=effect))
    )
    for spot, thing in ((e.spot, thing) for e, thing in jam.rig.emitters.items() if effect == DUCKING):
        if effect in thing.offers:
            keys = listing(thing.key) if thing.key else "nothing"
            every = tuple(engine.name for engine in jam.boxes[spot.box].engines)
            if set(every) - set(thing.key):
                said = f"{spot} can duck under {keys} only"
                yield easing.on_box(spot.box, "key", said, easing.changing("engines", "strips", key=every))


def _wanted(jam: Jam, claims: Iterable[Claim]) -> Iterable[str]:
    """The effects of which the claims want more than nothing."""
    treated = {(claim.statement, *claim.piece[1:]) for claim in claims if claim.piece[0] == "treat"}
    return dict.fromkeys(w.effect for w in jam.wanted if w.amount and (w.statement, w.part, w.effect) in treated)


def _shifts(jam: Jam, claims: Sequence[Claim]) -> Iterator[easing.Ease]:
    """How far the engines go on which a part may live that is shifted."""
    for claim in claims:
        stated = intent_of(jam, claim)
        if claim.piece[0] != "shift" or stated is None or not isinstance(stated[1], Layer):
            continue
        part = claim.parts[0]
        on = jam.parts[part].on if Claim(dotted("part", part, "on"), ("on",), (part,)) in claims else None
        reach = {s: engine.shift for s, engine in jam.rig.engines.items() if on in (None, s.box, str(s))}
        farthest = max(reach.values(), default=0)
        best = [spot for spot, shift in reach.items() if shift == farthest]
        wanted = abs(stated[1].shift[part])
        if wanted > farthest:
            said = f"{some(best)} can shift by {farthest} semitones either way" if farthest else "nothing can shift"
            if not farthest:
                said += " here" if on is None else f" on {on}"
            elif len(best) < len(reach):
                said += ", and nothing farther" if on is None else f", and nothing on {on} farther"
            yield easing.Ease(easing.Fact("shift", said, farthest, wanted))


def _programs(jam: Jam) -> Iterator[easing.Ease]:
    for name, box in jam.boxes.items():
        for obeys in dict.fromkeys(engine.program_change for engine in box.engines):
            few = [Spot(name, engine.name) for engine in box.engines if engine.program_change == obeys]
            verb = ("obey" if obeys else "ignore") + ("s" if len(few) == 1 else "")
            said = f"{some(few)} {verb} program changes"
            twins = easing.with_twins(few, program_change=False)
            change = twins if obeys else easing.changing("engines", among=few, program_change=True)
            yield easing.on_box(name, "program", said, change)
        mute = [Spot(name, track.name) for track in box.tracks if not track.program_change]
        if mute:
            said = f"{some(mute)} {'send' if len(mute) > 1 else 'sends'} no program changes"
            yield easing.on_box(name, "program", said, easing.changing("tracks", among=mute, program_change=True))


def _owners(jam: Jam) -> Iterator[easing.Ease]:
    """Tracks that no strip goes with."""
    for name, box in jam.boxes.items():
        owned = {strip.track for strip in box.strips}
        without = [track.name for track in box.tracks if track.name not in owned and track.plays is None]
        if without and box.strips:
            said = f"no strip of {name} goes with {listing(without)}"
            yield easing.on_box(name, "owner", said, partial(easing.strips_with, tracks=without))
