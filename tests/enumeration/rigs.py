"""Invents tiny jams, small enough that everything can be tried, and as varied as the rules and files allow."""

from collections import Counter
from functools import lru_cache
from math import perm, prod
from random import Random

from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.enumeration.exhaustive import best
from tests.enumeration.gear import Dice, Table, desk, hub, instrument, mixer
from tests.enumeration.plugging import Lead, audio_leads, midi_leads
from tests.enumeration.wishes import Wisher

NAMES = ("dock", "reef", "cove")
CASTS = (
    *((desk, instrument),) * 3,
    *((desk, instrument, instrument),) * 3,
    *((desk, instrument, mixer),) * 3,
    (desk, instrument, hub),
    (desk, desk),
    (desk, desk),
    (desk, desk, instrument),
    (desk, mixer),
    (desk,),
)
"""Who is on the table; the first box leads."""

DULL = (93, 85)
"""Of 100 tables on which no plan is possible, and of 100 with one without cables, how many are left out."""

MOST_SETS = 3000
"""How many sets of MIDI cables a jam may have so that all can be tried."""

MOST_CHANNELS = 100_000
"""How many castings and channels may meet, counted roughly."""

MOST_STANDS = 120_000
"""How many sets of audio cables, engines, outlets and pans may meet, counted roughly."""


MOST_STORED = 40
"""How many values there may be of all that boxes store, in a set that is tried."""

MOST_HOMES = 9
"""How many parts and engines may meet in such a set."""


def jam(random: Random) -> Jam:
    """A tiny jam. The same state of ``random`` always gives the same one.

    Mostly its table can be played on, with cables, while nothing is wished, so that the wishes decide.
    """
    dice = Dice(random)
    while True:
        table = _table(dice)
        if not small_enough(Jam.model_validate(table)):
            continue
        bare = best(Jam.model_validate(table))
        if dice.chance(DULL[0] if bare is None else 0 if bare.cost.cables else DULL[1]):
            continue
        wished = Jam.model_validate(table | _wishes(dice, table, bare.plan if bare is not None else None))
        if small_enough(wished):
            return wished


def set_of_two(dice: Dice, stored: Table) -> list[Jam]:
    """Two tiny jams on the same boxes, whose engines store things so; mostly each of them has a plan with cables."""
    while True:
        table = _table(dice)
        for box in table["boxes"].values():
            for engine in box.get("engine", ()):
                engine["stored"] = stored
        other = table | {"part": {part: _place(dice, table["boxes"], n) for n, part in enumerate(table["part"])}}
        if dice.chance(30):
            other["listen"] = _ears(dice, table["boxes"], NAMES[0])
        both = [Jam.model_validate(one | _wishes(dice, one, None)) for one in (table, other)]
        if not all(map(small_for_a_set, both)):
            continue
        alone = [best(one) for one in both]
        if all(one is not None and one.cost.cables for one in alone) or dice.chance(5):
            return both


def small_for_a_set(table: Jam) -> bool:
    """Whether everything can be tried for each value of what boxes store."""
    engines = table.rig.engines
    channels = prod(len(engine.options) for engine in engines.values() if engine.memory("channel") == "box")
    emitters = [Emission("engine", spot) for spot, engine in engines.items() if engine.memory("pan") == "box"]
    stands = prod(3 * len(table.rig.ways_out(emitter)) for emitter in emitters)
    few = channels * stands <= MOST_STORED and len(table.parts) * len(engines) <= MOST_HOMES
    return few and not _beyond(midi_leads(table.rig), 40) and not _beyond(audio_leads(table.rig), 40)


@lru_cache(1024)
def seeded(seed: int) -> Jam:
    """The jam of one seed."""
    return jam(Random(seed))


def _table(dice: Dice) -> Table:
    """A jam without wishes as data, with its boxes inside it."""
    dice.settle_plugs()
    boxes = {name: maker(dice, name.title()) for name, maker in zip(NAMES, dice.one(CASTS), strict=False)}
    parts = [f"part{number + 1}" for number in range(_how_many(dice, boxes))]
    found: Table = {"title": "Tiny", "leader": NAMES[0], "boxes": boxes}
    found["part"] = {part: _place(dice, boxes, number) for number, part in enumerate(parts)}
    found["listen"] = _ears(dice, boxes, NAMES[0])
    found["mains"] = "mono" if dice.chance(20) else "stereo"
    return found


