"""A box as a file with remarks, and a box file copied under another name."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from solver.gear.box import Box
from solver.gear.words import ALL_CHANNELS, Strict
from solver.jam.editing import Put
from solver.making.box_file import Told
from solver.making.layout import Row, comment, file_text, rows, said
from solver.making.socket_questions import HOW_TO_FIND_OUT
from solver.reading.rewriting import rewritten

_ORDER = tuple(
    "name left right stereo mono plug alone mirrors from way copies repeats clock sound channels channel plays"  # noqa: SIM905
    " can_be_off to pan offers key track shift program_change stored".split()
)
"""Keys as they stand below each other."""

SCHEMA = "#:schema "


_OF = {
    "out": "Where sound leaves: the labels are those printed on the box.",
    "in": "Where sound enters.",
    "strip": "What the inputs pass through, each with settings of its own.",
    "engine": "The sounds that can be played on their own.",
    "track": "The lanes of the sequencer.",
    "midi": "The MIDI sockets.",
}

_REMARKS: dict[str, dict[str, str]] = {
    "out": {
        "alone": "a plug in the left jack alone carries both sides",
        "mirrors": "it carries the same as that outlet",
        "plug": "size of the plug in millimetres",
    },
    "in": {"alone": "a plug in the left jack alone feeds both sides", "plug": "size of the plug in millimetres"},
    "strip": {
        "from": "the inlet that feeds it",
        "to": "where it can go; it stands at the first",
        "pan": "where it can be panned",
        "offers": "effects with an amount of their own here",
        "key": "what can trigger its ducking",
        "stored": "these once for all projects",
    },
    "engine": {
        "sound": "a free word; parts may ask for it",
        "channels": "the channels it can be set to",
        "channel": "where it stands now",
        "can_be_off": "its receiving can be switched off",
        "to": "where it can go; it stands at the first",
        "pan": "where it can be panned",
        "offers": "effects with an amount of their own here",
        "key": "what can trigger its ducking",
        "stored": "these once for all projects",
    },
    "track": {
        "channels": "none: it sends nothing out",
        "channel": "where it stands now",
        "plays": "the engine that it always plays",
        "can_be_off": "its sending out can be switched off",
        "stored": "this once for all projects",
    },
    "midi": {
        "way": "seen from this box",
        "plug": "what plugs in",
        "copies": "what arrives there leaves here",
        "repeats": "what arrives there leaves here too",
        "clock": "the clock passes here",
    },
}

_WAYS = {"both": "an out and an in at once"}
_LISTENING = {"all": "it sounds for every channel", (): "no MIDI channel reaches it"}


def box_text(told: Told, schema: str) -> str:
    """The text of a box file.

    Args:
        told: the box, and what could not be told.
        schema: the schema for editors, relative to the file.
    """
    return file_text(schema, _blocks(told))


def _blocks(told: Told) -> Iterator[Iterable[str]]:
    box = told.box
    yield [*comment(f"{said(box.name)}: check it against the labels and the manual in front of you."), *_frame(box)]
    for kind, things in box.tables.items():
        new = dict(_REMARKS[kind])
        for i, thing in enumerate(things):
            yield [*(_head(kind, told) if not i else ()), f"[[{kind}]]", *rows(_rows(kind, thing, new))]
    for socket in told.unknown:
        yield comment(f"The MIDI socket {said(socket)} is missing here. {HOW_TO_FIND_OUT.partition(' If ')[0]}")
    yield comment(
        "There are more keys than these, such as voices, name_length, shift and program_change: the formats page of"
        " hardpan's documentation has them all."
    )


def _frame(box: Box) -> list[str]:
    told = {"name": box.name, "about": box.about, "name_length": box.name_length, "voices": box.voices}
    remarks = {"name_length": "longest project name on its screen", "voices": "notes it can sound at once"}
    return rows(Row(key, value, remarks.get(key, "")) for key, value in told.items() if value)


def _head(kind: str, told: Told) -> list[str]:
    text = _OF[kind]
    if kind == "engine" and told.together:
        text += " They share one channel: where you set another on the box, write it here for each of them."
    return comment(text)


def _rows(kind: str, thing: Strict, new: dict[str, str]) -> Iterator[Row]:
    """The keys of a thing that say more than is meant without them; each remark stands at its first key."""
    stated = thing.model_dump(by_alias=True, exclude_defaults=True)
    for key in sorted(stated, key=_ORDER.index):
        yield Row(key, _value(key, stated[key]), _remark(kind, key, stated, new))


def _value(key: str, value: Any) -> Any:
    if key in ("to", "repeats") and len(value) == 1:
        return value[0]
    if key == "channels" and len(value) > 3 and value == ALL_CHANNELS[value[0] - 1 : value[-1]]:
        return f"{value[0]}-{value[-1]}"
    return value


def _remark(kind: str, key: str, stated: Mapping[str, Any], new: dict[str, str]) -> str:
    value = stated[key]
    if key == "way":
        return _WAYS.get(value, "")
    remark = new.pop(key, "")
    if kind == "engine" and key == "channels" and remark:
        return _LISTENING.get(value, "it stays there" if len(value) == 1 else remark)
    return remark


def copy_text(text: str, name: str, schema: str) -> str:
    """The text of a box file with another name for the box; all else stays as it is, remarks too.

    Args:
        text: the file.
        name: the new name.
        schema: the schema for editors, relative to the new file.

    Raises:
        RewriteError: the name cannot be changed in the file as it is laid out.
    """
    renamed = rewritten(text, [Put(("name",), name)])
    first, end, rest = renamed.partition("\n")
    line_end = "\r\n" if first.endswith("\r") else "\n"
    kept = rest if end and first.startswith(SCHEMA) else renamed
    return f"{SCHEMA}{said(schema)}{line_end}{kept}"
