"""Rules of effects: each wanted amount once on a part's way, and ducking with its key."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.wording import listing
from solver.gear.rig import Emission
from solver.gear.words import DUCKING, Spot
from solver.jam.jam import Wanted
from solver.rules.rule import Rule
from solver.search.choices import Choices
from solver.search.model import NO, Lit
from solver.search.voices import Voice


class Amounts(Rule):
    """A9."""

    id = "A9"
    sentence = "A part gets each amount you want of an effect once on its way, and nothing that no part there wants."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """One amount an effect and emitter, only where a part there wants it; each wanted amount is had once."""
        voices = choices.voices
        wanted = [(voice, want) for voice in voices.every for want in voices.wanted(voice)]
        for emitter, gear in choices.rig.emitters.items():
            for effect in gear.offers:
                amounts = choices.amounts(emitter, effect)
                choices.model.at_most_one(amounts.values())
                for amount, lit in amounts.items():
                    wanting = (voice for voice, want in wanted if (want.effect, want.amount) == (effect, amount))
                    choices.model.clause(-lit, *(choices.hearing.treats(emitter, voice) for voice in wanting))
        for voice, want in wanted:
            _have_once(choices, voice, want)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield amounts that a part misses or gets twice, that nobody wants, or that cannot be set."""
        effects = followed.effects
        for wanted in followed.jam.wanted:
            if wanted.part in followed.parts:
                yield from _missed(followed, wanted)
        for emitter in effects.emitters:
            yield from _unwanted(followed, emitter)


def _have_once(choices: Choices, voice: Voice, wanted: Wanted) -> None:
    """A voice in use meets its amount where it is heard from, once; no other amount of the effect is anywhere near it.

    The two strips of a stereo voice are alike, so following its left half counts them once.
    """
    model, voices = choices.model, choices.voices
    half = voices.signals(voice)[0]
    had: list[Lit] = []
    for emitter in choices.rig.emitters:
        for amount, lit in choices.amounts(emitter, wanted.effect).items():
            passes = voices.passes(voice, emitter)
            if amount != wanted.amount or wanted.at not in (None, emitter.spot.box):
                model.forbid(passes, lit)
                continue
            counts = passes if emitter.of == "engine" else voices.into(half, emitter.spot)
            had.append(model.both(counts, lit))
            model.forbid(passes, lit, -choices.hearing.treats(emitter, voice))
    if wanted.amount > 0:
        model.exactly_one([-voices.used(voice), *had])


def _missed(followed: Followed, wanted: Wanted) -> Iterator[str]:
    effects, part, effect, amount = followed.effects, wanted.part, wanted.effect, wanted.amount
    applied = [s for s in effects.ways[part] if any(effects.amount(emitter, effect) for emitter in s)]
    for emitter in (emitter for emitters in applied for emitter in emitters):
        found = effects.amount(emitter, effect)
        if found != amount:
            yield f"{emitter.spot} has {effect} {found}, {part} wants {amount}"
        elif wanted.at is not None and emitter.spot.box != wanted.at:
            yield f"{emitter.spot} has {effect} {found}, {part} wants it at {wanted.at}"
        elif emitter.of == "strip" and emitter.spot not in followed.heard_over[part]:
            yield f"{emitter.spot} has {effect} {found}, {part} goes nowhere from there"
    if amount and not applied:
        where = f"at {wanted.at}" if wanted.at is not None else "on its way"
        yield f"{part} wants {effect} {amount} {where}, its engine and strips have 0"
    if amount and len(applied) > 1:
        places = listing(" + ".join(str(emitter.spot) for emitter in emitters) for emitters in applied)
        yield f"{part} gets {effect} at {places}, it wants {amount} once"


def _unwanted(followed: Followed, emitter: Emission) -> Iterator[str]:
    effects, gear = followed.effects, followed.effects.gear(emitter)
    passing = effects.passing.get(emitter, ())
    for effect, amount in effects.amounts(emitter).items():
        if effect not in gear.offers:
            yield f"{emitter.spot} has {effect} {amount}, it does not offer {effect}"
        if not any(w.effect == effect and w.amount and w.part in passing for w in followed.jam.wanted):
            yield f"{emitter.spot} has {effect} {amount}, no part there wants {effect}"


class Keys(Rule):
    """A10."""

    id = "A10"
    sentence = "What ducks a part follows the key you name, a part on an engine that can trigger it."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """One key where something ducks, none elsewhere; it is the key that a ducked part there asks for."""
        model, voices = choices.model, choices.voices
        every = ((voice, want) for voice in voices.every for want in voices.wanted(voice))
        ducked = [(voice, want.key) for voice, want in every if want.effect == DUCKING and want.amount > 0]
        for emitter, gear in choices.rig.emitters.items():
            keys, ducks = choices.keys(emitter), model.either(choices.amounts(emitter, DUCKING).values())
            model.at_most_one(keys.values())
            model.clause(-ducks, *keys.values())
            for key, lit in keys.items():
                model.implies(lit, ducks)
                listed = (choices.lives(key, Spot(emitter.spot.box, name)) for name in gear.key)
                model.clause(-lit, *listed)
                model.clause(-lit, *(voices.passes(voice, emitter) for voice, wanted in ducked if wanted == key))
            for voice, wanted in ducked if ducks != NO else ():
                model.clause(-voices.passes(voice, emitter), -ducks, keys.get(wanted or "", NO))

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield ducking without a key, keys that cannot trigger it, wrong keys, and keys without ducking."""
        effects = followed.effects
        for emitter in effects.emitters:
            yield from _key_faults(followed, emitter)
        for wanted in followed.jam.wanted:
            if wanted.effect == DUCKING and wanted.amount and wanted.part in followed.parts:
                for emitter in (emitter for emitters in effects.ways[wanted.part] for emitter in emitters):
                    key = effects.key(emitter)
                    if effects.amount(emitter, DUCKING) and key != wanted.key:
                        said = f"{key} triggers" if key is not None else "no part triggers"
                        yield f"{said} the ducking of {wanted.part} at {emitter.spot}, {wanted.part} wants {wanted.key}"


def _key_faults(followed: Followed, emitter: Emission) -> Iterator[str]:
    key, ducks = followed.effects.key(emitter), followed.effects.amount(emitter, DUCKING)
    if key is None:
        if ducks:
            yield f"{emitter.spot} has ducking {ducks} and no key"
        return
    if not ducks:
        yield f"{emitter.spot} has {key} as its key and no ducking"
        return
    home = followed.homes.get(key)
    listed = followed.effects.gear(emitter).key
    if home is None:
        yield f"{emitter.spot} has {key} as its key, no such part is in the plan"
    elif home.box != emitter.spot.box or home.name not in listed:
        can = listing(f"{emitter.spot.box}/{name}" for name in listed)
        yield f"{emitter.spot} has {key} on {home} as its key, {can} can trigger it"
