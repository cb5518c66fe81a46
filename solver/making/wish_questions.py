"""What is asked of a jam's wishes: layers, effects, clock, and the cable drawer."""

import re
from collections.abc import Callable, Mapping
from itertools import count
from typing import NamedTuple

from solver.gear.box import Box
from solver.gear.cables import KINDS
from solver.gear.words import DUCKING, Spot
from solver.jam.jam import MOST_CABLES
from solver.making.pieces import pieces, plain
from solver.making.questions import (
    Interview,
    NotSoError,
    Question,
    Replies,
    choose,
    listed,
    listing,
    none_such,
    some_of,
)

_AMOUNT = re.compile(r"(?P<effect>.+?)\s+(?P<percent>\d{1,9})\s*%?(?:\s+key\s+(?P<key>.+))?", re.DOTALL)
_CABLES = re.compile(r"(?P<kind>.+?)\s*[=\s]\s*(?P<number>\d{1,9})", re.DOTALL)


class Amounts(NamedTuple):
    """Effects with their percents, and the part that triggers the ducking where it was named along with them."""

    percents: dict[str, int]
    key: str | None


def wishes(boxes: Mapping[str, Box], replies: Replies) -> Interview:
    """Every question about what is wanted of boxes and parts."""
    parts = {part: replies[f"part.{n}.on"] for n, part in listed(replies, "part")}
    yield from _layers(list(parts), replies)
    yield from _treats(boxes, parts, replies)
    yield from _clock(boxes, replies)
    yield Question(
        "drawer",
        "Which cables do you have?",
        _drawer,
        f"Each kind with how many there are, such as: din 2, 6.35 mono 4. The kinds are {listing(KINDS)}. Of a kind"
        " that you do not name there is none. With Enter there is no limit.",
        "",
        "as many as it takes",
        option="--drawer",
    )


def _layers(parts: list[str], replies: Replies) -> Interview:
    for n in count(1):
        used = {part for _, layer in listed(replies, "layer", n) for part in layer}
        free = [part for part in parts if part not in used]
        if len(free) < 2:
            return
        yield Question(
            f"layer.{n}",
            "Which parts shall one track play together?" if n == 1 else "Which other parts shall one track play?",
            _layer(free),
            f"Such as: {listing(free[:2])}. They play the same notes. Without that each part has a track of its own.",
            "",
            "none" if n == 1 else "no more",
            option="--layer",
        )
        if not replies[f"layer.{n}"]:
            return


def _layer(free: list[str]) -> Callable[[str], tuple[str, ...]]:
    check = some_of(free, "part that is in no layer yet called")

    def layer(text: str) -> tuple[str, ...]:
        found = check(text)
        if len(found) == 1:
            raise NotSoError("A layer has two parts or more, with commas between them.")
        return found

    return layer


def _treats(boxes: Mapping[str, Box], parts: Mapping[str, str | None], replies: Replies) -> Interview:
    effects = list(dict.fromkeys(e for box in boxes.values() for at in (*box.strips, *box.engines) for e in at.offers))
    for n in count(1) if effects else ():
        yield Question(
            f"treat.{n}",
            f"Which parts want an effect of their own amount? Your boxes offer {listing(effects)}."
            if n == 1
            else "Which other parts want an effect?",
            some_of(parts, "part"),
            f"Such as: {listing(list(parts)[:2])}. The next question asks how much.",
            "",
            "none" if n == 1 else "no more",
            option="--treat",
        )
        treated = replies[f"treat.{n}"]
        if not treated:
            return
        yield Question(
            f"treat.{n}.amounts",
            f"How much of which effect for {listing(treated)}, in percent?",
            _amounts(effects, parts, treated, _settled(replies, n)),
            f"Such as: {effects[0]} 30. Several with commas between them. 0 means never. There is {listing(effects)}.",
            option="--treat",
        )
        amounts = replies[f"treat.{n}.amounts"]
        if amounts.percents.get(DUCKING, 0) and amounts.key is None:
            yield choose(
                f"treat.{n}.key",
                f"Which part ducks {listing(treated)}?",
                [
                    (part, parts[part] or "on any box")
                    for part in parts
                    if part not in treated or len(treated) == len(parts)
                ],
                "Whenever that part plays, the others step back. It has to live where the ducking can hear it.",
                default=_likely_key(boxes, parts, treated),
                option="--treat",
            )


