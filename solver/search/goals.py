"""The goals in their strict order: fewest cables, fewest silenced engines, fewest moved settings, tidy."""

from collections.abc import Iterator

from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.search.choices import Choices
from solver.search.model import Lit


def leave_alone(choices: Choices) -> None:
    """What carries no part stays as it stands; only then does moving it cost nothing to look at."""
    for emitter in choices.rig.emitters:
        carries = choices.model.either(choices.passes(part, emitter) for part in choices.jam.parts)
        choices.model.clause(carries, choices.emits(emitter, choices.rig.ways_out(emitter)[0]))
        choices.model.clause(carries, choices.pans(emitter, "centre"))


def cables(choices: Choices) -> list[Lit]:
    """Every cable counts one."""
    return [given for _, given in choices.wires.every()]


def silenced(choices: Choices) -> list[Lit]:
    """Every engine at level zero counts one."""
    return [choices.silenced(engine) for engine in choices.rig.engines]


def moved(choices: Choices) -> list[Lit]:
    """Every setting that leaves its place counts one: channels, outlets, pans, levels."""
    rig, both = choices.rig, choices.model.both
    tracks = [
        both(choices.plays(layer, track), -choices.sends(layer, thing.stands))
        for layer in choices.jam.layers
        for track, thing in rig.tracks.items()
    ]
    engines = [-choices.listens(engine, thing.stands) for engine, thing in rig.engines.items()]
    outlets = [-choices.emits(emitter, rig.ways_out(emitter)[0]) for emitter in rig.emitters if rig.ways_out(emitter)]
    pans = [-choices.pans(emitter, "centre") for emitter in rig.emitters]
    return [*tracks, *engines, *outlets, *pans, *silenced(choices)]


def tidy(choices: Choices) -> Iterator[Lit]:
    """Every choice from the one that should hold soonest: file order, left before right, low numbers first.

    The tidiest plan is the one that is first in the order of these choices, each held where it can be.
    """
    rig, jam, wires = choices.rig, choices.jam, choices.wires
    for part in jam.parts:
        yield from (choices.lives(part, engine) for engine in rig.engines)
    for layer in jam.layers:
        yield from (choices.plays(layer, track) for track in rig.tracks)
    for layer in jam.layers:
        yield from (choices.sends(layer, channel) for channel in choices.track_options)
    for part in jam.parts:
        for engine in choices.homes(part):
            yield from _placing(choices, Emission("engine", engine))
    for part in jam.parts:
        yield from (choices.enters(part, strip) for strip in rig.strips)
    yield from (cable.given for cable in wires.audio)
    for cable in wires.breakouts:
        yield cable.given
        yield from (lit for leg in cable.legs for lit in leg.values())
    yield from (cable.given for cable in wires.leads)
    for engine, thing in rig.engines.items():
        yield choices.listens(engine, thing.stands)
        yield choices.listens(engine, "off")
        yield from (choices.listens(engine, channel) for channel in range(1, 17))
    for strip in rig.strips:
        yield from _placing(choices, Emission("strip", strip))


def _placing(choices: Choices, emitter: Emission) -> Iterator[Lit]:
    yield from (choices.emits(emitter, outlet) for outlet in choices.rig.ways_out(emitter))
    yield from (choices.pans(emitter, pan) for pan in choices.rig.pans(emitter))


def differences(choices: Choices) -> list[Lit]:
    """What tells two plans really apart: a cable, or the engine, side, strip or track of a part.

    Channels do not: renumbering alone makes no other plan.
    """
    wires, jam = choices.wires, choices.jam
    told = cables(choices)
    told += [lit for cable in wires.breakouts for leg in cable.legs for lit in leg.values()]
    told += [choices.plays(layer, track) for layer in jam.layers for track in choices.rig.tracks]
    for part in jam.parts:
        told += [choices.enters(part, strip) for strip in choices.rig.strips]
        told += [lit for engine in choices.homes(part) for lit in _side(choices, part, engine)]
    return told


def _side(choices: Choices, part: str, engine: Spot) -> Iterator[Lit]:
    lives, emitter = choices.lives(part, engine), Emission("engine", engine)
    yield lives
    for outlet in choices.rig.ways_out(emitter):
        goes = choices.model.both(lives, choices.emits(emitter, outlet))
        yield goes
        if len(choices.rig.outlets[outlet].sides) == 2:
            yield from (choices.model.both(goes, choices.pans(emitter, pan)) for pan in choices.rig.pans(emitter))
