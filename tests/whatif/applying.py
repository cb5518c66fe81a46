"""Does by hand what a difference says, so that tests see where it leads."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from solver.jam.jam import Jam
from solver.plans import Plan

Data = dict[str, Any]
Key = tuple[str, str, str, str]


def cables_after(old: Sequence[Data], differs: Data) -> list[Data]:
    """The cables that are plugged when all is pulled, moved and plugged as JSON data says."""
    left = list(old)
    for cable in [*differs["pull"], *(move["old"] for move in differs["move"])]:
        left.remove(cable)
    assert len(left) == differs["stay"]
    return [*left, *(move["new"] for move in differs["move"]), *differs["plug"]]


def parts_after(old: Data, differs: Data) -> Data:
    """What parts do when all is changed as JSON data says."""
    parts = dict(old)
    for name, change in differs["parts"].items():
        assert parts.pop(name, None) == change["old"]
        if change["new"] is not None:
            parts[name] = change["new"]
    return parts


def settings_after(old: Mapping[Key, object], differs: Data) -> dict[Key, object]:
    """How everything is set when all is turned as JSON data says; what is wanted no more is gone."""
    settings = dict(old)
    for turn in differs["settings"]:
        key = (turn["box"], turn["of"], turn["where"], turn["what"])
        assert settings.pop(key, None) == turn["was"], turn
        if turn["value"] is not None:
            settings[key] = turn["value"]
    return settings


def settings_of(jam: Jam, plan: Plan) -> dict[Key, object]:
    """How everything on the table is set in a plan, read from its parts, strips and engines and not from its settings.

    Amounts, keys and shifts are there where they are wanted; what is offered where a part passes and not wanted is 0.
    """
    found: dict[Key, object] = {}
    tenants = {part.engine: part for part in plan.parts.values()}
    for spot, engine in jam.rig.engines.items():
        planned, part = plan.engines[str(spot)], tenants.get(str(spot))
        first = jam.boxes[spot.box].outlets_of(engine)
        where = (spot.box, "engine", spot.name)
        found[(*where, "channel")] = planned.channel
        found[(*where, "level")] = planned.level
        found[(*where, "pan")] = part.pan if part is not None else "centre"
        found[(*where, "outlet")] = part.outlet if part is not None else first[0].name if first else ""
        if planned.shift:
            found[(*where, "shift")] = planned.shift
        found |= {(*where, effect): 0 for effect in (engine.offers if part is not None else ())}
        found |= {(*where, effect): amount for effect, amount in planned.settings.items()}
        found |= {(*where, "key"): planned.key} if planned.key is not None else {}
    for spot, strip in jam.rig.strips.items():
        carries = plan.strips.get(str(spot))
        first = jam.boxes[spot.box].outlets_of(strip)
        where = (spot.box, "strip", spot.name)
        found[(*where, "pan")] = carries.pan if carries is not None else "centre"
        found[(*where, "outlet")] = carries.outlet if carries is not None else first[0].name if first else ""
        if carries is not None:
            found |= {(*where, effect): 0 for effect in strip.offers}
            found |= {(*where, effect): amount for effect, amount in carries.settings.items()}
            found |= {(*where, "key"): carries.key} if carries.key is not None else {}
    sent = {part.track: part.channel for part in plan.parts.values()}
    for spot, track in jam.rig.tracks.items():
        stands = sent[str(spot)] or "off" if str(spot) in sent else track.stands
        found[(spot.box, "track", spot.name, "channel")] = stands
    return found


WORDS = ("Pull", "Move", "Plug", "Part", "Set", "Leave")


def printed(text: str) -> Data:
    """What to do by the lines of a text, word by word."""
    joined = re.sub(r"\n {6,}(?=\S)", " ", text)
    said: Data = {word: [] for word in WORDS}
    for word, line in re.findall(rf"^  ({'|'.join(WORDS)}) +(.+)$", joined, re.MULTILINE):
        said[word].append(line)
    return said


def turned(settings: Mapping[Key, object], said: Data) -> dict[str, str]:
    """How everything is set, each place and value as a text says it, after all that is said is done."""
    left = in_words(settings)
    for line in said["Set"]:
        place, change = line.removesuffix(" (for all projects)").split(": ", 1)
        old, arrow, new = change.rpartition(" -> ")
        assert left.pop(place, "") == old and (arrow or not old), line
        left[place] = new
    for line in said["Leave"]:
        place, old = re.fullmatch(r"(.+?): (.+) is not needed any more", line).groups()  # type: ignore[union-attr]
        assert left.pop(place) == old
        if place.endswith(", ducking"):
            left.pop(f"{place.removesuffix('ducking')}key of its ducking")
    return left


def in_words(settings: Mapping[Key, object]) -> dict[str, str]:
    """Places and values as a text says them."""
    found = {}
    for (box, of, where, what), value in settings.items():
        amount = isinstance(value, int) and what not in ("channel", "shift")
        said = f"{value} %" if amount else f"{value:+d} semitones" if what == "shift" else str(value)
        said = "all channels" if (what, value) == ("channel", "all") else said.replace("1 semitones", "1 semitone")
        found[f"{box} {of} {where}, {'key of its ducking' if what == 'key' else what}"] = said
    return found


def plugged(lines: Sequence[str], said: Data) -> list[str]:
    """Cables, each a line such as ``din: a -> b``, after all that is said is done."""
    left = list(lines)
    for line in said["Pull"]:
        left.remove(line)
    for line in said["Move"]:
        turned = re.fullmatch(r"(.+?) (from|to) (.+): (.+) -> (.+)", line)
        if turned is None:
            old, _, new = line.partition(" becomes ")
            left.remove(old)
            left.append(f"{old.partition(': ')[0]}: {new}")
            continue
        kind, end, stays, was, now = turned.groups()
        old, new = ((stays, was), (stays, now)) if end == "from" else ((was, stays), (now, stays))
        left.remove(f"{kind}: {' -> '.join(old)}")
        left.append(f"{kind}: {' -> '.join(new)}")
    return [*left, *said["Plug"]]
