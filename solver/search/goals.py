"""The goals in their strict order: fewest cables, fewest silenced engines, fewest moved settings, tidy.

In a set each jam has its own; cables, and what one value serves all jams, count with the first.
"""

from collections.abc import Iterator, Mapping
from typing import Literal

from solver.gear.rig import Emission
from solver.gear.words import ALL_CHANNELS, PANS, Pan, Spot
from solver.search.choices import Choices
from solver.search.ground import Place
from solver.search.model import NO, YES, Lit


def leave_alone(choices: Choices) -> None:
    """A strip that carries no part stays as it stands."""
    for strip in choices.rig.strips:
        carries = choices.carries(strip)
        for first in choices.rig.ways_out(Emission("strip", strip))[:1]:
            choices.model.clause(carries, choices.emits(strip, first))
        choices.model.clause(carries, choices.pans(strip, "centre"))


def cables(choices: Choices) -> list[Lit]:
    """Every cable counts one."""
    return [given for _, given in choices.wires.every()]


def silenced(choices: Choices) -> list[Lit]:
    """Every engine at level zero counts one: without a part, played inside its box or with nowhere else to go."""
    return [lit for engine in choices.rig.engines for lit in _silenced(choices, engine)]


def _silenced(choices: Choices, engine: Spot) -> Iterator[Lit]:
    both, either, level = choices.model.both, choices.model.either, Place("engine", engine, "level")
    if choices.is_tied(level):
        yield choices.away(level)
        return
    no_other_way = both(choices.stirred(engine), -choices.escape(engine))
    for lit in choices.idle(engine):
        yield both(lit, either([_played_inside(choices, engine), no_other_way]))


def moved(choices: Choices) -> list[Lit]:
    """Every setting that leaves its place counts one: channels, outlets, pans, levels."""
    return [*moved_notes(choices), *moved_sounds(choices)]


def moved_notes(choices: Choices) -> list[Lit]:
    """The settings that leave their place for the sake of notes: channels and levels."""
    return [*_moved_tracks(choices), *_moved_engines(choices)]


def moved_sounds(choices: Choices) -> list[Lit]:
    """The settings that leave their place for the sake of sound: outlets and pans."""
    return list(_moved_sounds(choices))


def _played_inside(choices: Choices, engine: Spot) -> Lit:
    return choices.model.either(choices.plays_inside(layer, engine) for layer in choices.jam.layers)


def _moved_tracks(choices: Choices) -> Iterator[Lit]:
    for track, gear in choices.rig.tracks.items():
        place = Place("track", track, "channel")
        if choices.is_once(place):
            yield choices.away(place)
            continue
        for layer in choices.jam.layers:
            yield choices.model.both(choices.plays(layer, track), -choices.sends(layer, gear.stands))


def _moved_engines(choices: Choices) -> Iterator[Lit]:
    both = choices.model.both
    for part in choices.jam.parts:
        layer = choices.jam.layer_of(part)
        for channel in dict.fromkeys(gear.stands for gear in choices.rig.engines.values()):
            stays = YES if channel == "all" else choices.sends(layer, channel)
            yield both(choices.stands(part, channel), -stays)
    for engine in choices.rig.engines:
        if choices.is_tied(Place("engine", engine, "channel")):
            yield from (choices.away(Place("engine", engine, what)) for what in ("channel", "level"))
    yield from out_of_the_way(choices, {})


def out_of_the_way(choices: Choices, already: Mapping[Spot, int]) -> Iterator[Lit]:
    """Every engine that no note is for, but some would reach: it leaves its channel, or its level goes to zero.

    Those that are tied are left out.

    Args:
        choices: What is open.
        already: How many of the engines that one stands for are out of the way, and count no more.
    """
    both, either = choices.model.both, choices.model.either
    for engine in choices.rig.engines:
        if choices.is_tied(Place("engine", engine, "channel")):
            continue
        stirred = choices.stirred(engine)
        for part in choices.jam.parts:
            yield both(choices.lives(part, engine), -choices.over_midi(part, engine), stirred)
        idle = choices.idle(engine)[already.get(engine, 0) :]
        yield from (both(lit, either([_played_inside(choices, engine), stirred])) for lit in idle)


