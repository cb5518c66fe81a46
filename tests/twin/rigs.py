"""Invents small jams with things that are alike: more engines, inlets and strips of a kind than a jam needs."""

from collections.abc import Iterator
from copy import deepcopy
from random import Random
from typing import Any

import solver
from solver.jam.jam import Jam
from solver.outcome import Planned
from tests.enumeration.gear import Dice, Table, desk, hub, instrument, mixer
from tests.enumeration.rigs import NAMES
from tests.enumeration.wishes import Wisher

CASTS = (
    *((desk, instrument),) * 4,
    *((desk, instrument, instrument),) * 4,
    *((desk, instrument, mixer),) * 3,
    (desk, instrument, hub),
    (desk, desk),
    (desk, desk, instrument),
)
"""Who is on the table; the first box leads."""

DULL = 98
"""Of 100 tables on which no plan is possible even without a wish, how many are left out."""


def seeded(seed: int) -> Jam:
    """The jam of one seed; mostly it can be played on while nothing is wished."""
    dice = Dice(Random(seed))
    while True:
        table = _table(dice)
        bare = solver.plan(Jam.model_validate(table))
        plan = bare.best if isinstance(bare, Planned) else None
        if plan is not None or not dice.chance(DULL):
            wisher = Wisher(dice, table["boxes"], NAMES[0], list(table["part"]), plan)
            wishes = wisher.intents(dice.one((0, 1, 1, 2, 2, 3)))
            drawer = {"cables": dict(_drawer(dice, plan.cables))} if plan is not None and dice.chance(15) else {}
            return Jam.model_validate(table | {"intent": wishes} | drawer)


def _table(dice: Dice) -> Table:
    """A jam without wishes as data."""
    dice.settle_plugs()
    boxes = {name: maker(dice, name.title()) for name, maker in zip(NAMES, dice.one(CASTS), strict=False)}
    for box in boxes.values():
        _widen(dice, box)
    own = [name for name, box in boxes.items() if box.get("engine")]
    count = dice.one((2, 3, 3, 4))
    parts: Table = {}
    for number in range(count):
        home = boxes[name] if (name := dice.one(own or [NAMES[0]])) and dice.chance(80) else None
        parts[f"part{number + 1}"] = {} if home is None else {"on": _on(dice, name, home)}
    outlet = dice.one(boxes[NAMES[0]]["out"])["name"]
    mains = "mono" if dice.chance(15) else "stereo"
    found = {"title": "Small", "leader": NAMES[0], "listen": f"{NAMES[0]}/{outlet}", "mains": mains, "boxes": boxes}
    return found | {"part": parts}


def _on(dice: Dice, name: str, home: Table) -> str:
    return f"{name}/{dice.one(home['engine'])['name']}" if home.get("engine") and dice.chance(20) else name


def _widen(dice: Dice, box: Table) -> None:
    """Double some engines, and some inlets with their strips; what doubles has no track and is no key."""
    for engine in list(box.get("engine", ())):
        box["engine"] += [
            deepcopy(engine) | {"name": f"{engine['name']}{mark}"} for mark in "bc"[: dice.one((0, 1, 2))]
        ]
    for inlet in list(box.get("in", ())):
        if dice.chance(60):
            labels = {k: f"{v}b" for k, v in inlet.items() if k in ("left", "right", "stereo", "mono")}
            box["in"].append(inlet | labels | {"name": f"{inlet['name']}b"})
            for strip in list(box.get("strip", ())):
                if strip["from"].split("/")[0] == inlet["name"]:
                    source = f"{inlet['name']}b{strip['from'].removeprefix(inlet['name'])}"
                    doubled = deepcopy(strip) | {"name": f"{strip['name']}b", "from": source}
                    doubled.pop("track", None)
                    box["strip"].append(doubled)
    for track in list(box.get("track", ())):
        if dice.chance(30):
            box["track"].append(track | {"name": f"{track['name']}b"})


def _drawer(dice: Dice, cables: Any) -> Iterator[tuple[str, int]]:
    """The cables of a plan, now and then one more or less of a kind."""
    kinds = [cable.kind for cable in cables]
    for kind in dict.fromkeys(kinds):
        yield kind, max(0, kinds.count(kind) + dice.one((0, 0, 0, 1, -1)))
