"""Which parts each audio cable carries, as far as the plan's own words tell."""

from collections.abc import Iterator

from solver.flow.wires import sockets
from solver.gear.rig import Socket
from solver.gear.words import Pan, Spot
from solver.jam.jam import Jam
from solver.plans import Plan, PlannedPart


def carried(jam: Jam, plan: Plan) -> list[tuple[str, ...]]:
    """The parts on each cable of a plan, in the order of ``plan.cables``; none on a MIDI cable.

    A part is on a cable when an engine or strip of the box it comes from sends it to a side that the plug sits on.
    """
    plugged = {end for cable in plan.cables for ends in (cable.source, cable.to) for end in sockets(ends)}
    emitted = {name: tuple(_emitted(plan, part)) for name, part in plan.parts.items()}
    found = []
    for cable in plan.cables:
        senders = [
            jam.rig.jacks[end] for end in sockets(cable.source) if end in jam.rig.jacks and jam.rig.jacks[end].sends
        ]
        found.append(
            tuple(
                name
                for name, ways in emitted.items()
                if any(_is_on(jam, socket, way, plugged) for socket in senders for way in ways)
            )
        )
    return found


def _emitted(plan: Plan, part: PlannedPart) -> Iterator[tuple[Spot, Pan]]:
    """Every outlet that the part is sent to on its way, with the side."""
    yield Spot(Spot.parse(part.engine).box, part.outlet), part.pan
    for box, names in (part.strips or {}).items():
        for name in names:
            strip = plan.strips.get(str(Spot(box, name)))
            if strip is not None:
                yield Spot(box, strip.outlet), strip.pan


def _is_on(jam: Jam, socket: Socket, way: tuple[Spot, Pan], plugged: set[Spot]) -> bool:
    outlet, pan = way
    if outlet not in _sources(jam, socket.connection):
        return False
    sides = socket.jack.sides
    if pan == "centre" or "mono" in sides or pan in sides:
        return True
    connection = jam.rig.outlets[socket.connection]
    others = {Spot(socket.connection.box, jack.label) for jack in connection.jacks if jack != socket.jack}
    return connection.alone == "sum" and "left" in sides and not others & plugged


def _sources(jam: Jam, outlet: Spot) -> Iterator[Spot]:
    """The outlet, and those that it mirrors."""
    at: Spot | None = outlet
    while at is not None:
        yield at
        mirrored = jam.rig.outlets[at].mirrors
        at = Spot(at.box, mirrored) if mirrored is not None else None
