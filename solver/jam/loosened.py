"""A jam with some of its claims left out, which always loosens."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Any

from solver.gear.cables import KINDS, Kind
from solver.gear.words import DUCKING
from solver.jam.claims import Claim, in_force
from solver.jam.intents import Avoid, Keep, Layer, Play, Separate, Shunned, Treat, Wish
from solver.jam.jam import MOST_CABLES, Jam
from solver.jam.sets import TableJam


class Loosened(TableJam):
    """A jam of which some claims are left out. ``anyone`` has the parts that a track of any box may play now."""

    anyone: frozenset[str] = frozenset()

    def players(self, layer: tuple[str, ...]) -> tuple[str, ...]:
        """The boxes or tracks that must play a layer; none where any track of any box may."""
        stated = any(part in layer for _, intent in self.stated(Play) for part in intent.play)
        return super().players(layer) if stated or self.anyone.isdisjoint(layer) else ()


Reading = Claim | Layer
"""What may hold or not where something is left out: a claim of it, or parts that only a part that is gone tied."""


def readings(jam: Jam, kept: Collection[Claim], claims: Collection[Claim]) -> tuple[Reading, ...]:
    """What leaving out so much leaves open, so that it only loosens.

    Without a ``layer`` its parts share a track or not, and so do parts of one layer that only a part that is left out
    holds together. Without a ``stereo`` a part keeps its sides or not. Without a ``program`` a part changes its sound
    too or not.
    """
    there = in_force(kept)
    parts = {claim.parts[0] for claim in there if claim.piece[0] == "part"}
    speaking = in_force([*there, *(claim for claim in claims if claim.piece[0] in ("layer", "stereo", "program"))])
    open_ = [claim for claim in claims if claim in speaking and claim not in there]
    tied = (tuple(part for part in layer if part in parts) for layer in jam.layers if not parts.issuperset(layer))
    return (*open_, *(Layer.model_construct(layer=layer, shift={}) for layer in tied if len(layer) > 1))


def loosened(
    jam: Jam,
    kept: Collection[Claim],
    claims: Collection[Claim],
    way: Collection[Reading] = (),
    asked: Sequence[Wish] = (),
) -> Loosened:
    """The jam without the claims that are not kept.

    Args:
        jam: What is stated.
        kept: The claims that stay.
        claims: All claims of the jam.
        way: Of what is left open, what holds all the same.
        asked: Wishes besides, which no file states.
    """
    read = frozenset(one for one in way if isinstance(one, Claim))
    tied = [one for one in way if not isinstance(one, Claim)]
    return _without(jam, in_force(kept) | read, claims, [*tied, *asked])


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
        recall=jam.recall,
        anyone=frozenset(part for name in dropped for part in jam.layer_of(name)),
        guests=jam.guests if isinstance(jam, TableJam) else frozenset(),
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
    if any(piece[0] == "layer" for piece in pieces):
        together = tuple(part for part in intent.layer if part in there)
        yield Layer.model_construct(layer=together, shift=shift)
    else:
        yield from (Layer.model_construct(layer=(part,), shift={part: shift[part]}) for part in shift)


def _amount(intent: Treat, part: str, effect: str) -> Treat:
    amount = intent.amounts[effect]
    key = intent.key if effect == DUCKING and amount else None
    return Treat.model_construct(treat=(part,), amounts={effect: amount}, key=key, at=intent.at)
