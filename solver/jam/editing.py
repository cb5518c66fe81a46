"""Changes to what a jam states, step by step: what is put where, and what is left out with all that names it.

The data is that of a jam file. Paths walk down from its top; a number counts list items from 0.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import pairwise
from typing import Any, NamedTuple

from solver.gear.words import DUCKING, Spot
from solver.jam.intents import KEEP_FORMS, KINDS
from solver.jam.jam import Jam

Path = tuple[str | int, ...]
Data = dict[str, Any]

_NAMES = tuple(kind.kind for kind in KINDS)


class Put(NamedTuple):
    """A value at a path, new or instead of what is there; a number behind the end of a list adds to the list."""

    path: Path
    value: Any


class Cut(NamedTuple):
    """What stands at a path is left out."""

    path: Path


Step = Put | Cut


class Changes(NamedTuple):
    """Changes that are made together: values that are set, what is left out, and parts, boxes and intents to add.

    All paths are those of the data before; what is left out takes with it what names it, what is added does not.
    """

    sets: tuple[Put, ...] = ()
    drops: tuple[Path, ...] = ()
    adds: tuple[Put, ...] = ()

    def stages(self, data: Mapping[str, Any]) -> tuple[tuple[Step, ...], ...]:
        """The steps of each kind in turn; their paths are those of the data that the stages before leave."""
        cuts = [Cut(path) for path in self.drops]
        parts, boxes = ({str(path[1]) for path in self.drops if path[:-1] == (of,)} for of in ("part", "boxes"))
        return self.sets, (*cuts, *without(after(data, self.sets), parts, boxes)), self.adds


def changed(jam: Jam, changes: Changes) -> Jam:
    """The jam after some changes.

    Raises:
        LookupError: what is left out is not there.
        pydantic.ValidationError: they say what no jam can say.
    """
    data: Mapping[str, Any] = data_of(jam)
    for steps in changes.stages(data):
        data = after(data, steps)
    return Jam.model_validate(data)


def data_of(jam: Jam) -> Data:
    """What a jam states, as data of its file, but with the boxes themselves instead of their files."""
    dumped = jam.model_dump(by_alias=True, exclude_defaults=True, exclude={"boxes"})
    return {"part": {}, **dumped, "boxes": dict(jam.boxes)}


def after(data: Mapping[str, Any], steps: Iterable[Step]) -> Data:
    """The data after some steps, whose paths are all those of the data before.

    Raises:
        LookupError: what a step is about is not there.
    """
    new: Data = _copied(data)
    listed = tuple(steps)
    for step in listed:
        if isinstance(step, Put):
            _put(_above(new, step.path, make=True), step.path[-1], _copied(step.value))
    for path in sorted({step.path for step in listed if isinstance(step, Cut)}, reverse=True):
        del _above(new, path)[path[-1]]
    return new


def without(data: Mapping[str, Any], parts: Collection[str] = (), boxes: Collection[str] = ()) -> Iterator[Cut]:
    """Leave out parts and boxes, and all that names them: an intent of which nothing is left goes as a whole.

    A part that lived on a box may live on any other then; an intent that only such a box could meet is gone.
    """
    yield from (Cut(("part", name)) for name in data.get("part", {}) if name in parts)
    yield from (Cut(("boxes", name)) for name in data["boxes"] if name in boxes)
    yield from (Cut(("recall", name)) for name in data.get("recall", {}) if name in boxes)
    for name, part in data.get("part", {}).items():
        if name not in parts and _on(part.get("on"), boxes):
            yield Cut(("part", name, "on"))
    for place, intent in enumerate(data.get("intent", ())):
        cuts = [Cut(("intent", place, *path)) for path in _within(intent, parts, boxes)]
        whole = Cut(("intent", place))
        yield from [whole] if whole in cuts else cuts


def _copied(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _copied(item) for key, item in value.items()}
    return [_copied(item) for item in value] if isinstance(value, list | tuple) else value


def _above(data: Any, path: Path, make: bool = False) -> Any:
    """The table or list that holds the end of a path; ``make`` makes tables and lists that are not there."""
    for step, below in pairwise(path):
        if make and isinstance(data, dict):
            data.setdefault(step, [] if isinstance(below, int) else {})
        data = data[step]
    return data


def _put(above: Any, step: str | int, value: Any) -> None:
    if isinstance(above, list) and int(step) >= len(above):
        above.append(value)
    else:
        above[step] = value


def _on(name: object, boxes: Collection[str]) -> bool:
    """Whether a name is that of one of these boxes, or of a thing of one."""
    return isinstance(name, str) and (name in boxes or Spot.parse(name).box in boxes)


def _within(intent: Data, parts: Collection[str], boxes: Collection[str]) -> Iterator[Path]:
    """What goes of one intent, by paths within it; the empty one for all of it."""
    kind = next(key for key in intent if key in _NAMES)
    stated = intent[kind]
    if kind == "keep":
        named = [stated.get(form) for form in KEEP_FORMS if form not in ("channel", "pan")]
        if stated.get("part") in parts or any(_on(name, boxes) for name in (*named, *stated.get("cable", ()))):
            yield ()
    elif kind == "avoid":
        gone: list[Path] = [
            (kind, what, i)
            for what in ("jacks", "ports")
            for i, name in enumerate(stated.get(what, ()))
            if _on(name, boxes)
        ]
        yield from gone
        if gone and len(gone) == sum(map(len, stated.values())):
            yield ()
    else:
        left = boxes if kind == "clock" else parts
        yield from ((kind, i) for i, name in enumerate(stated) if name in left)
        if all(name in left for name in stated) or (kind == "play" and _on(intent["from"], boxes)):
            yield ()
        yield from (("shift", part) for part in intent.get("shift", {}) if part in parts)
        yield from (("at",) for box in [intent.get("at")] if box in boxes)
        if intent.get("key") in parts:
            yield from (("key",), *((("with", DUCKING),) if DUCKING in intent["with"] else ()))
            if intent["with"].keys() == {DUCKING}:
                yield ()
