"""What a jam states, cut into the finest pieces that can be left out one by one.

A claim is one such piece: that a part is there, where it lives, one amount of one effect of one part, one pair of a
``separate``. Its statement is the place in the file that it comes from. Boxes, leader, listen and tempo are given.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations
from typing import NamedTuple

from solver.gear.words import DUCKING, dotted
from solver.jam.intents import Avoid, Clock, Keep, Layer, Match, Play, Program, Separate, Stereo, Treat, Wish
from solver.jam.jam import Jam


class Claim(NamedTuple):
    """One piece of one statement; it says nothing where one of the parts that it speaks of is not there.

    ``piece`` tells the pieces of one statement apart: what it is about, then names. In a set, ``jam`` is the file of
    the jam that states it.
    """

    statement: str
    piece: tuple[str, ...]
    parts: tuple[str, ...] = ()
    jam: str = ""

    @property
    def id(self) -> str:
        """The id of the statement, in a set with the jam's file before it."""
        return f"{self.jam}:{self.statement}" if self.jam else self.statement


def intent_of(jam: Jam, claim: Claim) -> tuple[int, Wish] | None:
    """The intent that a claim is a piece of, with its place counted from 0; None for any other statement."""
    if not claim.statement.startswith("intent."):
        return None
    place = int(claim.statement.removeprefix("intent.")) - 1
    return place, jam.intents[place]


def claims(jam: Jam, file: str = "") -> tuple[Claim, ...]:
    """Every claim of a jam in file order, parts before intents; of a set's jam, with its file."""
    return tuple(claim._replace(jam=file) for claim in _claims(jam))


def in_force(kept: Iterable[Claim]) -> frozenset[Claim]:
    """Those that say something: all parts that they speak of are there, of a layer at least two."""
    listed = frozenset(kept)
    there = {(claim.jam, claim.parts[0]) for claim in listed if claim.piece[0] == "part"}

    def speaks(claim: Claim) -> bool:
        layer = claim.piece[1:] if claim.piece[0] == "layer" else ()
        left = sum((claim.jam, part) in there for part in layer)
        return all((claim.jam, part) in there for part in claim.parts) and (not layer or left > 1)

    return frozenset(filter(speaks, listed))


def statements(kept: Iterable[Claim]) -> tuple[str, ...]:
    """The ids of the statements, each once and in the given order; one stands for all above it."""
    ids = dict.fromkeys(claim.id for claim in kept)
    return tuple(name for name in ids if not any(other.startswith(f"{name}.") for other in ids))


def _claims(jam: Jam) -> Iterator[Claim]:
    for name, part in jam.parts.items():
        yield Claim(dotted("part", name), ("part",), (name,))
        if part.on is not None:
            yield Claim(dotted("part", name, "on"), ("on",), (name,))
        if part.sound is not None:
            yield Claim(dotted("part", name, "sound"), ("sound",), (name,))
    for number, intent in enumerate(jam.intents, start=1):
        for piece, parts in _pieces(intent):
            yield Claim(f"intent.{number}", piece, parts)
    if jam.cables is not None:
        yield Claim("cables", ("cables",))
        yield from (Claim(dotted("cables", kind), ("cable", kind)) for kind in jam.cables)
    if jam.mains == "stereo":
        yield Claim("mains", ("mains",))


def _pieces(intent: Wish) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """What an intent is made of, each with the parts that it speaks of."""
    match intent:
        case Layer():
            yield ("layer", *intent.layer), ()
            yield from ((("shift", part), (part,)) for part in intent.shift)
        case Separate(separate=(part,)):
            yield ("separate", part), (part,)
        case Separate():
            yield from ((("separate", *pair), pair) for pair in combinations(intent.separate, 2))
        case Treat():
            for part in intent.treat:
                for effect, amount in intent.amounts.items():
                    key = intent.key if effect == DUCKING and amount else None
                    yield ("treat", part, effect), (part,) if key in (None, part) else (part, str(key))
        case Stereo() | Match() | Program() | Play():
            yield from (((intent.kind, part), (part,)) for part in getattr(intent, intent.kind))
        case Clock():
            yield from ((("clock", box), ()) for box in intent.clock)
        case Avoid():
            yield from ((("channel", str(channel)), ()) for channel in intent.avoid.channels)
            yield from ((("jack", jack), ()) for jack in intent.avoid.jacks)
            yield from ((("port", port), ()) for port in intent.avoid.ports)
        case Keep():
            yield ("keep",), () if intent.keep.part is None else (intent.keep.part,)