def _place(dice: Dice, boxes: dict[str, Table], number: int) -> Table:
    """Where a part lives: the first now and then in the leader, where it can be a key, the others in turn elsewhere."""
    first = number == 0
    own = [name for name, box in boxes.items() if box.get("engine") and (name == NAMES[0]) == first]
    if not own or dice.chance(50 if first else 25):
        return {}
    name = own[number % len(own)]
    return {"on": f"{name}/{dice.one(boxes[name]['engine'])['name']}" if dice.chance(25) else name}


def _wishes(dice: Dice, table: Table, bare: Plan | None) -> Table:
    """Intents, sounds, and now and then a drawer; ``bare`` is what is planned when nothing is wished."""
    wisher = Wisher(dice, table["boxes"], table["leader"], list(table["part"]), bare)
    found: Table = {"part": {part: place | wisher.part() for part, place in table["part"].items()}}
    found["intent"] = wisher.intents(dice.one((0, 1, 1, 2, 2, 3)))
    if dice.chance(20):
        found["cables"] = _drawer(dice, Jam.model_validate(table))
    return found


def _how_many(dice: Dice, boxes: dict[str, Table]) -> int:
    """How many parts: mostly no more than there are engines, and tracks of the leader."""
    room = min(sum(len(box.get("engine", ())) for box in boxes.values()), len(boxes["dock"]["track"]))
    wanted = dice.one((1, 2, 2, 3, 3, 3))
    return wanted if dice.chance(4) else max(1, min(wanted, room))


def _ears(dice: Dice, boxes: dict[str, Table], leader: str) -> str:
    """Mostly the leader's first outlet; now and then another, also of a mixer behind it."""
    outlets = [f"{name}/{outlet['name']}" for name, box in boxes.items() for outlet in box.get("out", ())]
    own = [outlet for outlet in outlets if outlet.startswith(f"{leader}/")]
    mixers = [outlet for outlet in outlets if boxes[outlet.split("/")[0]].get("strip")]
    return dice.one(dice.one(([own[0]], [own[0]], [own[0]], own, own, mixers or own, outlets)))


def _drawer(dice: Dice, table: Jam) -> dict[str, int]:
    """A drawer with some cables of most kinds that fit on the table."""
    kinds = Counter(lead.kind for lead in (*audio_leads(table.rig), *midi_leads(table.rig)))
    return {kind: dice.one((0, 1, 1, 2, 2)) for kind in dice.some(kinds, 85)}


def small_enough(table: Jam) -> bool:
    """Whether everything that a plan of this jam leaves open can be tried in a moment."""
    rig = table.rig
    homes = perm(len(rig.engines), len(table.parts))
    for part in table.parts.values():
        if part.on is not None:
            own = sum(part.on in (engine.box, str(engine)) for engine in rig.engines)
            homes = homes * own // max(1, len(rig.engines))
    tracks = perm(len(rig.tracks), len(table.layers))
    channels = max((len(track.options) for track in rig.tracks.values()), default=1) ** len(table.layers)
    stands = prod(len(rig.ways_out(e)) * len(rig.pans(e)) for e in (Emission("strip", s) for s in rig.strips))
    if homes * tracks * channels > MOST_CHANNELS:
        return False
    work = max(1, homes * max(1, stands))
    return not (_beyond(midi_leads(rig), MOST_SETS) or _beyond(audio_leads(rig), MOST_STANDS // work))


def _beyond(leads: list[Lead], most: int) -> bool:
    """Whether there are more sets of these cables than that."""
    left, used = most, set[Spot]()
    sockets = [lead.sockets for lead in leads]

    def grow(first: int) -> bool:
        nonlocal left
        left -= 1
        for place in range(first, len(leads) if left >= 0 else 0):
            if used.isdisjoint(sockets[place]):
                used.update(sockets[place])
                beyond = grow(place + 1)
                used.difference_update(sockets[place])
                if beyond:
                    return True
        return left < 0

    return grow(0)
