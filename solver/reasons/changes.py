"""Every single change that may make an impossible jam possible."""

from __future__ import annotations

from collections.abc import Iterator

from solver.flow.wording import intent_words, listing
from solver.gear.box import Box, Port
from solver.gear.nearest import nearest
from solver.gear.words import dotted
from solver.jam.editing import Path
from solver.jam.intents import Avoid, Intent, Keep, Layer, Play, Program, Separate, Stereo, Treat
from solver.jam.jam import Jam
from solver.reasons.easing import one_more_strip
from solver.reasons.edits import AMOUNT, CABLE, ELSEWHERE, GEAR, MONO, PART, WISH, Edit

MORE = ("one", "two", "three")
"""How many cables of a kind, or strips on a box, one change adds."""


def edits(jam: Jam) -> list[Edit]:
    """Every single change, cheapest first, then in file order."""
    found = [*_of_parts(jam), *_of_intents(jam), *_of_the_drawer(jam), *_of_the_gear(jam)]
    return sorted(found, key=lambda edit: edit.cost)


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
        was = "stereo" if "mains" in jam.model_fields_set else None
        yield Edit(MONO, "the mains are mono", "mains", ("mains",), was, "mono")


def _of_intents(jam: Jam) -> Iterator[Edit]:
    for place, intent in enumerate(jam.intents):
        at: Path = ("intent", place)
        statement = dotted(*at)
        whole = intent.model_dump(by_alias=True, exclude_defaults=True)
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
        cost = MONO if isinstance(intent, Stereo) else WISH
        yield Edit(cost, f"left out: {intent_words(intent)}", statement, at, whole, None)
    yield from _players(jam)


def _players(jam: Jam) -> Iterator[Edit]:
    """Another box than the leader plays a layer of which nothing says who plays it."""
    stated = {part for _, intent in jam.stated(Play) for part in intent.play}
    place = len(jam.intents)
    for layer in jam.layers:
        for name, box in jam.boxes.items():
            if box.tracks and name != jam.leader and stated.isdisjoint(layer):
                new = {"play": list(layer), "from": name}
                yield Edit(ELSEWHERE, f"{name} plays {listing(layer)}", "", ("intent", place), None, new)
                place += 1


def _shorter(intent: Intent, statement: str, at: Path) -> Iterator[Edit]:
    """The intent without one of several names."""
    if isinstance(intent, Keep):
        return
    if isinstance(intent, Avoid):
        for what in ("channels", "jacks", "ports"):
            listed = list(getattr(intent.avoid, what))
            for one in listed:
                new = [other for other in listed if other != one] or None
                if new or sum(map(len, (intent.avoid.channels, intent.avoid.jacks, intent.avoid.ports))) > 1:
                    yield Edit(WISH, f"{what[:-1]} {one} may be used", statement, (*at, "avoid", what), listed, new)
        return
    names = list(getattr(intent, intent.kind))
    for name in names if len(names) > 1 else ():
        cost = MONO if isinstance(intent, Stereo) else WISH
        new = [other for other in names if other != name]
        if not isinstance(intent, Separate | Layer) or len(new) > 1:
            yield Edit(cost, f"without {name}: {intent_words(intent)}", statement, (*at, intent.kind), names, new)


def _amounts(jam: Jam, intent: Treat, statement: str, at: Path) -> Iterator[Edit]:
    """The amounts that other parts have, and the effect that was perhaps meant."""
    offered = list(dict.fromkeys(e for thing in jam.rig.emitters.values() for e in thing.offers))
    for effect, amount in intent.amounts.items():
        others = {w.amount for w in jam.wanted if w.effect == effect and w.statement != statement and w.amount}
        for other in sorted(others - {amount}, key=lambda other: (abs(other - amount), other)):
            says = f"{effect} of {listing(intent.treat)} is {other} % instead of {amount} %"
            new = {**intent.amounts, effect: other}
            yield Edit(AMOUNT, says, statement, (*at, "with"), dict(intent.amounts), new)
        for near in filter(None, [nearest(effect, offered)]):
            says = f"{listing(intent.treat)} {'want' if len(intent.treat) > 1 else 'wants'} {near} instead of {effect}"
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
        left = {other: by for other, by in intent.shift.items() if other != part} or None
        yield Edit(WISH, f"{part} is not shifted", statement, (*at, "shift"), dict(intent.shift), left)


def _of_the_drawer(jam: Jam) -> Iterator[Edit]:
    if jam.cables is None:
        return
    for kind in jam.rig.kinds:
        has = jam.cables.get(kind)
        statement = "cables" if has is None else dotted("cables", kind)
        for more, count in enumerate(MORE, start=1):
            says = f"{count} more {'cable' if more == 1 else 'cables'} in the drawer: {kind}"
            yield Edit(CABLE, says, statement, ("cables", kind), has, (has or 0) + more, more)


def _of_the_gear(jam: Jam) -> Iterator[Edit]:
    for name, box in jam.boxes.items():
        wider = box
        for more, count in enumerate(MORE if box.strips or name == jam.ears.box else (), start=1):
            wider = one_more_strip(wider)
            says = f"{count} more {'strip' if more == 1 else 'strips'} on {name}"
            says += f", like {box.strips[-1].name}" if box.strips else ""
            yield Edit(GEAR, says, "", ("boxes", name), box, wider, more)
    thru = one_thru_box(jam)
    if thru is not None:
        says = "a MIDI thru box on the table, one in to four thrus"
        yield Edit(GEAR, says, "", ("boxes", thru[0]), None, thru[1])


def one_thru_box(jam: Jam) -> tuple[str, Box] | None:
    """A MIDI thru box of the plugs that are on the table, with its name there; None where nothing could use it."""
    plugs = dict.fromkeys(
        p.plug for box in jam.boxes.values() for p in box.ports if p.plug in ("din", "trs-a", "trs-b")
    )
    if not plugs or len(jam.boxes) < 2:
        return None
    ins = [Port(name=f"IN {plug}", way="in", plug=plug, clock=True) for plug in list(plugs)[:1]]
    thrus = [
        Port(name=f"THRU {n} {plug}", way="thru", plug=plug, copies=ins[0].name, clock=True)
        for plug in plugs
        for n in range(1, 5)
    ]
    name = next(name for name in ("thru", "thru box", "one more thru box") if name not in jam.boxes)
    return name, Box.model_construct(name="thru", ports=(*ins, *thrus))
