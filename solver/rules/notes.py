"""Rules of notes: what tracks send, which engines sound, and no stray notes."""

from collections.abc import Iterator
from itertools import product

from solver.flow.followed import Followed
from solver.flow.wording import listing
from solver.gear.box import Engine
from solver.gear.words import Channel, Spot
from solver.rules.rule import Rule
from solver.search.choices import Choices
from solver.search.model import NO, YES
from solver.search.played import Pass


class TracksSend(Rule):
    """M2."""

    id = "M2"
    sentence = "A track sends on one channel that it has, or on none where sending can be switched off."

    def constrain(self, choices: Choices) -> None:
        """Outs send their box's tracks, thrus and repeats pass notes on; a layer has one channel its track can take."""
        for port, gear in choices.rig.ports.items():
            if gear.sends and gear.way != "thru":
                choices.notes.source(port.box, Pass("out of", port), YES)
            for source in gear.passes_on:
                choices.notes.edge(Pass("into", Spot(port.box, source)), Pass("out of", port), YES)
        for hop in choices.wires.hops:
            choices.notes.edge(Pass("out of", hop.start), Pass("into", hop.end), hop.given)
        for layer in choices.jam.layers:
            choices.model.exactly_one(choices.sends(layer, option) for option in choices.track_options)
            for track, lane in choices.rig.tracks.items():
                taken = (choices.sends(layer, option) for option in lane.options)
                choices.model.clause(-choices.plays(layer, track), *taken)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield channels that a track cannot send on, and tracks with two channels."""
        for track, parts in followed.notes.playing.items():
            gear = followed.rig.tracks[track]
            channels = tuple(dict.fromkeys(followed.parts[part].channel for part in parts))
            for channel in channels:
                if channel is None and "off" not in gear.options:
                    yield f"{track} with {listing(parts)} sends nothing out, its sending cannot be switched off"
                if channel is not None and channel not in gear.channels:
                    can = listing(gear.channels) if gear.channels else "no channel"
                    yield f"{track} with {listing(parts)} sends on channel {channel}, it has {can}"
            if len(channels) > 1:
                said = listing("none" if channel is None else channel for channel in channels)
                yield f"{track} with {listing(parts)} has channels {said}, a track has one"


class EnginesListen(Rule):
    """M3."""

    id = "M3"
    sentence = "An engine sounds for the track that plays its part: inside its box, or on the channel it listens to."

    def constrain(self, choices: Choices) -> None:
        """Where its track does not play it inside the box, a part's engine can hear that track over MIDI."""
        for layer, box in product(choices.jam.layers, choices.rig.boxes):
            choices.model.implies(choices.held(layer, box), choices.arrives(layer, box))
        for part in choices.jam.parts:
            layer = choices.jam.layer_of(part)
            for engine in choices.homes(part):
                channels = choices.rig.engines[engine].channels
                if channels != "all":
                    heard = (choices.sends(layer, channel) for channel in channels)
                    choices.model.clause(-choices.over_midi(part, engine), *heard)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield engines on channels that they do not have, and parts whose engine stays silent."""
        notes = followed.notes
        for engine, gear in followed.rig.engines.items():
            channel = notes.channel(engine)
            if channel not in gear.options:
                yield f"{engine} is set to channel {channel}, it has {listing(gear.options)}"
        for part, engine in followed.homes.items():
            track = followed.tracks[part]
            if track not in notes.sounding[engine]:
                yield f"{engine} with {part} does not sound for {track}: {_why_silent(followed, track, engine)}"


def _why_silent(followed: Followed, track: Spot, engine: Spot) -> str:
    notes = followed.notes
    if track.box == engine.box:
        return "that track does not play it inside the box"
    if track not in notes.sending:
        return "that track sends nothing out"
    if track not in notes.arriving[engine.box]:
        return f"its notes do not reach {engine.box}"
    listens = notes.channel(engine)
    said = "is off" if listens == "off" else f"listens to {listens}"
    return f"the track sends on {notes.sending[track]}, the engine {said}"


class NoStrayNotes(Rule):
    """M5."""

    id = "M5"
    sentence = "No engine sounds for notes that are not its own, and a level goes to zero only as the last resort."

    def constrain(self, choices: Choices) -> None:
        """No layer strikes an engine that holds a part of another; what its own track plays inside is that track's."""
        model = choices.model
        for box, one, other in product(choices.rig.boxes, choices.jam.layers, choices.jam.layers):
            if one != other:
                strays = model.both(choices.arrives(other, box), choices.held(one, box))
                model.forbid(strays, choices.share_channel(one, other))
        for engine, layer in product(choices.rig.engines, choices.jam.layers):
            inside = choices.plays_inside(layer, engine)
            idle = choices.idle(engine) if inside != NO else ()
            model.clause(-inside, choices.holds(engine, layer), *idle)
            for part in layer:
                _undisturbed(choices, engine, part)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield engines that sound for other tracks, or without a part, and levels at zero without need."""
        for engine, gear in followed.rig.engines.items():
            parts = followed.tenants.get(engine, ())
            sounding = followed.notes.sounding[engine]
            silent = followed.notes.level(engine) == "zero"
            if parts:
                own = {followed.tracks[part] for part in parts}
                strangers = [track for track in sounding if track not in own]
                if strangers:
                    yield f"{engine} with {listing(parts)} also sounds for {_tracks(followed, strangers)}"
                if silent:
                    yield f"{engine} plays {listing(parts)}, its level is at zero"
            elif sounding and not silent:
                yield f"{engine} has no part and sounds for {_tracks(followed, sounding)}, its level is up"
            elif silent and not sounding:
                if not _is_needed_elsewhere(followed, engine):
                    yield f"{engine} has no part and nothing plays it, its level is at zero"
            elif silent:
                yield from _other_ways(followed, engine, gear)


def _is_needed_elsewhere(followed: Followed, engine: Spot) -> bool:
    """Whether a level that its box stores for itself must be at zero for another jam of the set."""
    others = (*followed.before, *followed.after)
    stores = followed.rig.engines[engine].memory("level") == "box"
    return stores and any(other.notes.sounding[engine] and not other.tenants.get(engine) for other in others)


def _undisturbed(choices: Choices, engine: Spot, part: str) -> None:
    """An engine that hears all channels hears one layer; one that is played inside is out of the way of all others."""
    model, over_midi = choices.model, choices.over_midi(part, engine)
    inside = model.both(choices.lives(part, engine), -over_midi)
    model.forbid(inside, choices.stirred(engine), -choices.escape(engine))
    if choices.rig.engines[engine].channels == "all":
        own = choices.jam.layer_of(part)
        for layer in choices.jam.layers:
            if layer != own:
                model.forbid(over_midi, choices.arrives(layer, engine.box))


def _tracks(followed: Followed, tracks: list[Spot] | tuple[Spot, ...]) -> str:
    return listing(f"{track} ({listing(followed.notes.playing[track])})" for track in tracks)


def _other_ways(followed: Followed, engine: Spot, gear: Engine) -> Iterator[str]:
    """Yield how an engine at level zero could be silent without it."""
    if engine in followed.notes.inside:
        return
    if "off" in gear.options:
        yield f"{engine} is at level zero, it could be off"
        return
    struck = set(followed.notes.arriving[engine.box].values())
    if gear.memory("channel") == "box":
        for other in (*followed.before, *followed.after):
            if engine in other.tenants and engine not in other.notes.inside:
                return
            struck |= set(other.notes.arriving[engine.box].values())
    free = [channel for channel in followed.jam.quiet_options(gear) if not _is_struck(channel, struck)]
    if free:
        yield f"{engine} is at level zero, it could listen to channel {free[0]} where nothing is sent"


def _is_struck(channel: Channel, struck: set[int]) -> bool:
    return bool(struck) if channel == "all" else channel in struck
