"""What follows from the rules and makes the search quick: without any of it, the same plans are found."""

from collections import defaultdict

from solver.gear.words import ALL_CHANNELS, PANS, Pan
from solver.search.choices import Choices, Layer, Pass
from solver.search.model import NO, YES, Lit


def cut(choices: Choices) -> None:
    """Post all of it."""
    _clock_brings_notes(choices)
    for box in choices.rig.boxes:
        _share_no_channel(choices, [layer for layer in choices.jam.layers if choices.plays_from(layer, box) == YES])
    for effect in dict.fromkeys(want.effect for want in choices.jam.wanted):
        _share_no_side(choices, effect)


def _clock_brings_notes(choices: Choices) -> None:
    """The leader's notes take every way that its clock takes."""
    for port in choices.rig.ports:
        there = Pass("into", port)
        choices.model.implies(choices.clock.present("clock", there), choices.notes.present(choices.jam.leader, there))


def _share_no_channel(choices: Choices, layers: list[Layer]) -> None:
    """Layers that leave one box go wherever any of them goes, so one that needs MIDI shares its channel with none."""
    needing = [layer for layer in layers if _needs_midi(choices, layer)]
    others = [layer for layer in layers if layer not in needing]
    for channel in ALL_CHANNELS:
        needed = [choices.sends(layer, channel) for layer in needing]
        choices.model.at_most_one(needed)
        for other in others:
            choices.model.at_most_one([*needed, choices.sends(other, channel)])


def _needs_midi(choices: Choices, layer: Layer) -> bool:
    """Whether some part of the layer is played over MIDI wherever it lives."""
    return any(all(choices.plays_inside(layer, home) == NO for home in choices.homes(part)) for part in layer)


def _share_no_side(choices: Choices, effect: str) -> None:
    """What shares a side of an outlet shares every strip after it; so no side carries two amounts, or two keys."""
    voices, either, both = choices.voices, choices.model.either, choices.model.both
    carried: dict[object, dict[object, list[Lit]]] = defaultdict(lambda: defaultdict(list))
    for voice in voices.every:
        treats_itself = any(effect in choices.rig.engines[home].offers for home in voices.homes(voice))
        for want in voices.wanted(voice):
            if want.effect == effect and want.amount > 0 and not treats_itself:
                for outlet in voices.ways(voice):
                    for side in choices.rig.outlets[outlet].sides:
                        at: tuple[Pan, ...] = PANS if side == "mono" else ("centre", side)
                        falls = both(voices.leaves(voice, outlet), either(voices.panned(voice, pan) for pan in at))
                        carried[outlet, side][want.amount, want.key].append(falls)
    for amounts in carried.values():
        choices.model.at_most_one(either(parts) for parts in amounts.values())
