"""Single changes that may make an impossible jam possible, each with what it costs a musician."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import permutations
from typing import Any, NamedTuple

from pydantic import ValidationError

from solver.jam.editing import Cut, Path, Put, after, data_of, without
from solver.jam.jam import Jam

AMOUNT, ELSEWHERE, CABLE, MONO, GEAR, WISH, PART = 1, 2, 3, 4, 5, 6, 8
"""What a change costs: another amount, another place or player, one more cable, mono instead of stereo, one more strip
or thru box, a wish left out, a part left out."""


class Edit(NamedTuple):
    """One change: at a path of the jam file, or on the table. ``new`` is None where what is there is left out.

    ``statement`` is empty where the change is one of the gear. It is made so many ``times``, at ``kind`` each.
    """

    kind: int
    says: str
    statement: str
    path: Path
    old: Any
    new: Any
    times: int = 1

    @property
    def cost(self) -> int:
        """What it costs a musician."""
        return self.kind * self.times

    @property
    def only_helps(self) -> bool:
        """Whether whatever is possible without it is possible with it too."""
        opens = self.kind == ELSEWHERE and self.path[0] == "part"
        return opens or self.path[0] in ("cables", "boxes", "mains")

    @property
    def drops(self) -> bool:
        """Whether it leaves out something that is stated."""
        return self.kind in (WISH, PART)


def edited(jam: Jam, changes: Iterable[Edit]) -> Jam | None:
    """The jam after some changes; None where they do not go together, or say what no jam can say."""
    listed = tuple(changes)
    paths = [edit.path for edit in listed]
    if any(one == other[: len(one)] for one, other in permutations(paths, 2)):
        return None
    gone = [str(edit.path[1]) for edit in listed if edit.kind == PART]
    others = [edit for edit in listed if edit.kind != PART]
    data = after(data_of(jam), (Put(edit.path, edit.new) for edit in others if edit.new is not None))
    cuts = [Cut(edit.path) for edit in others if edit.new is None]
    try:
        return Jam.model_validate(after(data, [*cuts, *without(data, parts=gone)]))
    except ValidationError:
        return None
