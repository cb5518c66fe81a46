"""What a plan costs: cables, engines at level zero, settings moved."""

from collections.abc import Iterator

from tests.twin.clauses import Lit
from tests.twin.table import Table


def leave_alone(table: Table) -> None:
    """What carries no part stays at its outlet and at centre."""
    for emitter in table.rig.emitters:
        carries = [table.passes(part, emitter) for part in table.jam.parts]
        for outlet in table.rig.ways_out(emitter)[:1]:
            table.clauses.clause(*carries, table.goes[emitter, outlet])
        table.clauses.clause(*carries, table.pans[emitter, "centre"])


def cables(table: Table) -> list[Lit]:
    """G1: every cable; a breakout is one."""
    return [joint.given for joint in (*table.cabling.audio, *table.cabling.midi) if joint.counts]


def silenced(table: Table) -> list[Lit]:
    """G2, first half: every engine at level zero."""
    return list(table.zero.values())


def moved(table: Table) -> list[Lit]:
    """G2, second half: every setting that leaves where it stands."""
    return [*_moved(table), *silenced(table)]


def _moved(table: Table) -> Iterator[Lit]:
    for (layer, track), plays in list(table.plays.items()):
        yield table.clauses.both(plays, -table.sends[layer, table.rig.tracks[track].stands])
    for engine, gear in table.rig.engines.items():
        yield -table.listens[engine, gear.stands]
    for emitter in table.rig.emitters:
        yield -table.pans[emitter, "centre"]
        yield from (-table.goes[emitter, outlet] for outlet in table.rig.ways_out(emitter)[:1])


COSTS = (cables, silenced, moved)
"""In the order in which they count."""
