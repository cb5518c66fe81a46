"""Rules of tracks: one track a layer, program changes, shifts, and tracks that match their strips."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.wording import listing
from solver.gear.words import Spot
from solver.jam.intents import Layer, Match, Program, Stereo
from solver.rules.rule import Rule
from solver.search.choices import Choices


class OneTrack(Rule):
    """M4."""

    id = "M4"
    sentence = "One track plays each layer and no other; it is the leader's unless you say who plays."

    def constrain(self, choices: Choices) -> None:
        """One track a layer, one layer a track, and only tracks that the jam lets play it."""
        for layer in choices.jam.layers:
            for track in choices.rig.tracks:
                if any(_is_other(track, source) for source in choices.jam.players(layer)):
                    choices.model.forbid(choices.plays(layer, track))
            choices.model.exactly_one(choices.plays(layer, track) for track in choices.rig.tracks)
        for track in choices.rig.tracks:
            choices.model.at_most_one(choices.plays(layer, track) for layer in choices.jam.layers)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield layers on several tracks, tracks with several layers, and tracks of the wrong box."""
        played: dict[Spot, list[str]] = {}
        for layer in followed.jam.layers:
            parts = [part for part in layer if part in followed.parts]
            tracks = tuple(dict.fromkeys(followed.tracks[part] for part in parts))
            if len(tracks) > 1:
                yield f"{listing(tracks)} play {listing(parts)}, one track plays a layer"
            for track in tracks:
                played.setdefault(track, []).append(parts[0])
                yield from _wrong_player(followed, layer, listing(parts), track)
        for track, firsts in played.items():
            if len(firsts) > 1:
                yield f"{track} plays {listing(firsts)}, which are not one layer"


def _is_other(track: Spot, source: str) -> bool:
    """Whether the track is neither the stated one nor on the stated box."""
    return source not in (track.box, str(track))


def _wrong_player(followed: Followed, layer: tuple[str, ...], parts: str, track: Spot) -> Iterator[str]:
    for source in followed.jam.players(layer):
        if _is_other(track, source):
            yield f"{track} plays {parts}, {source} should"


class ProgramChanges(Rule):
    """M8."""

    id = "M8"
    sentence = "Program changes for a part come from a track that sends them, reach an engine that obeys, and no other."

    def constrain(self, choices: Choices) -> None:
        """Track and engine know program change; other parts of the layer live where it is ignored."""
        named = choices.jam.parts_of(Program)
        for part in named:
            layer = choices.jam.layer_of(part)
            for track, lane in choices.rig.tracks.items():
                if not lane.program_change:
                    choices.model.forbid(choices.plays(layer, track))
            for engine, gear in choices.rig.engines.items():
                for other in layer:
                    if (other == part and not gear.program_change) or (other not in named and gear.program_change):
                        choices.model.forbid(choices.lives(other, engine))

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield tracks and engines without program change, and other engines that would change too."""
        named = followed.jam.parts_of(Program)
        for part in (part for part in followed.parts if part in named):
            track, home = followed.tracks[part], followed.homes[part]
            if not followed.rig.tracks[track].program_change:
                yield f"{track} plays {part} and sends no program changes"
            if not followed.rig.engines[home].program_change:
                yield f"{home} holds {part} and obeys no program changes"
            for engine, others in followed.tenants.items():
                obeys = engine != home and followed.rig.engines[engine].program_change
                if obeys and track in followed.notes.sounding[engine]:
                    for other in (other for other in others if other not in named):
                        yield f"program changes for {part} also switch {engine} with {other}"


class Shifts(Rule):
    """M9."""

    id = "M9"
    sentence = "An engine shifts its part as far as you want, if it can."

    def constrain(self, choices: Choices) -> None:
        """A part lives where it can be shifted far enough; two different shifts of one part are none."""
        for part in choices.jam.parts:
            wanted = {
                shift for _, intent in choices.jam.stated(Layer) for p, shift in intent.shift.items() if p == part
            }
            for engine, gear in choices.rig.engines.items():
                if len(wanted) > 1 or any(abs(shift) > gear.shift for shift in wanted):
                    choices.model.forbid(choices.lives(part, engine))

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield shifts that are not as wanted, and shifts beyond an engine's reach."""
        wanted: dict[str, list[int]] = {}
        for _, intent in followed.jam.stated(Layer):
            for part, shift in intent.shift.items():
                wanted.setdefault(part, []).append(shift)
        for engine, gear in followed.rig.engines.items():
            shift = followed.notes.shift(engine)
            parts = followed.tenants.get(engine, ())
            if abs(shift) > gear.shift:
                yield f"{engine} is shifted by {shift}, it can shift by {gear.shift} either way"
            if shift and not parts:
                yield f"{engine} is shifted by {shift}, it has no part"
            for part in parts:
                for want in dict.fromkeys(wanted.get(part, [0])):
                    if shift != want:
                        yield f"{engine} is shifted by {shift}, {part} wants {want}"


class Matches(Rule):
    """M10."""

    id = "M10"
    sentence = "The track that plays a part is the one whose mute and knobs work its strip or engine."

    def constrain(self, choices: Choices) -> None:
        """In each box where the part enters a strip with a track, that track plays it; else it plays the engine."""
        model, owned = choices.model, dict[str, list[tuple[Spot, Spot]]]()
        for strip, gear in choices.rig.strips.items():
            if gear.track is not None:
                owned.setdefault(strip.box, []).append((strip, Spot(strip.box, gear.track)))
        stereo = choices.jam.parts_of(Stereo)
        for part in choices.jam.parts_of(Match):
            layer = choices.jam.layer_of(part)
            heard = [choices.hearing.part_over(part, strip) for pairs in owned.values() for strip, _ in pairs]
            for pairs in owned.values():
                works = [model.both(choices.enters(part, strip), choices.plays(layer, track)) for strip, track in pairs]
                for strip, track in pairs:
                    of_its_pair = works if part in stereo else ()
                    model.clause(-choices.enters(part, strip), choices.plays(layer, track), *of_its_pair)
            homes = choices.homes(part)
            inside = (model.both(choices.lives(part, home), choices.plays_inside(layer, home)) for home in homes)
            model.clause(*heard, *inside)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield strips and engines that belong to another track than the one that plays the part, or to none."""
        named = followed.jam.parts_of(Match)
        for part in (part for part in followed.parts if part in named):
            owners: dict[str, list[Spot]] = {}
            for strip in followed.sound.entered[part]:
                owner = followed.rig.strips[strip].track
                if owner is not None:
                    owners.setdefault(strip.box, []).append(Spot(strip.box, owner))
            home, track = followed.homes[part], followed.tracks[part]
            for box, tracks in owners.items():
                if track not in tracks:
                    yield f"{track} plays {part}, its strip in {box} belongs to {listing(tracks)}"
            inside = track.box == home.box and followed.rig.tracks[track].plays == home.name
            if not owners and not inside:
                yield f"{track} plays {part}, it neither plays {home} inside its box nor has a strip of {part}"
            elif not inside and not any(followed.rig.strips[strip].track for strip in followed.heard_over[part]):
                yield f"{track} plays {part}, no strip with a track carries {part} to where you listen"
