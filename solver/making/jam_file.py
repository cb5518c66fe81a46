"""A jam as a file with remarks."""

import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from solver.gear.words import dotted
from solver.jam.intents import Clock, Layer, Treat, Wish
from solver.jam.jam import Jam, Part
from solver.making.jam_questions import boxes_of
from solver.making.layout import Row, comment, file_text, remarked, rows, said
from solver.making.questions import Replies, listed, listing


def jam_of(replies: Replies) -> Jam:
    """The jam that was told of.

    Raises:
        pydantic.ValidationError: the replies say what no jam can be.
    """
    parts = {}
    for n, part in listed(replies, "part"):
        place = {"on": replies[f"part.{n}.on"], "sound": replies.get(f"part.{n}.sound")}
        parts[part] = {key: value for key, value in place.items() if value is not None}
    intents: list[dict[str, Any]] = [{"layer": layer} for _, layer in listed(replies, "layer")]
    for n, treated in listed(replies, "treat"):
        amounts = replies[f"treat.{n}.amounts"]
        key = amounts.key or replies.get(f"treat.{n}.key")
        intents.append({"treat": treated, "with": amounts.percents} | ({"key": key} if key else {}))
    if replies.get("clock"):
        intents.append({"clock": replies["clock"]})
    frame = {key: replies[key] for key in ("title", "tempo", "leader", "listen", "mains")}
    stated = {"boxes": boxes_of(replies), "cables": replies["drawer"], "part": parts, "intent": intents}
    return Jam.model_validate(frame | stated)


def files_of(replies: Replies) -> dict[str, Path]:
    """The box file of each box on the table."""
    return {replies[f"box.{n}.name"]: found.file for n, found in listed(replies, "box")}


def from_there(file: Path, folder: Path) -> str:
    """A path as a file in a folder names it; as it is where there is no way from one to the other."""
    try:
        return Path(os.path.relpath(file.resolve(), folder.resolve())).as_posix()
    except ValueError:
        return file.resolve().as_posix()


def jam_text(jam: Jam, files: Mapping[str, str], schema: str) -> str:
    """The text of a jam file.

    Args:
        jam: what it says.
        files: the box file of each box, relative to the jam file.
        schema: the schema for editors, relative to the jam file.
    """
    return file_text(schema, _blocks(jam, files))


def _blocks(jam: Jam, files: Mapping[str, str]) -> Iterator[Iterable[str]]:
    head = f"{said(jam.title)}: change whatever you like in this file, then plan it again with hardpan plan."
    yield [*comment(head), *rows(_frame(jam))]
    boxes = rows(Row(name, files[name]) for name in jam.boxes)
    yield [remarked("[boxes]", "the name on the table, and the file that describes the box"), *boxes]
    if jam.cables is None:
        yield comment("There is no [cables] table here: the drawer holds as many cables as it takes.")
    else:
        remark = "what is in the drawer; of a kind that is not named here there is none"
        yield [remarked("[cables]", remark), *rows(Row(kind, number) for kind, number in jam.cables.items())]
    for name, part in jam.parts.items():
        yield _part(jam, name, part)
    for intent in jam.intents:
        yield [*comment(_words(jam, intent)), "[[intent]]", *rows(_wish(intent))]


def _frame(jam: Jam) -> Iterator[Row]:
    yield Row("title", jam.title)
    tempo = int(jam.tempo) if jam.tempo == int(jam.tempo) else jam.tempo
    yield Row("tempo", tempo, "quarter notes a minute")
    yield Row("leader", jam.leader, "plays the parts and runs the clock")
    yield Row("listen", jam.listen, "the outlet your ears are on")
    stereo = jam.mains == "stereo"
    yield Row("mains", jam.mains, "two loudspeakers, left and right" if stereo else "both sides summed into one")


def _part(jam: Jam, name: str, part: Part) -> list[str]:
    stated = part.model_dump(exclude_defaults=True)
    remarks = {
        "on": "any engine of this box" if part.on in jam.boxes else "this engine, no other",
        "sound": "only an engine with this kind of sound",
        "notes": "that can start together",
    }
    header = remarked(f"[{dotted('part', name)}]", "" if part.on else "lives on any box")
    return [header, *rows(Row(key, value, remarks.get(key, "")) for key, value in stated.items())]


def _words(jam: Jam, intent: Wish) -> str:
    match intent:
        case Layer():
            return "One track plays these parts together."
        case Treat(key=None):
            return "Effects in percent, had once on the way to your ears; 0 means never."
        case Treat():
            return f"Effects in percent. The ducking is triggered by the part {listing([str(intent.key)])}."
        case Clock():
            return f"These boxes follow the clock of {listing([jam.leader])}."
    return f"What is wanted: {intent.kind}."


def _wish(intent: Wish) -> Iterator[Row]:
    stated = intent.model_dump(by_alias=True, exclude_defaults=True)
    for key in sorted(stated, key=lambda key: key != intent.kind):
        yield Row(key, stated[key])
