"""What the models of box, jam and set files do not say themselves, but their files do."""

from __future__ import annotations

from typing import Any

from solver.gear.words import DUCKING, SETTINGS
from solver.jam.intents import KEEP_FORMS

Schema = dict[str, Any]

A_BOX_FILE: Schema = {"type": "string", "minLength": 1}
"""What a jam file has under the name of a box."""

NO_SLASH: Schema = {"pattern": "^[^/]*$"}
"""Names of boxes: what stands behind a slash is the name of something of the box."""

ONCE: dict[str, tuple[str, ...]] = {
    "Strip": ("to", "offers"),
    "Engine": ("to", "offers"),
    "Port": ("repeats",),
    "Layer": ("layer",),
    "Separate": ("separate",),
    "Treat": ("treat",),
    "Stereo": ("stereo",),
    "Play": ("play",),
    "Match": ("match",),
    "Clock": ("clock",),
    "Program": ("program",),
    "Shunned": ("jacks", "ports"),
}
"""Lists, by model and key, that name each thing once."""

AN_EFFECT: Schema = {"not": {"enum": list(SETTINGS)}}
"""What no effect is called."""


def _having(key: str, value: Schema) -> Schema:
    """A table that has a key with such a value."""
    return {"required": [key], "properties": {key: value}}


def _without(*keys: str) -> Schema:
    """A table that has none of these keys."""
    return {"not": {"anyOf": [{"required": [key]} for key in keys]}}


_SHAPES: Schema = {
    "oneOf": [
        {"required": ["left", "right"], **_without("stereo", "mono")},
        {"required": ["stereo"], **_without("left", "right", "mono")},
        {"required": ["mono"], **_without("left", "right", "stereo")},
    ]
}
_EMPTY: Schema = {"type": "array", "maxItems": 0}
_KEY_WITH_DUCKING: Schema = {
    "if": _having("key", {"type": "array", "minItems": 1}),
    "then": _having("offers", {"contains": {"const": DUCKING}}),
}


def _only_on_a_pair(word: str) -> Schema:
    return {"if": _having("alone", {"const": word}), "then": {"required": ["left", "right"]}}


BETWEEN_KEYS: dict[str, list[Schema]] = {
    "Outlet": [_SHAPES, _only_on_a_pair("sum")],
    "Inlet": [_SHAPES, _only_on_a_pair("copy")],
    "Strip": [_KEY_WITH_DUCKING],
    "Engine": [_KEY_WITH_DUCKING],
    "Port": [
        {
            "if": _having("way", {"const": "both"}),
            "then": _having("plug", {"enum": ["usb-host", "usb-device"]}),
        },
        {"if": _having("way", {"const": "thru"}), "then": {"required": ["copies"]}, "else": _without("copies")},
        {"if": _having("way", {"enum": ["in", "thru"]}), "then": {"properties": {"repeats": _EMPTY}}},
    ],
    "Treat": [{"if": _having("with", _having(DUCKING, {"minimum": 1})), "then": {"required": ["key"]}}],
    "Kept": [
        {
            "oneOf": [
                {"required": ["cable"], "maxProperties": 1},
                *({"required": ["part", form], "maxProperties": 2} for form in KEEP_FORMS),
            ]
        }
    ],
}
"""Rules between the keys of one table, by model."""
