"""The rules of notes: M1 to M5, M7 to M10."""

from itertools import product

from solver.gear.words import Spot
from solver.jam.intents import Clock, Match, Program
from solver.jam.intents import Layer as Layered
from tests.twin.clauses import YES, Lit
from tests.twin.spread import Edge, spread
from tests.twin.table import Layer, Table


def pass_on(table: Table) -> None:
    """M1 and M2: where the notes of each box go; they come round nowhere."""
    rig, clauses = table.rig, table.clauses
    inner = [
        Edge(("into", Spot(port.box, source)), ("out of", port), YES)
        for port, gear in rig.ports.items()
        for source in gear.passes_on
    ]
    hops = list(table.cabling.notes())
    for box, thing in rig.boxes.items():
        outs: dict[object, list[Lit]] = {
            ("out of", Spot(box, p.name)): [YES] for p in thing.ports if p.sends and p.way != "thru"
        }
        table.notes[box] = spread(clauses, outs, [*inner, *hops])
        for port in thing.ports if thing.tracks else ():
            clauses.forbid(table.notes[box]["into", Spot(box, port.name)])
    for onward, hop in product(inner, hops):
        if onward.end == hop.start:
            clauses.rise(str(onward.start), str(hop.end), hop.given)


def play(table: Table) -> None:
    """M2 (channels), M4, M9: each part lives and is played somewhere, each layer on a channel of its track."""
    clauses, jam = table.clauses, table.jam
    for part in jam.parts:
        clauses.between(1, 1, (table.lives[part, engine] for engine in table.rig.engines))
        shifts = {wish.shift[part] for _, wish in jam.stated(Layered) if part in wish.shift}
        for engine, gear in table.rig.engines.items():
            if len(shifts) > 1 or any(abs(shift) > gear.shift for shift in shifts):
                clauses.forbid(table.lives[part, engine])
    for layer in jam.layers:
        clauses.between(1, 1, (table.plays[layer, track] for track in table.rig.tracks))
        clauses.between(1, 1, (table.sends[layer, channel] for channel in (*range(1, 17), "off")))
        for track, lane in table.rig.tracks.items():
            clauses.clause(-table.plays[layer, track], *(table.sends[layer, option] for option in lane.options))
    for track in table.rig.tracks:
        clauses.between(0, 1, (table.plays[layer, track] for layer in jam.layers))


def sound(table: Table) -> None:
    """M3 and M5: each engine sounds for the track of its part and for no other."""
    clauses, jam = table.clauses, table.jam
    for engine, gear in table.rig.engines.items():
        options = [channel for at, channel in table.listens if at == engine]
        clauses.between(1, 1, (table.listens[engine, option] for option in options))
        for layer in jam.layers:
            holds = clauses.either(table.lives[part, engine] for part in layer)
            inside = table.inside(layer, engine)
            hits = [clauses.both(table.strikes(layer, engine.box, o), table.listens[engine, o]) for o in options]
            clauses.clause(-holds, inside, *hits)
            for sounds in (inside, *hits):
                clauses.clause(-sounds, holds, table.zero[engine])
            clauses.forbid(table.zero[engine], holds)
        _last_resort(table, engine, "off" in gear.options)


def _last_resort(table: Table, engine: Spot, can_be_off: bool) -> None:
    """A level is at zero only where its track plays the engine, or where no channel is free and it cannot be off."""
    gear, layers = table.rig.engines[engine], table.jam.layers
    inside = [table.inside(layer, engine) for layer in layers]
    if can_be_off:
        table.clauses.clause(-table.zero[engine], *inside)
        return
    for at, channel in list(table.listens):
        if at == engine and (channel == gear.stands or channel not in table.jam.shunned):
            struck = (table.strikes(layer, engine.box, channel) for layer in layers)
            table.clauses.clause(-table.zero[engine], *inside, *struck)


def clock(table: Table) -> None:
    """M7."""
    ports, leader = table.rig.ports, table.jam.leader
    edges = [edge for edge in table.cabling.notes() if ports[edge.start[1]].clock and ports[edge.end[1]].clock]  # type: ignore[index]
    starts: dict[object, list[Lit]] = {}
    for port, gear in ports.items():
        if gear.clock and gear.sends and gear.way != "thru" and port.box == leader:
            starts["out of", port] = [YES]
        sources = (Spot(port.box, name) for name in gear.passes_on if gear.clock)
        edges += [Edge(("into", source), ("out of", port), YES) for source in sources if ports[source].clock]
    there = spread(table.clauses, starts, edges)
    for box in (box for _, wish in table.jam.stated(Clock) for box in wish.clock):
        if box != leader:
            table.clauses.clause(*(there["into", port] for port in ports if port.box == box))


def change_programs(table: Table) -> None:
    """M8; by M5 only parts of the same layer sound for its track."""
    named = table.jam.parts_of(Program)
    for layer in table.jam.layers:
        if named.keys().isdisjoint(layer):
            continue
        for track, lane in table.rig.tracks.items():
            if not lane.program_change:
                table.clauses.forbid(table.plays[layer, track])
        for part, (engine, gear) in product(layer, table.rig.engines.items()):
            if gear.program_change != (part in named):
                table.clauses.forbid(table.lives[part, engine])


def match(table: Table) -> None:
    """M10: in each box one of a part's strips with a track belongs to its track; without any, it is played inside."""
    rig, clauses = table.rig, table.clauses
    owned = {strip: Spot(strip.box, gear.track) for strip, gear in rig.strips.items() if gear.track is not None}
    for part in table.jam.parts_of(Match):
        layer: Layer = table.jam.layer_of(part)
        for box in rig.boxes:
            here = {strip: track for strip, track in owned.items() if strip.box == box}
            works = [clauses.both(table.enters(part, s), table.plays[layer, track]) for s, track in here.items()]
            for strip in here:
                clauses.clause(-table.enters(part, strip), *works)
        inside = (clauses.both(table.lives[part, e], table.inside(layer, e)) for e in rig.engines)
        clauses.clause(*(table.heard_over(part, strip) for strip in owned), *inside)