def _settled(replies: Replies, before: int) -> set[tuple[str, str]]:
    """Each part and effect with an amount already."""
    return {
        (part, effect)
        for n, treated in listed(replies, "treat", before)
        for part in treated
        for effect in replies[f"treat.{n}.amounts"].percents
    }


def _amounts(
    effects: list[str], parts: Mapping[str, str | None], treated: tuple[str, ...], settled: set[tuple[str, str]]
) -> Callable[[str], Amounts]:
    def check(text: str) -> Amounts:
        percents: dict[str, int] = {}
        key = None
        for piece in pieces(text):
            found = _AMOUNT.fullmatch(piece)
            if found is None or int(found["percent"]) > 100:
                raise NotSoError("An effect and a percent from 0 to 100 are wanted here, such as: reverb 30.")
            effect = plain(found["effect"])
            if effect not in effects:
                raise none_such(effect, effects, "effect {} on the table; there is")
            twice = next((part for part in treated if (part, effect) in settled), None)
            if twice is not None or effect in percents:
                raise NotSoError(f"{twice or effect} has its {effect} already." if twice else f"{effect} stands twice.")
            percents[effect] = int(found["percent"])
            if found["key"] is not None:
                key = _key(plain(found["key"]), effect, parts)
        return Amounts(percents, key)

    return check


def _key(part: str, effect: str, parts: Mapping[str, str | None]) -> str:
    if effect != DUCKING:
        raise NotSoError(f"Only ducking has a key, not {effect}.")
    if part not in parts:
        raise none_such(part, parts, "part {}; there is")
    return part


def _likely_key(boxes: Mapping[str, Box], parts: Mapping[str, str | None], treated: tuple[str, ...]) -> str:
    """The first part that may live where some ducking can hear it, one that is not ducked itself if there is one."""
    keys = {Spot(name, key) for name, box in boxes.items() for at in (*box.strips, *box.engines) for key in at.key}
    places = {str(spot) for spot in keys} | {spot.box for spot in keys}
    ordered = sorted(parts, key=lambda part: (part in treated, parts[part] is not None and parts[part] not in places))
    return ordered[0]


def _clock(boxes: Mapping[str, Box], replies: Replies) -> Interview:
    others = [box for box in boxes if box != replies["leader"] and any(port.takes for port in boxes[box].ports)]
    if others:
        yield Question(
            "clock",
            f"Which boxes follow the clock of {replies['leader']}? There is {listing(others)}.",
            some_of(others, "box with a MIDI in called"),
            "Boxes with patterns, delays or sweeps in time. Each needs a MIDI cable that the clock can pass.",
            "",
            "none",
            option="--clock",
        )


def _drawer(text: str) -> dict[str, int] | None:
    drawer: dict[str, int] = {}
    for piece in pieces(text):
        found = _CABLES.fullmatch(piece)
        kind = plain(found["kind"]) if found else ""
        if found is not None and kind not in KINDS:
            raise none_such(kind, KINDS, "cable {}; there is")
        if found is None or int(found["number"]) > MOST_CABLES:
            raise NotSoError(
                f"A kind and a number from 0 to {MOST_CABLES} are wanted here, such as: din 2. The kinds are"
                f" {listing(KINDS)}."
            )
        if kind in drawer:
            raise NotSoError(f"{kind} stands twice.")
        drawer[kind] = int(found["number"])
    return drawer or None
