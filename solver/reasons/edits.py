"""Single changes that may make an impossible jam possible, each with what it costs a musician."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import permutations
from typing import Any, NamedTuple

from pydantic import ValidationError

from solver.gear.words import DUCKING
from solver.jam.jam import Jam

AMOUNT, ELSEWHERE, CABLE, MONO, GEAR, WISH, PART = 1, 2, 3, 4, 5, 6, 8
"""What a change costs: another amount, another place or player, one more cable, mono instead of stereo, one more strip
or thru box, a wish left out, a part left out."""

Path = tuple[str | int, ...]
Data = dict[str, Any]


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


_OF_PARTS = ("layer", "separate", "treat", "stereo", "play", "match", "program")
_KINDS = (*_OF_PARTS, "clock", "avoid", "keep")


def edited(jam: Jam, changes: Iterable[Edit]) -> Jam | None:
    """The jam after some changes; None where they do not go together, or say what no jam can say."""
    listed = tuple(changes)
    paths = [edit.path for edit in listed]
    if any(one == other[: len(one)] for one, other in permutations(paths, 2)):
        return None
    data, gone = _data(jam), set[str]()
    for edit in listed:
        if edit.kind == PART:
            gone.add(str(edit.path[1]))
        else:
            at: Any = data
            for step in edit.path[:-1]:
                at = at[step] if isinstance(step, int) else at.setdefault(step, {})
            if isinstance(at, list):
                at += [None] * (int(edit.path[-1]) + 1 - len(at))
            if edit.new is None and isinstance(at, dict):
                del at[edit.path[-1]]
            else:
                at[edit.path[-1]] = edit.new
    data["part"] = {name: part for name, part in data["part"].items() if name not in gone}
    data["intent"] = [left for intent in data["intent"] if (left := _without(intent, gone)) is not None]
    try:
        return Jam.model_validate(data)
    except ValidationError:
        return None


def _data(jam: Jam) -> Data:
    dumped = jam.model_dump(by_alias=True, exclude_defaults=True, exclude={"boxes"})
    return {"part": {}, **dumped, "intent": list(dumped.get("intent", ())), "boxes": dict(jam.boxes)}


def _without(intent: Data | None, gone: set[str]) -> Data | None:
    """An intent without parts that are left out; None where nothing of it is left."""
    if intent is None or not gone:
        return intent
    kind = next(key for key in intent if key in _KINDS)
    if kind == "keep":
        return None if intent["keep"].get("part") in gone else intent
    if kind not in _OF_PARTS:
        return intent
    left = {**intent, kind: [part for part in intent[kind] if part not in gone]}
    if "shift" in left:
        left["shift"] = {part: shift for part, shift in left["shift"].items() if part not in gone}
    if left.get("key") in gone:
        left["with"] = {effect: amount for effect, amount in left["with"].items() if effect != DUCKING}
        del left["key"]
    return left if left[kind] and left.get("with", True) else None
