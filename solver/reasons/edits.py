"""Single changes that may make an impossible jam possible, each with what it costs a musician."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from itertools import permutations
from typing import Any, NamedTuple

from pydantic import ValidationError

from solver.flow.wording import listing
from solver.gear.box import Box, Port
from solver.gear.words import DUCKING, dotted
from solver.jam.intents import Avoid, Intent, Keep, Layer, Play, Program, Separate, Stereo, Treat
from solver.jam.jam import Jam
from solver.reasons.easing import one_more_strip

AMOUNT, ELSEWHERE, CABLE, MONO, GEAR, WISH, PART = 1, 2, 3, 4, 5, 6, 8
"""What a change costs: another amount, another place or player, one more cable, mono instead of stereo, one more strip
or thru box, a wish left out, a part left out."""

COSTS = {
    AMOUNT: "another amount, shift or effect name",
    ELSEWHERE: "a part lives elsewhere, has another sound, or another box plays it",
    CABLE: "one cable more in the drawer",
    MONO: "mono instead of stereo",
    GEAR: "one more strip, or a MIDI thru box",
    WISH: "a wish left out",
    PART: "a part left out",
}

Path = tuple[str | int, ...]
Data = dict[str, Any]


class Edit(NamedTuple):
    """One change: at a path of the jam file, or on the table. ``new`` is None where what is there is left out.

    ``statement`` is empty where the change is one of the gear.
    """

    cost: int
    says: str
    statement: str
    path: Path
    old: Any
    new: Any

    @property
    def only_helps(self) -> bool:
        """Whether whatever is possible without it is possible with it too."""
        opens = self.cost == ELSEWHERE and self.path[0] == "part"
        return opens or self.cost in (CABLE, GEAR)

    @property
    def drops(self) -> bool:
        """Whether it leaves out something that is stated."""
        return self.cost in (WISH, PART)


def edits(jam: Jam) -> list[Edit]:
    """Every single change, cheapest first, then in file order."""
    found = [*_of_parts(jam), *_of_intents(jam), *_of_the_drawer(jam), *_of_the_gear(jam)]
    return sorted(found, key=lambda edit: edit.cost)


def edited(jam: Jam, changes: Iterable[Edit]) -> Jam | None:
    """The jam after some changes; None where they do not go together, or say what no jam can say."""
    listed = tuple(changes)
    paths = [edit.path for edit in listed]
    if any(one == other[: len(one)] for one, other in permutations(paths, 2)):
        return None
    data, gone = _data(jam), set[str]()
    for edit in listed:
        if edit.cost == PART:
            gone.add(str(edit.path[1]))
        else:
            at: Any = data
            for step in edit.path[:-1]:
                at = at[step] if isinstance(step, int) else at.setdefault(step, {})
            at[edit.path[-1]] = edit.new
    data["part"] = {name: part for name, part in data["part"].items() if name not in gone}
    for part in data["part"].values():
        for key in [key for key, value in part.items() if value is None]:
            del part[key]
    data["intent"] = [left for intent in data["intent"] if (left := _without(intent, gone)) is not None]
    try:
        return Jam.model_validate(data)
    except ValidationError:
        return None


def _data(jam: Jam) -> Data:
    dumped = jam.model_dump(by_alias=True, exclude_defaults=True, exclude={"boxes"})
    return {"part": {}, **dumped, "intent": list(dumped.get("intent", ())), "boxes": dict(jam.boxes)}


def _without(intent: Data | None, gone: set[str]) -> Data | None:
    """An intent without parts that are left out; None where nothing of it is left."""
    if intent is None or not gone:
        return intent
    kind = next(key for key in intent if key in _KINDS)
    if kind == "keep":
        return None if intent["keep"].get("part") in gone else intent
    if kind not in _OF_PARTS:
        return intent
    left = {**intent, kind: [part for part in intent[kind] if part not in gone]}
    if "shift" in left:
        left["shift"] = {part: shift for part, shift in left["shift"].items() if part not in gone}
    if left.get("key") in gone:
        left["with"] = {effect: amount for effect, amount in left["with"].items() if effect != DUCKING}
        del left["key"]
    return left if left[kind] and left.get("with", True) else None


_OF_PARTS = ("layer", "separate", "treat", "stereo", "play", "match", "program")
_KINDS = (*_OF_PARTS, "clock", "avoid", "keep")


def _of_parts(jam: Jam) -> Iterator[Edit]:
    for name, part in jam.parts.items():
        on = dotted("part", name, "on")
        if part.on is not None:
            box, _, engine = part.on.partition("/")
            if engine:
                says = f"{name} lives on any engine of {box}"
                yield Edit(ELSEWHERE, says, on, ("part", name, "on"), part.on, box)
            yield Edit(ELSEWHERE, f"{name} lives on any box", on, ("part", name, "on"), part.on, None)
        if part.sound is not None:
            sound = dotted("part", name, "sound")
            yield Edit(ELSEWHERE, f"{name} takes any sound", sound, ("part", name, "sound"), part.sound, None)
        yield Edit(PART, f"left out: the part {name}", dotted("part", name), ("part", name), {}, None)
    if jam.mains == "stereo":
        yield Edit(MONO, "the mains are mono", "mains", ("mains",), "stereo", "mono")


def _of_intents(jam: Jam) -> Iterator[Edit]:
    for place, intent in enumerate(jam.intents):
        at: Path = ("intent", place)
        statement = dotted(*at)
        whole = intent.model_dump(by_alias=True, exclude_defaults=True)
        cost = MONO if isinstance(intent, Stereo) else WISH
        yield Edit(cost, f"left out: {_named(intent)}", statement, at, whole, None)
        yield from _shorter(intent, statement, at)
        match intent:
            case Treat():
                yield from _amounts(jam, intent, statement, at)
            case Layer():
                yield from _shifts(jam, intent, statement, at)
            case Play():
                boxes = (name for name, box in jam.boxes.items() if box.tracks and name != intent.source)
                for box in boxes:
                    says = f"{box} plays {listing(intent.play)}"
                    yield Edit(ELSEWHERE, says, statement, (*at, "from"), intent.source, box)
            case Program():
                layers = {part for named in intent.program for part in jam.layer_of(named)}
                for part in (part for part in jam.parts if part in layers and part not in intent.program):
                    says = f"{part} changes its sound by program change too"
                    new = [*intent.program, part]
                    yield Edit(ELSEWHERE, says, statement, (*at, "program"), list(intent.program), new)


def _shorter(intent: Intent, statement: str, at: Path) -> Iterator[Edit]:
    """The intent without one of several names."""
    if isinstance(intent, Keep):
        return
    if isinstance(intent, Avoid):
        for what in ("channels", "jacks", "ports"):
            listed = list(getattr(intent.avoid, what))
            for one in listed:
                new = [other for other in listed if other != one]
                yield Edit(WISH, f"{what[:-1]} {one} may be used", statement, (*at, "avoid", what), listed, new)
        return
    names = list(getattr(intent, intent.kind))
    for name in names if len(names) > 1 else ():
        cost = MONO if isinstance(intent, Stereo) else WISH
        new = [other for other in names if other != name]
        if not isinstance(intent, Separate | Layer) or len(new) > 1:
            yield Edit(cost, f"without {name}: {_named(intent)}", statement, (*at, intent.kind), names, new)


def _amounts(jam: Jam, intent: Treat, statement: str, at: Path) -> Iterator[Edit]:
    """The amounts that other parts have, and the effect that was perhaps meant."""
    offered = list(dict.fromkeys(e for thing in jam.rig.emitters.values() for e in thing.offers))
    for effect, amount in intent.amounts.items():
        others = {w.amount for w in jam.wanted if w.effect == effect and w.statement != statement and w.amount}
        for other in sorted(others - {amount}, key=lambda other: (abs(other - amount), other)):
            says = f"{effect} of {listing(intent.treat)} is {other} % instead of {amount} %"
            new = {**intent.amounts, effect: other}
            yield Edit(AMOUNT, says, statement, (*at, "with"), dict(intent.amounts), new)
        for near in get_close_matches(effect, offered, n=1) if effect not in offered else ():
            says = f"{listing(intent.treat)} wants {near} instead of {effect}"
            new = {near if e == effect else e: a for e, a in intent.amounts.items()}
            yield Edit(AMOUNT, says, statement, (*at, "with"), dict(intent.amounts), new)
        if len(intent.amounts) > 1:
            new = {e: a for e, a in intent.amounts.items() if e != effect}
            says = f"{listing(intent.treat)} without {effect}"
            yield Edit(WISH, says, statement, (*at, "with"), dict(intent.amounts), new)


def _shifts(jam: Jam, intent: Layer, statement: str, at: Path) -> Iterator[Edit]:
    """Shifts as far as some engine goes."""
    for part, shift in intent.shift.items():
        reaches = {engine.shift for engine in jam.rig.engines.values() if 0 < engine.shift < abs(shift)}
        for reach in sorted(reaches, reverse=True):
            near = reach if shift > 0 else -reach
            says = f"{part} is shifted by {near:+d} instead of {shift:+d}"
            new = {**intent.shift, part: near}
            yield Edit(AMOUNT, says, statement, (*at, "shift"), dict(intent.shift), new)
        new = {other: by for other, by in intent.shift.items() if other != part}
        yield Edit(WISH, f"{part} is not shifted", statement, (*at, "shift"), dict(intent.shift), new)


def _of_the_drawer(jam: Jam) -> Iterator[Edit]:
    if jam.cables is None:
        return
    for kind in jam.rig.kinds:
        has = jam.cables.get(kind)
        says = f"one more cable in the drawer: {kind}"
        statement = "cables" if has is None else dotted("cables", kind)
        yield Edit(CABLE, says, statement, ("cables", kind), has, (has or 0) + 1)


def _of_the_gear(jam: Jam) -> Iterator[Edit]:
    for name, box in jam.boxes.items():
        if box.strips or name == jam.ears.box:
            says = f"one more strip on {name}" + (f", like {box.strips[-1].name}" if box.strips else "")
            yield Edit(GEAR, says, "", ("boxes", name), box, one_more_strip(box))
    plugs = dict.fromkeys(
        p.plug for box in jam.boxes.values() for p in box.ports if p.plug in ("din", "trs-a", "trs-b")
    )
    if plugs and len(jam.boxes) > 1:
        ins = [Port(name=f"IN {plug}", way="in", plug=plug, clock=True) for plug in list(plugs)[:1]]
        thrus = [
            Port(name=f"THRU {n} {plug}", way="thru", plug=plug, copies=ins[0].name, clock=True)
            for plug in plugs
            for n in range(1, 5)
        ]
        thru = Box.model_construct(name="thru", ports=(*ins, *thrus))
        name = next(name for name in ("thru", "thru box", "one more thru box") if name not in jam.boxes)
        yield Edit(GEAR, "a MIDI thru box on the table, one in to four thrus", "", ("boxes", name), None, thru)


def _named(intent: Intent) -> str:
    """What an intent is about, in a few words."""
    if intent.name is not None:
        return f'"{intent.name}"'
    if isinstance(intent, Avoid | Keep):
        return f"the {intent.kind}"
    words = {
        "layer": "one track for",
        "separate": "strips of their own for",
        "treat": "the amounts of",
        "stereo": "both sides of",
        "play": "who plays",
        "match": "the match of",
        "clock": "the clock of",
        "program": "program changes of",
    }
    return f"{words[intent.kind]} {listing(getattr(intent, intent.kind))}"
