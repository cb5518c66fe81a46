"""Every cable that fits on a table, and every way to plug some of them."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import permutations, product
from typing import NamedTuple

from solver.gear.rig import Rig
from solver.gear.words import Spot
from solver.jam.intents import Avoid, Keep
from solver.jam.jam import Jam
from solver.plans import Cable

PLAIN_MIDI = {
    ("din", "din"): "din",
    ("trs-a", "trs-a"): "trs",
    ("trs-b", "trs-b"): "trs",
    ("din", "trs-a"): "din > trs-a",
    ("trs-a", "din"): "din > trs-a",
    ("din", "trs-b"): "din > trs-b",
    ("trs-b", "din"): "din > trs-b",
    ("usb-host", "usb-device"): "usb",
    ("usb-device", "usb-host"): "usb",
}
"""The kind of cable for each two plugs of MIDI ports that have one."""


class Lead(NamedTuple):
    """One cable: its kind and the sockets of each end; the legs of a breakout stand left first."""

    kind: str
    start: tuple[Spot, ...]
    end: tuple[Spot, ...]

    @property
    def sockets(self) -> tuple[Spot, ...]:
        """Every socket that it takes."""
        return (*self.start, *self.end)

    def joins(self, one: Spot, other: Spot) -> bool:
        """Whether it runs from one of two sockets to the other."""
        return (one in self.start and other in self.end) or (other in self.start and one in self.end)

    def planned(self) -> Cable:
        """The cable as a plan writes it."""
        start, end = (str(ends[0]) if len(ends) == 1 else tuple(map(str, ends)) for ends in (self.start, self.end))
        return Cable.model_validate({"kind": self.kind, "from": start, "to": end})


def audio_leads(rig: Rig) -> list[Lead]:
    """Every audio cable that fits; none from a box to itself, which would be a loop at once."""
    outs = {spot: socket.jack for spot, socket in rig.jacks.items() if socket.sends}
    ins = {spot: socket.jack for spot, socket in rig.jacks.items() if not socket.sends}
    found: list[Lead] = []
    for (start, out), (end, into) in product(outs.items(), ins.items()):
        if out.stereo == into.stereo:
            shape = "stereo" if out.stereo else "mono"
            sizes = sorted({out.plug, into.plug})
            found.append(Lead(" > ".join(f"{size} {shape}" for size in sizes), (start,), (end,)))
    for singles, others, sends in ((outs, ins, True), (ins, outs, False)):
        legs = [spot for spot, jack in others.items() if not jack.stereo and jack.plug == "6.35"]
        for (spot, jack), pair in product(singles.items(), permutations(legs, 2)):
            if jack.stereo:
                kind = f"{jack.plug} stereo > 2x 6.35 mono"
                found.append(Lead(kind, (spot,), pair) if sends else Lead(kind, pair, (spot,)))
    return [lead for lead in found if not {s.box for s in lead.start} & {s.box for s in lead.end}]


def midi_leads(rig: Rig) -> list[Lead]:
    """Every MIDI cable that fits between two boxes; one that passes both ways stands once."""
    found: dict[frozenset[Spot], Lead] = {}
    for (start, out), (end, into) in product(rig.ports.items(), rig.ports.items()):
        kind = PLAIN_MIDI.get((out.plug, into.plug))
        if kind is not None and out.way != "in" and into.way in ("in", "both") and start.box != end.box:
            found.setdefault(frozenset({start, end}), Lead(kind, (start,), (end,)))
    return list(found.values())


def sets_of(
    leads: Sequence[Lead], drawer: Counter[str] | None, fine: Callable[[Sequence[Lead]], bool] = lambda _: True
) -> Iterator[tuple[Lead, ...]]:
    """Every set of cables that leaves one plug a socket and keeps to the drawer.

    ``fine`` may refuse a set for what no further cable can mend, such as a loop; then all larger ones go with it.
    """
    used: set[Spot] = set()
    taken: Counter[str] = Counter()
    chosen: list[Lead] = []

    def grow(first: int) -> Iterator[tuple[Lead, ...]]:
        yield tuple(chosen)
        for i in range(first, len(leads)):
            lead = leads[i]
            full = drawer is not None and taken[lead.kind] >= drawer[lead.kind]
            if full or not used.isdisjoint(lead.sockets):
                continue
            chosen.append(lead)
            if fine(chosen):
                used.update(lead.sockets)
                taken[lead.kind] += 1
                yield from grow(i + 1)
                taken[lead.kind] -= 1
                used.difference_update(lead.sockets)
            chosen.pop()

    yield from grow(0)


def drawer_of(jam: Jam) -> Counter[str] | None:
    """How many cables of each kind there are; a kind that is not named has none."""
    return None if jam.cables is None else Counter({str(kind): count for kind, count in jam.cables.items()})


def shunned(jam: Jam, what: str) -> set[Spot]:
    """The jacks or ports to leave alone."""
    return {Spot.parse(name) for _, intent in jam.stated(Avoid) for name in getattr(intent.avoid, what)}


def kept_pairs(jam: Jam, sockets: Iterable[Spot]) -> list[tuple[Spot, Spot]]:
    """Each two of these sockets between which a cable is kept."""
    pairs = [intent.keep.cable for _, intent in jam.stated(Keep) if intent.keep.cable is not None]
    known = set(sockets)
    return [(Spot.parse(one), Spot.parse(other)) for one, other in pairs if Spot.parse(one) in known]


def keeps_all(leads: Sequence[Lead], pairs: Iterable[tuple[Spot, Spot]]) -> bool:
    """Whether a set of cables joins every two sockets that it should."""
    return all(any(lead.joins(one, other) for lead in leads) for one, other in pairs)


def comes_round(steps: Iterable[tuple[object, object]]) -> bool:
    """Whether some way along these steps leads back to where it began."""
    onward: dict[object, set[object]] = {}
    for start, end in steps:
        onward.setdefault(start, set()).add(end)
        onward.setdefault(end, set())
    while True:
        ends = {node for node, after in onward.items() if not after}
        if not ends:
            return bool(onward)
        onward = {node: after - ends for node, after in onward.items() if node not in ends}


def onward_from(starts: Iterable[object], steps: Sequence[tuple[object, object]]) -> set[object]:
    """The starts and all that the steps lead to from them."""
    found = set(starts)
    while True:
        more = {end for start, end in steps if start in found and end not in found}
        if not more:
            return found
        found |= more