def _moved_sounds(choices: Choices) -> Iterator[Lit]:
    both, voices = choices.model.both, choices.voices
    for part in choices.jam.parts:
        for voice in voices.of(part):
            has, home = voices.has(part, voice), voice.home
            pan, outlet = (Place("engine", home, what) for what in ("pan", "outlet"))
            if not choices.is_once(pan):
                yield both(has, -voices.panned(voice, "centre"))
            if not choices.is_once(outlet):
                yield from (both(has, -voices.leaves(voice, first)) for first in voices.ways(voice)[:1])
    for strip in choices.rig.strips:
        pan, outlet = (Place("strip", strip, what) for what in ("pan", "outlet"))
        if not choices.is_once(pan):
            yield -choices.pans(strip, "centre")
        if not choices.is_once(outlet):
            first = choices.rig.ways_out(Emission("strip", strip))[:1]
            yield from (-choices.emits(strip, way) for way in first)
    things: list[tuple[Literal["engine", "strip"], Spot]] = [("engine", spot) for spot in choices.rig.engines]
    things += [("strip", spot) for spot in choices.rig.strips]
    places = (Place(of, spot, what) for of, spot in things for what in ("pan", "outlet"))
    yield from (choices.away(place) for place in places if choices.is_once(place))


def tidy(choices: Choices) -> list[Lit]:
    """What is wished for tidiness, the first wish above all: file order, left before right, low numbers first."""
    rig, jam, wires, voices = choices.rig, choices.jam, choices.wires, choices.voices
    wishes: list[Lit] = []
    for part in jam.parts:
        wishes += [choices.lives(part, engine) for engine in rig.engines]
        for voice in voices.of(part):
            wishes += [voices.leaves(voice, outlet) for outlet in voices.ways(voice)]
            wishes += [voices.panned(voice, pan) for pan in PANS]
            wishes += [voices.enters(voice, strip) for strip in rig.strips]
    for layer in jam.layers:
        wishes += [choices.plays(layer, track) for track in rig.tracks]
        wishes += [choices.sends(layer, "off"), *(choices.sends(layer, channel) for channel in ALL_CHANNELS)]
    wishes += [lit for cable in wires.breakouts for leg in cable.legs for lit in leg.values()]
    wishes += [cable.given for cable in (*wires.audio, *wires.leads)]
    for strip in rig.strips:
        wishes += [choices.emits(strip, outlet) for outlet in rig.ways_out(Emission("strip", strip))]
        wishes += [choices.pans(strip, pan) for pan in PANS]
    tuned = (Place("engine", engine, "channel") for engine in rig.engines)
    wishes += [
        choices.state(place, channel)
        for place in filter(choices.is_tied, tuned)
        for channel in (choices.ground.stands(place), "off", *ALL_CHANNELS)
    ]
    order = list(rig.boxes)
    for emitter in sorted(rig.emitters, key=lambda emitter: order.index(emitter.spot.box)):
        effects = rig.emitters[emitter].offers
        wishes += [lit for effect in effects for lit in choices.amounts(emitter, effect).values()]
    return list(dict.fromkeys(lit for lit in wishes if lit not in (YES, NO)))


def differences(choices: Choices) -> list[Lit]:
    """What tells two plans really apart: a cable, or the engine, side, strip or track of a part.

    Channels do not, nor which of several engines or strips that are alike: renumbering alone makes no other plan.
    """
    wires, jam = choices.wires, choices.jam
    told = cables(choices)
    told += [lit for cable in wires.breakouts for leg in cable.legs for lit in leg.values()]
    told += [choices.plays(layer, track) for layer in jam.layers for track in choices.rig.tracks]
    for part in jam.parts:
        told += [choices.enters(part, strip) for strip in choices.rig.strips]
        told += [choices.lives(part, engine) for engine in choices.homes(part)]
        for outlet in choices.ways(part):
            goes = choices.leaves(part, outlet)
            told += [goes, *(choices.model.both(goes, choices.panned(part, pan)) for pan in _told(choices, outlet))]
    return told


def _told(choices: Choices, outlet: Spot) -> tuple[Pan, ...]:
    return PANS if len(choices.rig.outlets[outlet].sides) == 2 else ()
