"""What a cable of a plan joins, and what is wrong with the way it is plugged."""

from typing import NamedTuple

from solver.gear.cables import BREAKOUT_LEG, BREAKOUTS, MIDI_KINDS, Kind, audio_kind, midi_kind
from solver.gear.connections import Jack
from solver.gear.rig import Rig, Socket
from solver.gear.words import Side, Spot
from solver.plans import Cable, Ends


class Place(NamedTuple):
    """One side of an outlet (``leaves``) or of an inlet."""

    connection: Spot
    side: Side
    leaves: bool


class Half(NamedTuple):
    """The way out (``leaves``) or the way in of a MIDI port; a port for both ways has two halves."""

    port: Spot
    leaves: bool


class Wire(NamedTuple):
    """One side of sound over one leg of a cable."""

    jack: Spot
    source: Place
    target: Place


class Lead(NamedTuple):
    """One way of notes over a cable."""

    source: Half
    target: Half


def is_midi(cable: Cable) -> bool:
    """Whether a cable carries notes; else it carries sound."""
    return cable.kind in MIDI_KINDS


def sockets(ends: Ends) -> tuple[Spot, ...]:
    """The socket of one end of a cable, or the two of a breakout's legs."""
    return (Spot.parse(ends),) if isinstance(ends, str) else tuple(map(Spot.parse, ends))


def worded(cable: Cable) -> str:
    """A cable as a sentence names it."""
    source, to = (" + ".join(map(str, sockets(ends))) for ends in (cable.source, cable.to))
    return f"the {cable.kind} cable from {source} to {to}"


def audio_wires(rig: Rig, cable: Cable) -> tuple[Wire, ...]:
    """The sides that an audio cable carries, leg by leg: none where its ends do not match or do not send and take."""
    sources, targets = _legs(rig, cable.source, True), _legs(rig, cable.to, False)
    if len(sources) != len(targets):
        return ()
    return tuple(Wire(jack, place, into) for (jack, place), (_, into) in zip(sources, targets, strict=True))


def _legs(rig: Rig, ends: Ends, leaves: bool) -> list[tuple[Spot, Place]]:
    """Each side of one end of a cable, left first; none where a jack faces the other way or is no jack."""
    found: list[tuple[Spot, Place]] = []
    for spot in sockets(ends):
        socket = rig.jacks.get(spot)
        if socket is None or socket.sends is not leaves:
            return []
        found.extend((spot, Place(socket.connection, side, leaves)) for side in socket.jack.sides)
    return found


def audio_fault(rig: Rig, cable: Cable) -> str | None:
    """Why an audio cable cannot be plugged like this, or None."""
    ends: list[list[Socket]] = []
    for spots, sends in ((sockets(cable.source), True), (sockets(cable.to), False)):
        for spot in spots:
            if spot not in rig.jacks:
                return f"{spot} is no audio jack"
            if rig.jacks[spot].sends is not sends:
                return f"{spot} {'sends nothing out' if sends else 'takes nothing in'}"
        ends.append([rig.jacks[spot] for spot in spots])
    fitting = _fitting([s.jack for s in ends[0]], [s.jack for s in ends[1]])
    if fitting == cable.kind:
        return None
    return f"these jacks take a {fitting} cable" if fitting else "no cable joins these jacks"


def _fitting(sources: list[Jack], targets: list[Jack]) -> Kind | None:
    fewer, more = sorted((sources, targets), key=len)
    one = fewer[0]
    if len(fewer) == len(more) == 1:
        other = more[0]
        return audio_kind(one.plug, other.plug, one.stereo) if one.stereo == other.stereo else None
    if len(fewer) == 1 and one.stereo and all(not leg.stereo and leg.plug == BREAKOUT_LEG for leg in more):
        return BREAKOUTS[one.plug]
    return None


def midi_leads(rig: Rig, cable: Cable) -> tuple[Lead, ...]:
    """The ways that notes take over a MIDI cable: none where the plugs do not fit or nothing sends."""
    if not (isinstance(cable.source, str) and isinstance(cable.to, str)):
        return ()
    source, to = Spot.parse(cable.source), Spot.parse(cable.to)
    one, other = rig.ports.get(source), rig.ports.get(to)
    if one is None or other is None:
        return ()
    kind = midi_kind(one.plug, other.plug)
    if kind is None:
        return ()
    leads = []
    if one.sends and other.takes:
        leads.append(Lead(Half(source, True), Half(to, False)))
    if kind == "usb" and other.sends and one.takes:
        leads.append(Lead(Half(to, True), Half(source, False)))
    return tuple(leads)


def midi_fault(rig: Rig, cable: Cable) -> str | None:
    """Why a MIDI cable cannot be plugged like this, or None."""
    if not (isinstance(cable.source, str) and isinstance(cable.to, str)):
        return "a MIDI cable has one plug at each end"
    source, to = Spot.parse(cable.source), Spot.parse(cable.to)
    for spot in (source, to):
        if spot not in rig.ports:
            return f"{spot} is no MIDI port"
    kind = midi_kind(rig.ports[source].plug, rig.ports[to].plug)
    if kind is None:
        return f"no cable joins {rig.ports[source].plug} and {rig.ports[to].plug}"
    if kind != cable.kind:
        return f"these ports take a {kind} cable"
    if not midi_leads(rig, cable):
        return f"{source} does not send" if not rig.ports[source].sends else f"{to} takes nothing in"
    return None
