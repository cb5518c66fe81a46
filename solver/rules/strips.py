"""Rules of mixer strips: one strip a part and box, and separate parts on separate strips."""

from collections.abc import Iterator
from itertools import permutations, product

from solver.flow.followed import Followed
from solver.flow.wording import listing
from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.intents import Separate
from solver.rules.rule import Rule
from solver.search.choices import Choices
from solver.search.voices import Voice


class OneStrip(Rule):
    """A8."""

    id = "A8"
    sentence = "A part enters a box over one strip, a stereo part over one stereo strip or a pair set alike."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """A mono voice enters one strip of a box at most; a stereo voice one stereo strip, or two alike mono strips."""
        for voice, box in product(choices.voices.every, choices.rig.boxes):
            strips = [strip for strip in choices.rig.strips if strip.box == box]
            if len(choices.voices.signals(voice)) == 1:
                choices.model.at_most_one(choices.voices.enters(voice, strip) for strip in strips)
            else:
                _pair(choices, voice, strips)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield boxes that a part enters over too many strips, or over the wrong ones."""
        for part, entered in followed.sound.entered.items():
            for box in dict.fromkeys(strip.box for strip in entered):
                strips = followed.strips_in(part, box)
                if part in followed.stereo:
                    yield from _stereo(followed, part, strips)
                elif len(strips) > 1:
                    yield f"{part} enters {box} over {listing(strips)}, one strip is allowed"


def _pair(choices: Choices, voice: Voice, strips: list[Spot]) -> None:
    """Hold a stereo voice to one stereo strip, or two mono strips with one half each and equal settings."""
    model, voices = choices.model, choices.voices
    left, right = voices.signals(voice)
    stereo = [strip for strip in strips if choices.rig.is_stereo_strip(strip)]
    mono = [strip for strip in strips if strip not in stereo]
    any_mono = model.either(voices.enters(voice, strip) for strip in mono)
    model.at_most_one([*(voices.enters(voice, strip) for strip in stereo), any_mono])
    for half in (left, right):
        model.at_most_one(voices.into(half, strip) for strip in mono)
        model.clause(-any_mono, *(voices.into(half, strip) for strip in mono))
    for strip in mono:
        model.forbid(voices.into(left, strip), voices.into(right, strip))
    for one, other in permutations(mono, 2):
        paired = model.both(voices.into(left, one), voices.into(right, other))
        choices.alike(paired, Emission("strip", one), Emission("strip", other))


def _stereo(followed: Followed, part: str, strips: tuple[Spot, ...]) -> Iterator[str]:
    mono = [strip for strip in strips if not followed.rig.is_stereo_strip(strip)]
    if len(strips) == 1 and not mono:
        return
    if len(strips) != 2 or len(mono) != 2:
        yield f"{part} enters {listing(strips)}: a stereo part takes one stereo strip, or one strip for each side"
        return
    voices = [followed.sound.voices_in(strip, part) for strip in strips]
    if sorted(voices) != [("left",), ("right",)]:
        said = " and ".join(f"the {listing(v)} over {s}" for s, v in zip(strips, voices, strict=True))
        yield f"{part} enters with {said}: one strip takes the left, the other the right"
    yield from _unlike(followed, part, Emission("strip", strips[0]), Emission("strip", strips[1]))


def _unlike(followed: Followed, part: str, one: Emission, other: Emission) -> Iterator[str]:
    effects = followed.effects
    for effect in dict.fromkeys((*effects.amounts(one), *effects.amounts(other))):
        amounts = effects.amount(one, effect), effects.amount(other, effect)
        if amounts[0] != amounts[1]:
            said = f"{one.spot} has {effect} {amounts[0]} and {other.spot} has {amounts[1]}"
            yield f"{said}, the two sides of {part} are set alike"
    keys = effects.key(one), effects.key(other)
    if keys[0] != keys[1]:
        said = f"{one.spot} has {keys[0] or 'no part'} as its key and {other.spot} has {keys[1] or 'no part'}"
        yield f"{said}, the two sides of {part} are set alike"


class Apart(Rule):
    """A11."""

    id = "A11"
    sentence = "Parts stated separate have strips or engines of their own in the box named."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """Each part enters a strip of the box or lives there; no strip of it takes two of them."""
        for _, intent in choices.jam.stated(Separate):
            box = intent.at or choices.jam.leader
            strips = [strip for strip in choices.rig.strips if strip.box == box]
            for part in intent.separate:
                at_home = (choices.lives(part, engine) for engine in choices.rig.engines if engine.box == box)
                choices.model.clause(*(choices.hearing.part_over(part, strip) for strip in strips), *at_home)
            for strip in strips:
                choices.model.at_most_one(choices.enters(part, strip) for part in intent.separate)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield separate parts that pass no strip of the box, and strips that carry two of them."""
        for _, intent in followed.jam.stated(Separate):
            box = intent.at or followed.jam.leader
            carried: dict[Spot, list[str]] = {}
            for part in (part for part in intent.separate if part in followed.parts):
                strips = followed.strips_in(part, box)
                heard = not set(strips).isdisjoint(followed.heard_over[part])
                if strips and not heard and followed.homes[part].box != box:
                    yield f"{part} goes nowhere from {listing(strips)}, it should be separate in {box}"
                if not strips and followed.homes[part].box != box:
                    yield f"{part} passes no strip of {box} and has no engine there, it should be separate there"
                for strip in strips:
                    carried.setdefault(strip, []).append(part)
            for strip, parts in carried.items():
                if len(parts) > 1:
                    yield f"{listing(parts)} enter {strip} together, they should be separate"
