"""What each MIDI cable of a plan brings to the boxes behind it."""

from typing import NamedTuple

from solver.flow.followed import Followed
from solver.flow.loops import reachable
from solver.flow.wires import Lead, is_midi, midi_leads
from solver.jam.intents import Clock
from solver.jam.jam import Jam
from solver.plans import Plan


class Brought(NamedTuple):
    """The parts that a cable brings to their engines, by rising channel, and whether it brings a wanted clock."""

    parts: dict[int, tuple[str, ...]]
    clock: bool


NOTHING = Brought({}, False)


def brought(jam: Jam, plan: Plan) -> list[Brought]:
    """What each cable of a plan brings, in the order of ``plan.cables``; nothing over an audio cable.

    All notes of a track go out by every port of its box (M2). Told are the parts that need the cable: those whose
    engine is in a box behind it and is not played inside the box of its track.
    """
    followed = Followed(jam, plan)
    return [_brought(followed, midi_leads(followed.rig, cable)) if is_midi(cable) else NOTHING for cable in plan.cables]


def _brought(followed: Followed, leads: tuple[Lead, ...]) -> Brought:
    notes = followed.notes
    parts: dict[int, tuple[str, ...]] = {}
    clock = False
    for lead in leads:
        behind = {half.port.box for half in reachable([lead.target], notes.onward) if not half.leaves}
        for part, home in followed.homes.items():
            track = followed.tracks[part]
            channel = notes.sending.get(track)
            needs = home.box in behind and home.box != track.box and lead.source in notes.passed.get(track.box, ())
            if needs and channel is not None:
                parts[channel] = (*parts.get(channel, ()), part)
        clock = clock or _brings_clock(followed, lead)
    return Brought(dict(sorted(parts.items())), clock)


def _brings_clock(followed: Followed, lead: Lead) -> bool:
    """Whether the leader's clock takes this way to a box that is to follow it."""
    named = {box for _, intent in followed.jam.stated(Clock) for box in intent.clock} - {followed.jam.leader}
    notes, ports = followed.notes, followed.rig.ports
    if not named or lead.target not in notes.clocked.get(lead.source, ()):
        return False
    starts = [half for half in notes.outs(followed.jam.leader) if ports[half.port].clock]
    behind = reachable([lead.target], notes.clocked)
    return lead.source in reachable(starts, notes.clocked) and any(
        half.port.box in named for half in behind if not half.leaves
    )
