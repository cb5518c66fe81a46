"""Posts at which values tied settings are while a jam is played: what the jam needs, and no more."""

from itertools import product

from solver.gear.rig import Emission
from solver.gear.words import PANS, Spot
from solver.jam.intents import Layer
from solver.search.choices import Choices
from solver.search.ground import Place, Value
from solver.search.model import NO, YES, Lit


def hold_states(choices: Choices) -> None:
    """Post it for every engine, strip and track that is tied."""
    tied = choices.ground.tied
    for engine in choices.rig.engines:
        if engine in tied["engine"]:
            _hear(choices, engine)
            _hold_engine(choices, engine)
    for strip in choices.rig.strips:
        if strip in tied["strip"]:
            carries = choices.carries(strip)
            for outlet in choices.rig.ways_out(Emission("strip", strip)):
                _hold(choices, Place("strip", strip, "outlet"), outlet.name, carries, choices.emits(strip, outlet))
            for pan in PANS:
                _hold(choices, Place("strip", strip, "pan"), pan, carries, choices.pans(strip, pan))
            _treat(choices, Emission("strip", strip), carries)
    for track, gear in choices.rig.tracks.items():
        place = Place("track", track, "channel")
        for layer, option in product(choices.jam.layers if track in tied["track"] else (), gear.options):
            _hold(choices, place, option, choices.plays(layer, track), choices.sends(layer, option))


def _hold(choices: Choices, place: Place, value: Value, *given: Lit) -> None:
    """Where all that is given holds, the setting is at the value."""
    choices.model.forbid(*given, -choices.state(place, value))


def _hear(choices: Choices, engine: Spot) -> None:
    """A tied engine is on the channel of its part; else it is where no note strikes it, or its level is at zero."""
    model, gear = choices.model, choices.rig.engines[engine]
    place = Place("engine", engine, "channel")
    zero = choices.at_zero(engine)
    inside = model.either(choices.plays_inside(layer, engine) for layer in choices.jam.layers)
    tenants = [part for part in choices.jam.parts if choices.lives(part, engine) != NO]
    occupied = model.either(choices.lives(part, engine) for part in tenants)
    model.forbid(zero, occupied)
    model.clause(-inside, occupied, zero)
    may_be = choices.jam.quiet_options(gear) if choices.hears_midi(engine.box) else (gear.stands,)
    if "off" in may_be:
        model.clause(-zero, inside)
    for option in gear.options:
        there = choices.state(place, option)
        if option not in may_be:
            model.forbid(there)
        struck = choices.struck(engine.box, option)
        model.forbid(there, struck, -occupied, -zero)
        for part in tenants:
            over_midi = choices.over_midi(part, engine)
            model.forbid(choices.lives(part, engine), -over_midi, there, struck)
            sent = YES if option == "all" else choices.sends(choices.jam.layer_of(part), option)
            _hold(choices, place, option, over_midi, NO if option == "off" else sent)


def _hold_engine(choices: Choices, engine: Spot) -> None:
    """The outlet, pan, shift and amounts of a tied engine are what its part needs."""
    voices = choices.voices
    for part in choices.jam.parts:
        lives = choices.lives(part, engine)
        if lives == NO:
            continue
        for voice in (voice for voice in voices.of(part) if engine in voices.homes(voice)):
            for outlet in voices.ways(voice):
                _hold(choices, Place("engine", engine, "outlet"), outlet.name, lives, voices.leaves(voice, outlet))
            for pan in PANS:
                _hold(choices, Place("engine", engine, "pan"), pan, lives, voices.panned(voice, pan))
        shifts = [intent.shift[part] for _, intent in choices.jam.stated(Layer) if part in intent.shift]
        _hold(choices, Place("engine", engine, "shift"), shifts[0] if shifts else 0, lives)
    occupied = choices.model.either(choices.lives(part, engine) for part in choices.jam.parts)
    _treat(choices, Emission("engine", engine), occupied)


def _treat(choices: Choices, emitter: Emission, busy: Lit) -> None:
    """Amounts and key of a strip or engine in use; what no part there wants stays at 0."""
    gear = choices.rig.emitters[emitter]
    wanted = {want.effect for jam in choices.ground.jams for want in jam.wanted}
    for effect in (effect for effect in gear.offers if effect in wanted):
        place, amounts = Place(emitter.of, emitter.spot, effect), choices.amounts(emitter, effect)
        for amount, lit in amounts.items():
            _hold(choices, place, amount, busy, lit)
        _hold(choices, place, 0, busy, *(-lit for lit in amounts.values()))
    for part, lit in choices.keys(emitter).items():
        for name in gear.key:
            home = choices.lives(part, Spot(emitter.spot.box, name))
            _hold(choices, Place(emitter.of, emitter.spot, "key"), name, busy, lit, home)
