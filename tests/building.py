"""Builds invented boxes, jams and plans for tests, in few words."""

from collections.abc import Iterable, Mapping
from typing import Any

from solver.flow.followed import Followed
from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.rules.rule import Rule

Table = dict[str, Any]


def box(name: str = "Box", **tables: Iterable[Table] | int) -> Box:
    """A box from the tables of its file: ``out``, ``strip``, ``engine`` and so on; "in" is written ``in_``."""
    return Box.model_validate({"name": name} | {key.rstrip("_"): value for key, value in tables.items()})


def named(name: str, **keys: Any) -> Table:
    """One table of a box file; "from" is written ``from_``."""
    return {"name": name} | {key.rstrip("_"): value for key, value in keys.items()}


def jam(boxes: Mapping[str, Box], parts: Iterable[str] | Mapping[str, Table], *intents: Table, **keys: Any) -> Jam:
    """A jam; the first box leads and its first outlet is listened to, unless ``keys`` says otherwise."""
    leader = next(iter(boxes))
    stated = parts if isinstance(parts, Mapping) else {part: {} for part in parts}
    given = {"title": "Test", "leader": leader, "listen": f"{leader}/{boxes[leader].outlets[0].name}"}
    return Jam.model_validate(given | {"boxes": dict(boxes), "part": stated, "intent": list(intents)} | keys)


def lives(
    engine: str, track: str, channel: int | None, pan: str = "centre", outlet: str = "MAIN", **keys: Any
) -> Table:
    """A planned part."""
    return {"engine": engine, "track": track, "channel": channel, "pan": pan, "outlet": outlet} | keys


def cable(kind: str, source: str | tuple[str, str], to: str | tuple[str, str]) -> Table:
    """A cable of a plan."""
    return {"kind": kind, "from": source, "to": to}


def plan(parts: Mapping[str, Table], cables: Iterable[Table] = (), **keys: Any) -> Plan:
    """A plan; ``keys`` may hold strips and engines."""
    return Plan.model_validate({"title": "Test", "parts": dict(parts), "cables": list(cables)} | keys)


def breaches(rule: type[Rule], of: Jam, in_plan: Plan) -> list[str]:
    """What a rule says of a plan."""
    return list(rule().breaches(Followed(of, in_plan)))


def desk(**tables: Iterable[Table]) -> Box:
    """A leader that mixes: two strips, one engine of its own, and three tracks; ``tables`` replace some."""
    strips = [
        named(f"IN {n}", from_=f"LINE/{side}", offers=["ducking", "reverb"], key=["PAD"], track=f"EXT {n}")
        for n, side in ((1, "left"), (2, "right"))
    ]
    plain: dict[str, Iterable[Table]] = {
        "out": [named("MAIN", left="OUT L", right="OUT R")],
        "in_": [named("LINE", left="IN 1", right="IN 2")],
        "strip": strips,
        "engine": [named("PAD", channels=[], offers=["reverb"])],
        "track": [
            named("PADS", channels=[], plays="PAD"),
            named("EXT 1", channel=1, can_be_off=True, program_change=True),
            named("EXT 2", channel=2),
        ],
        "midi": [named("MIDI OUT", way="out", clock=True), named("MIDI IN", way="in", clock=True)],
    }
    return box("Desk", **(plain | tables))


def module(**tables: Iterable[Table]) -> Box:
    """A sound module with two engines on one stereo outlet; ``tables`` replace some."""
    plain: dict[str, Iterable[Table]] = {
        "out": [named("MAIN", left="L/MONO", right="R", alone="sum")],
        "engine": [
            named("1", sound="synth", channel=1, shift=24, program_change=True),
            named("2", sound="synth", channel=2),
        ],
        "midi": [named("MIDI IN", way="in", clock=True), named("MIDI THRU", way="thru", copies="MIDI IN", clock=True)],
    }
    return box("Module", **(plain | tables))


LEFT = cable("6.35 mono", "reef/L/MONO", "dock/IN 1")
RIGHT = cable("6.35 mono", "reef/R", "dock/IN 2")
NOTES = cable("din", "dock/MIDI OUT", "reef/MIDI IN")

KICK = lives("dock/PAD", "dock/PADS", None)
BASS = lives("reef/1", "dock/EXT 1", 1, "left")
ARP = lives("reef/2", "dock/EXT 2", 2, "right")


def dock_and_reef(*intents: Table, dock: Box | None = None, reef: Box | None = None, **keys: Any) -> Jam:
    """A jam of a desk and a module: kick, bass and arp."""
    boxes = {"dock": dock or desk(), "reef": reef or module()}
    return jam(boxes, keys.pop("parts", ("kick", "bass", "arp")), *intents, **keys)


def plain_plan(cables: Iterable[Table] = (LEFT, RIGHT, NOTES), without: Iterable[str] = (), **keys: Any) -> Plan:
    """The plan for that jam: bass on the left side, arp on the right; ``keys`` replace parts, strips and engines."""
    parts = {part: keys.pop(part, whole) for part, whole in (("kick", KICK), ("bass", BASS), ("arp", ARP))}
    return plan({part: whole for part, whole in parts.items() if part not in without}, cables, **keys)
