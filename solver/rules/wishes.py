"""Rules of plain wishes: what to avoid, what to keep, and where a part lives."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.wires import is_midi, sockets, worded
from solver.gear.words import Spot
from solver.jam.intents import Avoid, Keep, Kept, Shunned
from solver.rules.rule import Rule
from solver.search.choices import Choices
from solver.search.model import Lit


class Avoids(Rule):
    """M6."""

    id = "M6"
    sentence = "Nothing uses the channels, jacks and ports you avoid."

    def constrain(self, choices: Choices) -> None:
        """No track on an avoided channel, no plug in an avoided socket; see Jam.quiet_options for engines."""
        for _, intent in choices.jam.stated(Avoid):
            for channel in intent.avoid.channels:
                for layer in choices.jam.layers:
                    choices.model.forbid(choices.sends(layer, channel))
            plugs = (plug for jack in intent.avoid.jacks for plug in choices.wires.plugs(Spot.parse(jack)))
            leads = (lead for port in intent.avoid.ports for lead in choices.wires.leads_at(Spot.parse(port)))
            for cable in (*plugs, *leads):
                choices.model.forbid(cable)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield tracks, engines and cables that use what is avoided."""
        for _, intent in followed.jam.stated(Avoid):
            yield from _on_channels(followed, intent.avoid.channels)
            yield from _in_sockets(followed, intent.avoid)


def _on_channels(followed: Followed, channels: tuple[int, ...]) -> Iterator[str]:
    for track, channel in followed.notes.sending.items():
        if channel in channels:
            yield f"{track} sends on channel {channel}, which you avoid"
    for engine, gear in followed.rig.engines.items():
        listens = followed.notes.channel(engine)
        if listens in channels and listens != gear.stands:
            yield f"{engine} is moved to channel {listens}, which you avoid"


def _in_sockets(followed: Followed, avoid: Shunned) -> Iterator[str]:
    for cable in followed.plan.cables:
        avoided = avoid.ports if is_midi(cable) else avoid.jacks
        for spot in (*sockets(cable.source), *sockets(cable.to)):
            if str(spot) in avoided:
                yield f"{worded(cable)} uses {spot}, which you avoid"


class Keeps(Rule):
    """K1."""

    id = "K1"
    sentence = "What you keep stays as it is."

    def constrain(self, choices: Choices) -> None:
        """What is kept holds."""
        for _, intent in choices.jam.stated(Keep):
            choices.model.require(_holds(choices, intent.keep))

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield cables that are gone, and choices about a part that are others."""
        for _, intent in followed.jam.stated(Keep):
            yield from _missing(followed, intent.keep)


def _holds(choices: Choices, kept: Kept) -> Lit:
    """Whether what is kept holds."""
    if kept.cable is not None:
        return choices.wires.joining(*map(Spot.parse, kept.cable))
    assert kept.part is not None
    part, layer = kept.part, choices.jam.layer_of(kept.part)
    if kept.engine is not None:
        return choices.lives(part, Spot.parse(kept.engine))
    if kept.channel is not None:
        return choices.sends(layer, kept.channel)
    if kept.track is not None:
        return choices.plays(layer, Spot.parse(kept.track))
    if kept.strip is not None:
        return choices.enters(part, Spot.parse(kept.strip))
    assert kept.pan is not None
    return choices.panned(part, kept.pan)


def _missing(followed: Followed, kept: Kept) -> Iterator[str]:
    if kept.cable is not None:
        one, other = map(Spot.parse, kept.cable)
        if not _joined(followed, one, other):
            yield f"no cable joins {one} and {other}, you keep one there"
    elif kept.part in followed.parts:
        yield from _moved(followed, kept.part, kept)


def _joined(followed: Followed, one: Spot, other: Spot) -> bool:
    for cable in followed.plan.cables:
        sources, targets = sockets(cable.source), sockets(cable.to)
        if (one in sources and other in targets) or (other in sources and one in targets):
            return True
    return False


def _moved(followed: Followed, part: str, kept: Kept) -> Iterator[str]:
    planned = followed.parts[part]
    if kept.engine is not None and planned.engine != kept.engine:
        yield f"{part} lives on {planned.engine}, you keep it on {kept.engine}"
    if kept.channel is not None and planned.channel != kept.channel:
        found = "no channel" if planned.channel is None else f"channel {planned.channel}"
        yield f"{part} is sent on {found}, you keep it on channel {kept.channel}"
    if kept.pan is not None and planned.pan != kept.pan:
        yield f"{part} is panned {planned.pan}, you keep it {kept.pan}"
    if kept.track is not None and planned.track != kept.track:
        yield f"{planned.track} plays {part}, you keep {kept.track} for it"
    if kept.strip is not None and Spot.parse(kept.strip) not in followed.sound.entered[part]:
        yield f"{part} does not enter {kept.strip}, you keep it there"


class LivesWhere(Rule):
    """P1."""

    id = "P1"
    sentence = "A part lives on the box or engine you say, with the kind of sound you say."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """Each part lives on one engine, of those with the place and sound that are stated."""
        for name, part in choices.jam.parts.items():
            for engine, gear in choices.rig.engines.items():
                elsewhere = part.on is not None and part.on not in (engine.box, str(engine))
                if (
                    not choices.jam.may_hold(engine)
                    or elsewhere
                    or (part.sound is not None and part.sound != gear.sound)
                ):
                    choices.model.forbid(choices.lives(name, engine))
            choices.model.exactly_one(choices.lives(name, engine) for engine in choices.rig.engines)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield parts on another box or engine, or with another kind of sound."""
        for part, home in followed.homes.items():
            stated = followed.jam.parts[part]
            if not followed.jam.may_hold(home):
                yield f"{part} lives on {home}, a box that this jam does not use"
            if stated.on is not None and stated.on != (home.box if stated.on in followed.jam.boxes else str(home)):
                yield f"{part} lives on {home}, you want it on {stated.on}"
            sound = followed.rig.engines[home].sound
            if stated.sound is not None and stated.sound != sound:
                yield f'{part} lives on {home} with the sound "{sound}", you want "{stated.sound}"'
