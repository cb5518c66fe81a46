"""Jams of one narrow kind: modules of sounds into a desk of strips, told in a few numbers.

A desk leads and mixes. It has mono strips that offer reverb, MIDI outs, and a track for each part. Each module has
engines that may listen to any channel, one outlet (mono or a pair) and a MIDI in; some have a thru, and engines whose
pan is fixed. Each part lives on a stated module; some want an amount of reverb, some are kept separate.
"""

from random import Random
from typing import NamedTuple

from solver.gear.box import Box
from solver.jam.jam import Jam
from tests.building import Table, box, jam, named

CHANNELS = range(1, 7)
"""All that is ever sent or listened to here; the other channels are shunned."""


class Module(NamedTuple):
    """A box of sounds: the channels its engines stand on, what its outlet does, and what it can do."""

    channels: tuple[int, ...]
    alone: str | None
    """Whether a lone left jack sums or carries its own side; None for a mono outlet."""
    turns: bool
    thru: bool

    @property
    def jacks(self) -> tuple[str, ...]:
        """The sides of its outlet, each with a jack."""
        return ("mono",) if self.alone is None else ("left", "right")


class Rig(NamedTuple):
    """What is on the table and what is wanted; modules and parts by number."""

    strips: int
    outs: int
    tracks: tuple[int, ...]
    modules: tuple[Module, ...]
    homes: tuple[int, ...]
    separate: tuple[tuple[int, ...], ...]
    amounts: dict[int, int]
    leads: int | None
    """How many mono leads are in the drawer; None for as many as it takes."""


def seeded(seed: int) -> Rig:
    """A rig by chance. Each module has a part, and no more parts than engines."""
    dice = Random(seed)
    modules, homes = list[Module](), list[int]()
    for number in range(dice.choice((1, 2, 2, 3))):
        size = dice.choice((1, 2, 2, 3))
        stands = tuple(dice.choice(CHANNELS) for _ in range(size))
        alone = dice.choice((None, "sum", "sum", "own"))
        modules.append(Module(stands, alone, turns=dice.random() < 0.8, thru=dice.random() < 0.7))
        homes += [number] * dice.randint(1, size)
    parts = range(len(homes))
    sizes = [dice.choice((0, 2, 2, 3)) for _ in range(2)]
    return Rig(
        strips=dice.randint(1, 5),
        outs=dice.choice((1, 1, 2)),
        tracks=tuple(dice.choice(CHANNELS) for _ in parts),
        modules=tuple(modules),
        homes=tuple(homes),
        separate=tuple(tuple(dice.sample(parts, size)) for size in sizes if 0 < size <= len(parts)),
        amounts={part: dice.choice((0, 20, 50)) for part in parts if dice.random() < 0.4},
        leads=dice.choice((None, None, 2, 3)),
    )


def as_jam(rig: Rig) -> Jam:
    """The same in hardpan's words."""
    boxes = {"desk": _desk(rig)} | {f"m{number}": _module(module) for number, module in enumerate(rig.modules)}
    wishes: list[Table] = [{"separate": [f"p{part}" for part in parts]} for parts in rig.separate]
    wishes += [{"treat": [f"p{part}"], "with": {"reverb": amount}} for part, amount in rig.amounts.items()]
    wishes.append({"avoid": {"channels": [channel for channel in range(1, 17) if channel not in CHANNELS]}})
    drawer = {} if rig.leads is None else {"cables": {"6.35 mono": rig.leads, "din": len(rig.modules)}}
    parts = {f"p{part}": {"on": f"m{home}"} for part, home in enumerate(rig.homes)}
    return jam(boxes, parts, *wishes, **drawer)


def _desk(rig: Rig) -> Box:
    strips = range(rig.strips)
    return box(
        "Desk",
        out=[named("MAIN", left="L", right="R")],
        in_=[named(f"LINE {number}", mono=f"IN {number}") for number in strips],
        strip=[named(f"IN {number}", from_=f"LINE {number}", offers=["reverb"]) for number in strips],
        track=[named(f"T{number}", channel=channel) for number, channel in enumerate(rig.tracks)],
        midi=[named(f"OUT {number}", way="out") for number in range(rig.outs)],
    )


def _module(module: Module) -> Box:
    jacks = {"mono": "OUT"} if module.alone is None else {"left": "L", "right": "R", "alone": module.alone}
    thru = [named("THRU", way="thru", copies="IN")] if module.thru else []
    pan = "full" if module.turns else "fixed"
    return box(
        "Module",
        out=[named("OUT", **jacks)],
        engine=[named(f"{number}", channel=stands, pan=pan) for number, stands in enumerate(module.channels)],
        midi=[named("IN", way="in"), *thru],
    )
