"""The rules of sound: A1 to A8, A11 and A12."""

from collections.abc import Iterator
from itertools import permutations, product

from solver.gear.rig import Emission
from solver.gear.words import Side, Spot
from solver.jam.intents import Separate, Stereo
from tests.twin.clauses import NO, YES, Lit
from tests.twin.spread import Edge, spread
from tests.twin.table import Signal, Table


def carry(table: Table) -> None:
    """A2 to A6: where each signal goes."""
    clauses, rig = table.clauses, table.rig
    for emitter in rig.emitters:
        ways = rig.ways_out(emitter)
        clauses.between(min(1, len(ways)), 1, (table.goes[emitter, outlet] for outlet in ways))
        clauses.between(1, 1, (table.pans[emitter, pan] for pan in rig.pans(emitter)))
    strips = (edge for strip in rig.strips for edge in _strip(table, strip))
    edges = [*_fixed(table), *strips, *_alone(table), *table.cabling.sound()]
    for joint in table.cabling.audio:
        ends = (joint.one.box, joint.other.box) if rig.jacks[joint.one].sends else (joint.other.box, joint.one.box)
        clauses.rise(*ends, joint.given)
    for part in table.jam.parts:
        for signal in table.signals(part):
            starts: dict[object, list[Lit]] = {}
            for point, lit in _starts(table, part, signal[1]):
                starts.setdefault(point, []).append(lit)
            table.sound[signal] = spread(clauses, starts, edges)
    _lead_on(table, edges)


def _lead_on(table: Table, edges: list[Edge]) -> None:
    """Where what a strip takes goes on to the ears: the same ways, walked back from there."""
    ears = table.jam.ears
    at_ears: dict[object, list[Lit]] = {("outlet", ears, side): [YES] for side in table.rig.outlets[ears].sides}
    leads = spread(table.clauses, at_ears, [Edge(edge.end, edge.start, edge.given) for edge in edges])
    for strip in table.rig.strips:
        inlet, sides = table.rig.feed(strip)
        own = list(_strip(table, strip))
        for side in sides:
            ways = [edge for edge in own if edge.start == ("inlet", inlet, side)]
            table.leads_on[strip, side] = table.clauses.either(
                table.clauses.both(edge.given, leads[edge.end]) for edge in ways
            )


def _starts(table: Table, part: str, half: str) -> Iterator[tuple[object, Lit]]:
    for engine in table.rig.engines:
        emitter, lives = Emission("engine", engine), table.lives[part, engine]
        for outlet in table.rig.ways_out(emitter):
            for side in table.rig.outlets[outlet].sides:
                lands = _lands(table, emitter, half, side)
                yield ("outlet", outlet, side), table.clauses.both(lives, table.goes[emitter, outlet], lands)


def _lands(table: Table, emitter: Emission, half: str, side: Side) -> Lit:
    """A2: centre keeps halves apart and puts wholes on both sides."""
    if side == "mono":
        return YES
    centre = [table.pans[emitter, "centre"]] if half in ("whole", side) else []
    return table.clauses.either([table.pans[emitter, side], *centre])


def _strip(table: Table, strip: Spot) -> Iterator[Edge]:
    emitter = Emission("strip", strip)
    inlet, taken = table.rig.feed(strip)
    for outlet, start in product(table.rig.ways_out(emitter), taken):
        for side in table.rig.outlets[outlet].sides:
            lands = _lands(table, emitter, start if len(taken) == 2 else "whole", side)
            given = table.clauses.both(table.goes[emitter, outlet], lands)
            yield Edge(("inlet", inlet, start), ("outlet", outlet, side), given)


def _fixed(table: Table) -> Iterator[Edge]:
    """Outlets to their jacks and mirrors, jacks to their inlets."""
    for jack, socket in table.rig.jacks.items():
        for side in socket.jack.sides:
            ends = ("jack", jack, side), ("outlet" if socket.sends else "inlet", socket.connection, side)
            yield Edge(*(ends[::-1] if socket.sends else ends), YES)
    for outlet, gear in table.rig.outlets.items():
        if gear.mirrors is not None:
            mirrored = Spot(outlet.box, gear.mirrors)
            for start, end in product(table.rig.outlets[mirrored].sides, gear.sides):
                if start == end or "mono" in (start, end):
                    yield Edge(("outlet", mirrored, start), ("outlet", outlet, end), YES)


