"""A jam with some of its claims left out, which always loosens."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import combinations
from typing import Any

from solver.gear.cables import KINDS, Kind
from solver.gear.words import DUCKING
from solver.jam.claims import Claim, in_force
from solver.jam.intents import Avoid, Keep, Layer, Play, Separate, Shunned, Treat, Wish
from solver.jam.jam import MOST_CABLES, Jam

MOST_WAYS = 8
"""How many ways to read what is left out are tried at most."""


class Loosened(Jam):
    """A jam of which some claims are left out. ``anyone`` has the parts that a track of any box may play now."""

    anyone: frozenset[str] = frozenset()

    def players(self, layer: tuple[str, ...]) -> tuple[str, ...]:
        """The boxes or tracks that must play a layer; none where any track of any box may."""
        stated = any(part in layer for _, intent in self.stated(Play) for part in intent.play)
        return super().players(layer) if stated or self.anyone.isdisjoint(layer) else ()


def loosened(
    jam: Jam, kept: Collection[Claim], claims: Collection[Claim], asked: Sequence[Wish] = ()
) -> Iterator[Loosened]:
    """The jam without the claims that are not kept and with what is asked besides, in every way to read that.

    Without a ``layer`` its parts share a track or not; without a ``stereo`` a part keeps its sides or not. So there may
    be several jams, of which only one needs a plan: first that without any of these, and then those with some of them.
    """
    there = in_force(kept)
    either = [c for c in in_force({*claims, *there}) - there if c.piece[0] in ("layer", "stereo")]
    either = [claim for claim in claims if claim in either and _matters(jam, claim, there)]
    ways = [set[Claim](), set(either), *(set(some) for n in range(1, len(either)) for some in combinations(either, n))]
    for way in ways[: MOST_WAYS if either else 1]:
        yield _without(jam, there | way, claims, asked)


def _matters(jam: Jam, claim: Claim, kept: frozenset[Claim]) -> bool:
    """Whether reading it either way makes a difference: a layer of one part is none."""
    if claim.piece[0] != "layer":
        return True
    there = {kept_claim.parts[0] for kept_claim in kept if kept_claim.piece[0] == "part"}
    layer = jam.intents[int(claim.statement.split(".")[1]) - 1]
    assert isinstance(layer, Layer)
    return len(there.intersection(layer.layer)) > 1


def _without(jam: Jam, kept: frozenset[Claim], claims: Collection[Claim], asked: Sequence[Wish]) -> Loosened:
    pieces: dict[str, set[tuple[str, ...]]] = {}
    for claim in kept:
        pieces.setdefault(claim.statement, set()).add(claim.piece)
    there = {claim.parts[0] for claim in kept if claim.piece[0] == "part"}
    said = {(claim.piece[0], *claim.parts) for claim in kept if claim.piece[0] in ("on", "sound")}
    parts = {
        name: part.model_copy(
            update={
                "on": part.on if ("on", name) in said else None,
                "sound": part.sound if ("sound", name) in said else None,
            }
        )
        for name, part in jam.parts.items()
        if name in there
    }
    intents: list[Any] = [
        left
        for number, intent in enumerate(jam.intents, start=1)
        for left in _left(intent, pieces.get(f"intent.{number}", set()), there)
    ]
    dropped = {claim.piece[1] for claim in claims if claim.piece[0] == "play"} - {
        claim.piece[1] for claim in kept if claim.piece[0] == "play"
    }
    made = Loosened.model_construct(
        title=jam.title,
        tempo=jam.tempo,
        leader=jam.leader,
        listen=jam.listen,
        mains="stereo" if "mains" in pieces else "mono",
        boxes=jam.boxes,
        cables=_drawer(jam, kept),
        parts=parts,
        intents=(*intents, *asked),  # type: ignore[arg-type]  # a question is no intent of a file
        recall={},
        anyone=frozenset(dropped),
    )
    made.__dict__["rig"] = jam.rig
    return made


def _drawer(jam: Jam, kept: frozenset[Claim]) -> dict[Kind, int] | None:
    """What is in the drawer; where that is left out, as much as it takes."""
    if jam.cables is None:
        return None
    ends = any(claim.piece == ("cables",) for claim in kept)
    counted = {claim.piece[1] for claim in kept if claim.piece[0] == "cable"}
    left: dict[Kind, int] = {}
    for kind in KINDS:
        known = kind in counted if kind in jam.cables else ends
        left[kind] = jam.cables.get(kind, 0) if known else MOST_CABLES
    return left


def _left(intent: Wish, pieces: set[tuple[str, ...]], there: set[str]) -> Iterator[Wish]:
    """What is left of an intent: intents that state these pieces and no more."""
    if isinstance(intent, Layer):
        yield from _left_of_layer(intent, pieces, there)
    elif isinstance(intent, Treat):
        yield from (_amount(intent, part, effect) for _, part, effect in sorted(pieces))
    elif isinstance(intent, Separate):
        yield from (Separate.model_construct(separate=piece[1:], at=intent.at) for piece in sorted(pieces))
    elif isinstance(intent, Avoid):
        channels, jacks, ports = (_names(pieces, kind) for kind in ("channel", "jack", "port"))
        yield Avoid.model_construct(
            avoid=Shunned.model_construct(channels=tuple(map(int, channels)), jacks=jacks, ports=ports)
        )
    elif isinstance(intent, Keep):
        yield from [intent] if pieces else []
    elif pieces:
        yield intent.model_copy(update={intent.kind: _names(pieces, intent.kind)})


def _names(pieces: set[tuple[str, ...]], kind: str) -> tuple[str, ...]:
    return tuple(piece[1] for piece in sorted(pieces) if piece[0] == kind)


def _left_of_layer(intent: Layer, pieces: set[tuple[str, ...]], there: set[str]) -> Iterator[Layer]:
    shift = {part: intent.shift[part] for part in _names(pieces, "shift")}
    if ("layer",) in pieces:
        together = tuple(part for part in intent.layer if part in there)
        yield Layer.model_construct(layer=together, shift=shift)
    else:
        yield from (Layer.model_construct(layer=(part,), shift={part: shift[part]}) for part in shift)


def _amount(intent: Treat, part: str, effect: str) -> Treat:
    amount = intent.amounts[effect]
    key = intent.key if effect == DUCKING and amount else None
    return Treat.model_construct(treat=(part,), amounts={effect: amount}, key=key, at=intent.at)
