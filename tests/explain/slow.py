"""A slow, plain twin of the search for conflicts: it reads a loosened jam in every way there is, and plans them all."""

from collections.abc import Collection, Iterator, Sequence
from itertools import chain, combinations, product
from typing import Any

import solver
from solver.gear.cables import KINDS
from solver.jam.claims import Claim, claims, in_force
from solver.jam.jam import MOST_CABLES, Jam
from solver.outcome import Impossible, Planned
from tests.enumeration.exhaustive import best
from tests.enumeration.rigs import small_enough

Table = dict[str, Any]
Claims = frozenset[Claim]

EITHER = ("layer", "stereo", "program")
"""Left out, these may hold or not: to share a track, to keep both sides and to obey can all be what saves a plan."""


class Slow:
    """One jam, of which any claims can be left out."""

    def __init__(self, jam: Jam) -> None:
        self.jam = jam
        self.claims = claims(jam)
        self._known: dict[Claims, bool] = {}

    def fails(self, kept: Collection[Claim]) -> bool:
        """Whether these claims alone leave no plan, however that is read."""
        stated = in_force(kept)
        if stated not in self._known:
            self._known[stated] = not any(map(has_plan, self.readings(stated)))
        return self._known[stated]

    def conflicts(self) -> set[Claims]:
        """Every minimal conflict: sets of claims are tried by rising size.

        What holds a conflict fails too, and what is held by a possible set is possible too; so neither is tried.
        """
        found: list[Claims] = []
        possible: list[Claims] = []
        for kept in self._sets():
            if any(kept >= conflict for conflict in found) or any(kept <= large for large in possible):
                continue
            if self.fails(kept):
                found.append(kept)
            else:
                possible.append(self._grown(kept))
        return set(found)

    def _sets(self) -> Iterator[Claims]:
        every = chain.from_iterable(combinations(self.claims, size) for size in range(len(self.claims) + 1))
        return (frozenset(kept) for kept in every if len(in_force(kept)) == len(kept))

    def _grown(self, kept: Claims) -> Claims:
        """A largest set around one that has a plan."""
        for claim in self.claims:
            if not self.fails(kept | {claim}):
                kept = in_force(kept | {claim})
        return kept

    def readings(self, kept: Claims) -> Iterator[Jam]:
        """Every plain jam that these claims can mean."""
        there = [claim.parts[0] for claim in kept if claim.piece[0] == "part"]
        options = [
            self._wish(claim, there)
            for claim in self.claims
            if claim not in kept and claim.piece[0] in EITHER and set(claim.parts) <= set(there)
        ]
        # Parts that only one that is gone tied together may stay so.
        options += [{"layer": [part for part in layer if part in there]} for layer in self.jam.layers]
        options = [option for option in options if len(option.get("layer", "any")) > 1]
        for count in range(len(options) + 1):
            for some in combinations(options, count):
                plain = self._plain(kept, there, some)
                yield from self._played(plain, kept)

    def _plain(self, kept: Claims, there: Sequence[str], more: Sequence[Table]) -> Jam:
        jam = self.jam
        said = {(claim.piece[0], *claim.parts) for claim in kept}
        wishes = [
            self._wish(claim, there) for claim in self.claims if claim in kept and claim.statement[:6] == "intent"
        ]
        parts = {
            name: {key: getattr(part, key) for key in ("on", "sound") if (key, name) in said}
            for name, part in jam.parts.items()
            if name in there
        }
        return Jam.model_validate(
            {
                "title": jam.title,
                "leader": jam.leader,
                "listen": jam.listen,
                "boxes": jam.boxes,
                "mains": "stereo" if ("mains",) in said else "mono",
                "cables": self._drawer({claim.piece for claim in kept}),
                "part": parts,
                "intent": [wish for wish in (*wishes, *more) if wish.get("layer") != []],
            }
        )

    def _drawer(self, said: set[tuple[str, ...]]) -> dict[str, int] | None:
        """How many of each kind; without end where it is not said."""
        stated = self.jam.cables
        if stated is None:
            return None
        left: dict[str, int] = {}
        for kind in KINDS:
            known = ("cable", kind) if kind in stated else ("cables",)
            left[kind] = stated.get(kind, 0) if known in said else MOST_CABLES
        return left

    def _wish(self, claim: Claim, there: Sequence[str]) -> Table:
        """A claim of an intent as an intent of its own."""
        intent: Any = self.jam.intents[int(claim.statement.removeprefix("intent.")) - 1]
        kind, *names = claim.piece
        if kind == "layer":
            return {"layer": [part for part in intent.layer if part in there]}
        if kind == "shift":
            return {"layer": names, "shift": {names[0]: intent.shift[names[0]]}}
        if kind == "separate":
            return {"separate": names, "at": intent.at}
        if kind == "treat":
            part, effect = names
            return {
                "treat": [part],
                "with": {effect: intent.amounts[effect]},
                "key": intent.key if intent.key in claim.parts else None,
                "at": intent.at,
            }
        if kind in ("channel", "jack", "port"):
            return {"avoid": {f"{kind}s": list(map(int, names)) if kind == "channel" else names}}
        source = {"from": intent.source} if kind == "play" else {}
        return {"keep": intent.keep} if kind == "keep" else {kind: names} | source

    def _played(self, plain: Jam, kept: Claims) -> Iterator[Jam]:
        """The jam with every box in turn as the player of each layer whose ``play`` is left out."""
        stated = {claim.piece[1] for claim in kept if claim.piece[0] == "play"}
        left_out = {claim.piece[1] for claim in self.claims if claim.piece[0] == "play" and claim not in kept}
        free = [
            layer[0]
            for layer in plain.layers
            if stated.isdisjoint(layer) and any(not left_out.isdisjoint(self.jam.layer_of(part)) for part in layer)
        ]
        for sources in product(self.jam.boxes, repeat=len(free)):
            plays = [{"play": [part], "from": box} for part, box in zip(free, sources, strict=True)]
            yield plain if not plays else _with(plain, plays)


def _with(plain: Jam, wishes: Sequence[Table]) -> Jam:
    made = Jam.model_validate(
        {
            "title": plain.title,
            "leader": plain.leader,
            "listen": plain.listen,
            "boxes": plain.boxes,
            "part": plain.parts,
            "intent": wishes,
        }
    )
    return plain.model_copy(update={"intents": (*plain.intents, *made.intents)})


def has_plan(jam: Jam) -> bool:
    """Whether a plain jam has a plan: by trying everything where that is possible, else by planning it."""
    if small_enough(jam) and set(jam.rig.jacks).isdisjoint(jam.rig.ports):
        return best(jam) is not None
    outcome = solver.plan(jam, time_limit=None)
    assert isinstance(outcome, Planned | Impossible)
    return isinstance(outcome, Planned)