def _alone(table: Table) -> Iterator[Edge]:
    """A4 and A5: what happens while a right jack is empty."""
    for connections, sends in ((table.rig.outlets, True), (table.rig.inlets, False)):
        for spot, gear in connections.items():
            if gear.left is not None and getattr(gear, "alone", "own") != "own":
                left, right = (table.rig.jack_of(spot, side, sends) for side in gear.sides)
                empty = -table.clauses.either(table.cabling.plugs(right))
                if sends:
                    yield Edge(("outlet", spot, "right"), ("jack", left, "left"), empty)
                else:
                    yield Edge(("jack", left, "left"), ("inlet", spot, "right"), empty)


def hear(table: Table) -> None:
    """A1 (one part an engine), A7 and A12."""
    clauses, jam, ears = table.clauses, table.jam, table.jam.ears
    for engine in table.rig.engines:
        clauses.between(0, 1, (table.lives[part, engine] for part in jam.parts))
    outlet = table.rig.outlets[ears]
    for jack in outlet.jacks:
        for plug in table.cabling.plugs(Spot(ears.box, jack.label)):
            clauses.forbid(plug)
    for part in jam.parts:
        if part in jam.parts_of(Stereo):
            _keep_sides(table, part)
            continue
        on = [table.heard((part, "whole"), side) for side in outlet.sides]
        for lits in [on] if jam.mains == "mono" else [[lit] for lit in on]:
            clauses.clause(*lits)


def _keep_sides(table: Table, part: str) -> None:
    for engine in table.rig.engines:
        emitter, lives = Emission("engine", engine), table.lives[part, engine]
        table.clauses.clause(-lives, table.pans[emitter, "centre"])
        for outlet in table.rig.ways_out(emitter):
            if table.rig.outlets[outlet].sides == ("mono",):
                table.clauses.forbid(lives, table.goes[emitter, outlet])
    for half in ("left", "right"):
        for side in ("left", "right", "mono"):
            heard = table.sound[part, half]["outlet", table.jam.ears, side]
            table.clauses.clause(heard if side == half else -heard)


def share_strips(table: Table) -> None:
    """A8 and A11."""
    clauses, rig = table.clauses, table.rig
    for part, box in product(table.jam.parts, rig.boxes):
        strips = [strip for strip in rig.strips if strip.box == box]
        signals = table.signals(part)
        if len(signals) == 1:
            clauses.between(0, 1, (table.enters(part, strip) for strip in strips))
        else:
            _stereo(table, strips, *signals)
    for _, wish in table.jam.stated(Separate):
        box = wish.at or table.jam.leader
        strips = [strip for strip in rig.strips if strip.box == box]
        for part in wish.separate:
            here = [table.lives[part, engine] for engine in rig.engines if engine.box == box]
            clauses.clause(*here, *(table.heard_over(part, strip) for strip in strips))
        for strip in strips:
            clauses.between(0, 1, (table.enters(part, strip) for part in wish.separate))


def _stereo(table: Table, strips: list[Spot], left: Signal, right: Signal) -> None:
    """Nothing, one stereo strip, or two mono strips set alike with the left and the right."""
    clauses, part = table.clauses, left[0]
    mono = [strip for strip in strips if not table.rig.is_stereo_strip(strip)]
    pairs = [clauses.both(table.into(left, a), table.into(right, b)) for a, b in permutations(mono, 2)]
    wide = [table.enters(part, strip) for strip in strips if strip not in mono]
    clauses.between(0, 1, (*pairs, *wide))
    for strip in mono:
        clauses.forbid(table.into(left, strip), table.into(right, strip))
        clauses.clause(-table.enters(part, strip), *pairs)
    for half in (left, right):
        clauses.between(0, 1, (table.into(half, strip) for strip in mono))
    for (one, other), pair in zip(permutations(mono, 2), pairs, strict=True):
        here, there = Emission("strip", one), Emission("strip", other)
        for effect in dict.fromkeys(wanted.effect for wanted in table.jam.wanted):
            for amount in dict.fromkeys(wanted.amount for wanted in table.jam.wanted):
                choices = (table.amounts.get((at, effect, amount), NO) for at in (here, there))
                _equal(table, pair, *choices)
        for key in dict.fromkeys(wanted.key for wanted in table.jam.wanted if wanted.key is not None):
            _equal(table, pair, *(table.keys.get((at, key), NO) for at in (here, there)))


def _equal(table: Table, given: Lit, one: Lit, other: Lit) -> None:
    table.clauses.clause(-given, -one, other)
    table.clauses.clause(-given, one, -other)
