"""Invents rigs of any size: a leader with line strips, and sound modules whose parts duck by different amounts.

A rig of size (N, M, K) has N modules of M engines, each on one stereo outlet (every second one with ``alone = "sum"``)
with a MIDI in and a thru, and a leader with K mono line strips (ducking with its two pads as keys, reverb) and
min(K, 12) tracks for outside engines besides those of its pads. 70 percent of a module's engines have a part, in two
groups that duck by different amounts, so that both sides of each module are needed; two more parts live on the pads.
Parts are dealt at random into as many layers as there are outside tracks: at most 14 tracks sound, so 16 channels
suffice. K = 2 N strips are just enough.

Variants change one thing each; ``VARIANTS`` lists them and says which of them have a plan.
"""

from collections.abc import Callable
from random import Random
from typing import Any, NamedTuple

from solver.jam.jam import Jam

Table = dict[str, Any]

IN_USE = 0.7
"""The share of a module's engines that have a part."""

MOST_TRACKS = 12
"""How many tracks for outside engines a leader has at most, so that with its pads no more than 14 sound."""

LEADER = "dock"
SOFT, HARD = (20, 30, 40), 70
"""Percents of ducking of a module's two groups; the first takes turns over the modules."""


class Size(NamedTuple):
    """How large a rig is."""

    modules: int
    engines: int
    strips: int


SIZES = (Size(2, 4, 4), Size(4, 8, 8), Size(8, 8, 16), Size(16, 8, 32))
"""The sizes that are measured; they have 6, 22, 42 and 82 parts."""


class Rig:
    """A rig as the tables of its files, open to changes until it is asked for its jam."""

    def __init__(self, size: Size, random: Random) -> None:
        """Lay out the plain rig: boxes, parts, groups that duck alike, and layers."""
        self.size, self._random = size, random
        self.tracks = min(size.strips, MOST_TRACKS)
        self.boxes: dict[str, Table] = {LEADER: leader(size.strips, self.tracks)}
        self.parts: dict[str, Table] = {"kick": {"on": f"{LEADER}/PAD 1"}, "rim": {"on": f"{LEADER}/PAD 2"}}
        self.groups: dict[str, tuple[list[str], list[str]]] = {}
        self.wishes: list[Table] = []
        self.cables: dict[str, int] | None = None
        for number in range(size.modules):
            self.boxes[f"reef{number + 1}"] = module(number, size.engines)
        self.fill(max(2, int(size.engines * IN_USE)))

    @property
    def modules(self) -> dict[str, Table]:
        """The boxes that hold the groups of parts."""
        return {name: self.boxes[name] for name in self.groups or [n for n in self.boxes if n != LEADER]}

    def fill(self, count: int) -> None:
        """Give each module so many parts, and deal all of them into layers anew."""
        for name in self.modules:
            for part in (part for group in self.groups.get(name, ()) for part in group):
                del self.parts[part]
            listed = [f"{name}-{place + 1}" for place in range(count)]
            self.parts |= {part: {"on": name} for part in listed}
            self.groups[name] = (listed[: count // 2], listed[count // 2 :])
        self.treats = [
            self.duck(group, amount)
            for number, groups in enumerate(self.groups.values())
            for group, amount in zip(groups, (SOFT[number % len(SOFT)], HARD), strict=True)
        ]
        self.layers: list[list[str]] = [[] for _ in range(self.tracks)]
        for part in self.outside:
            self._random.choice(self.layers).append(part)

    @property
    def outside(self) -> list[str]:
        """The parts that live on modules."""
        return [part for groups in self.groups.values() for group in groups for part in group]

    def duck(self, parts: list[str], amount: int) -> Table:
        """A wish that the parts duck under the kick."""
        return {"treat": parts, "with": {"ducking": amount}, "key": "kick"}

    def table(self) -> Table:
        """The jam file, with the boxes themselves where the file has their names."""
        layers = [{"layer": layer} for layer in self.layers if len(layer) > 1]
        clock = {"clock": list(self.groups)}
        drawer = {} if self.cables is None else {"cables": self.cables}
        return {
            "title": "Bench",
            "leader": LEADER,
            "listen": f"{LEADER}/MAIN",
            "boxes": self.boxes,
            **drawer,
            "part": self.parts,
            "intent": [*self.treats, *layers, clock, *self.wishes],
        }

    def jam(self) -> Jam:
        """The rig as a jam."""
        return Jam.model_validate(self.table())


def leader(strips: int, tracks: int) -> Table:
    """A box with two pads, mono line strips, the first with a track each, and so many outside tracks."""
    pads = ("PAD 1", "PAD 2")
    lines = range(1, strips + 1)
    return {
        "name": "Dock",
        "out": [{"name": "MAIN", "left": "OUT L", "right": "OUT R"}],
        "in": [{"name": f"LINE {line}", "mono": f"IN {line}"} for line in lines],
        "strip": [
            {"name": f"S{line}", "from": f"LINE {line}", "offers": ["ducking", "reverb"], "key": list(pads)}
            | ({"track": f"EXT {line}"} if line <= tracks else {})
            for line in lines
        ],
        "engine": [{"name": pad, "channels": []} for pad in pads],
        "track": [
            *({"name": pad, "plays": pad, "channel": 16 - place, "can_be_off": True} for place, pad in enumerate(pads)),
            *({"name": f"EXT {track}", "channel": 1 + (track - 1) % 16} for track in range(1, tracks + 1)),
        ],
        "midi": [{"name": "MIDI OUT", "way": "out", "clock": True}],
    }


def module(number: int, engines: int) -> Table:
    """A box with engines on one stereo outlet, a MIDI in and a thru."""
    return {
        "name": f"Reef {number + 1}",
        "out": [{"name": "MAIN", "left": "L/MONO", "right": "R", "alone": "sum" if number % 2 else "own"}],
        "engine": [{"name": str(place + 1), "channel": 1 + place % 4} for place in range(engines)],
        "midi": [
            {"name": "MIDI IN", "way": "in", "clock": True},
            {"name": "MIDI THRU", "way": "thru", "copies": "MIDI IN", "clock": True},
        ],
    }


class Variant(NamedTuple):
    """What is changed on the plain rig, and whether a plan is left."""

    change: Callable[[Rig], None]
    possible: bool
    about: str


def rig(size: Size, variant: str = "plain", seed: int = 1) -> Rig:
    """The rig of a size and variant; the same seed always gives the same one.

    Raises:
        KeyError: there is no such variant.
    """
    from benchmarks.variants import VARIANTS  # noqa: PLC0415 - the variants are built on this file

    made = Rig(size, Random(seed))
    VARIANTS[variant].change(made)
    return made
