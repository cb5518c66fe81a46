"""Plain wishes and the drawer: M6, what is kept, and how many cables there are."""

from solver.gear.cables import KINDS
from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.intents import Avoid, Keep, Kept
from tests.twin.table import Table


def avoid(table: Table) -> None:
    """M6."""
    for _, wish in table.jam.stated(Avoid):
        for channel in wish.avoid.channels:
            for layer in table.jam.layers:
                table.clauses.forbid(table.sends[layer, channel])
            for engine, gear in table.rig.engines.items():
                if gear.stands != channel:
                    table.clauses.forbid(table.listens[engine, channel])
        jacks = (lit for jack in wish.avoid.jacks for lit in table.cabling.plugs(Spot.parse(jack)))
        ports = (lit for port in wish.avoid.ports for lit in table.cabling.leads(Spot.parse(port)))
        for lit in (*jacks, *ports):
            table.clauses.forbid(lit)


def keep(table: Table) -> None:
    """What is kept holds."""
    for _, wish in table.jam.stated(Keep):
        _keep(table, wish.keep)


def _keep(table: Table, kept: Kept) -> None:
    clauses = table.clauses
    if kept.cable is not None:
        one, other = map(Spot.parse, kept.cable)
        clauses.clause(*table.cabling.joining(one, other))
        return
    assert kept.part is not None
    part, layer = kept.part, table.jam.layer_of(kept.part)
    if kept.engine is not None:
        clauses.clause(table.lives[part, Spot.parse(kept.engine)])
    if kept.channel is not None:
        clauses.clause(table.sends[layer, kept.channel])
    if kept.track is not None:
        clauses.clause(table.plays[layer, Spot.parse(kept.track)])
    if kept.strip is not None:
        clauses.clause(table.enters(part, Spot.parse(kept.strip)))
    if kept.pan is not None:
        for engine in table.rig.engines:
            clauses.clause(-table.lives[part, engine], table.pans[Emission("engine", engine), kept.pan])


def draw(table: Table) -> None:
    """No more cables of a kind than are in the drawer."""
    if table.jam.cables is not None:
        joints = [joint for joint in (*table.cabling.audio, *table.cabling.midi) if joint.counts]
        for kind in KINDS:
            used = (joint.given for joint in joints if joint.kind == kind)
            table.clauses.between(0, table.jam.cables.get(kind, 0), used)
