"""A small jam and two hand-made plans for it; they need not be good plans, only show everything a sheet says."""

from typing import Any

from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan

TILLER: dict[str, Any] = {
    "name": "Tiller",
    "out": [{"name": "MAIN", "left": "MAIN L", "right": "MAIN R"}],
    "in": [{"name": "IN 1", "mono": "IN 1"}, {"name": "IN 2", "mono": "IN 2"}],
    "strip": [
        {"name": "IN 1", "from": "IN 1", "offers": ["ducking", "reverb"], "key": ["PAD 1"], "track": "EXT 1"},
        {"name": "IN 2", "from": "IN 2", "offers": ["ducking", "reverb"], "key": ["PAD 1"], "stored": "box"},
    ],
    "engine": [{"name": "PAD 1", "sound": "drum", "channels": []}],
    "track": [
        {"name": "PAD 1", "plays": "PAD 1", "can_be_off": True},
        {"name": "EXT 1", "channel": 5, "stored": "box"},
        {"name": "EXT 2", "channel": 6},
    ],
    "midi": [{"name": "MIDI OUT", "way": "out", "clock": True}],
}
BARGE: dict[str, Any] = {
    "name": "Barge",
    "out": [{"name": "MAIN", "left": "L/MONO", "right": "R", "alone": "sum"}],
    "engine": [
        {"name": "1", "sound": "synth", "channel": 1, "shift": 24, "program_change": True},
        {"name": "2", "sound": "synth", "channel": 2, "program_change": True},
        {"name": "3", "sound": "synth", "channel": 3, "can_be_off": True},
        {"name": "4", "sound": "synth", "channel": 4},
        {"name": "5", "sound": "synth", "channels": [1]},
        {"name": "6", "sound": "synth", "channel": 6},
    ],
    "midi": [{"name": "MIDI IN", "way": "in", "clock": True}],
}
JAM: dict[str, Any] = {
    "title": "Low Tide",
    "tempo": 118,
    "leader": "tiller",
    "listen": "tiller/MAIN",
    "mains": "stereo",
    "boxes": {"tiller": TILLER, "barge": BARGE},
    "cables": {"6.35 mono": 4, "din": 1},
    "part": {
        "kick": {"on": "tiller/PAD 1"},
        "bass": {"on": "barge", "sound": "synth"},
        "arp": {"sounds": ["glass", "rust"]},
    },
    "intent": [
        {"separate": ["bass", "arp"]},
        {"treat": ["arp"], "with": {"ducking": 30, "reverb": 20}, "key": "kick"},
        {"layer": ["bass"], "shift": {"bass": -12}},
        {"program": ["bass"]},
    ],
    "recall": {"tiller": "bank B, slot 3"},
}
PLAN: dict[str, Any] = {
    "title": "Low Tide",
    "status": "proved",
    "proof": {"cables": True, "settings_moved": True},
    "cables": [
        {"kind": "6.35 mono", "from": "barge/L/MONO", "to": "tiller/IN 1"},
        {"kind": "6.35 mono", "from": "barge/R", "to": "tiller/IN 2"},
        {"kind": "din", "from": "tiller/MIDI OUT", "to": "barge/MIDI IN"},
    ],
    "parts": {
        "kick": {"engine": "tiller/PAD 1", "track": "tiller/PAD 1", "channel": None, "outlet": "MAIN", "strips": {}},
        "bass": {
            "engine": "barge/1",
            "track": "tiller/EXT 1",
            "channel": 1,
            "outlet": "MAIN",
            "pan": "left",
            "strips": {"tiller": ["IN 1"]},
        },
        "arp": {
            "engine": "barge/2",
            "track": "tiller/EXT 2",
            "channel": 2,
            "outlet": "MAIN",
            "pan": "right",
            "strips": {"tiller": ["IN 2"]},
        },
    },
    "strips": {
        "tiller/IN 1": {"outlet": "MAIN", "settings": {"ducking": 0, "reverb": 0}},
        "tiller/IN 2": {"outlet": "MAIN", "settings": {"ducking": 30, "reverb": 20}, "key": "kick"},
    },
    "settings": [
        {
            "box": "barge",
            "of": "engine",
            "where": "1",
            "what": "pan",
            "value": "left",
            "was": "centre",
            "stored": "project",
        },
        {"box": "barge", "of": "engine", "where": "1", "what": "shift", "value": -12, "was": None, "stored": "project"},
        {"box": "tiller", "of": "track", "where": "EXT 1", "what": "channel", "value": 1, "was": 5, "stored": "box"},
        {
            "box": "tiller",
            "of": "track",
            "where": "EXT 2",
            "what": "channel",
            "value": 2,
            "was": 6,
            "stored": "project",
        },
        {"box": "tiller", "of": "strip", "where": "IN 2", "what": "ducking", "value": 30, "was": None, "stored": "box"},
        {"box": "tiller", "of": "strip", "where": "IN 2", "what": "reverb", "value": 20, "was": None, "stored": "box"},
        {
            "box": "barge",
            "of": "engine",
            "where": "2",
            "what": "pan",
            "value": "right",
            "was": "centre",
            "stored": "project",
        },
        {
            "box": "barge",
            "of": "engine",
            "where": "3",
            "what": "channel",
            "value": "off",
            "was": 3,
            "stored": "project",
        },
        {"box": "barge", "of": "engine", "where": "4", "what": "channel", "value": 9, "was": 4, "stored": "project"},
        {
            "box": "barge",
            "of": "engine",
            "where": "5",
            "what": "level",
            "value": "zero",
            "was": "up",
            "stored": "project",
        },
    ],
    "engines": {
        "tiller/PAD 1": {"channel": "off"},
        "barge/1": {"channel": 1, "shift": -12},
        "barge/2": {"channel": 2},
        "barge/3": {"channel": "off"},
        "barge/4": {"channel": 9},
        "barge/5": {"channel": 1, "level": "zero"},
        "barge/6": {"channel": 6},
    },
    "goals": {"cables": 3, "silenced": 1, "settings_moved": 7},
    "cautions": ["bass is a stereo sound taken from one side."],
}
OTHER: dict[str, Any] = {
    **PLAN,
    "cables": [*PLAN["cables"][:2], {"kind": "6.35 mono", "from": "tiller/MAIN R", "to": "barge/R"}],
    "parts": {**PLAN["parts"], "bass": {**PLAN["parts"]["bass"], "engine": "barge/6", "channel": 6}},
    "settings": [
        *PLAN["settings"][:2],
        {**PLAN["settings"][2], "value": 6},
        *PLAN["settings"][3:-1],
    ],
    "goals": {"cables": 3, "silenced": 0, "settings_moved": 6},
}


def low_tide(**changes: Any) -> Jam:
    """The jam, with some of its keys changed."""
    return Jam.model_validate({**JAM, **changes})


def plan_of(**changes: Any) -> Plan:
    """The first plan, with some of its keys changed."""
    return Plan.from_json({**PLAN, **changes})


def planned(*plans: Plan, seconds: float = 0.4, stopped: bool = False) -> Planned:
    """An outcome with these plans, or with the first one."""
    return Planned(plans or (plan_of(),), seconds, stopped)


def renamed(value: Any, names: dict[str, str]) -> Any:
    """The same data with other names, in keys and in every place that speaks of them."""
    if isinstance(value, dict):
        return {renamed(key, names): renamed(content, names) for key, content in value.items()}
    if isinstance(value, list):
        return [renamed(content, names) for content in value]
    if isinstance(value, str):
        return "/".join(names.get(piece, piece) for piece in value.split("/"))
    return value
