"""Invents tiny boxes: few jacks, ports, engines and tracks, with everything that a box file can say."""

from collections.abc import Iterable, Sequence
from random import Random
from typing import Any, TypeVar

Table = dict[str, Any]
T = TypeVar("T")

CHANNELS = ((1,), (2,), (1, 2), (1, 2), (2, 3), (1, 2, 3), (1, 2, 3))
EFFECTS = ("ducking", "reverb")


class Dice:
    """Chance, in the few forms that inventing needs."""

    def __init__(self, random: Random) -> None:
        self._random = random
        self.midi_plugs: tuple[str, ...] = ("din",)
        self.audio_plugs: tuple[str, ...] = ("6.35",)

    def settle_plugs(self) -> None:
        """Choose which plugs this table has; mostly of one kind, so that cables fit."""
        self.midi_plugs = self.one(
            (("din",), ("din",), ("din",), ("din", "trs-a"), ("din", "trs-a", "trs-b"), ("usb",))
        )
        self.audio_plugs = self.one((("6.35",), ("6.35",), ("6.35", "3.5"), ("6.35", "6.35", "3.5"), ("3.5",)))

    def chance(self, percent: int) -> bool:
        """True so many times in a hundred."""
        return self._random.randrange(100) < percent

    def one(self, options: Sequence[T]) -> T:
        """One of these; what is listed more often comes more often."""
        return options[self._random.randrange(len(options))]

    def some(self, options: Iterable[T], percent: int) -> list[T]:
        """Each of these so many times in a hundred."""
        return [option for option in options if self.chance(percent)]

    def shuffled(self, options: Iterable[T]) -> list[T]:
        """All of these in any order."""
        left, found = list(options), []
        while left:
            found.append(left.pop(self._random.randrange(len(left))))
        return found

    def upto(self, options: Iterable[T], most: int) -> list[T]:
        """At least one and at most so many of these, in any order."""
        listed = self.shuffled(options)
        return listed[: 1 + self._random.randrange(max(1, min(most, len(listed))))]


def instrument(dice: Dice, name: str) -> Table:
    """A box that only sounds: engines, an outlet or two, and a way in for notes."""
    box: Table = {"name": name, "out": outlets(dice, dice.one((1, 1, 1, 2)))}
    box["engine"] = engines(dice, box, dice.one((1, 2, 2, 3, 3)))
    box["midi"] = ports(dice, dice.one((("in",), ("in",), ("in",), ("in", "thru"), ("in", "out"), ("both",))))
    if dice.chance(20):
        box["track"] = tracks(dice, box, 1)
        if not any(port["way"] in ("out", "both") for port in box["midi"]):
            box["midi"] += ports(dice, ("out",), box["midi"])
    if dice.chance(10):
        box["voices"] = 1
    return box


def mixer(dice: Dice, name: str) -> Table:
    """A box with inlets and strips, now and then with an engine that can be a key."""
    box: Table = {"name": name, "out": outlets(dice, dice.one((1, 1, 2))), "in": inlets(dice, dice.one((1, 1, 2)))}
    if dice.chance(50):
        box["engine"] = engines(dice, box, 1)
    if dice.chance(40):
        box["midi"] = ports(dice, dice.one((("in",), ("in", "thru"), ("in", "out"))))
    box["strip"] = strips(dice, box)
    return box


def desk(dice: Dice, name: str) -> Table:
    """A box that can lead: tracks and a way out for notes, mostly with strips, and with engines of its own."""
    box: Table = {"name": name, "out": outlets(dice, dice.one((1, 1, 2)), leads=True)}
    if dice.chance(95):
        box["in"] = inlets(dice, dice.one((1, 1, 2)))
    box["engine"] = engines(dice, box, dice.one((0, 1, 1, 2)), inside=True)
    box["track"] = tracks(dice, box, dice.one((2, 3, 3, 3, 4)))
    ways = (("out",), ("out", "in"), ("out", "in"), ("out", "out"), ("out", "out", "in"), ("both",))
    box["midi"] = ports(dice, dice.one(ways), host=name == "Dock")
    box["strip"] = strips(dice, box)
    return box


def hub(dice: Dice, name: str) -> Table:
    """A box that only hands notes on: a splitter, a merger, or a bridge between kinds of ports."""
    ways = (("in", "thru", "thru"), ("in", "in", "out"), ("in", "out", "out"), ("both", "out"), ("in", "both"))
    return {"name": name, "midi": ports(dice, dice.one(ways), hands_on=True)}


def _connection(dice: Dice, name: str, shape: str, label: str) -> Table:
    plug = dice.one(dice.audio_plugs)
    jacks = {"left": f"{label} L", "right": f"{label} R"} if shape == "pair" else {shape: label}
    return {"name": name, "plug": plug, **jacks}


def outlets(dice: Dice, count: int, leads: bool = False) -> list[Table]:
    """Outlets of every shape; the second may mirror the first. The one that is listened to is mostly stereo."""
    found: list[Table] = []
    for number in range(count):
        shapes = ("pair", "stereo", "pair", "mono") if number or not leads else ("pair", "pair", "stereo", "mono")
        shape = dice.one(shapes)
        outlet = _connection(dice, ("MAIN", "AUX")[number], shape, f"OUT{number + 1}")
        if shape == "pair" and dice.chance(50):
            outlet["alone"] = "sum"
        if number and dice.chance(40):
            outlet["mirrors"] = "MAIN"
        found.append(outlet)
    return found


