"""A planner that tries everything: slow, simple, and with no solver in sight.

What a plan leaves open splits without loss. A casting says which engine holds each part and which track plays each
layer. Once it is fixed, nothing that audio cables, outlets, pans, amounts and keys do is asked about by MIDI, and
nothing that MIDI cables, channels and levels do is asked about by audio: no rule looks at both, no cable kind is
both, and goals in strict order add up. So the cheapest plan of a casting is its cheapest audio side with its cheapest
MIDI side, and the best plan is that of the best casting.
"""

from collections.abc import Iterator, Sequence
from itertools import permutations
from typing import NamedTuple

from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.intents import Keep, Layer, Play, Program
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.enumeration.audio import AudioSide, AudioSides
from tests.enumeration.midi import Casting, MidiSide, MidiSides


class Cost(NamedTuple):
    """What a plan costs, in the order in which it counts."""

    cables: int
    silenced: int
    moved: int


class Best(NamedTuple):
    """The least that a plan can cost, and one that costs no more."""

    cost: Cost
    plan: Plan


def best(jam: Jam) -> Best | None:
    """The best plan there is, or None where there is none."""
    shared = set(jam.rig.jacks) & set(jam.rig.ports)
    assert not shared, f"a cable kept between sockets named {shared} would tie audio and MIDI together"
    midi = MidiSides(jam)
    midi_sides: dict[Casting, MidiSide] = {}
    for casting in castings(jam):
        side = midi.cheapest(casting)
        if side is not None:
            midi_sides[casting] = side
    audio_sides = AudioSides(jam).cheapest(list(midi_sides))
    costs = {
        casting: Cost(audio.cables + side.cables, side.silenced, audio.moved + side.moved)
        for casting, side in midi_sides.items()
        for audio in [audio_sides.get(casting)]
        if audio is not None
    }
    if not costs:
        return None
    cheapest = min(costs, key=lambda casting: costs[casting])
    return Best(costs[cheapest], _plan(jam, cheapest, audio_sides[cheapest], midi_sides[cheapest]))


def castings(jam: Jam) -> Iterator[Casting]:
    """Every casting that the wishes about engines and tracks allow.

    An engine holds one part and a track plays one layer, so both are orders of distinct things.
    """
    for homes in permutations(jam.rig.engines, len(jam.parts)):
        if all(_may_live(jam, part, home) for part, home in zip(jam.parts, homes, strict=True)):
            for tracks in permutations(jam.rig.tracks, len(jam.layers)):
                casting = Casting(homes, tracks)
                if all(_may_play(jam, *pair) for pair in zip(jam.layers, tracks, strict=True)) and _obeys(jam, casting):
                    yield casting


def _may_live(jam: Jam, part: str, home: Spot) -> bool:
    """Whether the box, the engine, its sound and its reach of shift are as stated."""
    stated, gear = jam.parts[part], jam.rig.engines[home]
    shifts = _shifts(jam, part)
    kept = [i.keep.engine for _, i in jam.stated(Keep) if i.keep.part == part and i.keep.engine is not None]
    return (
        stated.on in (None, home.box, str(home))
        and stated.sound in (None, gear.sound)
        and len(shifts) < 2
        and all(abs(shift) <= gear.shift for shift in shifts)
        and all(name == str(home) for name in kept)
    )


def _shifts(jam: Jam, part: str) -> set[int]:
    return {intent.shift[part] for _, intent in jam.stated(Layer) if part in intent.shift}


def _may_play(jam: Jam, layer: Sequence[str], track: Spot) -> bool:
    """Whether the track is where the layer should be played: as every wish says, else in the leader."""
    stated = [intent.source for _, intent in jam.stated(Play) if not set(intent.play).isdisjoint(layer)]
    kept = [i.keep.track for _, i in jam.stated(Keep) if i.keep.part in layer and i.keep.track is not None]
    return all(source in (track.box, str(track)) for source in stated or [jam.leader]) and all(
        name == str(track) for name in kept
    )


def _obeys(jam: Jam, casting: Casting) -> bool:
    """Whether program changes come from tracks that send them and change no part but those named.

    Only parts of one layer may sound for its track, so only they can be in the way.
    """
    named = {part for _, intent in jam.stated(Program) for part in intent.program}
    homes = dict(zip(jam.parts, casting.homes, strict=True))
    for layer, track in zip(jam.layers, casting.tracks, strict=True):
        if named.isdisjoint(layer):
            continue
        if not jam.rig.tracks[track].program_change:
            return False
        if any(jam.rig.engines[homes[part]].program_change != (part in named) for part in layer):
            return False
    return True


def _plan(jam: Jam, casting: Casting, audio: AudioSide, midi: MidiSide) -> Plan:
    """The plan of a casting and its two sides."""
    homes = dict(zip(jam.parts, casting.homes, strict=True))
    channels = dict(zip(jam.layers, midi.channels, strict=True))
    tracks = dict(zip(jam.layers, casting.tracks, strict=True))
    tenants = {home: part for part, home in homes.items()}
    parts = {}
    for part, way in audio.ways.items():
        channel = channels[jam.layer_of(part)]
        parts[part] = {
            "engine": str(homes[part]),
            "track": str(tracks[jam.layer_of(part)]),
            "channel": None if channel == "off" else channel,
            "outlet": way.stand.outlet.name if way.stand.outlet is not None else "",
            "pan": way.stand.pan,
            "strips": {box: tuple(s.name for s in way.entered if s.box == box) for box in {s.box for s in way.entered}},
        }
    strips = {
        str(strip): {"outlet": stand.outlet.name, "pan": stand.pan, **_dosed(audio, Emission("strip", strip))}
        for strip, stand in audio.strips.items()
        if stand.outlet is not None
    }
    engines = {
        str(engine): {
            "channel": way.channel,
            "level": "zero" if way.silenced else "up",
            "shift": next(iter(_shifts(jam, tenants[engine])), 0) if engine in tenants else 0,
            **_dosed(audio, Emission("engine", engine)),
        }
        for engine, way in zip(jam.rig.engines, midi.listening, strict=True)
    }
    cables = [lead.planned() for lead in (*audio.leads, *midi.leads)]
    return Plan.model_validate(
        {"title": jam.title, "cables": cables, "parts": parts, "strips": strips, "engines": engines}
    )


def _dosed(audio: AudioSide, emitter: Emission) -> dict[str, object]:
    doses = audio.doses.get(emitter, {})
    settings = {effect: dose.amount for effect, dose in doses.items()}
    return {"settings": settings, "key": next((d.key for d in doses.values() if d.key is not None), None)}
