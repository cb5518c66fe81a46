"""Plans by chance, right or wrong: any cables that fit, any parts on any engines, any pans and channels."""

from collections.abc import Iterator
from functools import cache
from itertools import chain
from random import Random
from typing import Any

from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.enumeration.plugging import audio_leads, midi_leads
from tests.enumeration.rigs import seeded

PANS = ("left", "centre", "right")


@cache
def _jam(seed: int) -> Jam:
    return seeded(seed)


@cache
def wiring(seed: int, which: int) -> tuple[Jam, Plan]:
    """A tiny jam, and one plan of it by chance."""
    jam, dice = _jam(seed), Random(1000 * seed + which)
    parts = {part: _part(jam, dice) for part in jam.parts}
    strips = [
        (f"{name}/{strip.name}", {"outlet": dice.choice(box.outlets_of(strip)).name, "pan": _pan(strip.source, dice)})
        for name, box in jam.boxes.items()
        for strip in box.strips
    ]
    engines = [
        (f"{name}/{engine.name}", {"channel": dice.choice((1, 2, 3, "off", "all"))})
        for name, box in jam.boxes.items()
        for engine in box.engines
    ]
    stated = {
        "cables": list(_cables(jam, dice)),
        "parts": {part: home for part, home in parts.items() if home},
        "strips": {name: stands for name, stands in strips if dice.random() < 0.6},
        "engines": {name: stands for name, stands in engines if dice.random() < 0.6},
    }
    return jam, Plan.model_validate({"title": jam.title, **stated})


def _part(jam: Jam, dice: Random) -> dict[str, Any]:
    """Where a part lives and what plays it; nothing where no engine has an outlet."""
    homes = [(name, box, engine) for name, box in jam.boxes.items() for engine in box.engines if box.outlets]
    tracks = [f"{name}/{track.name}" for name, box in jam.boxes.items() for track in box.tracks]
    if not homes:
        return {}
    name, box, engine = dice.choice(homes)
    return {
        "engine": f"{name}/{engine.name}",
        "track": dice.choice(tracks),
        "channel": dice.choice((1, 2, 3, None)),
        "outlet": dice.choice(_outlets(box)),
        "pan": dice.choice(PANS),
    }


def _outlets(box: Box) -> list[str]:
    return [outlet.name for outlet in box.outlets]


def _pan(source: str, dice: Random) -> str:
    """A strip of one side stands anywhere, another one at centre."""
    return dice.choice(PANS) if "/" in source else "centre"


def _cables(jam: Jam, dice: Random) -> Iterator[Any]:
    """Cables that fit, one plug a socket, with loops or without."""
    leads = list(chain(audio_leads(jam.rig), midi_leads(jam.rig)))
    dice.shuffle(leads)
    used = set[object]()
    for lead in leads:
        if used.isdisjoint(lead.sockets) and dice.random() < 0.7:
            used.update(lead.sockets)
            yield lead.planned().model_dump(by_alias=True)
