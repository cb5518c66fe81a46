"""Changes on the plain rig, one for each trap of a real table: with a plan left, or without one."""

from math import ceil

from benchmarks.rigs import HARD, LEADER, SOFT, Rig, Variant

SHORT_OF = 17
"""How many tracks sound where the 16 channels do not suffice."""


def _plain(rig: Rig) -> None:
    """Leave the rig as it is."""


def _free(rig: Rig) -> None:
    for part in rig.outside:
        rig.parts[part] = {}


def _separate(rig: Rig) -> None:
    """All parts of a module duck alike, and neighbours are kept apart instead."""
    rig.treats = [rig.duck([*soft, *hard], HARD) for soft, hard in rig.groups.values()]
    for groups in rig.groups.values():
        parts = [part for group in groups for part in group]
        rig.wishes += [{"separate": list(pair)} for pair in zip(parts[::2], parts[1::2], strict=False)]


def _match(rig: Rig) -> None:
    """Each group has a track; once the tracks run out, groups join layers whose other parts are not matched."""
    every = [group for groups in rig.groups.values() for group in groups]
    matched, others = every[: rig.tracks], every[rig.tracks :]
    rig.layers = [[*group] for group in matched]
    for number, group in enumerate(others):
        rig.layers[number % len(rig.layers)] += group
    rig.wishes.append({"match": [part for group in matched for part in group]})


def _second(rig: Rig) -> None:
    """The first module has tracks too, one for each engine, and plays its parts and their layers itself."""
    name = next(iter(rig.groups))
    own = [part for group in rig.groups[name] for part in group]
    box = rig.boxes[name]
    box["track"] = [
        {"name": f"LANE {engine['name']}", "plays": engine["name"], "channel": 16 - place % 8, "can_be_off": True}
        for place, engine in enumerate(box["engine"])
    ]
    box["midi"][1] = {"name": "MIDI OUT", "way": "out", "repeats": "MIDI IN", "clock": True}
    others = [part for part in rig.outside if part not in own]
    rig.layers = [[part] for part in own] + [[] for _ in range(max(1, rig.tracks - len(own)))]
    for place, part in enumerate(others):
        rig.layers[place % len(rig.layers)].append(part)
    rig.wishes.append({"play": own, "from": name})


def _cascade(rig: Rig) -> None:
    """Two modules to a small mixer, whose two sides take a strip each; all modules duck by the same amounts."""
    strips = rig.boxes[LEADER]["strip"]
    half = max(2, 2 * ceil(len(rig.groups) / 2))
    rig.boxes[LEADER]["strip"], rig.boxes[LEADER]["in"] = strips[:half], rig.boxes[LEADER]["in"][:half]
    for number in range(half // 2):
        lines = range(1, 5)
        rig.boxes[f"weir{number + 1}"] = {
            "name": f"Weir {number + 1}",
            "out": [{"name": "MIX", "left": "MIX L", "right": "MIX R"}],
            "in": [{"name": f"CH {line}", "mono": f"CH {line}"} for line in lines],
            "strip": [{"name": f"{line}", "from": f"CH {line}"} for line in lines],
        }
    rig.treats = [
        rig.duck(group, amount)
        for groups in rig.groups.values()
        for group, amount in zip(groups, (SOFT[0], HARD), strict=True)
    ]


def _breakout(rig: Rig) -> None:
    for box in rig.modules.values():
        box["out"] = [{"name": "MAIN", "stereo": "OUT", "plug": "3.5"}]


def _outs(rig: Rig) -> None:
    """Each module has two single outs besides; the first module has a third amount, and the leader one more strip."""
    for box in rig.modules.values():
        box["out"] += [{"name": "A", "mono": "OUT A"}, {"name": "B", "mono": "OUT B"}]
        for engine in box["engine"]:
            engine["to"] = ["MAIN", "A", "B"]
    line = len(rig.boxes[LEADER]["strip"]) + 1
    rig.boxes[LEADER]["in"].append({"name": f"LINE {line}", "mono": f"IN {line}"})
    last = {"name": f"S{line}", "from": f"LINE {line}", "offers": ["ducking", "reverb"], "key": ["PAD 1", "PAD 2"]}
    rig.boxes[LEADER]["strip"].append(last)
    hard = rig.treats[1]
    if len(hard["treat"]) > 1:
        rig.treats.insert(1, rig.duck([hard["treat"].pop()], 50))


def _drawer(rig: Rig) -> None:
    rig.cables = {"6.35 mono": 2 * len(rig.groups), "din": len(rig.groups)}


def _short_drawer(rig: Rig) -> None:
    rig.cables = {"6.35 mono": 2 * len(rig.groups) - 1, "din": len(rig.groups)}


def _channels(rig: Rig) -> None:
    """One layer more than there are channels; the modules grow where they have too few engines for that."""
    each = max(len(rig.outside) // len(rig.groups), ceil(SHORT_OF / len(rig.groups)))
    for box in rig.modules.values():
        box["engine"] += [{"name": str(place + 1)} for place in range(len(box["engine"]), each)]
    rig.fill(each)
    rig.tracks = SHORT_OF
    tracks = rig.boxes[LEADER]["track"]
    tracks += [{"name": f"EXT {track}"} for track in range(len(tracks) - 1, SHORT_OF + 1)]
    rig.layers = [rig.outside[place::SHORT_OF] for place in range(SHORT_OF)]


def _strips(rig: Rig) -> None:
    """One strip less than there are groups."""
    few = 2 * len(rig.groups) - 1
    rig.boxes[LEADER]["strip"], rig.boxes[LEADER]["in"] = (rig.boxes[LEADER][key][:few] for key in ("strip", "in"))


def _hears_all(rig: Rig) -> None:
    """The last module's engines hear all channels, and its parts are in different layers."""
    name = list(rig.groups)[-1]
    for engine in rig.boxes[name]["engine"]:
        del engine["channel"]
        engine["channels"] = "all"
    own = [part for group in rig.groups[name] for part in group]
    for place, part in enumerate(own):
        for layer in rig.layers:
            if part in layer:
                layer.remove(part)
        rig.layers[place % len(rig.layers)].append(part)


def _wiring(rig: Rig) -> None:
    """The leader's out is of wiring A, every module's sockets are of wiring B."""
    rig.boxes[LEADER]["midi"][0]["plug"] = "trs-a"
    for box in rig.modules.values():
        for port in box["midi"]:
            port["plug"] = "trs-b"


VARIANTS = {
    "plain": Variant(_plain, True, "as described"),
    "free": Variant(_free, True, "parts may live on any module"),
    "separate": Variant(_separate, True, "one amount a module, pairs of parts kept apart"),
    "match": Variant(_match, True, "a track for each group, which is that of its strip"),
    "second": Variant(_second, True, "the first module has tracks too and plays its layers"),
    "cascade": Variant(_cascade, True, "half the strips, and small mixers in front of them"),
    "breakout": Variant(_breakout, True, "one 3.5 mm stereo jack a module"),
    "outs": Variant(_outs, True, "two single outs more a module, one amount more"),
    "drawer": Variant(_drawer, True, "exactly the fewest cables in the drawer"),
    "short-drawer": Variant(_short_drawer, False, "one audio cable less than the fewest"),
    "channels": Variant(_channels, False, "17 sounding tracks on 16 channels"),
    "strips": Variant(_strips, False, "one strip less than there are amounts to carry"),
    "hears-all": Variant(_hears_all, False, "a module that hears all channels, with parts of several layers"),
    "wiring": Variant(_wiring, False, "TRS A and TRS B sockets only"),
}
"""Every variant by its name."""
