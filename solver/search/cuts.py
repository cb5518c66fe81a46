"""What follows from the rules and makes the search quick: without any of it, the same plans are found."""

from collections import defaultdict
from collections.abc import Iterator
from math import ceil

from solver.gear.rig import Emission
from solver.gear.words import ALL_CHANNELS, PANS, Channel, Pan, Spot
from solver.search.choices import Choices
from solver.search.model import NO, YES, Lit
from solver.search.played import Layer, Pass
from solver.search.voices import Voice


def cut(choices: Choices) -> None:
    """Post all of it."""
    _clock_brings_notes(choices)
    for box in choices.rig.boxes:
        _share_no_channel(choices, [layer for layer in choices.jam.layers if choices.plays_from(layer, box) == YES])
    for effect in dict.fromkeys(want.effect for want in choices.jam.wanted):
        _share_no_side(choices, effect)
        _treat_what_is_plugged(choices, effect)
    _fill_boxes(choices)
    _strike_by_channels(choices)


def _clock_brings_notes(choices: Choices) -> None:
    """The leader's notes take every way that its clock takes."""
    for port in choices.rig.ports:
        there = Pass("into", port)
        leader = choices.jam.leader
        choices.model.implies(choices.clock.present(leader, there), choices.notes.present(leader, there))


def _share_no_channel(choices: Choices, layers: list[Layer]) -> None:
    """Layers that leave one box go wherever any of them goes, so one that needs MIDI shares its channel with none."""
    needing = [layer for layer in layers if _needs_midi(choices, layer)]
    others = [layer for layer in layers if layer not in needing]
    if len(needing) > len(ALL_CHANNELS):
        choices.model.require(NO)
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
    for outlet, gear in choices.rig.outlets.items():
        treated = _treated_by(choices, outlet, effect)
        for side in gear.sides:
            at: tuple[Pan, ...] = PANS if side == "mono" else ("centre", side)
            choices.model.at_most_one(
                either(
                    both(voices.leaves(voice, outlet), either(voices.panned(voice, pan) for pan in at))
                    for voice in alike
                )
                for alike in treated
            )
        leaving = [either(voices.leaves(voice, outlet) for voice in alike) for alike in treated]
        plugged = [lit for jack in _jacks(choices, outlet) for lit in jack]
        choices.model.at_most(len(plugged), [*leaving, *(-lit for lit in plugged)])


def _treated_by(choices: Choices, outlet: Spot, effect: str) -> list[list[Voice]]:
    """Voices that may leave by the outlet and are treated after it, those together that want one amount and key."""
    found: dict[object, list[Voice]] = defaultdict(list)
    for voice in choices.voices.every:
        treats_itself = any(effect in choices.rig.engines[home].offers for home in choices.voices.homes(voice))
        if outlet in choices.voices.ways(voice) and not treats_itself:
            for want in choices.voices.wanted(voice):
                if want.effect == effect and want.amount > 0:
                    found[want.amount, want.key].append(voice)
    return list(found.values())


def _jacks(choices: Choices, outlet: Spot) -> Iterator[list[Lit]]:
    """For each jack that carries an outlet, its own or that of a mirror, whether it is plugged, once a side."""
    carrying = {outlet}
    for _ in choices.rig.outlets:
        carrying |= {
            spot for spot, gear in choices.rig.outlets.items() if Spot(spot.box, gear.mirrors or "") in carrying
        }
    for jack, socket in choices.rig.jacks.items():
        if socket.sends and socket.connection in carrying:
            yield len(socket.jack.sides) * [choices.wires.plugged(jack)]


def _treat_what_is_plugged(choices: Choices, effect: str) -> None:
    """A strip that has an amount carries a part, so there is a plug at its inlet."""
    for strip in choices.rig.strips:
        inlet, _ = choices.rig.feed(strip)
        jacks = (Spot(inlet.box, jack.label) for jack in choices.rig.inlets[inlet].jacks)
        unplugged = -choices.model.either(choices.wires.plugged(jack) for jack in jacks)
        choices.model.at_most_one([unplugged, *choices.amounts(Emission("strip", strip), effect).values()])


def _fill_boxes(choices: Choices) -> None:
    """A voice has no more parts than its engines have room for, nor more of them at centre while it is there.

    So many parts that may live in the same places need several voices.
    """
    voices, model = choices.voices, choices.model
    room = {voice: sum(choices.room(home) for home in voices.homes(voice)) for voice in voices.every}
    for voice in voices.every:
        parts, used = voices.parts(voice), voices.used(voice)
        most = min(len(parts), room[voice])
        if used not in (YES, NO):
            has = [voices.has(part, voice) for part in parts]
            model.at_most(most, [*has, *most * (-used,)])
            centre = voices.panned(voice, "centre")
            aside = [model.both(lit, -centre) for lit in has]
            model.at_most(most + len(has), [*has, *(-lit for lit in aside), *most * (-centre,)])
    alike: dict[tuple[Voice, ...], list[str]] = defaultdict(list)
    for part in choices.jam.parts:
        alike[tuple(voices.of(part))].append(part)
    for possible, parts in alike.items():
        if len(possible) > 1:
            needed = ceil(len(parts) / max(room[voice] for voice in possible))
            model.at_most(len(possible) - needed, [-voices.used(voice) for voice in possible])


def _strike_by_channels(choices: Choices) -> None:
    """A channel strikes all engines that stand on it, and each of them has a part or is moved away.

    Where ``size`` engines stand on each channel and there are parts for ``full`` channels and ``rest`` engines more,
    every struck channel beyond those ``full`` moves ``size - rest`` engines. Where fewer than ``size`` engines stand on
    a channel, it weighs that much less: this is mixed-integer rounding of the plain count by ``size``.
    """
    struck: dict[tuple[tuple[int, Lit], ...], list[Spot]] = defaultdict(list)
    for box, engines in _by_box(choices).items():
        stands = dict.fromkeys(choices.rig.engines[engine].stands for engine in engines)
        listed = tuple((channel, choices.struck(box, channel)) for channel in stands if isinstance(channel, int))
        struck[listed] += [engine for engine in engines if isinstance(choices.rig.engines[engine].stands, int)]
    for listed, engines in struck.items():
        boxes = [[engine for engine in engines if engine.box == box] for box in dict.fromkeys(e.box for e in engines)]
        for together in [engines] if len(boxes) == 1 else [engines, *boxes]:
            _strike(choices, dict(listed), together)


def _by_box(choices: Choices) -> dict[str, list[Spot]]:
    """The engines of each box that has some."""
    found: dict[str, list[Spot]] = defaultdict(list)
    for engine in choices.rig.engines:
        found[engine.box].append(engine)
    return found


def _strike(choices: Choices, struck: dict[int, Lit], engines: list[Spot]) -> None:
    """Count the struck engines of these against the parts that may live on them."""
    standing: dict[Channel, int] = dict.fromkeys([*struck], 0)
    for engine in engines:
        standing[choices.rig.engines[engine].stands] += choices.room(engine)
    parts = [part for part in choices.jam.parts if any(choices.lives(part, engine) != NO for engine in engines)]
    size = max(standing.values(), default=0)
    full, rest = divmod(len(parts), size) if size else (0, 0)
    weights = {channel: max(0, count - rest) for channel, count in standing.items()}
    moved = [choices.model.both(lit, choices.stirred(engine)) for engine in engines for lit in choices.idle(engine)]
    strokes = [lit for channel, lit in struck.items() for lit in [lit] * weights[channel]]
    choices.model.at_most(full * (size - rest) + len(moved), [*strokes, *(-lit for lit in moved)])
