"""Rules of what is heard: every part reaches the ears, and stereo parts keep both sides."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.sound import Voice
from solver.flow.wires import is_midi, sockets, worded
from solver.flow.wording import listing
from solver.gear.words import SIDES, Spot
from solver.jam.intents import Stereo
from solver.rules.rule import Rule
from solver.search.choices import Choices


class Heard(Rule):
    """A7."""

    id = "A7"
    sentence = "You hear every part: it reaches the outlet you listen to, a mono part on both sides alike."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """No plug in the listening outlet; each voice on both of its sides, or on either where mains are mono."""
        ears = choices.jam.ears
        sides = choices.rig.outlets[ears].sides
        for side in sides:
            for plug in choices.wires.plugs(choices.rig.jack_of(ears, side, sends=True)):
                choices.model.forbid(plug)
        voices, model = choices.voices, choices.model
        for voice in voices.every:
            used, signals = voices.used(voice), voices.signals(voice)
            present = [model.either(voices.heard(signal, ears, side) for signal in signals) for side in sides]
            if choices.jam.mains == "mono" or len(signals) == 2:
                model.clause(-used, *present)
            else:
                for lit in present:
                    model.implies(used, lit)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield parts that are missing or not heard, and cables in the jacks you listen to."""
        for part in followed.jam.parts:
            if part not in followed.parts:
                yield f"{part} is not in the plan"
            else:
                yield from _unheard(followed, part)
        ears = followed.jam.ears
        taken = {Spot(ears.box, jack.label) for jack in followed.rig.outlets[ears].jacks}
        for cable in followed.plan.cables:
            if not is_midi(cable):
                for spot in (*sockets(cable.source), *sockets(cable.to)):
                    if spot in taken:
                        yield f"{worded(cable)} uses {spot}, where you listen"


def _unheard(followed: Followed, part: str) -> Iterator[str]:
    ears = followed.jam.ears
    sides = followed.rig.outlets[ears].sides
    on = [side for side in sides if followed.sound.voices_on(ears, side, part)]
    if not on:
        yield f"{part} does not reach {ears}"
    elif on != list(sides) and followed.jam.mains == "stereo" and part not in followed.stereo:
        yield f"{part} reaches {ears} on the {on[0]} only, a mono part is on both sides alike"


class KeepsSides(Rule):
    """A12."""

    id = "A12"
    sentence = "A stereo part keeps its left on the left and its right on the right, all the way to your ears."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """Each half ends on its own side alone; from one side, or from a mono outlet, both would go the same ways."""
        model, voices, ears = choices.model, choices.voices, choices.jam.ears
        for voice in (voice for voice in voices.every if voice.part in choices.jam.parts_of(Stereo)):
            used = voices.used(voice)
            for signal in voices.signals(voice):
                for side in SIDES:
                    there = voices.heard(signal, ears, side)
                    model.implies(used, there if side == signal.half else -there)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield stereo parts that start on one side, or whose sides get lost, mixed or swapped."""
        for part, planned in followed.parts.items():
            if part in followed.stereo:
                outlet = Spot(followed.homes[part].box, planned.outlet)
                if "mono" in followed.rig.outlets[outlet].sides:
                    yield f"{part} is stereo, its outlet {outlet} is mono"
                elif planned.pan != "centre":
                    yield f"{part} is stereo, its engine {planned.engine} is panned {planned.pan}"
                yield from _mixed(followed, part)


def _mixed(followed: Followed, part: str) -> Iterator[str]:
    ears = followed.jam.ears
    sides = followed.rig.outlets[ears].sides
    if "mono" in sides:
        yield f"{part} is stereo, {ears} is mono"
        return
    for side in sides:
        voices = followed.sound.voices_on(ears, side, part)
        if voices != (side,):
            yield f"the {side} of {ears} carries {_halves(voices)} of {part}, it should carry its {side}"


def _halves(voices: tuple[Voice, ...]) -> str:
    return f"the {listing(voices)}" if voices else "nothing"