def inlets(dice: Dice, count: int) -> list[Table]:
    """Inlets of every shape."""
    found: list[Table] = []
    for number in range(count):
        shape = dice.one(("pair", "pair", "pair", "pair", "stereo", "mono"))
        inlet = _connection(dice, ("LINE", "FX")[number], shape, f"IN{number + 1}")
        if shape == "pair" and dice.chance(40):
            inlet["alone"] = "copy"
        found.append(inlet)
    return found


def strips(dice: Dice, box: Table) -> list[Table]:
    """A stereo strip, a strip a side, or one for a mono inlet; now and then a side has none, or one too many.

    In half of the boxes strips are alike, or nearly so, but for what feeds them.
    """
    found: list[Table] = []
    alike = _emits(dice, box, 80) if dice.chance(50) else None
    for inlet in box.get("in", ()):
        name = inlet["name"]
        sides = [name] if "mono" in inlet else [f"{name}/left", f"{name}/right"]
        if len(sides) == 2 and dice.chance(30):
            sides = [name]
        for source in dice.some(sides, 92) + ([name] if dice.chance(6) else []):
            strip = {"name": f"S{len(found) + 1}"} | _emits(dice, box, 80)
            strip = (_like(dice, alike, strip) if alike is not None else strip) | {"from": source}
            if box.get("track") and dice.chance(40):
                strip["track"] = dice.one(box["track"])["name"]
            found.append(strip)
    return found


def _emits(dice: Dice, box: Table, effects: int) -> Table:
    """Where an engine or strip can send, and what it can do to the sound."""
    found: Table = {"pan": dice.one(("full", "full", "sides", "fixed"))}
    if dice.chance(60):
        found["to"] = dice.upto([outlet["name"] for outlet in box["out"]], 2)
    found["offers"] = dice.some(EFFECTS, effects)
    names = [engine["name"] for engine in box.get("engine", ())]
    if "ducking" in found["offers"] and names:
        found["key"] = dice.some(names, 85)
    return found


def _stands(dice: Dice, thing: Table) -> None:
    """Let an engine or track stand on one of its channels, not always the lowest."""
    options = [*thing["channels"], "off"] if thing.get("can_be_off") else thing["channels"]
    if thing["channels"] != "all" and options and dice.chance(60):
        thing["channel"] = dice.one(options)


def engines(dice: Dice, box: Table, count: int, inside: bool = False) -> list[Table]:
    """Engines on few channels, often alike or nearly so; those of a desk may have no channel at all."""
    found: list[Table] = []
    for number in range(count):
        channels: Any = dice.one(CHANNELS)
        if dice.chance(50 if inside else 4):
            channels = ()
        elif dice.chance(8):
            channels = "all"
        engine: Table = {"name": f"E{number + 1}", "sound": dice.one(("synth", "synth", "noise")), "channels": channels}
        engine |= {"can_be_off": dice.chance(30), "shift": dice.one((0, 12)), "program_change": dice.chance(60)}
        _stands(dice, engine)
        found.append(engine)
    found = [engine | _emits(dice, box | {"engine": found}, 35) for engine in found]
    return [_like(dice, found[0], engine) for engine in found] if found and dice.chance(50) else found


def _like(dice: Dice, model: Table, thing: Table) -> Table:
    """The same as ``model`` but for its name, and in half of the cases one thing more."""
    traits = [("pan",), ("to",), ("offers", "key"), ("sound",), ("shift",), ("program_change",)]
    own = dice.one([*traits, ("channels", "channel", "can_be_off")]) if dice.chance(50) else ()
    kept = {key: value for key, value in model.items() if key not in own}
    return kept | {key: thing[key] for key in ("name", *own) if key in thing}


def tracks(dice: Dice, box: Table, count: int) -> list[Table]:
    """Tracks on few channels; some play an engine of their box, and some of those can send nothing out."""
    found: list[Table] = []
    names = [engine["name"] for engine in box.get("engine", ())]
    for number in range(count):
        track: Table = {"name": f"T{number + 1}", "channels": dice.one(CHANNELS), "program_change": dice.chance(80)}
        if names and dice.chance(50):
            track["plays"] = dice.one(names)
            if dice.chance(25):
                track["channels"] = ()
        if dice.chance(40):
            track["can_be_off"] = True
        _stands(dice, track)
        found.append(track)
    return found


def ports(
    dice: Dice, ways: Iterable[str], there: Sequence[Table] = (), *, hands_on: bool = False, host: bool = False
) -> list[Table]:
    """Ports of these ways; thrus copy an in port, and outs may repeat what comes in."""
    found: list[Table] = []
    ins = [port["name"] for port in there if port["way"] in ("in", "both")]
    for number, way in enumerate(ways, start=len(there) + 1):
        port: Table = {"name": f"P{number}", "way": way, "plug": dice.one(dice.midi_plugs), "clock": dice.chance(80)}
        if way == "both" or port["plug"] == "usb" or dice.chance(2):
            port["plug"] = "usb-host" if host != dice.chance(15) else "usb-device"
        if way in ("in", "both"):
            ins.append(port["name"])
        if way == "thru":
            port["copies"] = dice.one(ins)
        elif way != "in" and ins and dice.chance(90 if hands_on else 35):
            port["repeats"] = ins if hands_on else dice.upto(ins, 2)
        found.append(port)
    return found
