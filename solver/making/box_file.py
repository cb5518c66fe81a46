"""A box that was told of, as the data of its file."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from solver.gear.box import Box
from solver.making.box_words import inlets_of, outlets_of, phones_of
from solver.making.questions import Replies, fresh, listed
from solver.making.socket_questions import UNKNOWN
from solver.making.sound_questions import SHARED

Table = dict[str, Any]


class Told(NamedTuple):
    """A box, and what could not be told of it.

    Args:
        box: the box.
        unknown: MIDI sockets that are left out because nobody could say how they are wired.
        together: whether all its engines share one channel.
    """

    box: Box
    unknown: tuple[str, ...] = ()
    together: bool = False


def box_of(replies: Replies) -> Told:
    """The box that was told of.

    Raises:
        pydantic.ValidationError: the replies say what no box can be.
    """
    stated = {
        "name": replies["name"],
        "about": replies["about"],
        "out": list(_outs(replies)),
        "in": list(_ins(replies)),
        "strip": list(_strips(replies)),
        "engine": list(_engines(replies)),
        "track": list(_tracks(replies)),
        "midi": list(_ports(replies)),
    }
    unknown = [replies[f"midi.{n}.name"] for n, _ in listed(replies, "midi") if _is_unknown(n, replies)]
    return Told(Box.model_validate(stated), tuple(unknown), replies.get("engine.channels") == SHARED)


def _connection(key: str, name: str, replies: Replies) -> Table:
    shape = replies[f"{key}.shape"]
    sides = ("left", "right") if shape == "pair" else (shape,)
    jacks = {side: replies[f"{key}.{'label' if side == shape else side}"] for side in sides}
    return {"name": name, **jacks, "plug": replies[f"{key}.plug"]}


def _outs(replies: Replies) -> Iterator[Table]:
    names = outlets_of(replies)
    for n, name in enumerate(names, start=1):
        alone = {"alone": "sum"} if replies.get(f"out.{n}.alone") == "yes" else {}
        yield _connection(f"out.{n}", name, replies) | alone
    if replies["phones"] != "no":
        label = replies["phones.label"]
        table = {"name": phones_of(replies), "stereo": label, "plug": replies["phones.plug"]}
        same = replies["phones"].removeprefix("same as ")
        yield table if replies["phones"] == "own" else table | {"mirrors": same}


def _ins(replies: Replies) -> Iterator[Table]:
    for n, name in enumerate(inlets_of(replies), start=1):
        alone = {"alone": "copy"} if replies.get(f"in.{n}.alone") == "yes" else {}
        yield _connection(f"in.{n}", name, replies) | alone


def _strips(replies: Replies) -> Iterator[Table]:
    names: list[str] = []
    for n, inlet in enumerate(inlets_of(replies), start=1):
        fader = replies[f"in.{n}.fader"]
        if fader == "no":
            continue
        for side in ("left", "right") if fader == "each" else ("",):
            name = fresh(replies[f"in.{n}.{side}"] if side else inlet, names)
            names.append(name)
            yield {"name": name, "from": f"{inlet}/{side}" if side else inlet} | _emitter(f"in.{n}", replies)


def _emitter(key: str, replies: Replies) -> Table:
    table: Table = {"offers": replies[f"{key}.offers"]}
    for what in ("to", "pan", "key"):
        if f"{key}.{what}" in replies:
            table[what] = replies[f"{key}.{what}"]
    return table | _stored(replies, ("pan", "outlet", "level"))


def _stored(replies: Replies, settings: tuple[str, ...]) -> Table:
    stored = {setting: "box" for setting in settings if setting in replies["stored"]}
    return {"stored": stored} if stored else {}


def _engines(replies: Replies) -> Iterator[Table]:
    many = replies["engines"]
    if not many:
        return
    listening = replies["engine.channels"]
    sounds = replies["engine.sounds"] or ("",) * many
    standing = replies.get("engine.standing", (1,))
    for i, (name, sound) in enumerate(zip(replies["engine.names"], sounds, strict=True)):
        table = {"name": name, "sound": sound} | _emitter("engine", replies)
        channel = standing[i] if len(standing) == many else standing[0]
        match listening:
            case "every":
                table["channels"] = "all"
            case "none":
                table["channels"] = []
            case "own":
                table["channel"] = channel
            case _:
                table["channels"] = [channel]
        table["can_be_off"] = replies.get("engine.off") == "yes"
        yield table | _stored(replies, ("channel", "pan", "outlet", "level"))


def _tracks(replies: Replies) -> Iterator[Table]:
    many = replies["tracks"]
    plays = replies.get("track.plays", ()) if many else ()
    for i, name in enumerate(replies["track.names"] if many else ()):
        table: Table = {"name": name}
        if i < len(plays):
            table["plays"] = plays[i]
        if replies["track.sends"] == "yes":
            table["channel"] = replies["track.standing"][i]
            table["can_be_off"] = replies["track.off"] == "yes"
        else:
            table["channels"] = []
        yield table | _stored(replies, ("channel",))


def _is_unknown(n: int, replies: Replies) -> bool:
    return bool(replies.get(f"midi.{n}.plug") == UNKNOWN)


def _ports(replies: Replies) -> Iterator[Table]:
    for n, way in listed(replies, "midi"):
        if _is_unknown(n, replies):
            continue
        usb = way.startswith("usb")
        table = {"name": replies[f"midi.{n}.name"], "way": "both" if usb else way}
        table["plug"] = way if usb else replies[f"midi.{n}.plug"]
        if f"midi.{n}.copies" in replies:
            table["copies"] = replies[f"midi.{n}.copies"]
        if replies.get(f"midi.{n}.repeats", "no") != "no":
            table["repeats"] = replies[f"midi.{n}.repeats"]
        yield table | {"clock": replies[f"midi.{n}.clock"] == "yes"}
