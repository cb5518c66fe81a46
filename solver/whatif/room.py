"""What a plan costs, and what it leaves free."""

from __future__ import annotations

from typing import NamedTuple

from solver.flow.wires import sockets
from solver.gear.words import ALL_CHANNELS, Side, Spot
from solver.jam.jam import Jam
from solver.plans import Goals, Plan


class Room(NamedTuple):
    """What a plan costs, how many parts it treats, and what is free beside it.

    ``sides`` are those of outlets, ears and mirrors apart, with nothing plugged; ``strips`` carry no part; ``channels``
    carry no notes and are not to be avoided.
    """

    goals: Goals
    treated: int
    sides: tuple[tuple[Spot, Side], ...]
    strips: tuple[Spot, ...]
    channels: tuple[int, ...]


def room(jam: Jam, plan: Plan, goals: Goals) -> Room:
    """The room that a plan of a jam leaves."""
    plugged = {spot for cable in plan.cables for ends in (cable.source, cable.to) for spot in sockets(ends)}
    closed = {jam.ears} | {spot for spot, outlet in jam.rig.outlets.items() if outlet.mirrors is not None}
    sent = {part.channel for part in plan.parts.values()}
    return Room(
        goals=goals,
        treated=len({want.part for want in jam.wanted if want.amount}),
        sides=tuple(
            (spot, side)
            for spot, socket in jam.rig.jacks.items()
            if socket.sends and socket.connection not in closed and spot not in plugged
            for side in socket.jack.sides
        ),
        strips=tuple(strip for strip in jam.rig.strips if str(strip) not in plan.strips),
        channels=tuple(channel for channel in ALL_CHANNELS if channel not in sent | jam.shunned),
    )
