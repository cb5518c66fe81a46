"""A mixed-integer program for a table of strips, written straight from the rules of docs/rules.md."""

from itertools import combinations, product

from tests.outside.mixed import Program
from tests.outside.strip_table import CHANNELS, Rig

Lead = tuple[tuple[int, str], int]
"""A module and the side of its jack, and a strip."""


def least(rig: Rig) -> tuple[int, ...] | None:
    """The fewest cables, engines at level zero and settings to move, in this order; None where no plan is possible."""
    made = Program()
    leads = _leads(made, rig)
    turned = _sound(made, rig, leads)
    moved, zero = _channels(made, rig)
    return made.least(([*leads.values(), *_tree(made, rig)], zero, [*turned, *moved, *zero]))


def _leads(made: Program, rig: Rig) -> dict[Lead, int]:
    """A1 and the drawer: a jack takes one plug."""
    jacks = [(number, side) for number, module in enumerate(rig.modules) for side in module.jacks]
    leads = {ends: made.new() for ends in product(jacks, range(rig.strips))}
    for end, at in [(jack, 0) for jack in jacks] + [(strip, 1) for strip in range(rig.strips)]:
        made.between(0, 1, (lead for ends, lead in leads.items() if ends[at] == end))
    if rig.leads is not None:
        made.between(0, rig.leads, leads.values())
    return leads


def _sound(made: Program, rig: Rig, leads: dict[Lead, int]) -> list[int]:
    """A2 to A9 and A11; the pans that are not at centre.

    A part is heard on both sides alike just where it comes over one strip at centre, so it comes in over one lead.
    """
    enters = dict[tuple[int, int], int]()
    turned = list[int]()
    for part, home in enumerate(rig.homes):
        module = rig.modules[home]
        carried = {"mono": made.new()}
        if module.alone is None:
            made.some(carried["mono"])
        else:
            left, right = made.new(), made.new()
            made.between(1 if module.turns else 2, 2, (left, right))
            turned += [-left, -right]
            right_used = _either(made, [lead for (jack, _), lead in leads.items() if jack == (home, "right")])
            sums = _both(made, right, -right_used)
            carried = {"left": _either(made, [left, sums] if module.alone == "sum" else [left]), "right": right}
        for strip in range(rig.strips):
            ways = [_both(made, leads[(home, side), strip], here) for side, here in carried.items()]
            made.between(0, 1, ways)
            enters[part, strip] = _either(made, ways)
        made.between(1, 1, (enters[part, strip] for strip in range(rig.strips)))
    for parts in rig.separate:
        for (one, other), strip in product(combinations(parts, 2), range(rig.strips)):
            made.some(-enters[one, strip], -enters[other, strip])
    for (one, here), (other, there) in combinations(rig.amounts.items(), 2):
        for strip in range(rig.strips) if here != there else ():
            made.some(-enters[one, strip], -enters[other, strip])
    return turned


def _channels(made: Program, rig: Rig) -> tuple[list[int], list[int]]:
    """M3 to M5: the channels that move, and the engines at level zero. All notes reach all modules."""
    parts = range(len(rig.homes))
    sends = {key: made.new() for key in product(parts, CHANNELS)}
    plays = {key: made.new() for key in product(parts, parts)}
    moved, zero = list[int](), list[int]()
    for channel in CHANNELS:
        made.between(0, 1, (sends[part, channel] for part in parts))
    for part in parts:
        made.between(1, 1, (sends[part, channel] for channel in CHANNELS))
        made.between(1, 1, (plays[part, track] for track in parts))
    for track, stands in enumerate(rig.tracks):
        made.between(1, 1, (plays[part, track] for part in parts))
        moved += [_both(made, plays[part, track], -sends[part, stands]) for part in parts]
    for number, module in enumerate(rig.modules):
        own = [part for part in parts if rig.homes[part] == number]
        lives = {key: made.new() for key in product(own, range(len(module.channels)))}
        for part in own:
            made.between(1, 1, (lives[part, engine] for engine in range(len(module.channels))))
        for engine, stands in enumerate(module.channels):
            here = [lives[part, engine] for part in own]
            made.between(0, 1, here)
            silent, listens = made.new(), {channel: made.new() for channel in CHANNELS}
            made.between(1, 1, listens.values())
            for channel, hears in listens.items():
                struck = [sends[part, channel] for part in parts]
                made.some(-silent, *struck)
                for part in parts:
                    lives_here = [lives[part, engine]] if part in own else []
                    made.some(-sends[part, channel], -hears, *lives_here, silent)
                for part in own:
                    made.some(-lives[part, engine], -sends[part, channel], hears)
            made.between(0, 1, [silent, *here])
            zero.append(silent)
            moved.append(-listens[stands])
    return moved, zero


def _tree(made: Program, rig: Rig) -> list[int]:
    """M1, M2: the MIDI leads, one into each module, from the desk's outs and from thrus; none comes round."""
    modules = range(len(rig.modules))
    heights = [made.new(len(modules)) for _ in modules]
    leads = {(source, into): made.new() for source in (-1, *modules) for into in modules if source != into}
    for source in (-1, *modules):
        room = rig.outs if source < 0 else int(rig.modules[source].thru)
        made.between(0, room, (lead for ends, lead in leads.items() if ends[0] == source))
    for into in modules:
        made.between(1, 1, (lead for ends, lead in leads.items() if ends[1] == into))
    for (source, into), lead in leads.items():
        if source >= 0:
            made.above(heights[source], heights[into], lead)
    return list(leads.values())


def _both(made: Program, one: int, other: int) -> int:
    """A choice that holds exactly when both do."""
    return -_either(made, [-one, -other])


def _either(made: Program, lits: list[int]) -> int:
    """A choice that holds exactly when at least one does."""
    found = made.new()
    made.some(-found, *lits)
    for lit in lits:
        made.some(found, -lit)
    return found
